#pragma once
/// @file
/// Explains a number of the sheet: its words, its formula, its source and the inputs that move it.

#include "sheet.hpp"

namespace bench_sheet {

/// The names of all numbers that `explain_text` explains, each with its words and its value.
std::string explain_list(const whole_job& w, measures m);

/// The explanation of a number by its name: "relief.gap", "found.relief.gap", "plan.slot_change[0]",
/// "work.thickness_at_nut", "objects[0].open". A bare result is the planned one if something is planned.
/// @throws tl::invalid_input if no number has that name; the message has the nearest name
std::string explain_text(const whole_job& w, const std::string& name, measures m);

} // namespace bench_sheet
