#pragma once
/// @file
/// How the results of a sample spread. Included by name only, like sweep.hpp.

#include <algorithm>
#include <cmath>

#include "sweep.hpp"

namespace tautline {

/// The spread of one result over the rows of a table that could be solved. Its numbers are NaN with fewer than two such
/// rows.
struct sample_spread {
    any_quantity mean{};     ///< mean of the rows
    any_quantity standard{}; ///< standard deviation of the rows
    any_quantity low{};      ///< 2.5 % of the rows lie below
    any_quantity high{};     ///< 97.5 % of the rows lie below
};

/// The spread of a result, by its place among the outputs of a sample's table. In SI, of the output's kind.
[[nodiscard]] inline sample_spread spread_of(const sweep_table& table, std::size_t output) {
    require_that(output < table.outputs.size(), "output", "must be one of the table's");
    std::vector<double> values;
    for (std::size_t i = 0; i < table.rows; ++i) {
        if (const double v = table.output(i, output).si(); !std::isnan(v)) { values.push_back(v); }
    }
    if (values.size() < 2) { return {}; }
    std::sort(values.begin(), values.end());
    const auto count = static_cast<double>(values.size());
    double mean = 0, squares = 0;
    for (const double v : values) { mean += v / count; }
    for (const double v : values) { squares += (v - mean) * (v - mean); }
    const auto at = [&](double share) { return values[static_cast<std::size_t>(share * (count - 1))]; };
    const auto told = [&](double si) { return any_quantity::of(table.outputs[output].kind, si); };
    return {told(mean), told(std::sqrt(squares / (count - 1))), told(at(0.025)), told(at(0.975))};
}

} // namespace tautline
