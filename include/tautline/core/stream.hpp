#pragma once
/// @file
/// Included by name only: quantities on streams, `std::cout << pull`, for a program that wants them so.
///
/// Written as `to_text` writes them, in metric units with six significant digits.

#include <ostream>

#include "to_text.hpp"

namespace tautline {

/// A quantity of any kind with its unit; nothing for nothing.
inline std::ostream& operator<<(std::ostream& out, const any_quantity& q) { return out << to_text(q); }
/// A quantity with its unit. (In sight where `tautline` is, as in a program that says `using namespace tautline;`.)
template <class U>
std::ostream& operator<<(std::ostream& out, const bu::quantity<U, double>& q) {
    return out << to_text(q);
}
/// An interval in cents.
inline std::ostream& operator<<(std::ostream& out, const interval<double>& i) { return out << to_text(i); }

} // namespace tautline
