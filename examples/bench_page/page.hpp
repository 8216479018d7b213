#pragma once
/// @file
/// The bench sheet as a page: one HTML file that holds all it needs, for a screen of any size and for paper.

#include <string>

#include "blocks.hpp"

namespace bench_sheet {

/// The largest page that is written, bytes.
inline constexpr std::size_t largest_page = 1'000'000;

/// The page of a job (HTML, WHATWG's living standard, written so that it is well-formed XML as well). It holds no program
/// and asks for nothing from elsewhere, and tells a browser to allow neither. Its drawings are SVG; those that would make
/// it larger than `largest_page` are left out from the end, which it says.
/// @param fine whether numbers that are worked to have all decimals
[[nodiscard]] std::string bench_page(const whole_job& w, measures units, bool fine = false);

} // namespace bench_sheet
