#pragma once
/// @file
/// Columns of a sheet's tables. A quantity has one column, or two side by side in both systems of units.

#include <string>
#include <vector>

#include <tautline/core/to_text.hpp>
#include <tautline/job/bench_rounding.hpp>

#include "../text/columns.hpp"

namespace bench_sheet {

namespace tl = tautline;
namespace show = tl::show;
using tl::measures;
using namespace safe_text;
using tl::shown_kind;

/// "0.24 mm", or in both systems "0.24 mm = 9.4 thou".
inline std::string in_words(const shown_kind& kind, const tl::any_quantity& q, measures m) {
    return tl::bench_text(q, kind, {.units = m});
}
/// The same, in the usual unit of its kind and size.
inline std::string in_words(const tl::any_quantity& q, measures m) { return tl::bench_text(q, {.units = m}); }

/// Adds the cells of one quantity to a row: one cell, or two in both systems. "-" stands for a missing quantity.
/// @param sign whether a plus is written
inline void add_cells(std::vector<std::string>& row, const shown_kind& kind, const tl::any_quantity& q, measures m,
                      bool sign = false) {
    kind.each(m, [&](const tl::shown_unit& u) { row.push_back(q.has_value() ? tl::shown_number(q, u, sign) : "-"); });
}
/// The same for a height that is worked to, in steps of the bench.
inline void add_told_cells(std::vector<std::string>& row, const tl::bench_rounding& told, const tl::length<>& q, measures m,
                           bool sign = false) {
    show::height.each(m, [&](const tl::shown_unit& u) { row.push_back(tl::bench_cell(q, told, u, sign)); });
}
/// Adds the heads of these columns.
inline void add_heads(std::vector<std::string>& row, std::string_view what, const shown_kind& kind, measures m) {
    kind.each(m, [&](const tl::shown_unit& u) { row.push_back(std::string(what) + " " + std::string(u.name)); });
}

} // namespace bench_sheet
