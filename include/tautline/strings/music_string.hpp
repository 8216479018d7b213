#pragma once
/// @file
/// A string as it is built: a core, its wraps, and the properties that follow. `wire_materials.hpp` has the usual
/// materials.

#include <optional>

#include "../core/short_list.hpp"
#include "../core/when_used.hpp"
#include "string_parts.hpp"

namespace tautline {

/// A string before it is strung. All dimensions and the weighed mass are those of the slack string.
template <class R = double>
struct basic_music_string {
    using real = R;
    basic_string_core<R> core; ///< the core, or the whole of a plain string
    /// Wraps from the inside out; empty: a plain string.
    short_list<basic_wrap<R>, 6> layers{};
    /// Mass per length as weighed. It overrules what core and layers add up to.
    std::optional<field<linear_density<R>>> weighed{};
    std::optional<basic_bare_ends<R>> bare{}; ///< absent: wound from end to end

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("core", self.core...);
        visit("layers", self.layers...);
        visit("weighed", between(0.001 * units::g_per_m, 1000 * units::g_per_m), self.weighed...);
        visit("bare", self.bare...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const;
};
using music_string = basic_music_string<double>;

namespace kernel {

template <class R>
[[nodiscard]] constexpr area<R> circle_area(const length<R>& diameter) {
    return diameter * diameter * R(pi<R>() / number<R>(4));
}

template <class R>
[[nodiscard]] constexpr area<R> core_area(const basic_string_core<R>& c) {
    if (c.section == core_section::round) { return circle_area<R>(c.diameter); }
    return square(length<R>(c.diameter)) * sqrt(number<R>(0.75L));
}

/// Second moment of area of a core about any axis through its middle.
template <class R>
[[nodiscard]] constexpr auto core_second_moment(const basic_string_core<R>& c) {
    const auto fourth = square(square(length<R>(c.diameter)));
    if (c.section == core_section::round) { return fourth * R(pi<R>() / number<R>(64)); }
    return fourth * R(sqrt(number<R>(3)) * number<R>(5.0L / 144));
}

/// Diameter of the circle that has the core's area. The strength of a hexagonal core is looked up by it.
template <class R>
[[nodiscard]] constexpr length<R> core_round_diameter(const basic_string_core<R>& c) {
    if (c.section == core_section::round) { return c.diameter; }
    return sqrt(area<R>(core_area(c) * R(number<R>(4) / pi<R>())));
}

template <class R>
[[nodiscard]] constexpr length<R> core_perimeter(const basic_string_core<R>& c) {
    if (c.section == core_section::round) { return c.diameter * pi<R>(); }
    return c.diameter * R(number<R>(2) * sqrt(number<R>(3)));
}

/// Width of the core: its diameter, or over the corners of a hexagonal one.
template <class R>
[[nodiscard]] constexpr length<R> core_width(const basic_string_core<R>& c) {
    if (c.section == core_section::round) { return c.diameter; }
    return c.diameter * R(number<R>(2) / sqrt(number<R>(3)));
}

/// Radial thickness of a layer after grinding.
template <class R>
[[nodiscard]] constexpr length<R> layer_thickness(const basic_wrap<R>& w) {
    return w.ground.has_value() ? length<R>(w.thickness - *w.ground) : length<R>(w.thickness);
}

/// Width of one turn across the wire: diameter of round wire, width of a ribbon.
template <class R>
[[nodiscard]] constexpr length<R> turn_width(const basic_wrap<R>& w) {
    return w.form == layer_form::ribbon ? w.ribbon_width : w.thickness;
}

/// Length of the curve that runs around a convex section of perimeter `p` at a distance from it (Steiner's formula).
template <class R>
[[nodiscard]] constexpr length<R> around(const length<R>& p, const length<R>& distance) {
    return p + distance * R(number<R>(2) * pi<R>());
}

/// Pitch at which turns touch each other, for a turn of length `c` around and width `w` across the wire.
template <class R>
[[nodiscard]] constexpr length<R> touching_pitch(const length<R>& c, const length<R>& w) {
    const R s = ratio(w, c);
    return w / sqrt(R(number<R>(1) - s * s));
}

/// Mass per length of one layer on a section of perimeter `p`.
template <class R>
[[nodiscard]] constexpr linear_density<R> layer_mass(const basic_wrap<R>& w, const length<R>& p) {
    const length<R> t = w.thickness;
    const R half = number<R>(0.5L);
    const length<R> middle = around<R>(p, t * half);
    if (w.form == layer_form::sleeve) { return area<R>(middle * t) * w.material.mass_density * w.fill; }
    const length<R> width = turn_width(w);
    const length<R> turn_to_turn = w.pitch.has_value() ? length<R>(*w.pitch) : touching_pitch<R>(middle, width);
    // Length of wire per length of string, at `distance` from the section: a curve that goes once around in each pitch.
    const auto per_length = [&](const length<R>& distance) {
        return R(ratio(hypot(around<R>(p, distance), turn_to_turn), turn_to_turn));
    };
    if (w.form == layer_form::ribbon) { return area<R>(width * t) * w.material.mass_density * per_length(t * half); }
    const area<R> whole = circle_area<R>(t);
    if (!w.ground.has_value()) { return whole * w.material.mass_density * per_length(t * half); }
    // Grinding takes off a segment of the wire's circle. Its centroid lies at `c` from the wire's axis (Pappus).
    const length<R> r = t * half, inside = r - *w.ground;
    const area<R> half_chord_squared = r * r - inside * inside;
    const length<R> half_chord = sqrt(half_chord_squared);
    const R half_angle = atan2(half_chord, inside).value();
    const area<R> segment = r * r * half_angle - inside * half_chord;
    const length<R> c = half_chord * ratio(half_chord_squared, segment) * number<R>(2.0L / 3);
    return area<R>(whole * per_length(r) - segment * per_length(r + c)) * w.material.mass_density;
}

template <class R>
[[nodiscard]] constexpr linear_density<R> core_mass(const basic_string_core<R>& c) {
    return core_area(c) * c.material.mass_density;
}

/// Calls `f` with the mass per length of each layer, from the inside out.
template <class R, class F>
constexpr void for_each_layer_mass(const basic_music_string<R>& s, F&& f) {
    length<R> p = core_perimeter(s.core);
    for (const basic_wrap<R>& w : s.layers) {
        f(layer_mass(w, p));
        p = around(p, layer_thickness(w));
    }
}

template <class R>
[[nodiscard]] constexpr linear_density<R> mass_per_length(const basic_music_string<R>& s) {
    if (s.weighed.has_value()) { return *s.weighed; }
    linear_density<R> mu = core_mass(s.core);
    for_each_layer_mass(s, [&](const linear_density<R>& layer) { mu += layer; });
    return mu;
}

template <class R>
[[nodiscard]] constexpr length<R> gauge(const basic_music_string<R>& s) {
    length<R> d = core_width(s.core);
    for (const basic_wrap<R>& w : s.layers) { d += layer_thickness(w) * number<R>(2); }
    return d;
}

template <class R>
[[nodiscard]] constexpr stress<R> core_modulus(const basic_string_core<R>& c) {
    return modulus_at<R>(c.material, core_round_diameter(c));
}

template <class R>
[[nodiscard]] constexpr force<R> axial_stiffness(const basic_music_string<R>& s) {
    return core_modulus(s.core) * core_area(s.core);
}

template <class R>
[[nodiscard]] constexpr flexural_rigidity<R> core_bending_stiffness(const basic_music_string<R>& s) {
    return core_modulus(s.core) * core_second_moment(s.core);
}

} // namespace kernel

template <class R>
template <class Report>
constexpr void basic_music_string<R>::rules(Report&& report) const {
    length<R> p = kernel::core_perimeter(core);
    for (std::size_t i = 0; i < layers.size(); ++i) {
        const basic_wrap<R>& w = layers[i];
        const length<R> c = kernel::around<R>(p, w.thickness * number<R>(0.5L)), width = kernel::turn_width(w);
        if (w.form != layer_form::sleeve) {
            if (!in_all_lanes(is_less<unit::length, R>(width, c))) {
                report(messages::path_of("layers", i, "ribbon_width"), "must be less than once around the string");
            } else if (w.pitch.has_value() && !in_all_lanes(kernel::touching_pitch<R>(c, width).value() <=
                                                            w.pitch->value() * number<R>(1.000001L))) {
                const auto touching = messages::plain_value(kernel::touching_pitch<R>(c, width).value());
                report(messages::path_of("layers", i, "pitch"),
                       messages::joined(
                           {"must be at least ", quantity_text<unit::length>(touching), ", where the turns touch"}));
            }
        }
        p = kernel::around(p, kernel::layer_thickness(w));
    }
}

// Makers -------------------------------------------------------------------------------------------------------------

/// A plain string of a material and a diameter, more than 0 and up to 20 mm, else `invalid_input`.
template <class R = double>
[[nodiscard]] constexpr basic_music_string<R> plain_string(const basic_wire_material<R>& material,
                                                           param<length<R>> diameter) {
    require("diameter", diameter, more_than_up_to(0 * units::mm, 20 * units::mm));
    return {.core = {.material = material, .section = core_section::round, .diameter = diameter}};
}
TAUTLINE_HELD(music_string plain_string<double>(const wire_material&, param<length<>>))

// Answers ------------------------------------------------------------------------------------------------------------

/// Checks a string before every answer: throws `invalid_input` with everything that is wrong with it. In constant
/// expressions the same is checked, and a wrong string fails to compile.
template <class R = double>
constexpr void require_valid_string(const basic_music_string<R>& s) {
    constexpr_require_valid(s, "string");
}
TAUTLINE_HELD(void require_valid<music_string>(const music_string&, std::string_view))
TAUTLINE_HELD(bool is_valid<music_string>(const music_string&))
TAUTLINE_HELD(std::vector<problem> validate<music_string>(const music_string&, std::string_view))

/// Outside diameter, over the corners of a hexagonal core.
template <class R = double>
[[nodiscard]] constexpr length<R> gauge(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::gauge(s);
}

/// Mass per length of the slack string: as weighed, or from its construction (the forms of a layer are at
/// `layer_form`).
///
/// A layer over a section of perimeter P runs along the parallel curve at half its thickness (Steiner's formula). A
/// close wound layer of wire w then has exactly (P + pi w)/w of wire per length of string. Source: geometry; a close
/// wound layer on a round core fills exactly pi/4 of its annulus.
template <class R = double>
[[nodiscard]] constexpr linear_density<R> mass_per_length(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::mass_per_length(s);
}

/// Perimeter of the core, on which the first layer lies: `pi d` for a round core, `2 sqrt(3) a` for a hexagonal core of
/// a across its flats. Source: geometry.
template <class R = double>
[[nodiscard]] constexpr length<R> core_perimeter(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::core_perimeter(s.core);
}

/// Cross-section of the slack core. The core alone carries the tension.
template <class R = double>
[[nodiscard]] constexpr area<R> core_area(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::core_area(s.core);
}

/// Axial stiffness EA, the tension for each unit of strain: modulus times area of the core. Wraps carry no axial load.
template <class R = double>
[[nodiscard]] constexpr force<R> axial_stiffness(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::axial_stiffness(s);
}

/// Flexural rigidity EI of the core alone. It is a lower bound for a wound string, whose wraps add an unknown part.
template <class R = double>
[[nodiscard]] constexpr flexural_rigidity<R> core_bending_stiffness(const basic_music_string<R>& s) {
    require_valid_string(s);
    return kernel::core_bending_stiffness(s);
}

} // namespace tautline
