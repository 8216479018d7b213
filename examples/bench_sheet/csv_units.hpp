#pragma once
/// @file
/// How comma-separated values write a number: alone in its cell, in one unit for the whole column.

#include <cstdio>
#include <string>
#include <string_view>

#include "measures.hpp"

namespace bench_sheet {

/// The unit a kind is written in, and its size in SI.
struct csv_unit {
    std::string_view name;
    double size;
};

/// The unit of a kind ("length", "force", ...); those that no bench reads imperially keep their metric one.
/// @param m metric or imperial; a cell holds one number, so that both is taken for metric
inline csv_unit csv_unit_of(tl::kind_name kind, measures m = measures::metric) {
    namespace u = tl::units;
    const auto of = [](std::string_view name, const auto& unit) { return csv_unit{name, static_cast<double>(unit.size)}; };
    const tl::shown_unit metric = tl::shown_kind_of(tl::any_quantity::of(kind, 1)).metric;
    if (m != measures::imperial) { return of(metric.name, metric); }
    if (kind == "length") { return of("in", u::inch); }
    if (kind == "force") { return of("lbf", u::lbf); }
    if (kind == "stress") { return of("psi", u::psi); }
    if (kind == "linear_density") { return of("lb/in", u::lb_per_in); }
    if (kind == "moment") { return of("lbf in", u::lbf_in); }
    return of(metric.name, metric);
}

/// A number as a cell: decimal point, no grouping, nine digits.
inline std::string csv_number(double v) {
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.9g", v);
    return buffer;
}

} // namespace bench_sheet
