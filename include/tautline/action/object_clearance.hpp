#pragma once
/// @file
/// A flat thing under the strings (a pickup, a guard, the end of the board): how far the strings clear it, and the tilt
/// that lays it along them.
///
/// Source: straight lines over a plane; the tilt by least squares.

#include <span>

#include "../core/linear_system.hpp"
#include "height.hpp"

namespace tautline {

/// A flat thing under the strings.
template <class R = double>
struct basic_flat_object {
    using real = R;
    needed<length<R>> x;                 ///< its middle along the strings
    needed<length<R>> z;                 ///< height of its top there, on the centre line
    needed<length<R>> extent;            ///< its size along the strings, from its front edge to its back edge; 0 for a line
    field<angle<R>> along = angle<R>();  ///< rise of its top toward the bridge
    field<angle<R>> across = angle<R>(); ///< rise of its top toward the treble side: the angle of its bracket

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument(), self.x...);
        visit("z", about_an_instrument(), self.z...);
        visit("extent", between(0 * units::mm, 500 * units::mm), self.extent...);
        visit("along", between(-45 * units::deg, 45 * units::deg).fair_default("level with the board"), self.along...);
        visit("across", between(-45 * units::deg, 45 * units::deg).fair_default("level with the board"), self.across...);
    }
};
using flat_object = basic_flat_object<double>;

/// Height of a string's underside over the object, at both edges. Between the edges the height is between these two.
template <class R = double>
struct basic_object_clearance {
    using real = R;
    length<R> front{}; ///< over the edge nearer to the nut
    length<R> back{};  ///< over the edge nearer to the bridge
    /// The lesser of the two.
    [[nodiscard]] constexpr length<R> least() const { return min(front, back); }
};

/// The tilt with which an object lies parallel to the strings.
template <class R = double>
struct basic_parallel_tilt {
    using real = R;
    angle<R> along{};         ///< wanted rise toward the bridge
    angle<R> across{};        ///< wanted rise toward the treble side
    angle<R> along_change{};  ///< change from the tilt it has now
    angle<R> across_change{}; ///< change from the tilt that its bracket gives it now
};

namespace kernel {

template <class R>
[[nodiscard]] constexpr length<R> string_y(const basic_string_line<R>& s, const length<R>& x) {
    return line_height<R>(s.nut_x, s.nut_y, s.saddle_x, s.saddle_y, x);
}

} // namespace kernel

/// Clearance of one open string over a flat object; negative: it touches. For a pressed string pass its `pressed_line`.
template <class R = double>
[[nodiscard]] basic_object_clearance<R> object_clearance(const basic_flat_object<R>& object,
                                                         const basic_string_line<R>& s) {
    require_valid(object, "object");
    require_valid(s, "string_line");
    const auto over_edge = [&](const length<R>& ahead) {
        const length<R> x = object.x + ahead;
        return kernel::string_height(s, x) - object.z - tan(object.along) * ahead -
               tan(object.across) * kernel::string_y(s, x);
    };
    const length<R> half = number<R>(0.5L) * object.extent;
    return {over_edge(-half), over_edge(half)};
}

/// The tilt that lays an object parallel to the strings as a whole: the plane nearest to all of them over the object. One
/// string, or strings in one line, cannot tell the angle across; that angle then stays as it is.
/// @param strings open lines; pressed ones to have the object parallel when played
template <class R = double>
[[nodiscard]] basic_parallel_tilt<R> parallel_tilt(const basic_flat_object<R>& object,
                                                   std::type_identity_t<std::span<const basic_string_line<R>>> strings) {
    require_valid(object, "object");
    require_that(!strings.empty(), "strings", "must hold at least one string");
    const length<R> half =
        max(R(number<R>(0.5L) * object.extent.value()), R(number<R>(1e-3L))) * length<R>::from_value(number<R>(1));
    R least{}, most{};
    for (std::size_t i = 0; i < strings.size(); ++i) {
        require_valid(strings[i], messages::path_of("strings", i));
        const R y = kernel::string_y<R>(strings[i], object.x).value();
        least = i == 0 ? y : min(least, y);
        most = i == 0 ? y : max(most, y);
    }
    const bool spread = in_all_lanes(number<R>(1e-3L) < most - least);
    normal_equations<R, 3> plane;
    for (const auto& s : strings) {
        for (const length<R>& ahead : {length<R>(-half), length<R>(half)}) {
            const length<R> x = object.x + ahead;
            const R y = kernel::string_y<R>(s, x).value(), z = kernel::string_height<R>(s, x).value();
            // Strings in one line do not tell the angle across: an observation of its own then holds it where it is.
            plane.add({number<R>(1), ahead.value(), spread ? y : number<R>(0)}, spread ? z : R(z - tan(object.across) * y));
        }
    }
    if (!spread) { plane.add({number<R>(0), number<R>(0), number<R>(1)}, tan(object.across)); }
    const auto found = plane.solution();
    const auto slope_angle = [](const R& slope) { return angle<R>::from_value(atan2(slope, number<R>(1))); };
    basic_parallel_tilt<R> tilt{slope_angle(found[1]), slope_angle(found[2]), {}, {}};
    tilt.along_change = tilt.along - object.along;
    tilt.across_change = tilt.across - object.across;
    return tilt;
}

} // namespace tautline
