#pragma once
/// @file
/// One step of a job at the bench: what is done, its numbers, the decision and the check.

#include <algorithm>
#include <string>
#include <vector>

#include "held_neck.hpp"
#include "planned.hpp"

namespace tautline {

/// Where in the job a step stands.
enum class bench_stage {
    measure,
    slacken,
    reset_neck,
    sand_board,
    deepen_slots,
    fit_frets,
    level_frets,
    set_rod,
    cut_nut,
    set_saddle,
    hang_tailpiece,
    string_up,
    check,
};

/// One number of a step, or a sentence without one.
struct step_line {
    std::string what{};     ///< what the number is
    finding_value number{}; ///< none: the line is a sentence
    bool is_change = false; ///< told with its sign: + is up, back or more
};

/// One step.
struct bench_step {
    bench_stage stage{};            ///< where in the job
    std::string title{};            ///< what is done
    std::vector<step_line> lines{}; ///< its numbers
    std::string decision{};         ///< empty where there is nothing to decide
    std::string check{};            ///< how to know that it is done
};

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

[[nodiscard]] inline std::string numbered(const char* what, std::size_t i) { return messages::joined({what, i + 1}); }

} // namespace kernel
} // namespace tautline
