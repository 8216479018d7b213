#pragma once
/// @file
/// An instrument with its strings as they are ordered: what is written down of it before anything is solved.

#include <vector>

#include "ordered_string.hpp"
#include "strung_instrument.hpp"

namespace tautline {

/// An instrument and the string set that is ordered for it.
template <class R = double>
struct basic_ordered_instrument {
    using real = R;
    basic_instrument<R> instrument;                                    ///< without its strings
    std::vector<basic_ordered_string<R>> strings{};                    ///< bass first
    field<frequency<R>> a4 = frequency<R>::from_value(number<R>(440)); ///< pitch of A4

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", self.instrument...);
        visit("strings", self.strings...);
        visit("a4", between(200 * units::Hz, 900 * units::Hz).fair_default("ISO 16"), self.a4...);
    }
    template <class Report>
    void rules(Report&& report) const {
        kernel::report_string_count(instrument, strings.size(), report);
        report_order(courses_of(instrument), strings, "strings", report);
    }
};
using ordered_instrument = basic_ordered_instrument<double>;

/// The instrument with its strings on.
/// @throws invalid_input with all that is wrong with the instrument and the orders
template <class R>
[[nodiscard]] basic_strung_instrument<R> string_up(const basic_ordered_instrument<R>& ordered) {
    require_valid(ordered);
    return {ordered.instrument, string_up(ordered.strings, ordered.a4)};
}

} // namespace tautline
