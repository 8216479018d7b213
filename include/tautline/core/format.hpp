#pragma once
/// @file
/// Included by name only: quantities in `std::format`, as in `std::format("{:>12}", pull)`. Where the standard library
/// has no `std::format` (`__cpp_lib_format`) the header is empty.
///
/// They are written as by `to_text`, in metric units with six significant digits. The format specification is that of a
/// text: fill, alignment, width.

#include <version>

#include "to_text.hpp"

#ifdef __cpp_lib_format

#include <format>

namespace tautline::kernel {

/// A formatter of what `to_text` writes.
template <class Written>
struct text_formatter : std::formatter<std::string_view> {
    /// Writes a quantity. It uses a copy of the formatter, because some standard libraries have no constant `format`.
    template <class Context>
    auto format(const Written& q, Context& context) const {
        std::formatter<std::string_view> as_text(*this);
        return as_text.format(std::string_view(to_text(q)), context);
    }
};

} // namespace tautline::kernel

/// A quantity with its unit.
template <int M, int KG, int S, int K, int RAD>
struct std::formatter<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>>
    : tautline::kernel::text_formatter<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>> {};
/// A field with its unit.
template <int M, int KG, int S, int K, int RAD>
struct std::formatter<tautline::field<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>>>
    : tautline::kernel::text_formatter<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>> {};
/// A needed field with its unit.
template <int M, int KG, int S, int K, int RAD>
struct std::formatter<tautline::needed<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>>>
    : tautline::kernel::text_formatter<boost::units::quantity<tautline::unit::si<M, KG, S, K, RAD>, double>> {};
/// A quantity of any kind with its unit. An empty one gives no text.
template <>
struct std::formatter<tautline::any_quantity> : tautline::kernel::text_formatter<tautline::any_quantity> {};
/// An interval in cents.
template <>
struct std::formatter<tautline::interval<double>> : tautline::kernel::text_formatter<tautline::interval<double>> {};

#endif
