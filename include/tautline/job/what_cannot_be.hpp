#pragma once
/// @file
/// What must be known before anything else in a job is read: what would break, which wishes cannot be met, and readings
/// that cannot all be right.

#include <cmath>
#include <string>
#include <vector>

#include "../core/by_path.hpp"
#include "../setup/findings_told.hpp"
#include "answer.hpp"
#include "asked_results.hpp"
#include "job_words.hpp"
#include "rounding_room.hpp"

namespace tautline {

namespace kernel {

/// How what comes nearest to a wish is told: as the sheet tells the planned result, where it is one of its first.
template <class = when_used>
[[nodiscard]] bench_rounding told_of_nearest(const job_answers& a, const any_quantity& nearest) {
    const setup& last = a.setups.last();
    if (!nearest.has_value() || last.strings.empty()) { return {}; }
    for (const asked_result& asked : asked_results({}, last)) {
        const any_quantity planned = find_at(last, asked.path);
        if (planned.kind() != nearest.kind() || std::abs(planned.si() - nearest.si()) > 1e-9) { continue; }
        return rounding_of(asked, a.last_doubts().give_or_take(asked.path));
    }
    return {};
}

} // namespace kernel

/// What is impossible, in sentences. First loads beyond a limit of the setup at the end of the job; then wishes that are
/// not met, each with what stands in the way and the nearest that can be had; then disagreements of the readings, and a
/// warning where numbers follow them. Empty where all is well.
/// @param fine whether what comes nearest is told with its fine digits, and not in steps of the bench
template <class = when_used>
[[nodiscard]] std::vector<std::string> what_cannot_be(const job_answers& a, measures units = measures::metric,
                                                      bool fine = false) {
    std::vector<std::string> all;
    for (const told_finding& f : findings_told(a.setups.last().findings, a.setups.last().names, units)) {
        if (f.severity == severity::stop) { all.push_back(messages::joined({"STOP: ", f.sentence})); }
    }
    for (const shortfall& f : a.setups.plan.shortfalls) {
        all.push_back(messages::joined(
            {"not met: ", words_of(f, units, fine ? bench_rounding{} : kernel::told_of_nearest(a, f.nearest))}));
    }
    for (const suspicion& s : a.readings.said.suspicions) {
        all.push_back(kernel::suspicion_in_words(a.readings.said, s, units));
    }
    if (a.learnt.in_doubt) { all.emplace_back(measure_first); }
    return all;
}
TAUTLINE_HELD(std::vector<std::string> what_cannot_be<>(const job_answers&, measures, bool))

} // namespace tautline
