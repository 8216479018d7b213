#pragma once
/// @file
/// What must be known before anything else in a job is read: what would break, which wishes cannot be met, and readings
/// that cannot all be right.

#include "../setup/finding_sentence.hpp"
#include "answer.hpp"
#include "job_words.hpp"

namespace tautline {

/// What is impossible, in sentences. First loads beyond a limit of the setup at the end of the job; then wishes that are
/// not met, each with what stands in the way and the nearest that can be had; then disagreements of the readings. Empty
/// where all is well.
template <class = when_used>
[[nodiscard]] std::vector<std::string> what_cannot_be(const job_answers& a, measures units = measures::metric) {
    std::vector<std::string> all;
    for (const finding& f : a.setups.last().findings) {
        if (f.severity != severity::stop) { continue; }
        all.push_back(messages::joined({"STOP: ", sentence_of(f, a.setups.last().names)}));
    }
    for (const shortfall& f : a.setups.plan.shortfalls) {
        all.push_back(messages::joined({"not met: ", words_of(f, units)}));
    }
    for (const suspicion& s : a.readings.said.suspicions) {
        all.push_back(kernel::suspicion_in_words(a.readings.said, s, units));
    }
    return all;
}
TAUTLINE_HELD(std::vector<std::string> what_cannot_be<>(const job_answers&, measures))

} // namespace tautline
