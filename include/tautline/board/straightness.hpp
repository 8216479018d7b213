#pragma once
/// @file
/// How straight the surface is under a string. Strings spread toward the bridge, so on a cylinder they run over a hump.
/// On the right cone they do not.

#include "../core/root.hpp"
#include "board.hpp"
#include "string_path.hpp"

namespace tautline {

/// How far the surface under a string leaves the straight line between two places.
template <class R = double>
struct basic_hump {
    length<R> height{}; ///< 0 or more: a rounded board never leaves a hollow under a straight path
    length<R> at{};     ///< where it is greatest
};
using hump = basic_hump<double>;

namespace kernel {

template <class R>
[[nodiscard]] constexpr length<R> height_under(const basic_surface<R>& s, const basic_string_path<R>& p,
                                               const length<R>& x) {
    return kernel::surface_height(s, x, kernel::y_at(p, x));
}

/// The drop of the arc is R f(y/R) with a convex f, so it is convex in y and R together. Both are linear along the
/// string. So the surface bends one way only: it has one greatest deviation from the chord, and that is upward.
template <class R>
[[nodiscard]] constexpr basic_hump<R> hump_under(const basic_surface<R>& s, const basic_string_path<R>& p,
                                                 const length<R>& from, const length<R>& to) {
    const length<R> z0 = height_under(s, p, from), z1 = height_under(s, p, to);
    const R slope = ratio<unit::length, R>(z1 - z0, to - from);
    const auto rise = [&](const auto& x) {
        // Slope of the surface at x less the slope of the chord, over the number type of the search.
        using D = real_of_t<decltype(x)>;
        using S = dual<D, 1>;
        const auto z = height_under(over<S>(s), over<S>(p), length<S>::from_value(S::variable(x.value(), 0)));
        return bu::quantity<unit::length, D>::from_value(D(z.value().partial[0] - D(slope)));
    };
    const length<R> at = find_root(rise, from, to);
    return {.height = height_under(s, p, at) - z0 - (at - from) * slope, .at = at};
}

} // namespace kernel

/// Height of the bare board under a string at `x`, over the board's centre line there: 0 or negative.
template <class R = double>
[[nodiscard]] constexpr length<R> height_under(const basic_surface<R>& s, const basic_string_path<R>& p,
                                               param<length<R>> x) {
    return surface_height(s, x, y_at(p, x));
}

/// The hump of a surface under a string between two places. On a cylinder it is about `s^2 L^2/(8R)`, with s the slope
/// of the path across and L the distance between the places. The string must stay within the radius.
template <class R = double>
[[nodiscard]] constexpr basic_hump<R> hump_under(const basic_surface<R>& s, const basic_string_path<R>& p,
                                                 param<length<R>> from, param<length<R>> to) {
    require("distance between the two places", length<R>(to - from), more_than(0 * units::mm));
    (void)height_under(s, p, from);
    (void)height_under(s, p, to);
    return kernel::hump_under<R>(s, p, from, to);
}

/// The cone over which spreading strings run straight. Its radius grows in proportion to the spread, from `radius` at
/// the nut on; the cone is given as far as `cone_length`. The spreads are those between the outer strings at nut and
/// saddle. All > 0.
[[nodiscard]] constexpr auto cone_for_spread(a_length auto radius, a_length auto spread_at_nut,
                                             a_length auto spread_at_saddle, a_length auto nut_to_saddle,
                                             a_length auto cone_length) {
    using R = common_real_t<decltype(radius), decltype(spread_at_nut), decltype(spread_at_saddle), decltype(nut_to_saddle),
                            decltype(cone_length)>;
    require("spread at the nut", over<R>(spread_at_nut), more_than(0 * units::mm));
    require("spread at the saddle", over<R>(spread_at_saddle), more_than(0 * units::mm));
    require("nut to saddle", over<R>(nut_to_saddle), more_than(0 * units::mm));
    const R growth = R(ratio(over<R>(spread_at_saddle), over<R>(spread_at_nut)) - number<R>(1)) *
                     R(ratio(over<R>(cone_length), over<R>(nut_to_saddle)));
    return cone(over<R>(radius), over<R>(radius) * R(number<R>(1) + growth), over<R>(cone_length));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH, messages::LENGTH, messages::LENGTH>
cone_for_spread(Given...)
    TAUTLINE_REFUSED("wanted are five LENGTHS: cone_for_spread(250*mm, 36*mm, 52*mm, 640*mm, 460*mm)");

} // namespace tautline
