#pragma once
/// @file
/// Findings as a sheet tells them: what holds for several strings is told once.

#include <algorithm>
#include <string>
#include <vector>

#include "finding_sentence.hpp"

namespace tautline {

/// A finding in one sentence, about one string or several.
struct told_finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how bad it is
    std::string sentence{};        ///< for the repairer
};

/// The findings in their order. Those of strings whose strength is unknown become one, at the place of the first of them;
/// it tells the least and the most stress that their cores bear.
/// @param names what the strings are called
[[nodiscard]] inline std::vector<told_finding> findings_told(const std::vector<finding>& findings,
                                                             const string_names& names) {
    std::vector<told_finding> all;
    const auto alike = [](const finding& f) { return f.kind == finding_kind::strength_unknown && f.string_index; };
    const auto count = std::count_if(findings.begin(), findings.end(), alike);
    bool told = false;
    for (const finding& f : findings) {
        if (!alike(f) || count < 2) {
            all.push_back({f.kind, f.severity, sentence_of(f, names)});
            continue;
        }
        if (told) { continue; }
        told = true;
        std::string which;
        any_quantity least = f.number, most = f.number;
        for (const finding& other : findings) {
            if (!alike(other)) { continue; }
            messages::append(which, {which.empty() ? "" : ", ", names.label(*other.string_index)});
            if (other.number.si() < least.si()) { least = other.number; }
            if (most.si() < other.number.si()) { most = other.number; }
        }
        all.push_back({f.kind, f.severity,
                       messages::joined({"Strings ", which, ": no strength is known for their cores, which bear ",
                                         bench_text(least), " to ", bench_text(most), "."})});
    }
    return all;
}

} // namespace tautline
