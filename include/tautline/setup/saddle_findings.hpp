#pragma once
/// @file
/// Findings about the saddle itself: how much of it stands out of its bridge, and single saddles beyond their travel.

#include "../instrument/cut_saddle.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// In metres: a saddle that stands out of its slot by less leaves nothing to cut. Common practice, no source.
inline constexpr double barely_out_below = 1e-3;

/// In metres: what is told so near to an end of its travel stands at that end.
inline constexpr double at_end_of_travel = 1e-6;

/// Tells of single saddles whose height or setback lies beyond what they can be set to.
template <class R>
void find_beyond_travel(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto metres = [](const length<R>& q) { return static_cast<double>(value_of(q.value())); };
    for (std::size_t i = 0; i < built.saddle.single.size(); ++i) {
        const auto& one = built.saddle.single[i];
        const auto look = [&](const char* what, const length<R>& is, const auto& least, const auto& most) {
            const bool low = least && metres(is) < metres(*least) - at_end_of_travel;
            const bool high = most && metres(is) > metres(*most) + at_end_of_travel;
            if (!low && !high) { return; }
            out.findings.push_back({.kind = finding_kind::saddle_beyond_travel,
                                    .severity = severity::warning,
                                    .string_index = i,
                                    .number = length<double>::from_value(metres(is)),
                                    .limit = length<double>::from_value(metres(low ? *least : *most)),
                                    .part = what});
        };
        look("height", one.height, one.lowest, one.highest);
        look("setback", one.setback, one.least_setback, one.most_setback);
    }
}

template <class R>
void find_saddle(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    if (const auto* exposed = exposed_saddle(built); exposed && number(length<R>(*exposed)) < barely_out_below) {
        out.findings.push_back({.kind = finding_kind::saddle_barely_out,
                                .severity = severity::warning,
                                .number = length<double>::from_value(number(length<R>(*exposed))),
                                .limit = length<double>::from_value(barely_out_below)});
    }
    find_beyond_travel(built, out);
}

} // namespace tautline::kernel
