#pragma once
/// @file
/// Every result as a line of comma-separated values (RFC 4180), for spreadsheets.

#include "sheet.hpp"

namespace bench_sheet {

/// A text as a field: every character seen, in quotes where it must be, quotes doubled, and never beginning as a
/// spreadsheet's formula does.
std::string csv_field(std::string_view text);

/// path, words, unit, found, give or take, planned, give or take.
std::string csv_sheet(const whole_job& w);

} // namespace bench_sheet
