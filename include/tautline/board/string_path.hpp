#pragma once
/// @file
/// A string seen from above: the straight line from its place at the nut to its place at the saddle.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The two ends of a string, seen from above. `x` is 0 at the front face of the nut; `y` is negative on the bass side.
template <class R = double>
struct basic_string_path {
    using real = R;
    field<length<R>> y_at_nut = length<R>();    ///< bass negative
    field<length<R>> y_at_saddle = length<R>(); ///< bass negative
    field<length<R>> x_at_nut = length<R>();    ///< 0 but for slanted or moved nuts
    needed<length<R>> x_at_saddle;              ///< beyond the nut

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("y_at_nut", between(-500 * units::mm, 500 * units::mm).fair_default("along the centre line"),
              self.y_at_nut...);
        visit("y_at_saddle", between(-500 * units::mm, 500 * units::mm).fair_default("along the centre line"),
              self.y_at_saddle...);
        visit("x_at_nut", between(-1000 * units::mm, 1000 * units::mm).fair_default("places are told from the nut"),
              self.x_at_nut...);
        visit("x_at_saddle", between(-1000 * units::mm, 4000 * units::mm), self.x_at_saddle...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(x_at_nut.value() < x_at_saddle.value())) { report("x_at_saddle", "must lie beyond the nut"); }
    }
};
using string_path = basic_string_path<double>;

namespace kernel {

template <class R>
[[nodiscard]] constexpr R path_slope(const basic_string_path<R>& p) {
    return ratio<unit::length, R>(p.y_at_saddle - p.y_at_nut, p.x_at_saddle - p.x_at_nut);
}
template <class R>
[[nodiscard]] constexpr length<R> y_at(const basic_string_path<R>& p, const length<R>& x) {
    return p.y_at_nut + (x - p.x_at_nut) * kernel::path_slope(p);
}

} // namespace kernel

/// How far off the centre line the string is at `x`; bass is negative. Beyond its ends the straight line goes on.
template <class R = double>
[[nodiscard]] constexpr length<R> y_at(const basic_string_path<R>& p, param<length<R>> x) {
    require("saddle beyond the nut", length<R>(p.x_at_saddle - p.x_at_nut), more_than(0 * units::mm));
    return kernel::y_at<R>(p, x);
}

/// Slope dy/dx of the string's path: the tangent of its angle with the centre line.
template <class R = double>
[[nodiscard]] constexpr R path_slope(const basic_string_path<R>& p) {
    require("saddle beyond the nut", length<R>(p.x_at_saddle - p.x_at_nut), more_than(0 * units::mm));
    return kernel::path_slope(p);
}

} // namespace tautline
