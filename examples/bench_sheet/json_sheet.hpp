#pragma once
/// @file
/// The same numbers for programs: JSON, SI units with milli and mega prefixes said in the keys.
/// docs/tautline-sheet.schema.json describes it.

#include <nlohmann/json.hpp>

#include "sheet.hpp"

namespace bench_sheet {

/// The sheet as JSON.
nlohmann::ordered_json json_sheet(const whole_job& w);

} // namespace bench_sheet
