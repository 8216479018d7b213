#pragma once
/// @file
/// Tests of each reading against all the others, for inputs and results alike: whether it agrees, how far it is off, and
/// what error would go unseen.
///
/// Source: W. Baarda, A testing procedure for use in geodetic networks (1968), from memory, in the form for correlated
/// readings, where w is not the residual over its doubt. The limits are for one false alarm in 1000 and a power of 80 %.

#include <algorithm>
#include <cmath>
#include <limits>

#include "chi_square.hpp"
#include "linear_adjustment.hpp"

namespace tautline {

/// A |w| above this names a reading; by chance that happens once in 1000.
inline constexpr double naming_limit = 3.290526731;
/// Mean |w| of an error of the least detectable size: `naming_limit` plus 0.841621, for a power of 80 %.
inline constexpr double detectable_shift = 4.132147965;
/// A reading that others control by less than this share of its variance is not tested: its residual is only rounding.
inline constexpr double least_redundancy = 1e-9;

/// The test of one reading.
template <std::floating_point R = double>
struct basic_reading_test {
    R w{};     ///< the test's statistic; standard normal where all readings are sound
    R error{}; ///< as read less right, if it alone is wrong; in its own unit
    R least_detectable = std::numeric_limits<R>::infinity(); ///< an error of this size is named in 80 of 100 cases;
                                                             ///< infinite where nothing controls the reading
    R redundancy{}; ///< how far others control it, 0 not at all to 1 wholly; taken with all readings in place, also after
                    ///< one is set aside
    /// Whether others control it at all; otherwise w and error are 0.
    [[nodiscard]] bool controlled() const { return std::isfinite(least_detectable); }
};
using reading_test = basic_reading_test<double>;

/// All tests of an adjustment.
template <std::floating_point R = double>
struct basic_reading_tests {
    std::vector<basic_reading_test<R>> inputs{};   ///< of what was read for each input
    std::vector<basic_reading_test<R>> readings{}; ///< of the readings of results
    basic_matrix<R> likeness{};                    ///< correlations of all tests, inputs first
    R square{};                                    ///< sum of all misfits' squares, in their doubts
    std::size_t degrees = 0;                       ///< degrees of freedom: the number of readings of results
    R chance{};                                    ///< probability of such scatter or more where all is sound

    /// Number of inputs and readings together.
    [[nodiscard]] std::size_t size() const { return inputs.size() + readings.size(); }
    /// The test at a place in one list, inputs first.
    [[nodiscard]] const basic_reading_test<R>& at(std::size_t place) const {
        return place < inputs.size() ? inputs[place] : readings[place - inputs.size()];
    }
    /// The same, for changing it.
    [[nodiscard]] basic_reading_test<R>& at(std::size_t place) {
        return place < inputs.size() ? inputs[place] : readings[place - inputs.size()];
    }
};
using reading_tests = basic_reading_tests<double>;

namespace kernel {

/// Effect on the misfits of an error of 1 in each reading, `Lambda^-1 B^T`, and what adjusting leaves of it. For an input
/// the error is 1 in its doubt.
template <std::floating_point R>
struct error_traces {
    basic_matrix<R> traces{}, left{}; ///< m rows, n + m columns
};
template <std::floating_point R>
[[nodiscard]] error_traces<R> traces_of(const basic_linear_adjustment<R>& a) {
    const std::size_t n = a.inputs(), m = a.readings(), r = a.causes();
    error_traces<R> all{{m, n + m}, {m, n + m}};
    for (std::size_t k = 0; k < m; ++k) {
        std::vector<R> unit(m);
        unit[k] = R(1);
        solve_lower<R>(a.reading_root(), unit);
        for (std::size_t l = 0; l < m; ++l) { all.traces(l, n + k) = unit[l]; }
    }
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < m; ++k) { all.traces(k, i) = -a.white_by_input()(k, i) * a.standard_before(i); }
    }
    if (m == 0) { return all; }
    // (1 - H P_z H^T) on each column.
    const auto moved = kernel::solved_upper(a.factor(), kernel::solved_lower(a.factor(), a.white_slopes().transposed()));
    const auto taken = (a.white_slopes() * moved) * all.traces;
    for (std::size_t k = 0; k < m; ++k) {
        for (std::size_t j = 0; j < n + m; ++j) { all.left(k, j) = all.traces(k, j) - taken(k, j); }
    }
    // For an input with a cause of its own, (1 - H P_z H^T) H = H P_z avoids the difference.
    for (std::size_t i = 0; i < n; ++i) {
        std::size_t own = r;
        bool alone = true;
        for (std::size_t c = 0; c < r; ++c) {
            if (a.root()(i, c) == R(0)) { continue; }
            alone = alone && own == r;
            own = c;
        }
        for (std::size_t other = 0; alone && own < r && other < n; ++other) {
            alone = other == i || a.root()(other, own) == R(0);
        }
        if (!alone || own == r) { continue; }
        for (std::size_t k = 0; k < m; ++k) { all.left(k, i) = -moved(own, k); }
    }
    return all;
}

} // namespace kernel

/// Tests every reading against all the others.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> tests_of(const basic_linear_adjustment<R>& a) {
    const std::size_t n = a.inputs(), m = a.readings();
    basic_reading_tests<R> all;
    all.square = a.square();
    all.degrees = m;
    all.chance = chi_square_tail(all.square, m);
    const auto errors = kernel::traces_of(a);
    all.likeness = basic_matrix<R>(n + m, n + m);
    std::vector<R> size(n + m);
    for (std::size_t i = 0; i < n + m; ++i) {
        for (std::size_t j = 0; j < n + m; ++j) {
            for (std::size_t k = 0; k < m; ++k) { all.likeness(i, j) += errors.traces(k, i) * errors.left(k, j); }
        }
        size[i] = std::sqrt(std::max(R(0), all.likeness(i, i)));
    }
    for (std::size_t i = 0; i < n + m; ++i) {
        const R unit = i < n ? a.standard_before(i) : R(1);
        basic_reading_test<R> test;
        // How far others control a reading: (R W)_kk for a result, (S G)_ii for an input.
        std::vector<R> alike(m);
        for (std::size_t k = 0; k < m; ++k) { alike[k] = errors.left(k, i); }
        if (i < n) {
            for (std::size_t k = 0; k < m; ++k) {
                R step{}; // of white J along S e_i / s_i
                for (std::size_t c = 0; c < a.causes(); ++c) { step += a.white_slopes()(k, c) * a.root()(i, c); }
                if (unit > R(0)) { test.redundancy -= step * alike[k] / unit; }
            }
        } else {
            for (std::size_t k = 0; k < m; ++k) { test.redundancy += a.reading_root()(i - n, k) * alike[k]; }
        }
        const R variance = i < n ? R(1) : a.standard_of_reading(i - n) * a.standard_of_reading(i - n);
        if (size[i] * size[i] * variance > R(least_redundancy) && unit > R(0)) {
            R sum{};
            for (std::size_t k = 0; k < m; ++k) { sum += errors.traces(k, i) * a.white_left()[k]; }
            test.w = sum / size[i];
            test.error = test.w / size[i] * unit;
            test.least_detectable = R(detectable_shift) / size[i] * unit;
        } else {
            size[i] = R(0);
        }
        (i < n ? all.inputs : all.readings).push_back(test);
    }
    for (std::size_t i = 0; i < n + m; ++i) {
        for (std::size_t j = 0; j < n + m; ++j) {
            const R both = size[i] * size[j];
            all.likeness(i, j) = both > R(0) ? all.likeness(i, j) / both : R(i == j ? 1 : 0);
        }
    }
    return all;
}

/// The tests with one reading set aside, as if it had not been taken. Exact where the model is linear, without a new
/// adjustment. The test of the reading itself is then empty.
template <std::floating_point R>
[[nodiscard]] basic_reading_tests<R> tests_without(const basic_reading_tests<R>& tests, std::size_t place) {
    require_that(place < tests.size() && tests.at(place).controlled(), "place",
                 "must be one of the tests, of a reading that others control");
    basic_reading_tests<R> all = tests;
    const R w = tests.at(place).w;
    all.square = std::max(R(0), tests.square - w * w);
    all.degrees = tests.degrees - 1;
    all.chance = chi_square_tail(all.square, all.degrees);
    std::vector<R> left(tests.size()); // share left of each test's standard deviation
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const R alike = tests.likeness(place, i);
        left[i] = i == place ? R(0) : std::sqrt(std::max(R(0), (1 - alike) * (1 + alike)));
        auto& test = all.at(i);
        if (test.controlled() && left[i] * left[i] * std::min(R(1), std::abs(test.redundancy)) > R(least_redundancy)) {
            const R size = test.w != R(0) ? test.error / test.w : test.least_detectable / R(detectable_shift);
            test.w = (test.w - alike * w) / left[i];
            test.error = test.w * size / left[i];
            test.least_detectable /= left[i];
        } else {
            left[i] = R(0);
            test = {};
        }
    }
    for (std::size_t i = 0; i < tests.size(); ++i) {
        for (std::size_t j = 0; j < tests.size(); ++j) {
            const R both = left[i] * left[j];
            const R alike = tests.likeness(i, j) - tests.likeness(place, i) * tests.likeness(place, j);
            all.likeness(i, j) = i == j ? R(1) : both > R(0) ? alike / both : R(0);
        }
    }
    return all;
}

} // namespace tautline
