#pragma once
/// @file
/// Findings as a sheet tells them: what holds for several strings is told once.

#include <algorithm>
#include <string>
#include <vector>

#include "../core/to_text.hpp"
#include "../strings/string_names.hpp"
#include "finding.hpp"

namespace tautline {

/// A finding in one sentence, about one string or several.
struct told_finding {
    finding_kind kind{};           ///< what it is about
    tautline::severity severity{}; ///< how bad it is
    std::string sentence{};        ///< for the repairer
};

namespace kernel {

/// What a finding says of its string behind the string's name; empty where it does not begin with that name.
[[nodiscard]] inline std::string_view said_of_string(const finding& f, const string_names& names) {
    if (!f.string_index || *f.string_index >= names.size()) { return {}; }
    const std::string begins = messages::joined({names.name_at_start(*f.string_index), ": "});
    const std::string_view all = f.sentence;
    return all.starts_with(begins) ? all.substr(begins.size()) : std::string_view();
}

} // namespace kernel

/// The findings in their order. Those that say the same of several strings become one, at the place of the first of them,
/// and so do those of strings whose strength is unknown; these tell the least and the most stress that their cores bear.
/// @param names what the strings are called
[[nodiscard]] inline std::vector<told_finding> findings_told(const std::vector<finding>& findings,
                                                             const string_names& names) {
    std::vector<told_finding> all;
    const auto unknown = [](const finding& f) { return f.kind == finding_kind::strength_unknown && f.string_index; };
    const auto alike = [&](const finding& a, const finding& b) {
        if (unknown(a) || unknown(b)) { return unknown(a) && unknown(b); }
        const std::string_view said = kernel::said_of_string(a, names);
        return a.kind == b.kind && a.severity == b.severity && !said.empty() && said == kernel::said_of_string(b, names);
    };
    for (std::size_t k = 0; k < findings.size(); ++k) {
        const finding& f = findings[k];
        const auto like_it = [&](const finding& other) { return &other == &f || alike(f, other); };
        const auto here = findings.begin() + static_cast<std::ptrdiff_t>(k);
        if (std::any_of(findings.begin(), here, like_it)) { continue; }
        std::string which;
        std::size_t count = 0;
        any_quantity least = f.number, most = f.number;
        for (const finding& other : findings) {
            if (!like_it(other) || !other.string_index) { continue; }
            ++count;
            messages::append(which, {which.empty() ? "" : ", ", names.label(*other.string_index)});
            if (other.number.si() < least.si()) { least = other.number; }
            if (most.si() < other.number.si()) { most = other.number; }
        }
        std::string told = f.sentence;
        if (count > 1 && unknown(f)) {
            told = messages::joined({"Strings ", which, ": no strength is known for their cores, which bear ",
                                     bench_text(least), " to ", bench_text(most), "."});
        } else if (count > 1) {
            told = messages::joined({"Strings ", which, ", each: ", kernel::said_of_string(f, names)});
        }
        all.push_back({f.kind, f.severity, std::move(told)});
    }
    return all;
}

} // namespace tautline
