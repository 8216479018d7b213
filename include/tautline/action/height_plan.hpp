#pragma once
/// @file
/// Heights solved backwards: how deep to cut the slot and how high to set the saddle for wanted heights.
///
/// Source: a straight line through two wanted points.

#include "height.hpp"

namespace tautline {

/// A height that is wanted over one fret.
template <class R = double>
struct basic_height_wish {
    using real = R;
    needed<length<R>> x;      ///< the crest's place
    needed<length<R>> crest;  ///< the crest's height under the string, under load
    needed<length<R>> wanted; ///< from crest to the string's underside, more than 0

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument(), self.x...);
        visit("crest", about_an_instrument(), self.crest...);
        visit("wanted", between(0.001 * units::mm, 30 * units::mm), self.wanted...);
    }
};
using height_wish = basic_height_wish<double>;

/// The line that meets the wishes, and the changes that make it; positive is up.
template <class R = double>
struct basic_height_plan {
    using real = R;
    basic_string_line<R> line; ///< the string's underside with its new ends
    length<R> slot_change{};   ///< negative: the slot must be cut deeper
    length<R> saddle_change{}; ///< negative: the saddle comes down
};
using height_plan = basic_height_plan<double>;

namespace kernel {

template <class R>
void require_action(const basic_height_wish<R>& wish, const length<R>& gauge) {
    require("gauge", gauge, more_than_up_to(0 * units::mm, 10 * units::mm));
    require_that(in_all_lanes(number<R>(0.5L) * gauge.value() <= wish.wanted.value()), "action.wanted",
                 "must be at least half the string's gauge: the string would rattle on the fret at the softest touch");
}

} // namespace kernel

/// Slot and saddle heights for two wanted heights: one near the nut (usually at fret 1) and the action further up the
/// board.
/// @param now   the string as it runs; its places along x are kept
/// @param first the wish near the nut
/// @param action the wish nearer the saddle (usually at the octave fret); wanted at least half the gauge
template <class R = double>
[[nodiscard]] basic_height_plan<R> plan_heights(const basic_string_line<R>& now, const basic_height_wish<R>& first,
                                                const basic_height_wish<R>& action, param<length<R>> gauge) {
    require_valid(now, "string_line");
    require_valid(first, "first");
    require_valid(action, "action");
    kernel::require_action<R>(action, gauge);
    require_that(in_all_lanes(now.nut_x.value() < first.x.value()) && in_all_lanes(first.x.value() < action.x.value()) &&
                     in_all_lanes(action.x.value() < now.saddle_x.value()),
                 "first.x and action.x", "must lie between nut and saddle, in this order");
    const length<R> z1 = first.crest + first.wanted, z2 = action.crest + action.wanted;
    basic_height_plan<R> plan{.line = now};
    plan.line.nut_z = kernel::line_height<R>(first.x, z1, action.x, z2, now.nut_x);
    plan.line.saddle_z = kernel::line_height<R>(first.x, z1, action.x, z2, now.saddle_x);
    plan.slot_change = plan.line.nut_z - now.nut_z;
    plan.saddle_change = plan.line.saddle_z - now.saddle_z;
    return plan;
}

/// Saddle height for one wanted action, the slot left as it is.
template <class R = double>
[[nodiscard]] basic_height_plan<R> plan_saddle_height(const basic_string_line<R>& now, const basic_height_wish<R>& action,
                                                      param<length<R>> gauge) {
    require_valid(now, "string_line");
    require_valid(action, "action");
    kernel::require_action<R>(action, gauge);
    require_that(in_all_lanes(now.nut_x.value() < action.x.value()) &&
                     in_all_lanes(action.x.value() < now.saddle_x.value()),
                 "action.x", "must lie between nut and saddle");
    basic_height_plan<R> plan{.line = now};
    plan.line.saddle_z = kernel::line_height<R>(now.nut_x, now.nut_z, action.x, action.crest + action.wanted, now.saddle_x);
    plan.saddle_change = plan.line.saddle_z - now.saddle_z;
    return plan;
}

} // namespace tautline
