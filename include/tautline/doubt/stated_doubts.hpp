#pragma once
/// @file
/// How sure measurements are, as stated by whoever took them, and which of them err together.

#include <string>

#include "../core/any_quantity.hpp"
#include "../core/describe.hpp"

namespace tautline {

/// A measurement that may be off.
struct stated_doubt {
    std::string path{};      ///< path of the measurement
    any_quantity standard{}; ///< its standard uncertainty: half of a "give or take" at 95 %
};

/// Two measurements that err together, such as two heights read with one gauge.
template <class R = double>
struct basic_correlated_readings {
    using real = R;
    std::string first{};          ///< path of one
    std::string second{};         ///< path of the other
    R coefficient = number<R>(1); ///< 1: they always err alike, -1: always opposite

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("first", any_text, self.first...);
        visit("second", any_text, self.second...);
        visit("coefficient", between(-1, 1).fair_default("they always err alike"), self.coefficient...);
    }
};
using correlated_readings = basic_correlated_readings<double>;

} // namespace tautline
