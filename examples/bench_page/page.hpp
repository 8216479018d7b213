#pragma once
/// @file
/// The bench sheet as one HTML file for screens of any size and for paper. It needs no other file.

#include <string>

#include "blocks.hpp"

namespace bench_sheet {

/// The most bytes of a page.
inline constexpr std::size_t largest_page = 1'000'000;

/// The page of a job. It is HTML (WHATWG's living standard) and well-formed XML as well. It holds no program and loads
/// nothing, and it tells the browser to allow neither. Its drawings are SVG. If it would grow larger than `largest_page`,
/// the last drawings are left out, and the page names them.
/// @param fine whether numbers that are worked to have all decimals
[[nodiscard]] std::string bench_page(const whole_job& w, measures units, bool fine = false);

} // namespace bench_sheet
