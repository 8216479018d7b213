#pragma once
/// @file
/// A whole job answered in one call.

#include "asked_results.hpp"
#include "compare.hpp"
#include "job_doubts.hpp"
#include "steps.hpp"

namespace tautline {

/// Everything that a job is asked.
struct job_answers {
    job_setups setups;                   ///< as found and as planned, and what lies between
    std::vector<bench_step> steps{};     ///< from one to the other; none where nothing is to change
    std::vector<setup_change> changes{}; ///< of all results, those that are noticed most first
    setup_doubts found_doubts{};         ///< how sure the numbers as found are
    setup_doubts planned_doubts{};       ///< how sure the numbers as planned are

    /// How sure the numbers at the end of the job are.
    [[nodiscard]] const setup_doubts& last_doubts() const { return setups.planned ? planned_doubts : found_doubts; }
};

/// Answers a job: found, work, planned, wanted, steps, changes, doubts.
///
/// @throws invalid_input for a job that is not valid, and for what only solving shows: a neck that buckles, a plan that
///         cannot be; paths are those of the job
[[nodiscard]] inline job_answers answer(const bench_job& j) {
    job_answers a;
    a.setups = setups_of(j);
    const job_setups& s = a.setups;
    a.found_doubts = doubts_found(j, s);
    if (!s.planned) { return a; }
    a.steps = steps_of(s.found, s.work, s.plan, s.line_before);
    a.changes = compare(s.found, s.plan.solved);
    a.planned_doubts = doubts_planned(j, s);
    return a;
}

} // namespace tautline
