#pragma once
/// @file
/// One step of a job at the bench: what is done, its numbers, the decision and the check.

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "../work/held_neck.hpp"
#include "setup_plan.hpp"

namespace tautline {

/// Where in the job a step stands.
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

/// What state the instrument is in: a strung value can only be read at pitch.
enum class bench_state {
    at_pitch, ///< strung and tuned
    slack,    ///< no string carries load
};

/// The state that the instrument is in once a stage's work is done, which is when its check is made.
[[nodiscard]] constexpr bench_state state_after_stage(bench_stage stage) {
    return stage < bench_stage::slacken || bench_stage::string_up <= stage ? bench_state::at_pitch : bench_state::slack;
}

/// What a stage is called where programs read it; stays as it is. No job has two steps of one stage.
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
    any_quantity number{};  ///< none: the line is a sentence, without its full stop
    bool is_change = false; ///< told with its sign: + is up, back or more
    /// Place of its string in the instrument's list, from 0; absent where it is not about one string.
    std::optional<std::size_t> string_index{};
    bool one_of_all = false; ///< every string has such a line in this step
};

/// One step.
struct bench_step {
    bench_stage stage{};            ///< where in the job
    std::string title{};            ///< what is done
    std::vector<step_line> lines{}; ///< its numbers
    std::string decision{};         ///< empty where there is nothing to decide
    std::string check{};            ///< how to know that it is done
    /// What the check needs: a strung value is read at pitch, a place or a depth of wood and metal slack.
    bench_state checked = bench_state::slack;
};

/// The steps that are left once one is done: those behind it, and what may have to be set again. The strings come off for
/// it, so that a job that is strung up begins with slackening.
[[nodiscard]] inline std::vector<bench_step> steps_left(std::vector<bench_step> steps,
                                                        const std::optional<bench_stage>& done) {
    if (!done) { return steps; }
    const bench_stage first = std::min(bench_stage::set_rod, static_cast<bench_stage>(static_cast<int>(*done) + 1));
    std::erase_if(steps, [&](const bench_step& s) { return s.stage < first && s.stage != bench_stage::slacken; });
    return steps;
}

namespace kernel {

/// The whole job, for the writers of its steps.
template <class Setup, class Work, class Plan>
struct planned_job {
    const Setup& found;
    const Work& work;
    const Plan& plan;
    std::optional<length<>> line_before{}; ///< of the board at the saddle, where that is planned by hand
};

/// Whether the neck is worked on slack, so that a rod that pulls must be slackened before and set again after.
template <class Job>
[[nodiscard]] bool rod_slackened(const Job& j) {
    const bool slack = j.work.held == neck_held::slack || (j.work.levelling && j.work.levelling->held == neck_held::slack);
    return slack && j.plan.start.instrument.neck.pull_of_rod() != 0 * units::N;
}

/// A line that every string has: "change, string 6 (E2)".
[[nodiscard]] inline step_line of_each(const char* what, const string_names& names, std::size_t i,
                                       const any_quantity& number, bool is_change) {
    return {messages::joined({what, names.name(i)}), number, is_change, i, true};
}

} // namespace kernel
} // namespace tautline
