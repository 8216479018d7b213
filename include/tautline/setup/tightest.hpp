#pragma once
/// @file
/// Where along the board a string has least room. A sheet tells these places instead of all clearances and plucks.

#include <optional>

#include "setup.hpp"

namespace tautline {

/// Where a string must be pressed for its least clearance, as an index into `clearances`; 0 is the open string. Of equal
/// places the first counts. Returns nothing on a board without frets.
template <class R>
[[nodiscard]] std::optional<std::size_t> tightest(const basic_string_setup<R>& s) {
    std::optional<std::size_t> least;
    for (std::size_t n = 0; n < s.clearances.size(); ++n) {
        if (s.has_fret(n) && (!least || s.clearances[n].gap < s.clearances[*least].gap)) { least = n; }
    }
    return least;
}

/// Where a string must be pressed for the softest of its hardest clean plucks, as an index into `plucks`; 0 is the open
/// string. Of equal places the first counts. Returns nothing on a board without frets.
template <class R>
[[nodiscard]] std::optional<std::size_t> soonest_to_buzz(const basic_string_setup<R>& s) {
    std::optional<std::size_t> softest;
    for (std::size_t n = 0; n < s.plucks.size(); ++n) {
        if (s.has_fret(n) && (!softest || s.plucks[n].pull < s.plucks[*softest].pull)) { softest = n; }
    }
    return softest;
}

} // namespace tautline
