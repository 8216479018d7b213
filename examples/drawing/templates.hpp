#pragma once
/// @file
/// Templates in true size: frets and board, radius gauges, nut and saddle slots.

#include "subject.hpp"

namespace drawing {

/// Pages to print at 100 %, of the planned instrument, or of the found one when nothing is planned. Gauges are for both.
[[nodiscard]] sheets templates(const heading& h, const subject& found, const subject* planned);

} // namespace drawing
