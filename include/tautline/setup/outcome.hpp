#pragma once
/// @file
/// What a plan comes to once everything is set: the changes to make, and the wishes that stay unmet.

#include "../supports/pinned_bridge.hpp"
#include "findings.hpp"
#include "planned.hpp"
#include "wishes.hpp"

namespace tautline::kernel {

/// Heights of the saddle slots over the soundboard, the instrument slack.
template <class R>
[[nodiscard]] std::vector<length<R>> saddle_slots(const basic_strung_instrument<R>& on, const basic_setup<R>& s) {
    std::vector<length<R>> heights;
    const auto& saddle = on.instrument.saddle;
    for (const auto& one : s.strings) {
        heights.push_back(saddle_height_at<R>(saddle, s.strings.front().y_at_saddle, s.strings.back().y_at_saddle,
                                              length<R>(one.y_at_saddle)));
    }
    return heights;
}

/// Wanted height of string `i` at the first fret and at the action's, from first string to last in proportion.
template <class R>
[[nodiscard]] length<R> wished_at(const basic_setup<R>& s, std::size_t i, const field<length<R>>& bass,
                                  const field<length<R>>& treble) {
    const length<R> spread = s.strings.back().y_at_nut - s.strings.front().y_at_nut;
    const bool one_place = !all(number<R>(0) < spread.value());
    const R share =
        one_place ? number<R>(0) : R(ratio<unit::length, R>(s.strings[i].y_at_nut - s.strings.front().y_at_nut, spread));
    return bass + (treble - bass) * share;
}

/// The neck turned instead of the saddle changed: the line of the crests then points at the saddle as much lower or higher
/// as the saddle would have gone up or down.
template <class R>
[[nodiscard]] std::optional<basic_neck_set<R>> reset_instead(const basic_wishes<R>& w, const basic_setup_plan<R>& plan) {
    const auto& s = plan.solved;
    if (s.crests.size() < 2) { return std::nullopt; }
    std::vector<length<R>> z;
    for (const auto& c : s.crests) { z.push_back(c.z); }
    length<R> mean{};
    for (const auto& change : plan.saddle_change) {
        mean += change * number<R>(1.0L / static_cast<long double>(plan.saddle_change.size()));
    }
    const auto line = sighted_line<R>(s.fret_x, z);
    basic_neck_joint<R> joint;
    joint.x = s.beam.joint;
    joint.saddle_x = plan.set.instrument.board.scale.scale_length;
    if (w.heel_depth) { joint.heel_depth = *w.heel_depth; }
    return neck_set<R>(joint, line, line.at(joint.saddle_x) - mean);
}

/// Places behind the saddle for the wanted break; nothing where some string has none.
template <class R>
[[nodiscard]] std::optional<basic_pin_range<R>> holes_for_break(const basic_wishes<R>& w, const basic_setup<R>& s) {
    std::optional<basic_pin_range<R>> range;
    for (const auto& b : s.bridge_strings) {
        const length<R> drop = b.saddle.z - b.anchor.z;
        if (!all(number<R>(0) < drop.value())) { return std::nullopt; }
        const auto fall = atan2(length<R>(b.saddle.z - b.slot.z), length<R>(b.saddle.x - b.slot.x));
        const auto behind = pin_distance(drop, fall, angle<R>(*w.saddle_break));
        if (!behind) { return std::nullopt; }
        range = range ? basic_pin_range<R>{min(range->nearest, *behind), max(range->farthest, *behind)}
                      : basic_pin_range<R>{*behind, *behind};
    }
    return range;
}

/// The changes from start to set, read off both.
template <class R>
void tell_changes(const basic_wishes<R>& w, basic_setup_plan<R>& plan) {
    const auto &from = plan.start.instrument, &to = plan.set.instrument;
    const auto &slots = from.nut.slot_heights, &new_slots = to.nut.slot_heights;
    const auto before = saddle_slots(plan.start, plan.untouched), after = saddle_slots(plan.set, plan.solved);
    std::vector<length<R>> y;
    for (std::size_t i = 0; i < plan.solved.strings.size(); ++i) {
        plan.slot_change.push_back(new_slots[new_slots.size() == 1 ? 0 : i] - slots[slots.size() == 1 ? 0 : i]);
        plan.saddle_height.push_back(after[i]);
        plan.saddle_change.push_back(after[i] - before[i]);
        y.push_back(plan.solved.strings[i].y_at_saddle);
    }
    if (w.heights()) {
        // What the wanted heights ask of each slot beyond what a cleanly cut top gives.
        for (std::size_t i = 0; i < y.size(); ++i) {
            const auto& one = plan.solved.strings[i];
            const auto fret = static_cast<std::size_t>(w.action_fret) - 1;
            const length<R> miss = one.heights[fret] - wished_at(plan.solved, i, *w.action_bass, *w.action_treble);
            plan.saddle_off_arc =
                max(plan.saddle_off_arc,
                    abs(length<R>(miss * R(ratio<unit::length, R>(one.line.saddle_x, plan.solved.fret_x[fret])))));
        }
        plan.neck_reset = reset_instead(w, plan);
    }
    plan.rod_pull_change = to.neck.rod_pull - from.neck.rod_pull;
    if (w.rod_screw && to.neck.rod) { plan.rod_turns = rod_turns<R>(plan.solved.beam, *w.rod_screw, plan.rod_pull_change); }
    plan.setback_change_bass = to.saddle.setback_bass - from.saddle.setback_bass;
    plan.setback_change_treble = to.saddle.setback_treble - from.saddle.setback_treble;
    if (w.down_force) { plan.hinge_change = to.tailpiece->hinge_height - from.tailpiece->hinge_height; }
    if (w.heights() && w.adjusters && y.size() > 1) {
        plan.adjusters =
            adjuster_moves<R>(*w.adjusters, y.front(), plan.saddle_change.front(), y.back(), plan.saddle_change.back());
    }
    if (w.saddle_break) { plan.pin_holes = holes_for_break(w, plan.solved); }
}

/// How near a wish counts as met: closer than anything at the bench is measured.
inline constexpr double met_within_length = 1e-6, met_within_force = 0.01;

/// Compares what came out with what was wanted. Looks at values only.
template <class R>
void tell_shortfalls(const basic_wishes<R>& w, basic_setup_plan<R>& plan) {
    const auto& s = plan.solved;
    const auto missed = [&](const char* wish, const auto& wanted, const auto& reached, double tolerance, std::string why) {
        const auto asked = plain(wanted), got = plain(reached);
        if (!(std::abs(got.value() - asked.value()) <= tolerance)) {
            plan.shortfalls.push_back({wish, asked, got, std::move(why)});
        }
    };
    if (w.relief && s.relief) {
        const auto& neck = plan.set.instrument.neck;
        missed("relief", *w.relief, s.relief->gap, met_within_length,
               !neck.rod ? "no rod is there to set it by"
               : all(s.relief->gap.value() < w.relief->value())
                   ? "the strings do not pull the neck so far, even with the rod slack"
                   : "the rod would have to pull harder than most_rod_pull allows");
    }
    if (w.heights()) {
        const auto fret = static_cast<std::size_t>(w.action_fret) - 1;
        for (const std::size_t i : {std::size_t{0}, s.strings.size() - 1}) {
            const bool bass = i == 0;
            missed(bass ? "first_fret_bass" : "first_fret_treble",
                   wished_at(s, i, *w.first_fret_bass, *w.first_fret_treble), s.strings[i].heights[0], met_within_length,
                   plan.set.instrument.board.scale.zero_fret
                       ? "a zero fret carries the strings, and its crown sets this height"
                       : "the nut slot would go lower than lowest_slot, or the saddle is held by a limit");
            missed(bass ? "action_bass" : "action_treble", wished_at(s, i, *w.action_bass, *w.action_treble),
                   s.strings[i].heights[fret], met_within_length,
                   "the saddle would pass lowest_saddle or highest_saddle, the nut slot lowest_slot, or the string lie "
                   "lower than half its gauge");
            if (s.strings.size() == 1) { break; }
        }
    }
    if (w.down_force) {
        missed("down_force", *w.down_force, s.down_force, met_within_force,
               "the tailpiece would have to hang beyond hinge_lowest or hinge_highest");
    }
    if (w.saddle_break && !plan.pin_holes) {
        const auto& first = s.strings.front().at_saddle.break_angle;
        plan.shortfalls.push_back({"saddle_break", plain(angle<R>(*w.saddle_break)), plain(first),
                                   "no place behind the saddle gives every string this break"});
    }
}

} // namespace tautline::kernel
