#pragma once
/// @file
/// How likely it is that chance alone scatters readings so much.
///
/// Source: M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 26.4.4 and 26.4.5 (from memory).

#include <cmath>
#include <concepts>
#include <cstddef>
#include <numbers>

#include "../core/invalid_input.hpp"

namespace tautline {

/// The chance that a sum of the squares of `degrees` standard normal numbers is larger than `square`. For a whole number
/// of degrees it is a finite sum.
/// @param square at least 0
/// @param degrees 0 to 1000; with 0 the sum is 0 and the chance 1
template <std::floating_point R>
[[nodiscard]] R chi_square_tail(R square, std::size_t degrees) {
    require_that(R(0) <= square, "square", "must be a number, at least 0");
    require_that(degrees <= 1000, "degrees", "must be at most 1000");
    if (degrees == 0 || square == R(0)) { return R(1); }
    const R a = square / 2, log_a = std::log(a);
    const bool odd = degrees % 2 == 1;
    R tail = odd ? std::erfc(std::sqrt(a)) : R(0);
    // a^p e^-a / Gamma(p + 1) from its logarithm: with many terms the first is too small for a floating-point number.
    R p = odd ? R(0.5L) : R(0), log_term = odd ? log_a / 2 - std::log(std::sqrt(std::numbers::pi_v<R>) / 2) - a : -a;
    for (std::size_t terms = degrees / 2; terms > 0; --terms) {
        tail += std::exp(log_term);
        p += 1;
        log_term += log_a - std::log(p);
    }
    return tail < R(1) ? tail : R(1);
}

} // namespace tautline
