#pragma once
/// @file
/// A planned job as steps in the order of the bench: what to take in hand and what to do, with its numbers; the decision,
/// where the trade makes one; and the check that proves the step. Order and checks are common practice, no source.

#include "../core/quantity_text.hpp"
#include "../setup/finding_sentence.hpp"
#include "in_hand.hpp"
#include "setting_steps.hpp"
#include "work_steps.hpp"

namespace tautline {

namespace kernel {

/// Adds the outer strings' heights at the first fret and at the action's fret.
/// @param as how they are worked to; as found they are not
template <class Setup>
void add_heights(std::vector<step_line>& out, const Setup& s, int action_fret, worked_as as) {
    const std::size_t count = s.strings.size(), action = static_cast<std::size_t>(action_fret);
    if (action == 0) { return; }
    for (const std::size_t n : {std::size_t{1}, action}) {
        for (const std::size_t i : {s.first_string_at(n), count - 1}) {
            out.push_back(worked({messages::joined({"height over fret ", n, " of ", s.names.name(i)}),
                                  length<>(s.strings[i].heights[n - 1]), false, i},
                                 as, messages::path_of(messages::path_of("strings", i, "heights"), n - 1)));
            if (count == 1) { break; }
        }
        if (action == 1) { break; }
    }
}

template <class Job>
[[nodiscard]] bench_step measuring(const Job& j) {
    bench_step s{bench_stage::measure, "Look it over, and measure it strung", {}, "", ""};
    s.checked = bench_state::at_pitch;
    if (j.found.relief) { s.lines.push_back({"relief", length<>(j.found.relief->gap), false}); }
    add_heights(s.lines, j.found, j.plan.action_fret, worked_as::value);
    s.check =
        "What the instrument shows is noted as readings: all numbers here then follow it, and a reading that cannot be "
        "is named.";
    return s;
}

/// Rise of a slack neck's nut by its rod alone, and by what bends it without any load; negative is a fall.
template <class R>
[[nodiscard]] length<> nut_rise_by_rod(const basic_neck_beam<R>& beam, const force<R>& pull) {
    return bend<R>(beam, {}, pull).nut_rise();
}

template <class Job>
[[nodiscard]] bench_step slackening(const Job& j) {
    bench_step s{bench_stage::slacken, "Slacken all strings, a little at each in turn", {}, "", ""};
    s.lines.push_back({"all strings together pull", j.found.total_tension, false});
    // A rod that is left as it is set then bends the neck back alone.
    const auto& neck = j.plan.start.instrument.neck;
    const bool pulls = neck.pull_of_rod() != 0 * units::N;
    s.lines.push_back({pulls ? "the rod left as it is set, the nut falls back by" : "the nut falls back by",
                       length<>(j.found.nut_rise - kernel::nut_rise_by_rod(j.found.beam, neck.pull_of_rod())), false});
    if (j.found.top) {
        const length<> sink = j.found.top->sink;
        s.lines.push_back(
            {sink < 0 * units::mm ? "the top under the bridge goes down by" : "the top under the bridge comes up by",
             tautline::abs(sink), false});
    }
    if (j.plan.start.instrument.tailpiece) {
        s.lines.push_back({"mark where the bridge's feet stand: nothing holds it once the strings are slack", {}, false});
    }
    s.check = "No string carries load, and the neck has rested.";
    return s;
}

/// What to read on the slack instrument before anything is taken off it.
template <class Job>
[[nodiscard]] bench_step measuring_slack(const Job& j) {
    bench_step s{bench_stage::measure_slack, "Measure it slack", {}, "", ""};
    const force<> pull = j.plan.start.instrument.neck.pull_of_rod();
    if (pull != 0 * units::N) {
        s.lines.push_back(
            {"what is noted as read slack, while the rod still pulls as it is set (that its pull falls somewhat as the "
             "strings come off is not counted)",
             {},
             false});
        s.lines.push_back({rod_slackened(j)
                               ? "then loosen the rod until it bears nothing, and count its turns: its pull would bend the "
                                 "neck while it is worked on"
                               : "then loosen the rod until it bears nothing, count its turns, and set it back by them "
                                 "once the board is measured",
                           {},
                           false});
        const length<> up = nut_rise_by_rod(j.found.beam, force<>()) - nut_rise_by_rod(j.found.beam, pull);
        s.lines.push_back(
            {up < 0 * units::mm ? "with the rod loose the nut goes down by" : "with the rod loose the nut comes up by",
             tautline::abs(up), false});
    }
    s.lines.push_back(
        {"the board's line and set along it, the slots' bottoms over the board, crowns and thicknesses", {}, false});
    if (j.found.top) { s.lines.push_back({"how high the bridge stands now, against strung", {}, false}); }
    s.check =
        pull != 0 * units::N
            ? "What it shows is noted as measurements and as readings that are taken slack; what is read with the rod "
              "loose is of a state that says so."
            : "What it shows is noted as measurements and as readings that are taken slack.";
    return s;
}

/// What stands in the way of the work is taken off.
template <class Job>
void taking_off(const Job& j, std::vector<bench_step>& steps) {
    const auto& built = j.plan.start.instrument;
    bench_step s{bench_stage::take_off, "Take off what is in the way", {}, "", ""};
    const bool raises_slot = raises_slots(j.plan);
    if (j.work.removal) {
        s.lines.push_back({built.board.scale.zero_fret ? "the guide at the nut, and the zero fret with the frets"
                                                       : "the nut, its seat cleaned",
                           {},
                           false});
    } else if (raises_slot) {
        s.lines.push_back({"the nut, to be shimmed or made new", {}, false});
    }
    if (j.work.new_frets || j.work.removal) {
        s.lines.push_back({"the frets, warmed and drawn straight up, chips glued back", {}, false});
    }
    const bool in_the_way = !s.lines.empty() || j.work.levelling || j.plan.hinge_change || turns_neck(j.plan);
    if (built.tailpiece && in_the_way) { s.lines.push_back({"tailpiece and bridge, their places marked", {}, false}); }
    if (s.lines.empty()) { return; }
    s.decision = raises_slot && !j.work.removal
                     ? "The trade shims a nut or makes a new one: a shim of its own kind keeps the "
                       "slots, a new one lasts."
                     : "";
    s.check = "Whatever tore or chipped is glued back; seats are clean and flat.";
    steps.push_back(s);
}

/// What becomes of the load on the soundboard, in a sentence. Where a bridge holds the strings' ends the load may be near
/// zero or lift. A share of it then says nothing, and both loads are told.
[[nodiscard]] inline std::string load_on_top(const force<>& found, const force<>& planned) {
    const auto told = [](const force<>& load) {
        return messages::joined({load < 0 * units::N ? "lifted with " : "pressed with ",
                                 number_text(static_cast<long double>(std::round(std::abs(load / units::N)))), " N"});
    };
    const double by = 100 * (planned / found - 1);
    if (!(found > 20 * units::N) || !(planned > 0 * units::N) || std::abs(by) > 100) {
        if (told(found) == told(planned)) { return messages::joined({"The top is ", told(planned), ", as before."}); }
        return messages::joined({"The top is ", told(planned), "; as found it is ", told(found), "."});
    }
    if (std::abs(by) < 0.5) { return messages::joined({"The top is pressed as before."}); }
    return messages::joined({"The top is pressed ", number_text(static_cast<long double>(std::round(std::abs(by)))), " % ",
                             by > 0 ? "more" : "less", " than as found",
                             by > 5 ? ": whether it bears that is for a qualified repairer to judge." : "."});
}

template <class Job>
[[nodiscard]] bench_step stringing_up(const Job& j) {
    bench_step s{bench_stage::string_up, "String up, all strings to pitch in turns", {}, "", ""};
    for (std::size_t i = 0; i < j.plan.solved.strings.size(); ++i) {
        const auto& solved = j.plan.solved;
        s.lines.push_back(of_each("tension of ", solved.names, i, solved.strings[i].tension, false));
    }
    s.lines.push_back({"all together", j.plan.solved.total_tension, false});
    s.lines.push_back({"down-force on the saddle", j.plan.solved.down_force, false});
    if (j.found.top_force && j.plan.solved.top_force) {
        s.decision = load_on_top(*j.found.top_force, *j.plan.solved.top_force);
    }
    s.checked = bench_state::at_pitch;
    s.check = "Tuned and settled; nothing creaks, lifts or opens. Eyes are protected.";
    return s;
}

template <class Job>
[[nodiscard]] bench_step checking(const Job& j) {
    bench_step s{bench_stage::check, "Check the whole", {}, "", ""};
    s.checked = bench_state::at_pitch;
    if (j.plan.solved.relief) { s.lines.push_back(relief_line("relief", j.plan.solved)); }
    add_heights(s.lines, j.plan.solved, j.plan.action_fret, worked_as::height);
    for (const auto& f : j.plan.solved.findings) {
        if (f.severity == severity::note) { continue; }
        std::string sentence = sentence_of(f, j.plan.solved.names);
        sentence.pop_back(); // its full stop: a line ends without one
        s.lines.push_back({std::move(sentence), {}, false});
    }
    for (const auto& f : j.plan.shortfalls) {
        s.lines.push_back({messages::joined({"not met: ", f.wish, ", ", f.why}), {}, false});
    }
    for (const auto& r : j.plan.remarks) {
        step_line line{messages::joined({r.wish, ": ", r.sentence}), r.number, false};
        if (r.number.has_value()) { line.told = told_as_crown(); }
        s.lines.push_back(std::move(line));
    }
    s.check = "Every note rings clean; numbers measured now go into the file as found.";
    return s;
}

} // namespace kernel

/// The steps of a job.
/// @param found the setup as found, solved
/// @param work outcome of the work on board and frets
/// @param plan made from `work.after`
/// @param line_before height over the soundboard at which the board's line would pass the saddle after the work alone.
/// Where the plan starts from another height the neck is reset by hand, and the turn that takes is told
/// @param crown_before crown of the zero fret after the work alone, where another is planned by hand
/// @param rod_loose whether work already done has left the rod loose, so that it must be set
template <class R>
[[nodiscard]] std::vector<bench_step> steps_of(const basic_setup<R>& found, const basic_work_done<R>& work,
                                               const basic_setup_plan<R>& plan,
                                               const std::optional<length<>>& line_before = {},
                                               const std::optional<length<>>& crown_before = {}, bool rod_loose = false) {
    const kernel::planned_job<basic_setup<R>, basic_work_done<R>, basic_setup_plan<R>> whole{
        found, work, plan, line_before, crown_before, rod_loose};
    std::vector<bench_step> steps{kernel::measuring(whole), kernel::slackening(whole), kernel::measuring_slack(whole)};
    kernel::taking_off(whole, steps);
    kernel::reset_step(whole, steps);
    kernel::board_steps(whole, steps);
    kernel::fret_steps(whole, steps);
    kernel::neck_step(whole, steps);
    kernel::nut_step(whole, steps);
    kernel::zero_fret_step(whole, steps);
    kernel::bridge_step(whole, steps);
    kernel::anchor_step(whole, steps);
    steps.push_back(kernel::stringing_up(whole));
    kernel::finishing(whole, steps);
    steps.push_back(kernel::checking(whole));
    for (bench_step& s : steps) { s.in_hand = kernel::tools_for(whole, steps, s.stage); }
    return steps;
}

} // namespace tautline
