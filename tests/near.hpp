#pragma once
/// @file
/// Matchers for the tests: equal within a tolerance that has a unit, or within a relative one.

#include <doctest/doctest.h>

#include <cfloat>
#include <cmath>
#include <sstream>

#include <tautline/core/units.hpp>

namespace near {

/// Whether every operation on doubles is rounded to a double at once. Two ways through the same operations then end in the
/// same last bit. The x87 unit, which g++ takes for x86 of 32 bits, keeps more digits in a register than in memory, and
/// when a number is stored is the compiler's choice: there they may differ by what rounding each term makes.
inline constexpr bool rounds_at_once = FLT_EVAL_METHOD == 0;

/// Holds |a - b| <= tolerance; says all three when it does not. NaN never holds.
template <class U>
bool within(const boost::units::quantity<U, double>& a, const boost::units::quantity<U, double>& b,
            const boost::units::quantity<U, double>& tolerance) {
    const bool ok = std::abs(a.value() - b.value()) <= tolerance.value();
    if (!ok) {
        std::ostringstream text;
        text.precision(12);
        text << a.value() << " against " << b.value() << ", allowed " << tolerance.value() << " (SI)";
        MESSAGE(text.str());
    }
    return ok;
}
inline bool within(double a, double b, double tolerance) {
    const bool ok = std::abs(a - b) <= tolerance;
    if (!ok) {
        std::ostringstream text;
        text.precision(12);
        text << a << " against " << b << ", allowed " << tolerance;
        MESSAGE(text.str());
    }
    return ok;
}
/// Holds |a - b| <= share * |b|.
template <class U>
bool relative(const boost::units::quantity<U, double>& a, const boost::units::quantity<U, double>& b, double share) {
    return within(a.value(), b.value(), share * std::abs(b.value()));
}
inline bool relative(double a, double b, double share) { return within(a, b, share * std::abs(b)); }

} // namespace near
