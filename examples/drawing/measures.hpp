#pragma once
/// @file
/// Lengths as a drawing writes them: metric, imperial or both.

#include <string>

#include <tautline/core/quantity_text.hpp>

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
/// A place or a larger measure: "280.19 mm", "11.031 in".
[[nodiscard]] inline std::string written_place(const tl::length<double>& q, measures m) {
    return in_measures(m, tl::fixed_text(q, tl::units::mm, 2) + " mm", tl::fixed_text(q, tl::units::inch, 3) + " in");
}

} // namespace drawing
