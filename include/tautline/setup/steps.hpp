#pragma once
/// @file
/// A planned job as steps in the order of the bench: what to do, with its numbers, the decision where the trade makes one,
/// and the check that proves the step. Order and checks are common practice, no source.

#include "bench_work.hpp"
#include "setting_steps.hpp"

namespace tautline {

namespace kernel {

/// Heights at the first fret and at the one where action is told, outer strings.
template <class Setup>
void add_heights(std::vector<step_line>& out, const Setup& s, int action_fret) {
    const std::size_t count = s.strings.size(), action = static_cast<std::size_t>(action_fret);
    if (action == 0) { return; }
    for (const std::size_t n : {std::size_t{1}, action}) {
        for (const std::size_t i : {std::size_t{0}, count - 1}) {
            out.push_back({messages::joined({"height of string ", i + 1, " over fret ", n}),
                           length<>(s.strings[i].heights[n - 1]), false});
            if (count == 1) { break; }
        }
        if (action == 1) { break; }
    }
}

template <class Job>
[[nodiscard]] bench_step measuring(const Job& j) {
    bench_step s{bench_stage::measure, "Measure before anything is slackened", {}, "", ""};
    if (j.found.relief) { s.lines.push_back({"relief", length<>(j.found.relief->gap), false}); }
    add_heights(s.lines, j.found, j.plan.action_fret);
    s.check = "The instrument shows these numbers within their doubt; where it does not, correct the job file first.";
    return s;
}

template <class Job>
[[nodiscard]] bench_step slackening(const Job& j) {
    bench_step s{bench_stage::slacken, "Slacken all strings, a little at each in turn", {}, "", ""};
    s.lines.push_back({"all strings together pull", j.found.total_tension, false});
    s.lines.push_back({"the nut falls back by", j.found.nut_rise, false});
    if (j.found.top) { s.lines.push_back({"the top under the bridge comes up by", j.found.top->sink, false}); }
    if (j.plan.start.instrument.tailpiece) {
        s.lines.push_back({"mark where the bridge's feet stand: nothing holds it once the strings are slack", {}, false});
    }
    s.check = "No string carries load; the neck has rested before it is measured slack.";
    return s;
}

/// A warning of a sanding as a line with its number: what is left at the worst place.
template <class Caution>
[[nodiscard]] step_line warning_line(const Caution& c) {
    const std::string at = fret_or_nut(c.worst_fret);
    switch (c.what) {
    case reradius_warning::slot_too_shallow:
        return {messages::joined({"shallowest slot, at ", at}), c.left, false};
    case reradius_warning::slot_gone:
        return {messages::joined({"slots are sanded away and must be cut anew, most at ", at}), c.left, false};
    case reradius_warning::binding_limit:
        return {messages::joined({"too little binding left, at ", at}), c.left, false};
    case reradius_warning::edge_limit:
        return {messages::joined({"too little height left at the board's edge, at ", at}), c.left, false};
    case reradius_warning::inlay_limit:
        return {messages::joined({"too little inlay left, at ", at}), c.left, false};
    case reradius_warning::not_cleaned_up:
        return {messages::joined({"the old surface stays lower than the new, at ", at, " by"}), -c.left, false};
    }
    return {};
}

template <class Job>
void board_steps(const Job& j, std::vector<bench_step>& steps) {
    if (!j.work.removal) { return; }
    const auto& off = *j.work.removal;
    bench_step s{bench_stage::sand_board, "Sand the board to its new arc", {}, "", ""};
    if (off.wanted.radius) {
        s.lines.push_back({off.wanted.radius_at_end ? "radius at the nut" : "radius", length<>(*off.wanted.radius), false});
    }
    if (off.wanted.radius_at_end) {
        s.lines.push_back({"radius at the far end", length<>(*off.wanted.radius_at_end), false});
    }
    s.lines.push_back({"off the centre line at the nut", length<>(off.at_nut), false});
    s.lines.push_back({"off the centre line at the end", length<>(off.at_end), false});
    const auto& board = j.work.on.instrument.board;
    s.lines.push_back({"thickness left at the nut", length<>(board.thickness), false});
    s.lines.push_back({"thickness left at the end", kernel::thickness_at(board, length<>(board.board_length)), false});
    s.check = "Gauge and straightedge show no light from nut to end; the centre line measures what is left above.";
    steps.push_back(s);
    if (j.work.sanding && j.work.sanding->rows.size() > 1) {
        bench_step slots{bench_stage::deepen_slots, "See to the fret slots", {}, "", ""};
        length<> deepest{};
        for (std::size_t n = 1; n < j.work.sanding->rows.size(); ++n) {
            deepest = std::max(deepest, j.work.sanding->rows[n].slot_to_deepen);
        }
        slots.lines.push_back({"depth the wire needs", j.work.sanding->needed_slot, false});
        slots.lines.push_back({"deepen by up to", deepest, false});
        for (const auto& c : j.work.sanding->cautions) { slots.lines.push_back(warning_line(c)); }
        slots.check = "A scrap of the tang goes to the bottom of every slot, also at the edges.";
        steps.push_back(slots);
    }
}

template <class Job>
void fret_steps(const Job& j, bool new_wire, std::vector<bench_step>& steps) {
    if (new_wire) {
        const auto& wire = j.work.on.instrument.frets.wire;
        bench_step s{bench_stage::fit_frets, "Fit the new frets", {}, "", ""};
        s.lines.push_back({"crown over the board", length<>(wire.crown_height), false});
        if (j.work.fit) {
            s.lines.push_back({"tang wider than its slot by", j.work.fit->tang_interference, true});
            s.decision = j.work.fit->grip == tang_grip::loose
                             ? "The tang is loose in its slot: glue, fill the slot or take other wire."
                         : j.work.fit->grip == tang_grip::studs
                             ? "The studs hold, the tang has room: the neck stays as it is."
                             : "The tang wedges the slot and bends the neck back: widen the slots or thin the tang unless "
                               "that is wanted.";
        }
        s.check = "Every crown lies on the board along its whole length; a rocker over any three frets is still.";
        steps.push_back(s);
    }
    if (!j.work.levelling) { return; }
    const auto& c = *j.work.levelling;
    bench_step s{bench_stage::level_frets, "Level the frets", {}, "", ""};
    const auto& way = c.choice == fret_choice::level_under_load ? c.under_load : c.slack;
    s.lines.push_back({"metal off all crowns together, neck slack", c.slack.total, false});
    s.lines.push_back({"the same, neck as the strings hold it", c.under_load.total, false});
    for (std::size_t n = 0; n < way.cuts.size(); ++n) {
        if (way.cuts[n] > 0.005 * units::mm) { s.lines.push_back({numbered("off fret ", n), way.cuts[n], false}); }
    }
    s.decision = c.choice == fret_choice::level_slack
                     ? messages::joined({"Level with the neck slack: it takes no more metal than under load."})
                 : c.choice == fret_choice::level_under_load
                     ? messages::joined({"Level with the neck held as under load: that takes less metal."})
                     : messages::joined({"Refret: the file would leave ", way.too_low, " frets lower than they may be."});
    s.check = "A straightedge that follows the neck's hollow touches every crown; crowns are rounded and polished again.";
    steps.push_back(s);
}

template <class Job>
[[nodiscard]] bench_step stringing_up(const Job& j) {
    bench_step s{bench_stage::string_up, "String up, all strings to pitch in turns", {}, "", ""};
    for (std::size_t i = 0; i < j.plan.solved.strings.size(); ++i) {
        s.lines.push_back({numbered("tension of string ", i), j.plan.solved.strings[i].tension, false});
    }
    s.lines.push_back({"all together", j.plan.solved.total_tension, false});
    const double by = 100 * (j.plan.solved.down_force / j.found.down_force - 1);
    s.lines.push_back({"down-force on the saddle", j.plan.solved.down_force, false});
    const std::string how_far = number_text(static_cast<long double>(std::round(std::abs(by))));
    s.decision = messages::joined({"The top is pressed ",
                                   std::abs(by) < 0.5
                                       ? messages::joined({"as before"})
                                       : messages::joined({how_far, " % ", by > 0 ? "more" : "less", " than as found"}),
                                   by > 5 ? ": whether it bears that is for a qualified repairer to judge." : "."});
    s.check = "Tuned and settled; nothing creaks, lifts or opens. Eyes are protected.";
    return s;
}

template <class Job>
[[nodiscard]] bench_step checking(const Job& j) {
    bench_step s{bench_stage::check, "Check the whole", {}, "", ""};
    if (j.plan.solved.relief) { s.lines.push_back({"relief", length<>(j.plan.solved.relief->gap), false}); }
    add_heights(s.lines, j.plan.solved, j.plan.action_fret);
    for (const auto& f : j.plan.solved.findings) {
        if (f.severity != severity::note) { s.lines.push_back({f.sentence, {}, false}); }
    }
    for (const auto& f : j.plan.shortfalls) {
        s.lines.push_back({messages::joined({"not met: ", f.wish, ", ", f.why}), {}, false});
    }
    for (const auto& r : j.plan.remarks) {
        s.lines.push_back({messages::joined({r.wish, ": ", r.sentence}), r.number, false});
    }
    s.check = "Every note rings clean; numbers measured now go into the file as found.";
    return s;
}

} // namespace kernel

/// The steps of a job.
/// @param found    solved as found
/// @param work     what came of the work on board and frets
/// @param new_wire whether new frets are part of it
/// @param plan     made from `work.on`
/// @param line_before where the board's line would pass over the soundboard at the saddle after the work alone; where the
///                 plan starts from another, the neck is reset by hand, and the turn that takes is told
template <class R>
[[nodiscard]] std::vector<bench_step> steps_of(const basic_setup<R>& found, const basic_work_done<R>& work, bool new_wire,
                                               const basic_setup_plan<R>& plan,
                                               const std::optional<length<>>& line_before = {}) {
    const kernel::planned_job<basic_setup<R>, basic_work_done<R>, basic_setup_plan<R>> job{found, work, plan, line_before};
    std::vector<bench_step> steps{kernel::measuring(job), kernel::slackening(job)};
    kernel::reset_step(job, steps);
    kernel::board_steps(job, steps);
    kernel::fret_steps(job, new_wire, steps);
    kernel::neck_step(job, steps);
    kernel::nut_step(job, steps);
    kernel::bridge_step(job, steps);
    kernel::anchor_step(job, steps);
    steps.push_back(kernel::stringing_up(job));
    steps.push_back(kernel::checking(job));
    return steps;
}

} // namespace tautline
