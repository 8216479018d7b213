#pragma once
/// @file
/// How sure a result is, from how sure its inputs are: the law of propagation of uncertainty with a budget.
///
/// Source: JCGM 100:2008 (GUM), clause 5: `u_c^2 = sum_i sum_j c_i c_j u_i u_j r_ij` (numbers of its equations, 10 and 13,
/// from memory). First order: where an input is doubtful by a large share of itself the answer is somewhat low; compare
/// with a random sample.

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "../core/dual.hpp"
#include "../core/invalid_input.hpp"
#include "../core/quantity.hpp"

namespace tautline {

/// Coverage factor of every uncertainty that is printed: about 95 % (JCGM 100, 6.2 and annex G).
inline constexpr double coverage_factor = 2;

/// Two inputs, by their place in the list of inputs, that err together: `r` from -1 to 1.
struct correlation {
    std::size_t first = 0;  ///< from 0
    std::size_t second = 0; ///< from 0
    double coefficient = 0; ///< of correlation
};

/// The contribution of input `i` to a result computed in dual numbers: `c_i u_i`, signed, in the result's own unit.
/// @param result the result, partial `i` taken with respect to input i in SI
/// @param standard standard uncertainty of the input in SI, >= 0
template <class U, class R, std::size_t N>
[[nodiscard]] bu::quantity<U, R> contribution(const bu::quantity<U, dual<R, N>>& result, std::size_t i, const R& standard) {
    return bu::quantity<U, R>::from_value(result.value().partial[i] * standard);
}

namespace kernel {

/// Covariance of two results that share their inputs, from their contributions, quantities or plain numbers.
template <class A, class B>
[[nodiscard]] auto covariance(std::span<const A> a, std::span<const B> b, std::span<const correlation> together) {
    auto sum = A() * B();
    for (std::size_t i = 0; i < a.size(); ++i) { sum += a[i] * b[i]; }
    for (const correlation& c : together) { sum += c.coefficient * (a[c.first] * b[c.second] + a[c.second] * b[c.first]); }
    return sum;
}

inline void require_pairs(std::span<const correlation> together, std::size_t inputs) {
    for (const correlation& c : together) {
        require_that(c.first < inputs && c.second < inputs && c.first != c.second, "correlation",
                     "must name two different inputs of the list");
        require("correlation.coefficient", c.coefficient, between(-1, 1));
    }
}

template <class C>
[[nodiscard]] C combined(std::span<const C> contributions, std::span<const correlation> together) {
    require_pairs(together, contributions.size());
    auto variance = covariance(contributions, contributions, together);
    const auto size = covariance(contributions, contributions, {});
    // Perfectly correlated inputs may cancel to a rounding error below zero.
    require_that(!(variance < -1e-12 * size), "correlation", "must not contradict the other correlations");
    return sqrt(max(variance, decltype(variance){}));
}

} // namespace kernel

/// Covariance of two results of the same inputs: `sum_i sum_j a_i b_j r_ij`, in the product of their units.
/// @param a,b contributions `c_i u_i` of each input to each result, same length
/// @param together pairs of correlated inputs, each pair once
/// @throws invalid_input where the lists differ in length, a pair names no input or one input twice, or |r| > 1
template <class U, class V>
[[nodiscard]] auto covariance(std::span<const bu::quantity<U, double>> a, std::span<const bu::quantity<V, double>> b,
                              std::span<const correlation> together = {}) {
    require_that(a.size() == b.size(), "contributions", "must be given for the same inputs in both results");
    kernel::require_pairs(together, a.size());
    return kernel::covariance(a, b, together);
}

/// Combined standard uncertainty from the contributions `c_i u_i`.
/// @throws invalid_input as `covariance`, and where the correlations contradict each other (a negative variance)
template <class U>
[[nodiscard]] bu::quantity<U, double> combined_uncertainty(std::span<const bu::quantity<U, double>> contributions,
                                                           std::span<const correlation> together = {}) {
    return kernel::combined(contributions, together);
}

/// One line of a budget: an input and what it does to one result.
template <class Q>
struct budget_line {
    std::string input{}; ///< path of the input
    Q contribution{};    ///< `c_i u_i`, signed
    double share = 0;    ///< its square over the combined variance: 0.71 means 71 % of the doubt, correlations aside
};

namespace kernel {

template <class Q>
[[nodiscard]] std::vector<budget_line<Q>> budget(std::span<const std::string> inputs, std::span<const Q> contributions) {
    require_that(inputs.size() == contributions.size(), "inputs", "must be as many as contributions");
    const auto all = kernel::covariance(contributions, contributions, {});
    std::vector<budget_line<Q>> lines;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (contributions[i] == Q{}) { continue; }
        lines.push_back({inputs[i], contributions[i], static_cast<double>(contributions[i] * contributions[i] / all)});
    }
    std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return lines;
}

} // namespace kernel

/// The budget of a result, largest contribution first; inputs that do not matter at all are left out.
/// @param inputs paths, as many as contributions
template <class U>
[[nodiscard]] std::vector<budget_line<bu::quantity<U, double>>>
budget(std::span<const std::string> inputs, std::span<const bu::quantity<U, double>> contributions) {
    return kernel::budget<bu::quantity<U, double>>(inputs, contributions);
}
/// The same of contributions in SI, as `uncertain_result` has them.
[[nodiscard]] inline std::vector<budget_line<double>> budget(std::span<const std::string> inputs,
                                                             std::span<const double> contributions) {
    return kernel::budget<double>(inputs, contributions);
}

/// Standard uncertainty of a value known only to lie within `half_width` of its best estimate, all places alike:
/// half_width/sqrt(3) (JCGM 100, 4.3.7): a caliper's resolution, a printed tolerance.
template <class U>
[[nodiscard]] constexpr bu::quantity<U, double> rectangular(const bu::quantity<U, double>& half_width) {
    return half_width / tautline::sqrt(3.0);
}

} // namespace tautline
