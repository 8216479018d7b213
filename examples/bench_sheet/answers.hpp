#pragma once
/// @file
/// Everything a job is asked: solved as found, worked and set as planned, the steps between and what they change.

#include <tautline/setup/compare.hpp>
#include <tautline/setup/do_work.hpp>
#include <tautline/setup/plan.hpp>
#include <tautline/setup/steps.hpp>

#include "job.hpp"

namespace bench_sheet {

/// The answers of a job.
struct answers {
    tl::setup found{};
    bool planned = false; ///< the file plans or wants something; else the rest is empty
    tl::work_done work{};
    std::optional<tl::length<>> line_before{}; ///< of the board at the saddle after the work, where another is planned
    tl::setup_plan plan{};
    std::vector<named_object> objects{}; ///< as they lie in the end, over the board as it is then
    std::vector<tl::bench_step> steps{};
    std::vector<tl::setup_change> changes{};
};

/// Answers a job that was read without mistakes.
/// @throws tautline::invalid_input for what only solving shows: a neck that buckles, a plan that cannot be
answers answer(const read_job& job);

/// The work that a job plans.
tl::bench_work work_of(const read_job& job);

} // namespace bench_sheet
