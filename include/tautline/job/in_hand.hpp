#pragma once
/// @file
/// What to take in hand for each step of a job. Tools are those of any bench; common practice, no source.

#include "bench_step.hpp"

namespace tautline::kernel {

/// What takes off that which is in the way.
template <class Job>
[[nodiscard]] std::string tools_to_take_off(const Job& j) {
    std::string tools;
    const auto also = [&](const char* words) { messages::append(tools, {tools.empty() ? "" : "; ", words}); };
    if (j.work.removal || raises_slots(j.plan)) { also("a block of wood and a light hammer for the nut"); }
    if (j.work.removal || j.work.new_frets) { also("a warm iron and pullers for the frets"); }
    if (j.plan.start.instrument.tailpiece) { also("tape to mark places"); }
    return tools;
}

/// What sets saddles: screws and wheels are turned, one top for all strings is cut.
template <class Job>
[[nodiscard]] const char* tools_for_saddle(const Job& j) {
    if (!j.plan.adjusted.instrument.saddle.single.empty()) { return "the key of the saddles' screws, rule, caliper"; }
    if (j.plan.adjusters) { return "caliper, rule; the wheels turn by hand once the strings are slack"; }
    return "caliper, rule, file or abrasive paper on a flat plate";
}

/// What is read at pitch, and what corrects it.
template <class Job>
[[nodiscard]] std::string tools_to_finish(const Job& j, const std::vector<bench_step>& steps) {
    std::string tools = "feelers, rule, tuner";
    for (const bench_step& s : steps) {
        if (s.stage == bench_stage::set_rod) { tools += "; straightedge and the rod's key"; }
        if (s.stage == bench_stage::cut_nut) {
            tools += j.plan.adjusted.instrument.board.scale.zero_fret ? "; crowning file" : "; slot files";
        }
        if (s.stage == bench_stage::set_saddle && !j.plan.adjusters) {
            tools += j.plan.adjusted.instrument.saddle.single.empty() ? "; abrasive paper for the saddle"
                                                                      : "; the key of the saddles' screws";
        }
    }
    return tools;
}

/// What to take in hand for a step, as a list without its full stop.
template <class Job>
[[nodiscard]] std::string tools_for(const Job& j, const std::vector<bench_step>& steps, bench_stage stage) {
    switch (stage) {
    case bench_stage::measure:
        return "tuner, straightedge, feelers, rule, caliper";
    case bench_stage::slacken:
        return "string winder, eye protection";
    case bench_stage::measure_slack:
        return messages::joined({"notched straightedge, feelers, rule, caliper",
                                 j.plan.start.instrument.neck.pull_of_rod() != 0 * units::N ? ", the rod's key" : ""});
    case bench_stage::take_off:
        return tools_to_take_off(j);
    case bench_stage::reset_neck:
        return "what opens the joint (steam, or the key of its bolts), chisel, abrasive strip, straightedge, rule";
    case bench_stage::straighten_neck:
        return j.work.held == neck_held::slack ? "a rest for the body, straightedge" : "the jig, a dial or feelers";
    case bench_stage::sand_board:
        return messages::joined({"a sanding block ",
                                 j.work.removal && j.work.removal->wanted.radius ? "of the radius told" : "that is flat",
                                 ", straightedge, radius gauge, caliper, dust mask"});
    case bench_stage::deepen_slots:
        return "a fret saw with a stop for its depth, a scrap of the tang";
    case bench_stage::fit_frets:
        return "nippers, hammer or press, a short straightedge as rocker, eye protection";
    case bench_stage::level_frets:
        return "long flat file or abrasive beam, ink, straightedge, feelers, crowning file";
    case bench_stage::set_rod:
        return "the rod's key";
    case bench_stage::cut_nut:
        return j.plan.adjusted.instrument.board.scale.zero_fret
                   ? "flat file, crowning file, caliper"
                   : "slot files as wide as their strings, feelers, straightedge";
    case bench_stage::set_saddle:
        return tools_for_saddle(j);
    case bench_stage::hang_tailpiece:
        return j.plan.hinge_change ? "straightedge, rule" : "rule, drill and reamer";
    case bench_stage::string_up:
        return "strings, winder, tuner, eye protection";
    case bench_stage::finish:
        return tools_to_finish(j, steps);
    case bench_stage::check:
        return "tuner, straightedge, feelers, rule, and the job file";
    }
    return {};
}

} // namespace tautline::kernel
