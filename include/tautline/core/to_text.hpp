#pragma once
/// @file
/// Writes quantities with their unit: in metric or imperial units or both, plainly or as a bench sheet shows them.

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "any_quantity.hpp"
#include "quantity_text.hpp"

namespace tautline {

/// Systems of units on a bench sheet.
enum class measures { metric, imperial, both };

/// A unit for showing numbers, with the number of decimals that a bench reads.
struct shown_unit {
    std::string_view name; ///< as it is written behind a number; empty for a plain number
    double size;           ///< one of it in SI
    int decimals;          ///< number of decimals; negative: number of significant digits, at most 6
};

/// How a kind of quantity is shown in both systems. Both have the same unit where the trade uses only one.
struct shown_kind {
    kind_name kind;      ///< what is shown so
    shown_unit metric;   ///< in metric units
    shown_unit imperial; ///< in imperial units

    /// Calls `f(unit)` for each wanted unit, and only once where both are the same.
    template <class F>
    constexpr void each(measures m, F&& f) const {
        const bool one = metric.name == imperial.name;
        if (m != measures::imperial || one) { f(metric); }
        if (m != measures::metric && !one) { f(imperial); }
    }
};

namespace kernel {
template <class U>
[[nodiscard]] constexpr shown_kind shown_in(unit_tag<U> metric, std::string_view metric_name, int metric_decimals,
                                            unit_tag<std::type_identity_t<U>> imperial, std::string_view imperial_name,
                                            int imperial_decimals) {
    return {kind<U>::name,
            {metric_name, static_cast<double>(metric.size), metric_decimals},
            {imperial_name, static_cast<double>(imperial.size), imperial_decimals}};
}
[[nodiscard]] constexpr shown_kind shown_in_both(kind_name kind, std::string_view name, double size, int decimals) {
    return {kind, {name, size, decimals}, {name, size, decimals}};
}
} // namespace kernel

/// How the kinds of a bench sheet are shown.
namespace show {

/// Small lengths: heights, gauges and cuts.
inline constexpr shown_kind height = kernel::shown_in(units::mm, "mm", 2, units::thou, "thou", 1);
/// Larger lengths: places on the instrument.
inline constexpr shown_kind place = kernel::shown_in(units::mm, "mm", 1, units::inch, "in", 3);
/// Forces.
inline constexpr shown_kind pull = kernel::shown_in(units::N, "N", 1, units::lbf, "lbf", 2);
/// Mass per length of strings.
inline constexpr shown_kind mass =
    kernel::shown_in(units::g_per_m, "g/m", 3, unit_tag<unit::linear_density>{units::lb_per_in.size * 1e-6L}, "ulb/in", 2);
/// Stresses in wire.
inline constexpr shown_kind load =
    kernel::shown_in(units::MPa, "MPa", 0, unit_tag<unit::stress>{units::psi.size * 1000}, "ksi", 1);
/// Moments.
inline constexpr shown_kind turning = kernel::shown_in(units::N_m, "N m", 2, units::lbf_in, "lbf in", 1);
/// Angles.
inline constexpr shown_kind slope = kernel::shown_in(units::deg, "deg", 2, units::deg, "deg", 2);
/// Frequencies.
inline constexpr shown_kind frequency = kernel::shown_in(units::Hz, "Hz", 2, units::Hz, "Hz", 2);
/// Intervals.
inline constexpr shown_kind interval = kernel::shown_in_both("interval", "cents", 1, 1);
/// Plain numbers.
inline constexpr shown_kind number = kernel::shown_in_both("number", "", 1, 2);

} // namespace show

/// How a quantity is shown; lengths of 30 mm and more as `show::place`. A kind that is not in `show` is shown in its
/// unit for messages, with six significant digits.
[[nodiscard]] constexpr shown_kind shown_kind_of(const any_quantity& q) {
    if (q.kind() == show::height.kind) { return -0.03 < q.si() && q.si() < 0.03 ? show::height : show::place; }
    for (const shown_kind& k :
         {show::pull, show::mass, show::load, show::turning, show::slope, show::frequency, show::interval, show::number}) {
        if (k.kind == q.kind()) { return k; }
    }
    shown_kind other = kernel::shown_in_both(q.kind(), "", 1, -6);
    (void)kernel::with_kind(q.kind(), [&]<class U>() {
        other = kernel::shown_in_both(q.kind(), kind<U>::symbol, static_cast<double>(kind<U>::size), -6);
    });
    return other;
}

/// The unit of a whole column of numbers of one kind, whatever their size: lengths in mm or in, stresses in MPa or psi.
/// @param m metric or imperial; a column has one unit, so `both` is taken as metric
[[nodiscard]] constexpr shown_unit column_unit_of(kind_name kind, measures m = measures::metric) {
    const shown_kind as = shown_kind_of(any_quantity::of(kind, 1));
    if (m != measures::imperial) { return as.metric; }
    if (kind == show::load.kind) { return {"psi", static_cast<double>(units::psi.size), -6}; }
    if (kind == show::mass.kind) { return {"lb/in", static_cast<double>(units::lb_per_in.size), -6}; }
    return as.imperial;
}

/// A quantity as a number of a unit, without the unit's name, with the unit's decimals or significant digits. Minus
/// zero is written as zero.
/// @param sign whether a plus is written
[[nodiscard]] inline std::string shown_number(const any_quantity& q, const shown_unit& unit, bool sign = false) {
    if (q.si() != q.si()) { return "-"; }
    const double v = q.si() / unit.size;
    const int decimals = unit.decimals;
    char buffer[352]; // the largest double and its decimals
    if (decimals < 0) {
        std::snprintf(buffer, sizeof buffer, "%.*e", -decimals - 1, v);
        return messages::joined({sign && v > 0 ? "+" : "", number_text(std::strtold(buffer, nullptr))});
    }
    const double power = std::pow(10.0, decimals), rounded = std::round(v * power) / power + 0.0;
    std::snprintf(buffer, sizeof buffer, sign ? "%+.*f" : "%.*f", decimals, std::isfinite(rounded) ? rounded : v);
    return buffer;
}

namespace kernel {

/// A give or take. One that would round to 0 is shown as one in the last place.
[[nodiscard]] inline std::string shown_doubt(const any_quantity& give_or_take, const shown_unit& unit) {
    const double least = std::pow(10.0, -unit.decimals) * unit.size;
    const bool vanishes = unit.decimals >= 0 && 0 < give_or_take.si() && give_or_take.si() < least / 2;
    return shown_number(vanishes ? any_quantity::of(give_or_take.kind(), least) : give_or_take, unit);
}

} // namespace kernel

/// How a bench sheet writes a quantity.
struct written {
    measures units = measures::metric; ///< which units
    any_quantity give_or_take{};       ///< written behind the quantity; empty: left out
    bool sign = false;                 ///< whether a plus is written
    int digits = 6;                    ///< significant digits of `to_text`, 1 to 6
};

/// A quantity as a bench sheet shows it: "0.37 mm", "0.37 ± 0.01 mm", "+0.37 mm = +14.6 thou". An empty one gives no
/// text.
/// @throws invalid_input where the give or take is of another kind
[[nodiscard]] inline std::string bench_text(const any_quantity& q, const shown_kind& as, const written& how = {}) {
    std::string text;
    if (!q.has_value()) { return text; }
    require_that(as.kind == q.kind(), "the number", messages::joined({"must be shown as a ", q.kind()}));
    if (!q.is_number()) { return "-"; }
    // What nothing doubts has no give or take of 0, which no bench could promise.
    const bool doubted = how.give_or_take.has_value() && how.give_or_take.si() != 0;
    require_that(!how.give_or_take.has_value() || how.give_or_take.kind() == q.kind(), "give or take",
                 messages::joined({"must be a ", q.kind()}));
    as.each(how.units, [&](const shown_unit& u) {
        messages::append(text, {text.empty() ? "" : " = ", shown_number(q, u, how.sign), doubted ? " ± " : "",
                                doubted ? kernel::shown_doubt(how.give_or_take, u) : std::string(),
                                u.name.empty() ? "" : " ", u.name});
    });
    return text;
}
/// The same in the units of its kind and size.
[[nodiscard]] inline std::string bench_text(const any_quantity& q, const written& how = {}) {
    return bench_text(q, shown_kind_of(q), how);
}

/// A give or take alone, as `bench_text` writes it behind a number: "0.01 mm". One that would round to 0 is one in the last
/// place; "none" for 0.
[[nodiscard]] inline std::string doubt_text(const any_quantity& give_or_take, measures units = measures::metric) {
    if (give_or_take.si() == 0) { return "none"; }
    std::string text;
    shown_kind_of(give_or_take).each(units, [&](const shown_unit& u) {
        messages::append(
            text, {text.empty() ? "" : " = ", kernel::shown_doubt(give_or_take, u), u.name.empty() ? "" : " ", u.name});
    });
    return text;
}

/// A quantity with its unit and six significant digits: "0.0254 mm", "71.1683 N", in imperial units "1 thou", "16.0064
/// lbf". An empty one gives no text.
[[nodiscard]] inline std::string to_text(const any_quantity& q, const written& how = {}) {
    shown_kind as = shown_kind_of(q);
    require("digits", static_cast<double>(how.digits), between(1.0, 6.0));
    as.metric.decimals = as.imperial.decimals = -how.digits;
    return bench_text(q, as, how);
}
/// A length as a rule shows it, to the nearest 1/`parts` of an inch: "25 1/2 in", "5/64 in".
/// @param parts a power of two, 1 to 128
/// @throws invalid_input for other parts, for a quantity that is not a length, and for a length above 1000 km
[[nodiscard]] inline std::string to_fraction_text(const any_quantity& q, int parts = 64) {
    return messages::joined({inch_fraction_text(q.as<length<>>(), parts), " in"});
}

} // namespace tautline
