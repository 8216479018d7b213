#pragma once
/// @file
/// A string that bends once more between its support and what holds it: under a bar or a guide that presses it down, over
/// an edge that carries it, or round a roller.
///
/// Source: plane geometry; statics as in break_angle.hpp. A string slides along a smooth bar until it runs straight when
/// both sides are laid out flat.

#include "break_angle.hpp"

namespace tautline {

/// On which side of a bar a string runs.
enum class bar_side {
    under, ///< the bar presses the string down: a guide, a pressing bar
    over   ///< the bar carries the string: an edge
};

namespace kernel {

/// Height at `x` of the straight line between two points.
template <class R>
[[nodiscard]] constexpr length<R> height_between(const basic_point<R>& from, const basic_point<R>& to, const length<R>& x) {
    return from.z + (to.z - from.z) * R(ratio<unit::length, R>(x - from.x, to.x - from.x));
}

/// The point where a string's axis from one point to another crosses a bar that is square to the centre line and would
/// hold the axis at height `z`. A bar that does not reach the straight string leaves it alone.
template <class R>
[[nodiscard]] basic_point<R> crossing_of_bar(const basic_point<R>& from, const basic_point<R>& to, const length<R>& x,
                                             const length<R>& z, bar_side side) {
    const length<R> straight = height_between(from, to, x);
    basic_point<R> at;
    at.x = x;
    at.z = side == bar_side::under ? min<unit::length, R>(straight, z) : max<unit::length, R>(straight, z);
    const length<R> dx1 = at.x - from.x, dz1 = at.z - from.z, dx2 = to.x - at.x, dz2 = to.z - at.z;
    const length<R> before = sqrt(dx1 * dx1 + dz1 * dz1), behind = sqrt(dx2 * dx2 + dz2 * dz2);
    at.y = from.y + (to.y - from.y) * R(ratio<unit::length, R>(before, before + behind));
    return at;
}

/// The point where a string's axis that comes from `from` touches its circle about a roller's axis, on the upper side.
/// The roller lies across the centre line.
/// @param axis the roller's axis at the string's place across
/// @param radius from the roller's axis to the string's axis
template <class R>
[[nodiscard]] basic_point<R> roller_point(const basic_point<R>& from, const basic_point<R>& axis, const length<R>& radius) {
    // From the roller's axis: toward the point, and square to that on the upper side.
    const length<R> dx = from.x - axis.x, dz = from.z - axis.z;
    const area<R> d2 = dx * dx + dz * dz;
    const R toward = ratio(radius * radius, d2);
    const length<R> tangent = sqrt(d2 - radius * radius);
    const R aside = ratio(radius * tangent, d2);
    const R upper = select(R(dx.value()) < number<R>(0), number<R>(-1), number<R>(1));
    basic_point<R> at;
    at.x = axis.x + dx * toward - dz * R(aside * upper);
    at.y = axis.y;
    at.z = axis.z + dz * toward + dx * R(aside * upper);
    return at;
}

} // namespace kernel

/// Where a string's axis crosses a smooth bar that is square to the centre line.
///
/// The string slides along the bar until it runs straight when both its sides are laid out flat. A bar that the straight
/// string does not touch leaves the string alone: the crossing is then on the straight line.
///
/// @param from,to the string's axis where it comes from and where it goes on to
/// @param x,z the string's axis at the bar: its place along, which must lie between the two points, and its height
template <class R = double>
[[nodiscard]] basic_point<R> crossing_of_bar(const basic_point<R>& from, const std::type_identity_t<basic_point<R>>& to,
                                             param<length<R>> x, param<length<R>> z, bar_side side = bar_side::under) {
    require_valid(from, "from");
    require_valid(to, "to");
    require("x", x, any_finite<unit::length>());
    require("z", z, any_finite<unit::length>());
    require_that(in_all_lanes(number<R>(0) < ((x - from.x) * (to.x - x)).value()), "x",
                 "must lie between the two points: the string would turn back at the bar");
    return kernel::crossing_of_bar<R>(from, to, x, z, side);
}

/// The point where a string's axis meets the roller that it winds on, in the slot of a head. The string comes in over the
/// roller's upper side.
///
/// @param from a point of the string's axis before the roller, outside the roller
/// @param axis of the roller, at the string's place across; the roller lies across the centre line
/// @param radius from the roller's axis to the string's: half the roller's diameter and half the gauge, at least 0
template <class R = double>
[[nodiscard]] basic_point<R> roller_point(const basic_point<R>& from, const std::type_identity_t<basic_point<R>>& axis,
                                          param<length<R>> radius) {
    require_valid(from, "from");
    require_valid(axis, "axis");
    require("radius", radius, between(0 * units::mm, 100 * units::mm));
    const length<R> dx = from.x - axis.x, dz = from.z - axis.z;
    require_that(in_all_lanes((radius * radius).value() < (dx * dx + dz * dz).value()), "radius",
                 "must be less than the distance to where the string comes from");
    return kernel::roller_point<R>(from, axis, radius);
}

} // namespace tautline
