#pragma once
/// @file
/// A job with its answers, for every output.

#include <vector>

#include <tautline/job/job_state.hpp>

namespace bench_sheet {

namespace tl = tautline;

/// A job with its answers, and the states that they describe.
struct whole_job {
    const tl::bench_job& job;
    const tl::job_answers& a;
    std::vector<tl::job_state> states = tl::states_of(job, a);

    [[nodiscard]] const tl::job_state& last() const { return states.back(); }
};

} // namespace bench_sheet
