#pragma once
/// @file
/// String heights over the frets.
///
/// A string's underside is what a feeler gauge meets. It is a straight line from the bottom of the slot to the top of the
/// saddle. Places and heights are those under load: the caller has added the bow of the neck.

#include <cstddef>
#include <span>

#include "../core/describe.hpp"
#include "../core/units.hpp"
#include "../core/when_used.hpp"

namespace tautline {

/// The underside of one string, seen from the side.
template <class R = double>
struct basic_string_line {
    using real = R;
    field<length<R>> nut_x = length<R>();    ///< where the string leaves its slot
    needed<length<R>> nut_z;                 ///< height of the slot's bottom
    needed<length<R>> saddle_x;              ///< where it meets the saddle, beyond the nut
    needed<length<R>> saddle_z;              ///< height of the saddle under it
    field<length<R>> nut_y = length<R>();    ///< across, at the nut; lengths need it, heights do not
    field<length<R>> saddle_y = length<R>(); ///< across, at the saddle; lengths need it, heights do not

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("nut_x", about_an_instrument().fair_default("places are told from the nut"), self.nut_x...);
        visit("nut_z", about_an_instrument(), self.nut_z...);
        visit("saddle_x", about_an_instrument(), self.saddle_x...);
        visit("saddle_z", about_an_instrument(), self.saddle_z...);
        visit("nut_y", about_an_instrument().fair_default("heights do not need it"), self.nut_y...);
        visit("saddle_y", about_an_instrument().fair_default("heights do not need it"), self.saddle_y...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(nut_x.value() < saddle_x.value())) { report("saddle_x", "must be beyond the nut"); }
    }
};
using string_line = basic_string_line<double>;

namespace kernel {

/// Height of a straight line through (x0, z0) and (x1, z1) at x.
template <class R>
[[nodiscard]] constexpr length<R> line_height(const length<R>& x0, const length<R>& z0, const length<R>& x1,
                                              const length<R>& z1, const length<R>& x) {
    return z0 + ratio(x - x0, x1 - x0) * (z1 - z0);
}

template <class R>
[[nodiscard]] constexpr length<R> string_height(const basic_string_line<R>& s, const length<R>& x) {
    return line_height<R>(s.nut_x, s.nut_z, s.saddle_x, s.saddle_z, x);
}

template <class R>
[[nodiscard]] constexpr length<R> speaking_length(const basic_string_line<R>& s) {
    const length<R> dx = s.saddle_x - s.nut_x, dy = s.saddle_y - s.nut_y, dz = s.saddle_z - s.nut_z;
    return sqrt(dx * dx + dy * dy + dz * dz);
}

template <class R>
constexpr void heights_over_frets(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                  std::span<const length<R>> crest_z, std::span<length<R>> heights) {
    const length<R> x0 = s.nut_x, z0 = s.nut_z;
    const R slope = ratio(s.saddle_z - z0, s.saddle_x - x0);
    for (std::size_t i = 0; i < crest_x.size(); ++i) { heights[i] = z0 + slope * (crest_x[i] - x0) - crest_z[i]; }
}

} // namespace kernel

namespace kernel {

/// Whether crests are finite and lie in order between nut and saddle. All are looked at, so that no step waits for an
/// answer.
template <class R>
[[nodiscard]] bool crests_in_order(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                   std::span<const length<R>> crest_z) {
    using S = search_t<R>;
    const auto plain = [](const length<R>& q) { return searched(q.value()); };
    // A difference of a number and itself is 0 where the number is finite.
    S before = plain(s.nut_x), closest = number<S>(1), nothing = number<S>(0);
    for (std::size_t i = 0; i < crest_x.size(); ++i) {
        const S x = plain(crest_x[i]), z = plain(crest_z[i]);
        closest = min(closest, S(x - before));
        nothing = nothing + ((x - x) + (z - z));
        before = x;
    }
    return in_all_lanes(number<S>(0) < closest) && in_all_lanes(nothing == number<S>(0)) &&
           in_all_lanes(before < plain(s.saddle_x));
}

} // namespace kernel

namespace kernel {

/// Refuses what is not the number of a fret; `first` is 0 where the open string counts, too.
inline void require_fret_number(std::string_view field, std::size_t given, std::size_t first, std::size_t last) {
    if (given < first || given > last) {
        messages::refuse(field, messages::joined({given}),
                         messages::joined({"must be the number of a fret, ", first, first == 0 ? " (the open string)" : "",
                                           " to ", last}));
    }
}

} // namespace kernel

/// Checks the crests of one string's frets, fret 1 first, against its line. There must be as many heights as places; each
/// crest must lie farther from the nut than the one before, and before the saddle.
template <class R = double>
void require_crests(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                    std::type_identity_t<std::span<const length<R>>> crest_z) {
    require_valid(s, "string_line");
    require_that(crest_x.size() == crest_z.size(), "crest_x and crest_z", "must have one entry for each fret");
    if (kernel::crests_in_order<R>(s, crest_x, crest_z)) { return; }
    for (std::size_t i = 0; i < crest_x.size(); ++i) {
        const length<R> before = i == 0 ? length<R>(s.nut_x) : crest_x[i - 1];
        if (!all_finite(crest_x[i]) || !all_finite(crest_z[i])) {
            require(messages::path_of("crest_x", i), crest_x[i], any_finite<unit::length>());
            require(messages::path_of("crest_z", i), crest_z[i], any_finite<unit::length>());
        }
        require_that(in_all_lanes(before.value() < crest_x[i].value()) &&
                         in_all_lanes(crest_x[i].value() < s.saddle_x.value()),
                     messages::path_of("crest_x", i), "must lie beyond the fret before it and before the saddle");
    }
}

/// The same string from a point that it is pressed on (a crest) to its saddle. What lies behind that point does not
/// count. The point lies between nut and saddle, else `invalid_input`.
template <class R = double>
[[nodiscard]] constexpr basic_string_line<R> pressed_line(const basic_string_line<R>& s, param<length<R>> x,
                                                          param<length<R>> crest_z) {
    require("x", x, about_an_instrument());
    require("crest_z", crest_z, about_an_instrument());
    require("x beyond the nut", length<R>(x - s.nut_x), at_least(0 * units::mm));
    require("saddle beyond x", length<R>(s.saddle_x - x), more_than(0 * units::mm));
    basic_string_line<R> pressed = s;
    pressed.nut_y = s.nut_y + ratio(x - s.nut_x, s.saddle_x - s.nut_x) * (s.saddle_y - s.nut_y);
    pressed.nut_x = x;
    pressed.nut_z = crest_z;
    return pressed;
}

/// Speaking length of a string, from its point at the nut to its point at the saddle, straight through space. For a
/// `pressed_line` it is the length that sounds of the pressed string. The underside and the axis are equally long: they
/// are parallel. Source: geometry.
template <class R = double>
[[nodiscard]] length<R> speaking_length(const basic_string_line<R>& s) {
    require_valid(s, "string_line");
    return kernel::speaking_length(s);
}

/// Height of the string's underside above the point (x, crest_z), that is the action there; negative where the string
/// lies below it.
template <class R = double>
[[nodiscard]] length<R> height_over(const basic_string_line<R>& s, param<length<R>> x, param<length<R>> crest_z) {
    require_valid(s, "string_line");
    require("x", x, any_finite<unit::length>());
    require("crest_z", crest_z, any_finite<unit::length>());
    return kernel::string_height<R>(s, x) - crest_z;
}
TAUTLINE_HELD(length<> height_over<double>(const string_line&, param<length<>>, param<length<>>))

/// Heights of one open string over all its frets, written into `heights`; negative where the string lies below a crest.
template <class R = double>
void heights_over_frets(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                        std::type_identity_t<std::span<const length<R>>> crest_z,
                        std::type_identity_t<std::span<length<R>>> heights) {
    require_crests(s, crest_x, crest_z);
    require_that(heights.size() == crest_x.size(), "heights", "must have one entry for each fret");
    kernel::heights_over_frets<R>(s, crest_x, crest_z, heights);
}

} // namespace tautline
