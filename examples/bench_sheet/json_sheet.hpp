#pragma once
/// @file
/// The numbers of the sheet as JSON for programs. Keys name the unit, such as mm or MPa.
/// docs/tautline-sheet.schema.json describes the format.

#include <nlohmann/json.hpp>

#include "sheet.hpp"

namespace bench_sheet {

/// The sheet as JSON.
nlohmann::ordered_json json_sheet(const whole_job& w);

} // namespace bench_sheet
