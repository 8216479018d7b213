#pragma once
/// @file
/// Strings that press their saddle by less than the doubt of that force: they may not stay down.

#include "../core/when_used.hpp"
#include "../setup/setup.hpp"
#include "job_doubts.hpp"

namespace tautline::kernel {

/// Adds a finding for each string whose down-force on the saddle is more than 0, but not by as much as its give or take at
/// about 95 %. A string that lifts off is told already.
template <class = when_used>
void ask_of_doubtful_seats(const setup_doubts& d, setup& s) {
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const force<> press = s.strings[i].at_saddle.down();
        const auto doubt = d.give_or_take(messages::path_of("strings", i, "at_saddle.on_support.z"));
        if (!doubt.has_value() || !(press > 0 * units::N) || !(press.value() < doubt.si())) { continue; }
        s.findings.push_back({.kind = finding_kind::may_lift_off_saddle,
                              .severity = severity::warning,
                              .string_index = i,
                              .number = press,
                              .limit = doubt});
    }
}

} // namespace tautline::kernel
