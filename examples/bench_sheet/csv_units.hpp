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
    const char* name;
    double size;
};

/// The unit of a kind ("length", "force", ...); those that no bench reads are left in SI.
/// @param m metric or imperial; a cell holds one number, so that both is taken for metric
inline csv_unit csv_unit_of(std::string_view kind, measures m = measures::metric) {
    namespace u = tl::units;
    const auto unit = [](const char* name, const auto& tag) { return csv_unit{name, static_cast<double>(tag.size)}; };
    const bool imperial = m == measures::imperial;
    if (kind == "length") { return imperial ? unit("in", u::inch) : unit("mm", u::mm); }
    if (kind == "force") { return imperial ? unit("lbf", u::lbf) : unit("N", u::N); }
    if (kind == "stress") { return imperial ? unit("psi", u::psi) : unit("MPa", u::MPa); }
    if (kind == "linear_density") { return imperial ? unit("lb/in", u::lb_per_in) : unit("g/m", u::g_per_m); }
    if (kind == "moment") { return imperial ? unit("lbf in", u::lbf_in) : unit("N m", u::N_m); }
    if (kind == "angle") { return unit("deg", u::deg); }
    if (kind == "frequency") { return unit("Hz", u::Hz); }
    if (kind == "density") { return unit("kg/m3", u::kg_per_m3); }
    if (kind == "stiffness") { return unit("N/mm", u::N_per_mm); }
    if (kind == "rotational_stiffness") { return unit("N m/rad", u::N_m_per_rad); }
    if (kind == "interval") { return {"cents", 1}; }
    return {kind == "number" || kind.empty() ? "" : "SI", 1};
}

/// A number as a cell: decimal point, no grouping, nine digits.
inline std::string csv_number(double v) {
    char buffer[40];
    std::snprintf(buffer, sizeof buffer, "%.9g", v);
    return buffer;
}

} // namespace bench_sheet
