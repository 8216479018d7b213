#pragma once
/// @file
/// Where it buzzes: the least clearance of every string at every fret, as numbers on patterns.

#include "subject.hpp"

namespace drawing {

/// Strings by frets, as found and as planned, on as many pages as needed.
[[nodiscard]] sheets buzz_map(const heading& h, const subject& found, const subject* planned);

/// The same of one state for a page with words beside it. Places are rows and strings are columns, so that it is no wider
/// than a phone's screen. Many strings make several.
struct map_part {
    std::string heading{};
    page drawn{};
};
[[nodiscard]] std::vector<map_part> map_parts(const subject& s, const std::string& state, measures m);
/// The meanings of the map's patterns, one below the other.
[[nodiscard]] page map_legend(measures m);

} // namespace drawing
