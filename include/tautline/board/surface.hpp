#pragma once
/// @file
/// The playing surface across the board: flat, a cylinder, or a cone whose radius grows along the strings.

#include <optional>

#include "../core/describe.hpp"
#include "../core/local_slopes.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The arc of a board. No radius: flat. One radius: a cylinder. Two: a cone, its radius linear along the board.
template <class R = double>
struct basic_surface {
    using real = R;
    /// Radius at the nut; absent on a flat board.
    std::optional<field<length<R>>> radius{};
    /// Radius at the far end of a cone; absent on a cylinder.
    std::optional<field<length<R>>> radius_at_end{};
    /// From the nut to where the end radius holds; needed by a cone only.
    std::optional<field<length<R>>> cone_length{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("radius", between(1 * units::mm, 1e9 * units::mm), self.radius...);
        visit("radius_at_end", between(1 * units::mm, 1e9 * units::mm), self.radius_at_end...);
        visit("cone_length", between(1 * units::mm, 3000 * units::mm), self.cone_length...);
    }
    template <class Report>
    constexpr void rules(Report&& report) const {
        if (radius_at_end && !radius) { report("radius", "must be given too where a radius at the end is"); }
        if (radius_at_end.has_value() != cone_length.has_value()) {
            report(cone_length ? "radius_at_end" : "cone_length", "must be given for a cone: both or neither");
        }
    }
};
using surface = basic_surface<double>;

namespace kernel {

/// Drop of the arc at y, `k y^2/(1 + sqrt(1 - k^2 y^2))`. It loses no digits as `R - sqrt(R^2 - y^2)` does, and it
/// holds for k = 0.
template <class R>
[[nodiscard]] constexpr length<R> arc_drop(const curvature<R>& k, const length<R>& y) {
    return length<R>::from_value(by_local_slopes(
        [](const auto& arc, const auto& across) __attribute__((always_inline)) {
            using D = std::remove_cvref_t<decltype(arc)>;
            const D u = arc * across;
            return std::array<D, 1>{u * across / D(number<D>(1) + sqrt(D(number<D>(1) - u * u)))};
        },
        k.value(), y.value())[0]);
}

/// Radius of the arc across at x, on a board that has one.
template <class R>
[[nodiscard]] constexpr length<R> radius_at(const basic_surface<R>& s, const length<R>& x) {
    length<R> r = *s.radius;
    if (s.radius_at_end) { r += (*s.radius_at_end - r) * R(ratio<unit::length, R>(x, *s.cone_length)); }
    return r;
}

/// Curvature of the arc across at x; 0 on a flat board.
template <class R>
[[nodiscard]] constexpr curvature<R> arc_curvature(const basic_surface<R>& s, const length<R>& x) {
    if (!s.radius) { return curvature<R>(); }
    return curvature<R>(number<R>(1) / kernel::radius_at<R>(s, x));
}

template <class R>
[[nodiscard]] constexpr length<R> surface_height(const basic_surface<R>& s, const length<R>& x, const length<R>& y) {
    return -kernel::arc_drop(kernel::arc_curvature(s, x), y);
}

} // namespace kernel

/// A flat board.
template <real R = double>
[[nodiscard]] constexpr basic_surface<R> flat_surface() {
    return {};
}
/// A cylinder: one radius everywhere, > 0.
[[nodiscard]] constexpr auto cylinder(a_length auto radius) {
    using R = common_real_t<decltype(radius)>;
    require("radius", over<R>(radius), more_than(0 * units::mm));
    return basic_surface<R>{.radius = over<R>(radius)};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH> cylinder(Given...) TAUTLINE_REFUSED("wanted is a LENGTH: cylinder(300*mm)");
/// A cone (compound radius). Its radius is linear from `radius_at_nut` at the nut to `radius_at_end` at `cone_length`
/// from the nut; all > 0.
[[nodiscard]] constexpr auto cone(a_length auto radius_at_nut, a_length auto radius_at_end, a_length auto cone_length) {
    using R = common_real_t<decltype(radius_at_nut), decltype(radius_at_end), decltype(cone_length)>;
    require("radius at nut", over<R>(radius_at_nut), more_than(0 * units::mm));
    require("radius at end", over<R>(radius_at_end), more_than(0 * units::mm));
    require("cone length", over<R>(cone_length), more_than(0 * units::mm));
    return basic_surface<R>{
        .radius = over<R>(radius_at_nut), .radius_at_end = over<R>(radius_at_end), .cone_length = over<R>(cone_length)};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH> cone(Given...)
    TAUTLINE_REFUSED("wanted are three LENGTHS: cone(10*inch, 16*inch, 460*mm)");

/// Curvature of the arc across the board at `x` from the nut: 1/radius, 0 where flat. `x` within 5 m of the nut. Throws
/// `invalid_input` for all that is wrong with the surface, and where a cone's radius is used up at `x`.
template <class R = double>
[[nodiscard]] constexpr curvature<R> arc_curvature(const basic_surface<R>& s, param<length<R>> x) {
    constexpr_require_valid(s, "surface");
    require("x", x, about_an_instrument());
    if (s.radius) { require("radius of the surface at x", kernel::radius_at<R>(s, x), more_than(0 * units::mm)); }
    return kernel::arc_curvature<R>(s, x);
}

/// Height of the bare board at (x, y) over its centre line there, `-(R - sqrt(R^2 - y^2))`: 0 on the centre line,
/// negative off it. R is the radius at x; |y| must not exceed it.
template <class R = double>
[[nodiscard]] constexpr length<R> surface_height(const basic_surface<R>& s, param<length<R>> x, param<length<R>> y) {
    const curvature<R> k = arc_curvature(s, x);
    require("distance off centre over the radius", R(k * y), between(-1, 1));
    return -kernel::arc_drop<R>(k, y);
}

/// Sagitta: how far the middle of an arc of `radius` stands over a chord of `width`, `R - sqrt(R^2 - (w/2)^2)`.
/// 0 <= width <= 2 radius.
[[nodiscard]] constexpr auto sagitta(a_length auto radius, a_length auto width) {
    using R = common_real_t<decltype(radius), decltype(width)>;
    require("radius", over<R>(radius), more_than(0 * units::mm));
    require("width", over<R>(width), at_least(0 * units::mm));
    const curvature<R> k = number<R>(1) / over<R>(radius);
    const length<R> half = over<R>(width) / 2;
    require("half the width over the radius", R(k * half), between(0, 1));
    return kernel::arc_drop(k, half);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH> sagitta(Given...)
    TAUTLINE_REFUSED("wanted are two LENGTHS: sagitta(300*mm, 50*mm)");

/// Radius of the arc that stands `height` over a chord of `width`: `((w/2)^2 + h^2)/(2 h)`. Both > 0, height at most half
/// the width.
[[nodiscard]] constexpr auto radius_from_sagitta(a_length auto height, a_length auto width) {
    using R = common_real_t<decltype(height), decltype(width)>;
    const length<R> h = over<R>(height), half = over<R>(width) / 2;
    require("width", over<R>(width), more_than(0 * units::mm));
    require("sagitta", h, more_than(0 * units::mm));
    require("sagitta over half the width", R(ratio(h, half)), more_than_up_to(0, 1));
    return length<R>((half * half + h * h) / (h * number<R>(2)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH> radius_from_sagitta(Given...)
    TAUTLINE_REFUSED("wanted are two LENGTHS: radius_from_sagitta(1*mm, 50*mm)");

} // namespace tautline
