#pragma once
/// @file
/// The changes that a plan takes, once everything is set.

#include "../supports/pinned_bridge.hpp"
#include "reset_wishes.hpp"

namespace tautline::kernel {

/// Places behind the saddle for the wanted break; nothing where some string has none.
template <class R>
[[nodiscard]] std::optional<basic_pin_range<R>> holes_for_break(const basic_wishes<R>& w, const basic_setup<R>& s) {
    std::optional<basic_pin_range<R>> range;
    for (const auto& b : s.bridge_strings) {
        const length<R> drop = b.saddle.z - b.anchor.z;
        if (!in_all_lanes(number<R>(0) < drop.value())) { return std::nullopt; }
        const auto fall = atan2(length<R>(b.saddle.z - b.slot.z), length<R>(b.saddle.x - b.slot.x));
        const auto behind = pin_distance(drop, fall, angle<R>(*w.saddle_break));
        if (!behind) { return std::nullopt; }
        range = range ? basic_pin_range<R>{min(range->nearest, *behind), max(range->farthest, *behind)}
                      : basic_pin_range<R>{*behind, *behind};
    }
    return range;
}

/// Tells where each string's own saddle is set.
template <class R>
void tell_singles(const height_targets<R>& targets, basic_setup_plan<R>& plan) {
    const auto &from = plan.base.instrument.saddle, &to = plan.adjusted.instrument.saddle;
    for (std::size_t i = 0; i < to.single.size(); ++i) {
        const auto& one = plan.solved.strings[i];
        basic_single_setting<R> set;
        set.setback_change = to.single[i].setback - from.single[i].setback;
        set.setback = plan.start.instrument.saddle.single[i].setback + set.setback_change;
        if (targets.action) { set.height_left = one.heights[targets.fret] - targets.action_at(plan.solved, i); }
        if (plan.solved.octave_fret > 0) {
            set.octave_left = one.notes[static_cast<std::size_t>(plan.solved.octave_fret - 1)].error;
        }
        plan.singles.push_back(set);
    }
}

/// Tells the changes from start to end, read off both. On a neck that is reset these are what is done on the body.
template <class R>
void tell_changes(const basic_wishes<R>& w, basic_setup_plan<R>& plan) {
    const auto &from = plan.base.instrument, &to = plan.adjusted.instrument;
    const auto &before = plan.room.before, &after = plan.room.after, &found = plan.room.saddle_z;
    saddle_slots(plan.start, plan.solved, plan.room.saddle_z);
    saddle_slots(plan.base, plan.solved, plan.room.before);
    saddle_slots(plan.adjusted, plan.solved, plan.room.after);
    auto& y = plan.room.y;
    y.clear();
    for (std::size_t i = 0; i < plan.solved.strings.size(); ++i) {
        plan.slot_change.push_back(to.nut.slot_height(i) - from.nut.slot_height(i));
        plan.saddle_height.push_back(found[i] + after[i] - before[i]);
        plan.saddle_change.push_back(after[i] - before[i]);
        y.push_back(plan.solved.strings[i].y_at_saddle);
    }
    const height_targets<R> targets(w, plan.untouched, plan.kept);
    const bool single = !to.saddle.single.empty();
    if (targets.action && !single) {
        // By how much each string misses its action, carried to the saddle: the greatest of all counts.
        for (std::size_t i = 0; i < y.size(); ++i) {
            const auto& one = plan.solved.strings[i];
            const length<R> x = plan.solved.crest_places(one)[targets.fret];
            const length<R> miss = one.heights[targets.fret] - targets.action_at(plan.solved, i);
            plan.saddle_off_arc = max(
                plan.saddle_off_arc,
                abs(length<R>(miss * R(ratio<unit::length, R>(one.line.saddle_x - one.line.nut_x, x - one.line.nut_x)))));
        }
    }
    plan.rod_pull_change = to.neck.pull_of_rod() - from.neck.pull_of_rod();
    if (w.rod_screw && to.neck.rod) { plan.rod_turns = rod_turns<R>(plan.solved.beam, *w.rod_screw, plan.rod_pull_change); }
    const auto back = outer_setbacks(to.saddle), was_back = outer_setbacks(from.saddle);
    plan.setback_change_bass = back.bass - was_back.bass;
    plan.setback_change_treble = back.treble - was_back.treble;
    if (single) { tell_singles(targets, plan); }
    if (w.down_force) { plan.hinge_change = to.tailpiece->hinge_height - from.tailpiece->hinge_height; }
    if (targets.action && w.adjusters && y.size() > 1) {
        const length<R> furthest = length<R>::from_value(number<R>(0.05L));
        require_that(
            in_all_lanes(max(abs(plan.saddle_change.front()), abs(plan.saddle_change.back())).value() <= furthest.value()),
            "wanted.adjusters", "must be left out: no adjuster moves a saddle by more than 50 mm, as is planned");
        plan.adjusters =
            adjuster_moves<R>(*w.adjusters, y.front(), plan.saddle_change.front(), y.back(), plan.saddle_change.back());
    }
    if (w.saddle_break) { plan.pin_holes = holes_for_break(w, plan.solved); }
}

} // namespace tautline::kernel
