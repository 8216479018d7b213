#pragma once
/// @file
/// How a number of the sheet was made: in words, with formula, source and what moves it.

#include "sheet.hpp"

namespace bench_sheet {

/// The names of all numbers, each with its words and value: what `explain_text` may be asked for.
std::string explain_list(const whole_job& w, measures m);

/// An explanation by name: "relief.gap" (as planned where something is planned), "found.relief.gap",
/// "plan.slot_change[0]", "work.thickness_at_nut", "objects[0].open".
/// @throws tl::invalid_input where no number has that name, with the nearest
std::string explain_text(const whole_job& w, const std::string& name, measures m);

} // namespace bench_sheet
