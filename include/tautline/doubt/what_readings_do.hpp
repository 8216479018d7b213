#pragma once
/// @file
/// What the readings did to each input and each result: what was learnt, what makes up the doubt that is left, and what
/// would be known without one of them.

#include <algorithm>
#include <cmath>

#include "reading_tests.hpp"

namespace tautline {

/// An input with more than this share of its doubt left was not learnt. Two inputs with a |correlation| above it are only
/// found together.
inline constexpr double not_learnt = 0.95;

/// What the readings of results tell of an input.
template <std::floating_point R = double>
struct basic_learnt_input {
    R standard{}; ///< standard uncertainty afterwards
    R left{};     ///< share of the doubt before that is left: 1 where nothing was learnt
    R decided{};  ///< share of the input that readings of results decide; its own reading decides the rest
    std::vector<std::size_t> together{}; ///< inputs that are only found together with it
};
using learnt_input = basic_learnt_input<double>;

/// What was learnt of each input.
template <std::floating_point R>
[[nodiscard]] std::vector<basic_learnt_input<R>> learnt_of(const basic_linear_adjustment<R>& a) {
    const std::size_t n = a.inputs();
    const auto p = a.covariance(), gain = a.gain();
    std::vector<basic_learnt_input<R>> all(n);
    for (std::size_t i = 0; i < n; ++i) {
        all[i].standard = std::sqrt(p(i, i));
        all[i].left = a.standard_before(i) > R(0) ? all[i].standard / a.standard_before(i) : R(1);
        for (std::size_t k = 0; k < a.readings(); ++k) { all[i].decided += gain(i, k) * a.by_input()(k, i); }
        for (std::size_t j = 0; j < n; ++j) {
            const R both = std::sqrt(p(i, i) * p(j, j));
            if (j != i && both > R(0) && std::abs(p(i, j)) > R(not_learnt) * both) { all[i].together.push_back(j); }
        }
    }
    return all;
}

/// Contributions of each input's own reading and of each reading of a result to a result's doubt, inputs first, signed.
/// Their squares sum to its variance where none err together.
/// @param slopes of the result by each input
template <std::floating_point R>
[[nodiscard]] std::vector<R> contributions_to(const basic_linear_adjustment<R>& a, std::span<const R> slopes) {
    std::vector<R> all = a.input_gain(slopes);
    for (std::size_t i = 0; i < all.size(); ++i) { all[i] *= a.standard_before(i); }
    const auto gain = a.gain(slopes);
    for (std::size_t k = 0; k < gain.size(); ++k) { all.push_back(gain[k] * a.standard_of_reading(k)); }
    return all;
}

/// The same for many results of one adjustment. What does not depend on the result is computed once.
template <std::floating_point R = double>
class basic_contribution_map {
public:
    /// @param a must outlive the map
    explicit basic_contribution_map(const basic_linear_adjustment<R>& a) : adjustment_(&a), gain_(a.gain()) {}
    /// Contributions to a result, like `contributions_to`.
    [[nodiscard]] std::vector<R> to(std::span<const R> slopes) const {
        const auto& a = *adjustment_;
        const std::size_t n = a.inputs(), m = a.readings();
        require_that(slopes.size() == n, "slopes", "must be one for each input");
        std::vector<R> all, by_reading(m);
        all.reserve(n + m);
        all.assign(slopes.begin(), slopes.end());
        for (std::size_t i = 0; i < n; ++i) {
            if (slopes[i] == R(0)) { continue; }
            const R* const gain = gain_.row(i).data();
            for (std::size_t k = 0; k < m; ++k) { by_reading[k] += slopes[i] * gain[k]; }
        }
        for (std::size_t k = 0; k < m; ++k) {
            const R by = by_reading[k];
            const R* const moves = a.by_input().row(k).data();
            if (by == R(0)) { continue; }
            for (std::size_t i = 0; i < n; ++i) { all[i] -= by * moves[i]; }
        }
        for (std::size_t i = 0; i < n; ++i) { all[i] *= a.standard_before(i); }
        for (std::size_t k = 0; k < m; ++k) { all.push_back(by_reading[k] * a.standard_of_reading(k)); }
        return all;
    }

private:
    const basic_linear_adjustment<R>* adjustment_;
    basic_matrix<R> gain_;
};
using contribution_map = basic_contribution_map<double>;

/// A result without one of the readings.
template <std::floating_point R = double>
struct basic_result_without {
    R change{};   ///< change of the result, to first order
    R standard{}; ///< standard uncertainty of the result then
};
using result_without = basic_result_without<double>;

/// A result without one of the readings. `place` counts all tests: an input's own reading, or a reading of a result.
/// @throws invalid_input for a reading that others do not control: without it nothing would be known
template <std::floating_point R>
[[nodiscard]] basic_result_without<R> without_reading(const basic_linear_adjustment<R>& a,
                                                      const basic_reading_tests<R>& tests, std::span<const R> slopes,
                                                      std::size_t place) {
    require_that(place < tests.size() && tests.at(place).controlled(), "place",
                 "must be a reading that others control: without it nothing would be known");
    const R moves = place < a.inputs() ? a.input_gain(slopes)[place] : a.gain(slopes)[place - a.inputs()];
    const auto& test = tests.at(place);
    // Its weight: 1/sqrt(W_kk) is the least detectable error over its shift.
    const R size = test.least_detectable / R(detectable_shift);
    const R more = moves * size;
    return {-moves * test.error, std::sqrt(a.covariance(slopes, slopes) + more * more)};
}

} // namespace tautline
