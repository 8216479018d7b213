#pragma once
/// @file
/// Where it buzzes: the least clearance of every string pressed at every fret, as numbers on patterns.

#include "subject.hpp"

namespace drawing {

/// Strings by frets, as found and as planned, on as many pages as it takes.
[[nodiscard]] sheets buzz_map(const heading& h, const subject& found, const subject* planned);

/// The same of one state for where words stand beside it: places in rows, strings in columns, so that it is no wider than a
/// hand's screen; several where there are many strings.
struct map_part {
    std::string heading{};
    page drawn{};
};
[[nodiscard]] std::vector<map_part> map_parts(const subject& s, const std::string& state, measures m);
/// What the patterns of the map mean, one under the other.
[[nodiscard]] page map_legend(measures m);

} // namespace drawing
