#pragma once
/// @file
/// What a string does to anything it bends over: break angle and the force on the support, in three dimensions.
///
/// Points lie on the string's axis, in the frame of the whole library: x along the strings from the nut, y across (bass
/// negative), z up from the board. Unless told otherwise the tension is the same on both sides of the support;
/// `friction.hpp` says how far the two may differ.
///
/// Source: statics of a string over a smooth support, force T (u1 + u2), size 2 T sin(theta/2); worked examples in OpenStax
/// College Physics, sections 4.5 and 4.7.

#include <array>
#include <span>
#include <vector>

#include "../core/describe.hpp"
#include "../core/local_slopes.hpp"
#include "../core/number_row.hpp"
#include "../core/units.hpp"
#include "../core/when_used.hpp"

namespace tautline {

/// A point in space.
template <class R = double>
struct basic_point {
    using real = R;
    field<length<R>> x = length<R>(); ///< along the strings, from the nut's front face toward the bridge
    field<length<R>> y = length<R>(); ///< across, from the centre line, bass side negative
    field<length<R>> z = length<R>(); ///< up from the bare board at the centre line

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument().fair_default("that of the origin"), self.x...);
        visit("y", about_an_instrument().fair_default("that of the origin"), self.y...);
        visit("z", about_an_instrument().fair_default("that of the origin"), self.z...);
    }
};
using point = basic_point<double>;

/// A direction in space: a vector of length 1.
template <class R = double>
struct basic_direction {
    using real = R;
    R x{}; ///< along the strings
    R y{}; ///< toward the treble side
    R z{}; ///< away from the board
};
using direction = basic_direction<double>;

/// A force in space. Forces of several strings add.
template <class R = double>
struct basic_support_force {
    using real = R;
    force<R> x{}; ///< toward the bridge end
    force<R> y{}; ///< toward the treble side
    force<R> z{}; ///< away from the board: negative presses down

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("y", self.y...);
        visit("z", self.z...);
    }

    /// The component that presses toward the body, `-F_z`; negative where the string pulls its support off.
    [[nodiscard]] constexpr force<R> down() const { return -z; }
    /// Magnitude of the force.
    [[nodiscard]] constexpr force<R> size() const { return sqrt(x * x + y * y + z * z); }

    /// @{
    /// Forces add and subtract component by component.
    friend constexpr basic_support_force operator+(const basic_support_force& a, const basic_support_force& b) {
        return {a.x + b.x, a.y + b.y, a.z + b.z};
    }
    friend constexpr basic_support_force operator-(const basic_support_force& a, const basic_support_force& b) {
        return {a.x - b.x, a.y - b.y, a.z - b.z};
    }
    constexpr basic_support_force operator-() const { return {-x, -y, -z}; }
    constexpr basic_support_force& operator+=(const basic_support_force& b) { return *this = *this + b; }
    /// @}
};
using support_force = basic_support_force<double>;

/// What one string does at one support.
template <class R = double>
struct basic_support_load {
    using real = R;
    angle<R> break_angle{};              ///< whole change of direction in space, 0 = straight on; never negative
    angle<R> down_break{};               ///< the part of it in height: positive presses down, negative lifts off
    angle<R> side_angle{};               ///< the part of it in plan, counterclockwise seen from the front
    basic_support_force<R> on_support{}; ///< force of the string on the support
    basic_support_force<R> on_anchor{};  ///< pull of the string on what holds it beyond: post, pin or tailpiece

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("break_angle", self.break_angle...);
        visit("down_break", self.down_break...);
        visit("side_angle", self.side_angle...);
        visit("on_support", self.on_support...);
        visit("on_anchor", self.on_anchor...);
    }

    /// Down-force of the string on the support; negative where the string lifts off.
    [[nodiscard]] constexpr force<R> down() const { return on_support.down(); }
    /// Whether the string stays on its support: whether it presses it at all.
    [[nodiscard]] constexpr auto seated() const { return number<R>(0) < on_support.down().value(); }
};

namespace kernel {

/// Direction from one point to another; the points must differ.
template <class R>
[[nodiscard]] constexpr basic_direction<R> direction_between(const basic_point<R>& from, const basic_point<R>& to) {
    const length<R> dx = to.x - from.x, dy = to.y - from.y, dz = to.z - from.z;
    const auto along = by_local_slopes(
        [](const auto& x, const auto& y, const auto& z) __attribute__((always_inline)) {
            using D = std::remove_cvref_t<decltype(x)>;
            const D d = sqrt(D(x * x + y * y + z * z));
            return std::array<D, 3>{x / d, y / d, z / d};
        },
        dx.value(), dy.value(), dz.value());
    return {along[0], along[1], along[2]};
}

template <class R>
[[nodiscard]] constexpr length<R> distance_between(const basic_point<R>& a, const basic_point<R>& b) {
    const length<R> dx = b.x - a.x, dy = b.y - a.y, dz = b.z - a.z;
    return sqrt(dx * dx + dy * dy + dz * dz);
}

/// Sine of the angle between u1 and -u2.
template <class R>
[[nodiscard]] R break_sine(const basic_direction<R>& u1, const basic_direction<R>& u2) {
    const R cx = u1.y * u2.z - u1.z * u2.y, cy = u1.z * u2.x - u1.x * u2.z, cz = u1.x * u2.y - u1.y * u2.x;
    return root_or_zero<R>(cx * cx + cy * cy + cz * cz);
}
/// Its cosine.
template <class R>
[[nodiscard]] constexpr R break_cosine(const basic_direction<R>& u1, const basic_direction<R>& u2) {
    return -(u1.x * u2.x + u1.y * u2.y + u1.z * u2.z);
}
/// Angle between u1 and -u2, from its sine and cosine together: exact for small and for large angles.
template <class R>
[[nodiscard]] angle<R> break_angle(const basic_direction<R>& u1, const basic_direction<R>& u2) {
    return angle<R>::from_value(atan2(break_sine(u1, u2), break_cosine(u1, u2)));
}

template <class R>
[[nodiscard]] constexpr basic_support_force<R> pull_along(const basic_direction<R>& u, const force<R>& tension) {
    return {u.x * tension, u.y * tension, u.z * tension};
}

/// Angles and forces with a tension on each side; give the same tension twice where nothing rubs.
template <class R>
[[nodiscard]] basic_support_load<R> support_load(const basic_direction<R>& u1, const basic_direction<R>& u2,
                                                 const force<R>& before, const force<R>& after) {
    const auto angles = by_local_slopes(
        [](const auto& x1, const auto& y1, const auto& z1, const auto& x2, const auto& y2, const auto& z2)
            __attribute__((always_inline)) {
                using D = std::remove_cvref_t<decltype(x1)>;
                const basic_direction<D> v1{x1, y1, z1}, v2{x2, y2, z2};
                // The break, the elevations of both sides, and the turn in plan.
                const std::array<D, 4> y{break_sine(v1, v2), z1, z2, D(y1 * x2 - x1 * y2)},
                    x{break_cosine(v1, v2), root_or_zero<D>(x1 * x1 + y1 * y1), root_or_zero<D>(x2 * x2 + y2 * y2),
                      D(-(x1 * x2 + y1 * y2))};
                const auto each = angles_of(y, x);
                return std::array<D, 3>{each[0], -(each[1] + each[2]), each[3]};
            },
        u1.x, u1.y, u1.z, u2.x, u2.y, u2.z);
    basic_support_load<R> load;
    load.break_angle = angle<R>::from_value(angles[0]);
    load.down_break = angle<R>::from_value(angles[1]);
    load.side_angle = angle<R>::from_value(angles[2]);
    load.on_support = pull_along(u1, before) + pull_along(u2, after);
    load.on_anchor = -pull_along(u2, after);
    return load;
}

/// The force on the support alone, without the angles.
template <class R>
[[nodiscard]] constexpr basic_support_force<R> support_force(const basic_point<R>& before, const basic_point<R>& support,
                                                             const basic_point<R>& after, const force<R>& tension_before,
                                                             const force<R>& tension_after) {
    return pull_along(kernel::direction_between(support, before), tension_before) +
           pull_along(kernel::direction_between(support, after), tension_after);
}

/// Angles and forces straight from the three points.
template <class R>
[[nodiscard]] basic_support_load<R> support_load(const basic_point<R>& before, const basic_point<R>& support,
                                                 const basic_point<R>& after, const force<R>& tension_before,
                                                 const force<R>& tension_after) {
    return kernel::support_load(kernel::direction_between(support, before), kernel::direction_between(support, after),
                                tension_before, tension_after);
}

} // namespace kernel

/// Straight distance between two points in space; 0 where they are the same. Source: geometry.
template <class R = double>
[[nodiscard]] length<R> distance_between(const basic_point<R>& a, const std::type_identity_t<basic_point<R>>& b) {
    require_valid(a, "first point");
    require_valid(b, "second point");
    return kernel::distance_between(a, b);
}

/// The direction from one point to another; they must not be the same point.
template <class R = double>
[[nodiscard]] basic_direction<R> direction_between(const basic_point<R>& from, const basic_point<R>& to) {
    require_valid(from, "from");
    require_valid(to, "to");
    require("distance between the two points", kernel::distance_between(from, to), more_than(0 * units::mm));
    return kernel::direction_between(from, to);
}

/// Size of a string's force on its support, `2 T sin(theta/2)`, from tension (at least 0) and break angle (0 to 180 deg).
[[nodiscard]] auto support_force_size(a_force auto tension, an_angle auto break_angle) {
    using R = common_real_t<decltype(tension), decltype(break_angle)>;
    require("tension", tension, at_least(0 * units::N));
    require("break_angle", break_angle, between(0 * units::deg, 180 * units::deg));
    return number<R>(2) * sin(R(number<R>(0.5L) * over<R>(break_angle).value())) * over<R>(tension);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::ANGLE> support_force_size(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE and an ANGLE: support_force_size(70*N, 12*deg)");

/// Break angle and forces of one string at a support that rubs: the tensions on its two sides may differ.
///
/// @param before  where the string comes from: the other end of its speaking length
/// @param support where its axis crosses the support
/// @param after   where it goes on to: tailpiece, pin or tuner post
/// @param tension_before,tension_after tension on each side, at least 0
template <class R = double>
[[nodiscard]] basic_support_load<R> support_load(const basic_point<R>& before, const basic_point<R>& support,
                                                 const basic_point<R>& after, param<force<R>> tension_before,
                                                 param<force<R>> tension_after) {
    require("tension", tension_before, at_least(0 * units::N));
    require("tension", tension_after, at_least(0 * units::N));
    require_valid(before, "before");
    require_valid(support, "support");
    require_valid(after, "after");
    require("speaking length", kernel::distance_between(support, before), more_than(0 * units::mm));
    require("afterlength", kernel::distance_between(support, after), more_than(0 * units::mm));
    return kernel::support_load<R>(before, support, after, tension_before, tension_after);
}

/// The same with one tension on both sides: nothing rubs.
template <class R = double>
[[nodiscard]] basic_support_load<R> support_load(const basic_point<R>& before, const basic_point<R>& support,
                                                 const basic_point<R>& after, param<force<R>> tension) {
    return support_load(before, support, after, tension, tension);
}
TAUTLINE_HELD(basic_support_load<> support_load<double>(const point&, const point&, const point&, param<force<>>))
/// Refused: points over different number types.
template <class A, class B, class C, class... Tensions>
requires(!(std::is_same_v<A, B> && std::is_same_v<B, C>)) messages::NUMBER_TYPES_do_not_mix_carry_one_over
    support_load(const basic_point<A>&, const basic_point<B>&, const basic_point<C>&, const Tensions&...)
TAUTLINE_REFUSED("NUMBER TYPES do not mix: carry each point over to one, as in over<dual<double, 1>>(nut)");

/// The forces of several strings on one support, added up.
template <class R>
[[nodiscard]] constexpr basic_support_force<R> total_force(std::span<const basic_support_load<R>> loads) {
    basic_support_force<R> sum;
    for (const auto& load : loads) { sum += load.on_support; }
    return sum;
}
/// The same for loads in a vector.
template <class R, class Allocator>
[[nodiscard]] constexpr basic_support_force<R> total_force(const std::vector<basic_support_load<R>, Allocator>& loads) {
    return total_force(std::span<const basic_support_load<R>>(loads));
}

/// The pull of all strings together on what holds them beyond the support: the tailpiece's hanger or the end block, the
/// bridge's pins, or the headstock.
template <class R>
[[nodiscard]] constexpr basic_support_force<R> total_anchor_pull(std::span<const basic_support_load<R>> loads) {
    basic_support_force<R> sum;
    for (const auto& load : loads) { sum += load.on_anchor; }
    return sum;
}
/// The same for loads in a vector.
template <class R, class Allocator>
[[nodiscard]] constexpr basic_support_force<R>
total_anchor_pull(const std::vector<basic_support_load<R>, Allocator>& loads) {
    return total_anchor_pull(std::span<const basic_support_load<R>>(loads));
}

} // namespace tautline
