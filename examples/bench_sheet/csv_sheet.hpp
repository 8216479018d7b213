#pragma once
/// @file
/// Every result as a line of comma-separated values, for spreadsheets.

#include "../text/csv.hpp"
#include "sheet.hpp"

namespace bench_sheet {

/// The cell of a number in a column's unit; empty where there is no number.
inline std::string csv_cell(const tl::any_quantity& q, const tl::shown_unit& unit) {
    return q.has_value() && !std::isnan(q.si()) ? csv_number(q.si() / unit.size) : std::string();
}

/// path, words, unit, found, give or take, planned, give or take.
std::string csv_sheet(const whole_job& w);

} // namespace bench_sheet
