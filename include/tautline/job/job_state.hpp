#pragma once
/// @file
/// One state of an answered job as a whole: as found, or as planned.

#include <string>
#include <string_view>
#include <vector>

#include "../core/when_used.hpp"
#include "answer.hpp"
#include "numbered_paths.hpp"

namespace tautline {

/// The instrument in one state of a job, its setup, what lies under its strings, and how sure its numbers are. It refers
/// into the job and its answers: both must outlive it.
struct job_state {
    std::string_view name;                    ///< "found" or "planned"
    const strung_instrument& on;              ///< the instrument
    const setup& is;                          ///< its solved setup
    const std::vector<named_object>& objects; ///< what lies under its strings
    const std::vector<object_seat>& seats;    ///< how these lie
    const setup_doubts& doubts;               ///< doubts of its results

    /// A path with the string that it is about beside it: "strings[0].tension (6 E2)".
    [[nodiscard]] std::string named(std::string_view path) const {
        return path_with_string(path, is.names, on.instrument.nut.slot_heights.size());
    }
};

/// The states of a job: as found, and as planned where something is to change.
template <class = when_used>
[[nodiscard]] std::vector<job_state> states_of(const bench_job& j, const job_answers& a) {
    const job_setups& s = a.setups;
    std::vector<job_state> states{{"found", s.as_found, s.found, j.objects, s.found_seats, a.found_doubts}};
    if (s.planned) { states.push_back({"planned", s.plan.adjusted, s.plan.solved, s.objects, s.seats, a.planned_doubts}); }
    return states;
}
TAUTLINE_HELD(std::vector<job_state> states_of<>(const bench_job&, const job_answers&))
/// @copydoc states_of
std::vector<job_state> states_of(const bench_job&, job_answers&&) = delete;

} // namespace tautline
