#pragma once
/// @file
/// Findings as a sheet tells them: what holds for several strings is told once.

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "finding_sentence.hpp"

namespace tautline {

/// A finding in one sentence, about one string or several.
struct told_finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how bad it is
    std::string sentence{};        ///< for the repairer
};

/// The findings in their order. Those that say the same of several strings become one, at the place of the first of them,
/// and so do those of strings whose strength is unknown; these tell the least and the most stress that their cores bear.
/// @param names what the strings are called
/// @param units of the numbers in the sentences
[[nodiscard]] inline std::vector<told_finding> findings_told(const std::vector<finding>& findings,
                                                             const string_names& names, measures units = measures::metric) {
    std::vector<std::string> said; // of its string; empty for a finding that is not about one string
    said.reserve(findings.size());
    for (const finding& f : findings) { said.push_back(kernel::said_of_string(f, units)); }
    const auto unknown = [&](std::size_t k) { return findings[k].kind == finding_kind::strength_unknown; };
    const auto alike = [&](std::size_t a, std::size_t b) {
        if (a == b || said[a].empty() || findings[a].kind != findings[b].kind) { return a == b; }
        return unknown(a) || (findings[a].severity == findings[b].severity && said[a] == said[b]);
    };
    std::vector<told_finding> all;
    for (std::size_t k = 0; k < findings.size(); ++k) {
        const finding& f = findings[k];
        std::string which;
        std::size_t count = 0;
        bool told_before = false;
        any_quantity least = f.number, most = f.number;
        for (std::size_t other = 0; other < findings.size(); ++other) {
            if (!alike(k, other) || !findings[other].string_index) { continue; }
            told_before = told_before || other < k;
            ++count;
            messages::append(which, {which.empty() ? "" : ", ", names.label(*findings[other].string_index)});
            if (findings[other].number.si() < least.si()) { least = findings[other].number; }
            if (most.si() < findings[other].number.si()) { most = findings[other].number; }
        }
        if (told_before) { continue; }
        std::string sentence;
        if (count < 2) {
            sentence = sentence_of(f, names, units);
        } else if (unknown(k)) {
            sentence =
                messages::joined({"Strings ", which, ": no strength is known for their cores, which bear ",
                                  bench_text(least, {.units = units}), " to ", bench_text(most, {.units = units}), "."});
        } else {
            sentence = messages::joined({"Strings ", which, ", each: ", said[k]});
        }
        all.push_back({f.kind, f.severity, std::move(sentence)});
    }
    return all;
}

/// What the findings as found say of measures that the end of a job no longer shows: a single saddle that was told to stand
/// beyond its travel, and is set within it.
/// @param last findings at the end of the job
[[nodiscard]] inline std::vector<told_finding> told_as_found_only(const std::vector<finding>& found,
                                                                  const std::vector<finding>& last,
                                                                  const string_names& names,
                                                                  measures units = measures::metric) {
    std::vector<finding> only;
    for (const finding& f : found) {
        if (f.kind != finding_kind::saddle_beyond_travel) { continue; }
        const bool stays = std::any_of(last.begin(), last.end(), [&](const finding& l) {
            return l.kind == f.kind && l.string_index == f.string_index && l.part == f.part;
        });
        if (!stays) { only.push_back(f); }
    }
    return findings_told(only, names, units);
}

} // namespace tautline
