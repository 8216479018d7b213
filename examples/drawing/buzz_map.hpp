#pragma once
/// @file
/// Where it buzzes: the least clearance of every string pressed at every fret, as numbers on patterns.

#include "subject.hpp"

namespace drawing {

/// Strings by frets, as found and as planned, on as many pages as it takes.
[[nodiscard]] sheets buzz_map(const heading& h, const subject& found, const subject* planned);

} // namespace drawing
