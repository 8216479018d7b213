#pragma once
/// @file
/// How a sheet writes quantities: metric, imperial or both side by side.

#include <string>
#include <vector>

#include <tautline/core/quantity_text.hpp>

namespace bench_sheet {

namespace tl = tautline;

/// Systems of units a sheet is written in.
enum class measures { metric, imperial, both };

/// A unit, its name at the head of a column and the decimals it is written with.
template <class U>
struct column_unit {
    tl::unit_tag<U> tag;
    std::string_view name;
    int decimals;
};

/// A kind of quantity in a sheet: its metric and its imperial form.
template <class U>
struct shown_kind {
    column_unit<U> metric;
    column_unit<U> imperial;

    /// Calls `f(unit)` for each unit that is wanted.
    template <class F>
    void each(measures m, F&& f) const {
        if (m != measures::imperial) { f(metric); }
        if (m != measures::metric) { f(imperial); }
    }
};

namespace show {

inline constexpr shown_kind<tl::unit::length> height{{tl::units::mm, "mm", 2}, {tl::units::thou, "thou", 1}};
inline constexpr shown_kind<tl::unit::length> place{{tl::units::mm, "mm", 1}, {tl::units::inch, "in", 3}};
inline constexpr shown_kind<tl::unit::force> pull{{tl::units::N, "N", 1}, {tl::units::lbf, "lbf", 2}};
inline constexpr shown_kind<tl::unit::linear_density> mass{
    {tl::units::g_per_m, "g/m", 3},
    {tl::unit_tag<tl::unit::linear_density>{tl::units::lb_per_in.size * 1e-6L}, "ulb/in", 2}};
inline constexpr shown_kind<tl::unit::stress> load{{tl::units::MPa, "MPa", 0},
                                                   {tl::unit_tag<tl::unit::stress>{tl::units::psi.size * 1000}, "ksi", 1}};

inline constexpr shown_kind<tl::unit::moment> turning{{tl::units::N_m, "N m", 2}, {tl::units::lbf_in, "lbf in", 1}};

} // namespace show

/// "0.24 mm", or "0.24 mm = 9.4 thou" in both.
template <class U>
std::string in_words(const shown_kind<U>& kind, const tl::bu::quantity<U, double>& q, measures m) {
    std::string text;
    kind.each(m, [&](const column_unit<U>& u) {
        text += (text.empty() ? "" : " = ") + tl::fixed_text(q, u.tag, u.decimals) + " " + std::string(u.name);
    });
    return text;
}

/// Adds the cells of one quantity to a row: one, or two in both.
template <class U>
void add_cells(std::vector<std::string>& row, const shown_kind<U>& kind, const tl::bu::quantity<U, double>& q, measures m) {
    kind.each(m, [&](const column_unit<U>& u) { row.push_back(tl::fixed_text(q, u.tag, u.decimals)); });
}
/// The heads over them.
template <class U>
void add_heads(std::vector<std::string>& row, std::string_view what, const shown_kind<U>& kind, measures m) {
    kind.each(m, [&](const column_unit<U>& u) { row.push_back(std::string(what) + " " + std::string(u.name)); });
}

} // namespace bench_sheet
