#pragma once
/// @file
/// The changes that a plan takes, once everything is set.

#include "../supports/pinned_bridge.hpp"
#include "reset_wishes.hpp"

namespace tautline::kernel {

/// Tells the places behind the saddle for the wanted break; none where some string has none.
template <class R>
void tell_pin_holes(const basic_wishes<R>& w, basic_setup_plan<R>& plan) {
    const auto& s = plan.solved;
    auto& range = plan.pin_holes;
    const auto none = [&] {
        range.reset();
        plan.pin_places.clear();
    };
    for (std::size_t i = 0; i < s.bridge_strings.size(); ++i) {
        const auto& b = s.bridge_strings[i];
        const length<R> drop = b.saddle.z - b.anchor.z;
        if (!in_all_lanes(number<R>(0) < drop.value())) { return none(); }
        const auto fall = atan2(length<R>(b.saddle.z - b.slot.z), length<R>(b.saddle.x - b.slot.x));
        const auto behind = pin_distance(drop, fall, angle<R>(*w.saddle_break));
        if (!behind) { return none(); }
        range = range ? basic_pin_range<R>{min(range->nearest, *behind), max(range->farthest, *behind)}
                      : basic_pin_range<R>{*behind, *behind};
        // Other holes lie as far from its own as they do now.
        plan.pin_places.push_back({*behind, plan.adjusted.instrument.pins->distance + *behind - (b.anchor.x - b.saddle.x)});
    }
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

/// How many heights of slots the instrument before planned values has in common with a plan's start: those of all strings,
/// or none where another number of strings is planned.
template <class R>
[[nodiscard]] bool same_slots(const basic_instrument<R>& stood, const basic_instrument<R>& start, std::size_t strings) {
    const auto all = [&](std::size_t slots) { return slots == 1 || slots == strings; };
    return all(stood.nut.slot_heights.size()) && stood.saddle.single.size() == start.saddle.single.size();
}

/// Adds to the changes of a plan what its planned values change: from how the instrument stood before them to the start.
/// @param stood the instrument before planned values are laid over it
template <class R>
void add_planned_values(const basic_instrument<R>& stood, basic_setup_plan<R>& plan) {
    const auto& start = plan.start.instrument;
    const std::size_t count = plan.solved.strings.size();
    if (same_slots(stood, start, count)) {
        const length<R> first = plan.solved.strings.front().y_at_saddle, last = plan.solved.strings.back().y_at_saddle;
        for (std::size_t i = 0; i < count; ++i) {
            const length<R> y = plan.solved.strings[i].y_at_saddle;
            plan.slot_change[i] = plan.slot_change[i] + start.nut.slot_height(i) - stood.nut.slot_height(i);
            plan.saddle_change[i] = plan.saddle_change[i] + saddle_height_of<R>(start.saddle, i, first, last, y) -
                                    saddle_height_of<R>(stood.saddle, i, first, last, y);
        }
        for (std::size_t i = 0; i < plan.singles.size(); ++i) {
            auto& change = plan.singles[i].setback_change;
            change = change + start.saddle.single[i].setback - stood.saddle.single[i].setback;
        }
        const auto is = outer_setbacks(start.saddle), was = outer_setbacks(stood.saddle);
        plan.setback_change_bass = plan.setback_change_bass + is.bass - was.bass;
        plan.setback_change_treble = plan.setback_change_treble + is.treble - was.treble;
    }
    plan.rod_pull_change = plan.rod_pull_change + start.neck.pull_of_rod() - stood.neck.pull_of_rod();
    if (!stood.tailpiece || !start.tailpiece) { return; }
    const length<R> raised = start.tailpiece->hinge_height - stood.tailpiece->hinge_height;
    const bool moved = !in_all_lanes(raised.value() == number<R>(0));
    if (plan.hinge_change || moved) { plan.hinge_change = (plan.hinge_change ? *plan.hinge_change : length<R>()) + raised; }
}

/// Tells the changes from start to end, read off both. On a neck that is reset these are what is done on the body.
/// @param stood the instrument before planned values are laid over it, from which changes then count; null: the start
template <class R>
void tell_changes(const basic_wishes<R>& w, basic_setup_plan<R>& plan, const basic_instrument<R>* stood) {
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
    const auto back = outer_setbacks(to.saddle), was_back = outer_setbacks(from.saddle);
    plan.setback_change_bass = back.bass - was_back.bass;
    plan.setback_change_treble = back.treble - was_back.treble;
    if (single) { tell_singles(targets, plan); }
    if (w.down_force) { plan.hinge_change = to.tailpiece->hinge_height - from.tailpiece->hinge_height; }
    if (stood) { add_planned_values(*stood, plan); }
    if (w.rod_screw && to.neck.rod) { plan.rod_turns = rod_turns<R>(plan.solved.beam, *w.rod_screw, plan.rod_pull_change); }
    if (targets.action && w.adjusters && y.size() > 1) {
        const length<R> furthest = length<R>::from_value(number<R>(0.05L));
        require_that(
            in_all_lanes(max(abs(plan.saddle_change.front()), abs(plan.saddle_change.back())).value() <= furthest.value()),
            "wanted.adjusters", "must be left out: no adjuster moves a saddle by more than 50 mm, as is planned");
        plan.adjusters =
            adjuster_moves<R>(*w.adjusters, y.front(), plan.saddle_change.front(), y.back(), plan.saddle_change.back());
    }
    if (w.saddle_break) { tell_pin_holes(w, plan); }
}

} // namespace tautline::kernel
