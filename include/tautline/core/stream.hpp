#pragma once
/// @file
/// Included by name only: output of quantities to streams, as in `std::cout << pull`.
///
/// They are written as by `to_text`, in metric units with six significant digits.

#include <concepts>
#include <ostream>

#include "to_text.hpp"

namespace tautline {

/// Writes a quantity of any kind with its unit; an empty one writes no text.
inline std::ostream& operator<<(std::ostream& out, const any_quantity& q) { return out << to_text(q); }
/// Writes a quantity with its unit. (It is found where the names of `tautline` are visible, as after
/// `using namespace tautline;`.)
template <class U, std::floating_point F>
std::ostream& operator<<(std::ostream& out, const bu::quantity<U, F>& q) {
    return out << to_text(q);
}
/// Writes an interval in cents.
template <std::floating_point F>
std::ostream& operator<<(std::ostream& out, const interval<F>& i) {
    return out << to_text(i);
}

} // namespace tautline
