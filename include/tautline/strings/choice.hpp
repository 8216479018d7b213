#pragma once
/// @file
/// The gauge of a string for a wanted tension: a plain string, one wound by a rule, or one in proportion to another.

#include <vector>

#include "../core/root.hpp"
#include "tension.hpp"
#include "wound_string.hpp"

namespace tautline {

/// How wound strings of one kind are proportioned: how thick the core is for a gauge, and what is wound on it. In thin
/// wound strings the core takes more of the gauge than in thick ones, or it would break. So the rule has a share and an
/// offset.
template <class R = double>
struct basic_wound_rule {
    using real = R;
    basic_wire_material<R> core_material;       ///< wire of the core
    core_section section = core_section::round; ///< round or hexagonal
    /// Core (over the corners of a hexagonal one) = `core_offset` + `core_share` times the gauge.
    R core_share = not_given<R>();
    field<length<R>> core_offset = length<R>(); ///< the rule's core at gauge 0
    basic_wire_material<R> wrap_material;       ///< wire of the wrap

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("core_material", self.core_material...);
        visit("section", self.section...);
        visit("core_share", between(0.05, 0.95), self.core_share...);
        visit("core_offset", between(0 * units::mm, 5 * units::mm).fair_default("the core is a share of the gauge"),
              self.core_offset...);
        visit("wrap_material", self.wrap_material...);
    }
};
using wound_rule = basic_wound_rule<double>;

namespace kernel {

template <class R>
[[nodiscard]] constexpr basic_music_string<R> wound_by_rule(const basic_wound_rule<R>& rule, const length<R>& outside) {
    const length<R> core_outside = rule.core_offset + outside * rule.core_share;
    basic_music_string<R> s{.core = {.material = rule.core_material, .section = rule.section, .diameter = outside}};
    s.core.diameter = core_outside * ratio<unit::length, R>(outside, kernel::core_width(s.core));
    s.layers.push_back({.material = rule.wrap_material, .thickness = (outside - core_outside) * number<R>(0.5L)});
    return s;
}

/// The gauge at which a rule leaves no wrap.
template <class R>
[[nodiscard]] constexpr length<R> bare_gauge(const basic_wound_rule<R>& rule) {
    return rule.core_offset / R(number<R>(1) - rule.core_share);
}

} // namespace kernel

/// A string of the given gauge by a rule: one close wound layer of round wire. Throws `invalid_input` for a rule that
/// is not valid, and for a gauge at which the core would be as wide as the gauge or wider.
template <class R = double>
[[nodiscard]] basic_music_string<R> wound_string(const basic_wound_rule<R>& rule, param<length<R>> outside) {
    require_valid(rule, "rule");
    require("gauge", outside, more_than_up_to(0 * units::mm, 20 * units::mm));
    require_that(in_all_lanes(is_less<unit::length, R>(kernel::bare_gauge(rule), outside)), "gauge",
                 "must be wider than the core that the rule gives it");
    return kernel::wound_by_rule<R>(rule, outside);
}

/// The string of a rule that needs a tension at a pitch over a speaking length; all > 0. The tension grows with the
/// gauge. Nothing when no gauge needs that tension. The least gauge tried is a core with hardly any wrap, the most is
/// 20 mm.
template <class R = double>
[[nodiscard]] std::optional<basic_music_string<R>> for_tension(const basic_wound_rule<R>& rule, param<force<R>> pull,
                                                               param<length<R>> speaking_length,
                                                               param<frequency<R>> pitch) {
    require_valid(rule, "rule");
    require("tension", pull, more_than(0 * units::N));
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    const length<R> most = length<R>::from_value(number<R>(0.02L));
    // The least gauge has a hair of wrap, so that no division meets a wrap of thickness 0.
    const length<R> least =
        tautline::max<unit::length, R>(kernel::bare_gauge(rule) * number<R>(1.0001L), most * number<R>(1e-4L));
    const auto excess = [&]<class D>(const length<D>& outside, const basic_wound_rule<D>& r) {
        const auto s = kernel::wound_by_rule<D>(r, outside);
        const force<D> slack = kernel::tension<D>(kernel::mass_per_length(s), tautline::over<D>(length<R>(speaking_length)),
                                                  tautline::over<D>(frequency<R>(pitch)));
        return kernel::tension_of_stretching<D>(slack, kernel::axial_stiffness(s)) - tautline::over<D>(force<R>(pull));
    };
    if (!in_all_lanes(is_less<unit::length, R>(least, most)) ||
        !in_all_lanes(excess(least, rule).value() <= number<R>(0)) ||
        !in_all_lanes(number<R>(0) <= excess(most, rule).value())) {
        return std::nullopt;
    }
    const length<R> outside = find_root(
        [&](const auto& g) {
            using D = std::remove_cvref_t<decltype(g.value())>;
            return length<D>::from_value(excess(g, tautline::over<D>(rule)).value());
        },
        least, most);
    return kernel::wound_by_rule<R>(rule, outside);
}

namespace kernel {

/// The string with every measure across it times `r`. The weighed mass goes with the square of `r`.
template <class R>
[[nodiscard]] constexpr basic_music_string<R> scaled(basic_music_string<R> s, const R& r) {
    const auto scale = [&](field<length<R>>& l) { l = l * r; };
    scale(s.core.diameter);
    for (basic_wrap<R>& w : s.layers) {
        scale(w.thickness);
        scale(w.ribbon_width);
        if (w.pitch) { scale(*w.pitch); }
        if (w.ground) { scale(*w.ground); }
    }
    if (s.weighed) { s.weighed = *s.weighed * R(r * r); }
    return s;
}

} // namespace kernel

/// The string of another gauge (> 0) with the same construction, all its parts in proportion.
template <class R = double>
[[nodiscard]] basic_music_string<R> of_gauge(const basic_music_string<R>& model, param<length<R>> outside) {
    require_valid_string(model);
    require("gauge", outside, more_than_up_to(0 * units::mm, 20 * units::mm));
    return kernel::scaled<R>(model, ratio<unit::length, R>(outside, kernel::gauge(model)));
}

/// The string with the same construction, in proportion, whose gauge gives a tension at a pitch over a speaking length;
/// all > 0.
///
/// Mass per length and axial stiffness go with the square of the gauge, so `mu v^2 q^2 - T q - T^2/EA = 0` gives q, the
/// square of the ratio of gauges, with v = 2 L f. The modulus of music wire changes in steps with its size, so the
/// solution is repeated. Where the answer falls on a step, the tension is then off by at most one part in 10^4.
template <class R = double>
[[nodiscard]] basic_music_string<R> for_tension(const basic_music_string<R>& model, param<force<R>> pull,
                                                param<length<R>> speaking_length, param<frequency<R>> pitch) {
    require_valid_string(model);
    require("tension", pull, more_than(0 * units::N));
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    kernel::require_bare_ends_fit<R>(model, speaking_length);
    const R one = number<R>(1);
    const force<R> slack = kernel::tension<R>(kernel::felt_mass<R>(model, speaking_length), speaking_length, pitch);
    R r = one;
    for (int i = 0; i < 4; ++i) {
        const force<R> ea = kernel::axial_stiffness(kernel::scaled<R>(model, r)) / R(r * r);
        const R q =
            ratio<unit::force, R>(pull, slack) * number<R>(0.5L) * R(one + sqrt(R(one + number<R>(4) * ratio(slack, ea))));
        r = sqrt(q);
    }
    return kernel::scaled<R>(model, r);
}

/// The plain string of a material that needs a tension at a pitch over a speaking length; all > 0, else
/// `invalid_input`. `gauge` of the result is its diameter.
template <class R = double>
[[nodiscard]] basic_music_string<R> for_tension(const basic_wire_material<R>& material, param<force<R>> pull,
                                                param<length<R>> speaking_length, param<frequency<R>> pitch) {
    return for_tension(plain_string<R>(material, length<R>::from_value(number<R>(1e-3L))), pull, speaking_length, pitch);
}

/// The string of one close wound layer of round wire on a given core that needs a tension at a pitch over a speaking
/// length; all > 0, else `invalid_input`. The wrap's thickness is `layers[0].thickness`. Nothing where no wrap gives
/// that tension. Then the core alone needs as much, or the wrap would be thicker than 10 mm or thinner than 0.0001 mm.
///
/// A close wound layer of wire w over a perimeter P adds `rho pi/4 (P w + pi w^2)` of mass per length. So w solves a
/// quadratic equation. Source: as `mass_per_length`.
template <class R = double>
[[nodiscard]] std::optional<basic_music_string<R>>
for_tension(const basic_string_core<R>& core, const std::type_identity_t<basic_wire_material<R>>& wrap_material,
            param<force<R>> pull, param<length<R>> speaking_length, param<frequency<R>> pitch) {
    require_valid(core, "core");
    require_valid(wrap_material, "wrap_material");
    require("tension", pull, more_than(0 * units::N));
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    basic_music_string<R> s{.core = core};
    const R zero = number<R>(0), one = number<R>(1), two = number<R>(2), four = number<R>(4);
    // Tension of a string of the same slack mass that would not stretch.
    const force<R> slack = pull * R(one + ratio<unit::force, R>(pull, kernel::axial_stiffness(s)));
    const linear_density<R> wanted = slack / square(kernel::wave_speed<R>(speaking_length, pitch));
    const linear_density<R> missing = wanted - kernel::core_mass(core);
    const auto wound = zero < missing.value();
    if (!one_answer(wound)) { return std::nullopt; }
    // Solves `pi w^2 + P w = c` in the form that never subtracts nearly equal numbers.
    const area<R> c = area<R>(missing / wrap_material.mass_density) * R(four / pi<R>());
    const length<R> p = kernel::core_perimeter(core);
    const length<R> w = c * two / length<R>(p + sqrt(area<R>(p * p + c * R(four * pi<R>()))));
    if (!one_answer(number<R>(1e-7L) <= w.value() && w.value() <= number<R>(1e-2L))) { return std::nullopt; }
    s.layers.push_back({.material = wrap_material, .thickness = w});
    return s;
}

/// The string that has, over another speaking length or at another pitch, the tension that `s` has now. Its
/// construction is that of `s` in proportion.
template <class R = double>
[[nodiscard]] basic_music_string<R> for_same_tension(const basic_music_string<R>& s, param<length<R>> speaking_length_now,
                                                     param<frequency<R>> pitch_now, param<length<R>> speaking_length,
                                                     param<frequency<R>> pitch) {
    return for_tension<R>(s, tension<R>(s, speaking_length_now, pitch_now), speaking_length, pitch);
}

} // namespace tautline
