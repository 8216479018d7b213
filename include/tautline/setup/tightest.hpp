#pragma once
/// @file
/// Where along the board a string has least room: what a sheet tells of all its clearances and plucks.

#include <algorithm>

#include "setup.hpp"

namespace tautline {

/// Where a string must be pressed for its least clearance: a place in `clearances`, 0 is the open string; the first of
/// several alike. Nothing on a board without frets.
[[nodiscard]] inline std::optional<std::size_t> tightest(const string_setup& s) {
    const auto least = std::min_element(s.clearances.begin(), s.clearances.end(),
                                        [](const auto& a, const auto& b) { return a.gap < b.gap; });
    if (least == s.clearances.end()) { return std::nullopt; }
    return static_cast<std::size_t>(least - s.clearances.begin());
}

/// Where a string must be pressed for the softest of its hardest clean plucks: a place in `plucks`, 0 is the open string;
/// the first of several alike. Nothing on a board without frets.
[[nodiscard]] inline std::optional<std::size_t> soonest_to_buzz(const string_setup& s) {
    const auto softest =
        std::min_element(s.plucks.begin(), s.plucks.end(), [](const auto& a, const auto& b) { return a.pull < b.pull; });
    if (softest == s.plucks.end()) { return std::nullopt; }
    return static_cast<std::size_t>(softest - s.plucks.begin());
}

} // namespace tautline
