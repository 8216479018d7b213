#pragma once
/// @file
/// Results as comma-separated values for spreadsheets, one result on each line.

#include "../text/csv.hpp"
#include "sheet.hpp"

namespace bench_sheet {

/// A number as a cell, in the unit of its column. The cell is empty if there is no number.
inline std::string csv_cell(const tl::any_quantity& q, const tl::shown_unit& unit) {
    return q.has_value() && !std::isnan(q.si()) ? csv_number(q.si() / unit.size) : std::string();
}

/// All results. The columns are path, words, unit, found, give or take, planned, give or take.
std::string csv_sheet(const whole_job& w);

} // namespace bench_sheet
