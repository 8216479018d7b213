#pragma once
/// @file
/// One step of a job at the bench: what to do, its numbers, the decision and the check.

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "../work/held_neck.hpp"
#include "bench_rounding.hpp"
#include "setup_plan.hpp"

namespace tautline {

/// Where in the job a step belongs.
enum class bench_stage {
    measure,
    slacken,
    measure_slack,
    take_off,
    reset_neck,
    straighten_neck,
    sand_board,
    deepen_slots,
    fit_frets,
    level_frets,
    set_rod,
    cut_nut,
    set_saddle,
    hang_tailpiece,
    string_up,
    finish,
    check,
};

/// The state of the instrument. A strung value can only be read at pitch.
enum class bench_state {
    at_pitch, ///< strung and tuned
    slack,    ///< no string carries load
};

/// The state of the instrument once the work of a stage is done. Its check is made then.
[[nodiscard]] constexpr bench_state state_after_stage(bench_stage stage) {
    return stage < bench_stage::slacken || bench_stage::string_up <= stage ? bench_state::at_pitch : bench_state::slack;
}

/// Name of a stage for programs; it does not change. No job has two steps of one stage.
[[nodiscard]] constexpr std::string_view id_of(bench_stage stage) {
    constexpr std::string_view ids[] = {"measure",         "slacken",    "measure_slack", "take_off",       "reset_neck",
                                        "straighten_neck", "sand_board", "deepen_slots",  "fit_frets",      "level_frets",
                                        "set_rod",         "cut_nut",    "set_saddle",    "hang_tailpiece", "string_up",
                                        "finish",          "check"};
    return ids[static_cast<std::size_t>(stage)];
}

/// One number of a step, or a sentence without one.
struct step_line {
    std::string what{};     ///< what the number is
    any_quantity number{};  ///< absent: the line is a sentence, without its full stop
    bool is_change = false; ///< told with its sign; positive is up, back or more
    /// Place of its string in the instrument's list, from 0; absent where the line is not about one string.
    std::optional<std::size_t> string_index{};
    bool one_of_all = false; ///< whether every string has such a line in this step
    bench_rounding told{};   ///< how the number is told to who works to it
    /// The result or the setting that is worked to, by its path in the solved setup or in the strung instrument; "board"
    /// for what is sanded off. Empty where nothing is.
    std::string of{};
    double for_each = 1; ///< change of the number for each unit of that setting, in SI; without its sign
};

/// One step.
struct bench_step {
    bench_stage stage{};            ///< where in the job it belongs
    std::string title{};            ///< what to do
    std::vector<step_line> lines{}; ///< its numbers
    std::string decision{};         ///< empty where there is nothing to decide
    std::string check{};            ///< how to know that the step is done
    /// The state that the check needs. Strung values are read at pitch; places and depths of wood and metal are read
    /// slack.
    bench_state checked = bench_state::slack;
    std::string in_hand{}; ///< what to take in hand for it: a list of tools
};

/// The steps that are left once one is done: those after it, and those that may have to be set again. The step that
/// slackens the strings always stays, since they come off for the others.
[[nodiscard]] inline std::vector<bench_step> steps_left(std::vector<bench_step> steps,
                                                        const std::optional<bench_stage>& done) {
    if (!done) { return steps; }
    const bench_stage first = std::min(bench_stage::set_rod, static_cast<bench_stage>(static_cast<int>(*done) + 1));
    std::erase_if(steps, [&](const bench_step& s) { return s.stage < first && s.stage != bench_stage::slacken; });
    return steps;
}

namespace kernel {

/// How the crown of a zero fret is told: never lower than it is to be.
[[nodiscard]] inline bench_rounding told_as_crown() { return {worked_as::cut, rounded_to::more, {}, {}}; }

} // namespace kernel

/// The path of the bottom of a string's nut slot in a strung instrument.
[[nodiscard]] inline std::string nut_slot_path(std::size_t string) { return messages::path_of("nut.slot_heights", string); }
/// The path of the height of the saddle under a string in a strung instrument: its own, or the bass height of one top under
/// all strings.
template <class R>
[[nodiscard]] std::string saddle_height_path(const basic_saddle<R>& s, std::size_t string) {
    return s.single.empty() ? std::string("saddle.height_bass") : messages::path_of("saddle.single", string, "height");
}

namespace kernel {

/// A whole job, for the functions that write its steps.
template <class Setup, class Work, class Plan>
struct planned_job {
    const Setup& found;
    const Work& work;
    const Plan& plan;
    std::optional<length<>> line_before{};  ///< line of the board at the saddle before the plan; given where a new one is
                                            ///< planned by hand
    std::optional<length<>> crown_before{}; ///< crown of the zero fret before the plan; given where a new one is planned by
                                            ///< hand
    bool rod_loose = false;                 ///< whether work already done has left the rod loose
};

/// Settings that are worked to, by their paths in the strung instrument.
inline constexpr const char *board_line_path = "saddle.board_line", *hinge_path = "tailpiece.hinge_height",
                            *rod_path = "neck.rod_pull", *whole_board = "board";
[[nodiscard]] inline std::string crown_path(std::size_t n) { return messages::path_of("frets.wear", n); }
/// Whether the neck is worked on slack. A rod that pulls must then be loosened before the work and set again after it.
template <class Job>
[[nodiscard]] bool rod_slackened(const Job& j) {
    const bool slack = j.work.held == neck_held::slack || (j.work.levelling && j.work.levelling->held == neck_held::slack);
    return (slack || j.rod_loose) && j.plan.start.instrument.neck.pull_of_rod() != 0 * units::N;
}
/// The same, for work before it is done.
template <class Work, class Neck>
[[nodiscard]] bool worked_with_rod_loose(const Work& work, const Neck& neck) {
    const auto slack = [](const auto& part) { return part && part->held == neck_held::slack; };
    return (slack(work.sanding) || slack(work.levelling)) && neck.pull_of_rod() != 0 * units::N;
}
/// How the neck is when its bare board is measured, in words.
template <class Instrument>
[[nodiscard]] const char* slack_words(const Instrument& i) {
    return i.neck.pull_of_rod() != 0 * units::N ? "strings slack, rod loose" : "strings slack";
}

/// Whether a planned reset is large enough to be measured.
template <class Plan>
[[nodiscard]] bool turns_neck(const Plan& p) {
    return p.reset && (tautline::abs(p.reset->turn) > 0.005 * units::deg || p.reset->edge_cut > 0 * units::mm);
}
/// Whether a reset is planned by hand, by the board's line over the body.
template <class Job>
[[nodiscard]] bool reset_by_hand(const Job& j) {
    return j.line_before && tautline::abs(j.plan.start.instrument.saddle.board_line - *j.line_before) > 0.005 * units::mm;
}

/// A slot that is to come up by less stays as it is: no shim and no feeler is so thin. Common practice, no source.
inline constexpr length<> least_shim = 0.02 * units::mm;
/// Whether some nut slot must come up.
template <class Plan>
[[nodiscard]] bool raises_slots(const Plan& p) {
    return std::any_of(p.slot_change.begin(), p.slot_change.end(), [](const length<>& q) { return q > least_shim; });
}

/// A line whose number is worked to.
/// @param for_each change of the number for each unit of the setting that it is worked to, in SI
[[nodiscard]] inline step_line worked(step_line l, worked_as as, std::string of, rounded_to side = rounded_to::nearest,
                                      double for_each = 1) {
    l.told.as = as;
    l.told.side = side;
    l.of = std::move(of);
    l.for_each = std::abs(for_each);
    return l;
}

/// A line that every string has, such as "change, string 6 (E2)".
[[nodiscard]] inline step_line of_each(const char* what, const string_names& names, std::size_t i,
                                       const any_quantity& number, bool is_change) {
    return {messages::joined({what, names.name(i)}), number, is_change, i, true};
}

} // namespace kernel
} // namespace tautline
