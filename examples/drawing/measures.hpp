#pragma once
/// @file
/// Lengths as a drawing writes them: metric, imperial or both.

#include <string>

#include <tautline/job/bench_rounding.hpp>

namespace drawing {

namespace tl = tautline;

/// Systems of units.
enum class measures { metric, imperial, both };

/// "a", "b" or "a = b", as the system asks.
[[nodiscard]] inline std::string in_measures(measures m, const std::string& metric, const std::string& imperial) {
    return m == measures::metric ? metric : m == measures::imperial ? imperial : metric + " = " + imperial;
}
/// A height or gap: "1.85 mm", "72.8 thou".
[[nodiscard]] inline std::string written_height(const tl::length<double>& q, measures m) {
    return in_measures(m, tl::fixed_text(q, tl::units::mm, 2) + " mm", tl::fixed_text(q, tl::units::thou, 1) + " thou");
}
/// A height that somebody works to: "1.85 mm", "73 thou", in steps of the bench.
[[nodiscard]] inline std::string written_told(const tl::length<double>& q, const tl::bench_rounding& told, measures m) {
    if (told.as == tl::worked_as::value) { return written_height(q, m); }
    return tl::told_text(q, told,
                         {.units = m == measures::metric     ? tl::measures::metric
                                   : m == measures::imperial ? tl::measures::imperial
                                                             : tl::measures::both});
}
/// A place or a larger measure: "280.19 mm", "11.031 in".
[[nodiscard]] inline std::string written_place(const tl::length<double>& q, measures m) {
    return in_measures(m, tl::fixed_text(q, tl::units::mm, 2) + " mm", tl::fixed_text(q, tl::units::inch, 3) + " in");
}

} // namespace drawing
