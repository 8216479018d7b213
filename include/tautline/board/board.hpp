#pragma once
/// @file
/// The board (fingerboard): its outline, thickness and arc, and the scale that is cut into it.

#include "../core/profile.hpp"
#include "scale.hpp"
#include "surface.hpp"

namespace tautline {

/// A board of straight taper.
template <class R = double>
struct basic_board {
    using real = R;
    needed<length<R>> width_at_nut; ///< across the board at the front face of the nut
    needed<length<R>> width_at_end; ///< across the board at its end
    /// From the front face of the nut to the end of the board.
    needed<length<R>> board_length;
    /// Of the board on the centre line, without the frets. Where `thickness_at_end` is given too, this is the thickness
    /// at the nut.
    needed<length<R>> thickness;
    /// Thickness on the centre line at the end of the board. It changes linearly from the nut. Absent: the same as at
    /// the nut.
    std::optional<field<length<R>>> thickness_at_end{};
    /// How much thicker (+) or thinner (-) the board is on the centre line than this linear run says. A board that was
    /// sanded straight on a bent neck needs it. Empty: linear.
    std::vector<basic_profile_mark<R>> thickness_off_line{};
    basic_surface<R> surface{}; ///< arc of the board's top
    basic_scale<R> scale;       ///< the frets' places

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("width_at_nut", between(1 * units::mm, 400 * units::mm), self.width_at_nut...);
        visit("width_at_end", between(1 * units::mm, 400 * units::mm), self.width_at_end...);
        visit("board_length", between(10 * units::mm, 3000 * units::mm), self.board_length...);
        visit("thickness", between(0.1 * units::mm, 30 * units::mm), self.thickness...);
        visit("thickness_at_end", between(0.1 * units::mm, 30 * units::mm), self.thickness_at_end...);
        visit("thickness_off_line", self.thickness_off_line...);
        visit("surface", self.surface...);
        visit("scale", self.scale...);
    }
    template <class Report>
    void rules(Report&& report) const;
};
using board = basic_board<double>;

namespace kernel {

template <class R>
[[nodiscard]] constexpr length<R> half_width_at(const basic_board<R>& b, const length<R>& x) {
    return (b.width_at_nut + (b.width_at_end - b.width_at_nut) * R(ratio<unit::length, R>(x, b.board_length))) / 2;
}

/// Thickness on the centre line.
template <class R>
[[nodiscard]] constexpr length<R> thickness_at(const basic_board<R>& b, const length<R>& x) {
    length<R> t = b.thickness;
    if (b.thickness_at_end) { t += (*b.thickness_at_end - b.thickness) * R(ratio<unit::length, R>(x, b.board_length)); }
    if (!b.thickness_off_line.empty()) { t += profile_height(b.thickness_off_line, x); }
    return t;
}

} // namespace kernel

template <class R>
template <class Report>
void basic_board<R>::rules(Report&& report) const {
    // Width and radius are linear in x, so their ratio is greatest at one of the two ends.
    const length<R> ends[] = {length<R>(), board_length};
    const char* const at[] = {"at the nut", "at the end"};
    for (int i = 0; i < 2; ++i) {
        const curvature<R> k = kernel::arc_curvature(surface, ends[i]);
        const R reach = R(k * kernel::half_width_at(*this, ends[i]));
        if (!in_all_lanes(number<R>(0) <= k.value())) {
            report("surface", messages::joined({"must have a radius above 0 ", at[i]}));
        } else if (!in_all_lanes(reach <= number<R>(1))) {
            report("surface.radius", messages::joined({"must be at least half the width of the board ", at[i]}));
        } else if (!in_all_lanes(is_less(kernel::arc_drop(k, kernel::half_width_at(*this, ends[i])),
                                         kernel::thickness_at<R>(*this, ends[i])))) {
            report(i == 1 && thickness_at_end ? "thickness_at_end" : "thickness",
                   messages::joined({"must be more than the arc falls at the edge ", at[i]}));
        }
    }
    kernel::report_marks(thickness_off_line, "thickness_off_line", report);
    for (std::size_t i = 0; i < thickness_off_line.size(); ++i) {
        const length<R> x = thickness_off_line[i].x;
        if (!in_all_lanes(number<R>(0) < x.value()) || !in_all_lanes(x.value() < board_length.value())) {
            continue;
        } // the ends were checked above
        const curvature<R> k = kernel::arc_curvature(surface, x);
        if (!in_all_lanes(
                is_less(kernel::arc_drop(k, kernel::half_width_at(*this, x)), kernel::thickness_at<R>(*this, x)))) {
            report(messages::path_of("thickness_off_line", i, "z"),
                   "must leave the board thicker than the arc falls at its edge there");
        }
    }
    // The places of fanned frets depend on the strings too: they are checked elsewhere.
    if (!scale.fan && in_any_lane(is_less<unit::length, R>(board_length, kernel::fret_position(scale, scale.frets)))) {
        report("board_length", "must reach the last fret");
    }
}

/// Thickness of the board on its centre line at `x` from the nut, on the board.
template <class R = double>
[[nodiscard]] constexpr length<R> thickness_at(const basic_board<R>& b, param<length<R>> x) {
    require_valid(b, "board");
    require("x", x, between(0 * units::mm, 3000 * units::mm));
    require_that(in_all_lanes(x.value() <= b.board_length.value()), "x", "must lie on the board");
    return kernel::thickness_at<R>(b, x);
}

/// Half the width of the board at `x` from the nut, by its straight taper. `x` may lie off the board: the taper goes on
/// to where its edges would meet.
template <class R = double>
[[nodiscard]] constexpr length<R> half_width_at(const basic_board<R>& b, param<length<R>> x) {
    require("board.board_length", b.board_length, more_than(0 * units::mm));
    const length<R> half = kernel::half_width_at<R>(b, x);
    require_that(all_finite(half) && in_all_lanes(number<R>(0) <= half.value()), "taper of the board",
                 "must keep the edges apart: at this place the width would be negative");
    return half;
}

} // namespace tautline
