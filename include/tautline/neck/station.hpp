#pragma once
/// @file
/// A neck's section at one place: measures of board and back. The back is a half superellipse or a traced profile.

#include <vector>

#include "section.hpp"

namespace tautline {

/// One point of a back's traced profile, as from a profile gauge.
template <class R = double>
struct basic_profile_point {
    using real = R;
    needed<length<R>> y;     ///< across, from the centre line, bass side negative
    needed<length<R>> depth; ///< of the wood there, from the board's underside

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("y", between(-200 * units::mm, 200 * units::mm), self.y...);
        visit("depth", between(0 * units::mm, 100 * units::mm), self.depth...);
    }
};
using profile_point = basic_profile_point<double>;

/// The neck's section at one place. Between stations every measure is linear in x, the board's radius too, so a cone
/// (`basic_surface`) needs two stations. Next to a flat station, which has no radius, the arc itself is linear.
template <class R = double>
struct basic_neck_station {
    using real = R;
    needed<length<R>> x;                            ///< from the nut's front face
    needed<length<R>> half_width;                   ///< half the board's width
    needed<length<R>> board_thickness;              ///< on the centre line
    field<curvature<R>> board_arc = curvature<R>(); ///< 1 / radius of the board's top; 0 is flat
    needed<length<R>> back_depth;                   ///< of the wood under the board where it is deepest
    R back_exponent = R(2); ///< of the back's half superellipse: 1 is a V, 2 an ellipse, more is squarer
    /// The back as traced, bass side first, straight between its points. It overrules the superellipse.
    // g++ 12 crashes on the initialiser below without this line before it.
    static_assert(std::is_nothrow_default_constructible_v<std::vector<basic_profile_point<R>>>);
    std::vector<basic_profile_point<R>> profile{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-300 * units::mm, 3000 * units::mm), self.x...);
        visit("half_width", between(0.5 * units::mm, 200 * units::mm), self.half_width...);
        visit("board_thickness", between(0.05 * units::mm, 30 * units::mm), self.board_thickness...);
        visit("board_arc", between(0 * units::per_metre, 100 * units::per_metre).fair_default("flat"), self.board_arc...);
        visit("back_depth", between(0.1 * units::mm, 100 * units::mm), self.back_depth...);
        visit("back_exponent", between(1, 20).fair_default("an ellipse, between V and square"), self.back_exponent...);
        visit("profile", self.profile...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(board_arc.value() * half_width.value() <= number<R>(0.95L))) {
            report("board_arc", "must have a radius of more than half the board's width");
        } else if (!in_all_lanes(kernel::arc_fall<R>(board_arc, half_width).value() < board_thickness.value())) {
            report("board_thickness", "must be more than the board's arc falls at the edge");
        }
        if (profile.empty()) { return; }
        if (profile.size() < 3) {
            report("profile", "must have at least three points, or none for a superellipse");
            return;
        }
        R deepest = profile[0].depth.value();
        for (std::size_t i = 1; i < profile.size(); ++i) {
            deepest = max(deepest, profile[i].depth.value());
            if (!in_all_lanes(profile[i - 1].y.value() <= profile[i].y.value())) {
                report(messages::path_of("profile", i, "y"), "must not lie on the bass side of the point before it");
            }
        }
        if (!in_all_lanes(profile.front().y.value() < profile.back().y.value())) { report("profile", "must have a width"); }
        if (!in_all_lanes(abs(R(deepest - back_depth.value())) <= number<R>(0.05L) * back_depth.value())) {
            report("back_depth", "must be the depth of the profile's deepest point, within 5 %");
        }
    }
};
using neck_station = basic_neck_station<double>;

namespace kernel {

/// Growth of a cone's radius from arc `a` to arc `b`, as a share of the radius at `a`; 0 where one of the two is flat.
template <class R>
[[nodiscard]] constexpr R cone_growth(const curvature<R>& a, const curvature<R>& b) {
    const auto cone = number<R>(0) < min(a.value(), b.value());
    return select(cone, R(a.value() / select(cone, b.value(), number<R>(1)) - number<R>(1)), number<R>(0));
}
/// The board's arc (1 / radius) at a share of the way from one arc to another. The radius is linear, as in a cone.
/// Where one of the two is flat, the arc itself is linear.
template <class R>
[[nodiscard]] constexpr curvature<R> arc_between(const curvature<R>& a, const curvature<R>& b, const R& u) {
    const auto cone = number<R>(0) < min(a.value(), b.value());
    const curvature<R> of_cone = a / R(number<R>(1) + cone_growth<R>(a, b) * u), straight = a + (b - a) * u;
    return select<decltype(cone), unit::curvature, R>(cone, of_cone, straight);
}

/// Shape of a traced profile, from exact integrals over its straight pieces.
template <class R>
[[nodiscard]] constexpr basic_back_shape<R> profile_shape(const std::vector<basic_profile_point<R>>& profile,
                                                          const length<R>& half_width, const length<R>& depth) {
    basic_back_shape<R> shape{number<R>(0), number<R>(0), number<R>(0)};
    for (std::size_t i = 1; i < profile.size(); ++i) {
        const R dy = ratio(profile[i].y - profile[i - 1].y, half_width);
        const R p = ratio(profile[i - 1].depth, depth), q = ratio(profile[i].depth, depth);
        // Integrals of d, d^2 and d^3 over y, each as a share of the rectangle 2b by h.
        shape.area += dy * (p + q) / number<R>(4);
        shape.first += dy * (p * p + p * q + q * q) / number<R>(6);
        shape.second += dy * (p + q) * (p * p + q * q) / number<R>(8);
    }
    return shape;
}

/// The back's shape at a station.
template <class R>
[[nodiscard]] constexpr basic_back_shape<R> back_shape(const basic_neck_station<R>& s) {
    if (s.profile.empty()) { return superellipse_shape<R>(s.back_exponent); }
    return profile_shape<R>(s.profile, s.half_width, s.back_depth);
}

/// Depth of the back at `u` half widths from the centre line, as a share of its greatest depth; 0 outside it.
template <class R>
[[nodiscard]] R outline_depth(const basic_neck_station<R>& s, const R& u) {
    const R zero = number<R>(0), one = number<R>(1);
    if (s.profile.empty()) {
        const R side = abs(u);
        const auto inside = side < one;
        const R safe = max(number<R>(1e-9L), select(inside, side, number<R>(0.5L)));
        const R depth = exp(R(log(R(one - exp(R(s.back_exponent * log(safe))))) / s.back_exponent));
        return select(inside, depth, zero);
    }
    R depth = zero;
    for (std::size_t i = 1; i < s.profile.size(); ++i) {
        const R a = ratio(s.profile[i - 1].y, s.half_width), b = ratio(s.profile[i].y, s.half_width);
        const auto here = a < b;
        const R v = R(u - a) / select(here, R(b - a), one);
        const R at = ratio(s.profile[i - 1].depth + (s.profile[i].depth - s.profile[i - 1].depth) * v, s.back_depth);
        depth = select(a <= u, select(u <= b, select(here, at, depth), depth), depth);
    }
    return depth;
}

} // namespace kernel

/// The shape of a traced back profile (bass side first, straight between points), for a board of the given half width and a
/// back of the given depth.
template <class R>
[[nodiscard]] basic_back_shape<R> profile_shape(const std::vector<basic_profile_point<R>>& profile,
                                                param<length<R>> half_width, param<length<R>> depth) {
    basic_neck_station<R> s;
    s.x = length<R>();
    s.half_width = half_width;
    s.back_depth = depth;
    s.board_thickness = length<R>::from_value(number<R>(1e-3L));
    s.profile = profile;
    require_that(profile.size() >= 3, "profile", "must have at least three points");
    require_valid(s);
    return kernel::profile_shape<R>(profile, half_width, depth);
}

} // namespace tautline
