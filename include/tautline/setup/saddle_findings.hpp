#pragma once
/// @file
/// Findings about the saddle itself: how much of it stands out of its bridge.

#include "../instrument/cut_saddle.hpp"
#include "setup.hpp"

namespace tautline::kernel {

/// In metres: a saddle that stands out of its slot by less leaves nothing to cut. Common practice, no source.
inline constexpr double barely_out_below = 1e-3;

template <class R>
void find_saddle(const basic_instrument<R>& built, basic_setup<R>& out) {
    const auto number = [](const auto& q) { return static_cast<double>(value_of(q.value())); };
    if (const auto* exposed = exposed_saddle(built); exposed && number(length<R>(*exposed)) < barely_out_below) {
        out.findings.push_back({.kind = finding_kind::saddle_barely_out,
                                .severity = severity::warning,
                                .number = length<double>::from_value(number(length<R>(*exposed))),
                                .limit = length<double>::from_value(barely_out_below)});
    }
}

} // namespace tautline::kernel
