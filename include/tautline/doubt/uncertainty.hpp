#pragma once
/// @file
/// How sure a result is, from how sure its inputs are: the law of propagation of uncertainty with a budget.
///
/// Source: JCGM 100:2008 (GUM), clause 5: `u_c^2 = sum_i sum_j c_i c_j u_i u_j r_ij` (numbers of its equations, 10 and
/// 13, from memory). This is first order. Where an input is doubtful by a large share of itself the answer is somewhat
/// low: compare it with a random sample.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "../core/describe.hpp"
#include "../core/dual.hpp"
#include "../core/invalid_input.hpp"
#include "../core/quantity.hpp"

namespace tautline {

/// Coverage factor of every uncertainty that is printed: about 95 % (JCGM 100, 6.2 and annex G).
inline constexpr double coverage_factor = 2;

/// Two inputs that err together, by their places in the list of inputs.
struct correlation {
    std::size_t first = 0;  ///< place of one input, from 0
    std::size_t second = 0; ///< place of the other, from 0
    double coefficient = 0; ///< correlation coefficient, -1 to 1
};

/// The contribution of input `i` to a result computed in dual numbers: `c_i u_i`, signed, in the result's own unit.
/// @param result the result, partial `i` taken with respect to input i in SI
/// @param i 0 to N - 1
/// @param standard standard uncertainty of the input in SI, at least 0
/// @throws invalid_input for an input that the result does not have, and for an uncertainty below 0 or not finite
template <class U, class R, std::size_t N>
[[nodiscard]] bu::quantity<U, R> contribution(const bu::quantity<U, dual<R, N>>& result, std::size_t i, const R& standard) {
    if (i >= N) {
        messages::refuse("input", messages::joined({i}), messages::joined({"must be one of the result's, 0 to ", N - 1}));
    }
    require("standard uncertainty", standard, at_least(0));
    return bu::quantity<U, R>::from_value(result.value().partial[i] * standard);
}

namespace kernel {

/// Covariance of two results that share their inputs, from their contributions; these may be quantities or plain numbers.
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
        for (const correlation* other = together.data(); other != &c; ++other) {
            require_that((c.first != other->first || c.second != other->second) &&
                             (c.first != other->second || c.second != other->first),
                         "correlation", "must be given once for each pair");
        }
    }
}

/// Whether correlations, each of two inputs, can all hold at once: no sum of the inputs then has a negative variance. By
/// elimination with the largest pivot first; what is within a billionth of 0 counts as 0.
[[nodiscard]] inline bool can_hold(std::span<const correlation> together) {
    std::vector<std::size_t> inputs;
    const auto place = [&](std::size_t input) {
        const auto at = std::find(inputs.begin(), inputs.end(), input);
        if (at == inputs.end()) { inputs.push_back(input); }
        return static_cast<std::size_t>(std::find(inputs.begin(), inputs.end(), input) - inputs.begin());
    };
    for (const correlation& c : together) { (void)(place(c.first) + place(c.second)); }
    const std::size_t n = inputs.size();
    std::vector<double> r(n * n);
    for (std::size_t i = 0; i < n; ++i) { r[i * n + i] = 1; }
    for (const correlation& c : together) {
        const std::size_t a = place(c.first), b = place(c.second);
        r[a * n + b] = r[b * n + a] = c.coefficient;
    }
    constexpr double nothing = 1e-9;
    std::vector<bool> done(n);
    for (std::size_t step = 0; step < n; ++step) {
        std::size_t p = n;
        for (std::size_t i = 0; i < n; ++i) {
            if (done[i]) { continue; }
            if (r[i * n + i] < -nothing) { return false; }
            if (p == n || r[p * n + p] < r[i * n + i]) { p = i; }
        }
        done[p] = true;
        const double pivot = r[p * n + p];
        for (std::size_t i = 0; i < n; ++i) {
            if (done[i]) { continue; }
            const double share = r[i * n + p];
            // An input without remaining variance cannot move others.
            if (pivot <= nothing && std::abs(share) > std::sqrt(nothing)) { return false; }
            if (pivot <= nothing) { continue; }
            for (std::size_t k = 0; k < n; ++k) {
                if (!done[k]) { r[i * n + k] -= share * r[p * n + k] / pivot; }
            }
        }
    }
    return true;
}

/// The largest contribution that is allowed, in SI: a larger one could not be squared.
inline constexpr double largest_contribution = 1e150;

/// Refuses contributions that are not finite, or too large to be squared.
template <class C>
void require_contributions(std::span<const C> list, std::string_view name) {
    for (std::size_t i = 0; i < list.size(); ++i) {
        const double v = static_cast<double>(description::leaf(list[i]));
        // The path is put together only where it is needed.
        if (!(std::abs(v) <= largest_contribution)) {
            require_that(false, messages::path_of(name, i), "must be a finite number, in SI at most 1e150 of either sign");
        }
    }
}

template <class C>
[[nodiscard]] C combined(std::span<const C> contributions, std::span<const correlation> together) {
    require_contributions(contributions, "contributions");
    require_pairs(together, contributions.size());
    auto variance = covariance(contributions, contributions, together);
    if (together.empty()) { return sqrt(variance); }
    const auto size = covariance(contributions, contributions, {});
    // Perfectly correlated inputs may cancel, with a rounding error below zero.
    require_that(!(variance < -1e-12 * size), "correlation", "must not contradict the other correlations");
    return sqrt(max(variance, decltype(variance){}));
}

} // namespace kernel

/// Covariance of two results of the same inputs: `sum_i sum_j a_i b_j r_ij`, in the product of their units.
/// @param a,b contributions `c_i u_i` of each input to each result, of the same length
/// @param together pairs of correlated inputs, each pair given once
/// @throws invalid_input where the lists differ in length, a pair names no input or one input twice, a pair is named
/// twice, or |r| is more than 1
template <class U, class V>
[[nodiscard]] auto covariance(std::span<const bu::quantity<U, double>> a, std::span<const bu::quantity<V, double>> b,
                              std::span<const correlation> together = {}) {
    require_that(a.size() == b.size(), "contributions", "must be given for the same inputs in both results");
    kernel::require_contributions(a, "a");
    kernel::require_contributions(b, "b");
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

/// One line of a budget: an input and its contribution to one result.
template <class Q>
struct budget_line {
    std::string input{}; ///< path of the input
    Q contribution{};    ///< `c_i u_i`, signed
    double share = 0;    ///< its square over the combined variance: 0.71 is 71 % of the doubt, correlations aside
};

namespace kernel {

template <class Q>
[[nodiscard]] std::vector<budget_line<Q>> budget(std::span<const std::string> inputs, std::span<const Q> contributions) {
    require_that(inputs.size() == contributions.size(), "inputs", "must be as many as contributions");
    require_contributions(contributions, "contributions");
    const auto all = kernel::covariance(contributions, contributions, {});
    std::vector<budget_line<Q>> lines;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (contributions[i] * contributions[i] == Q{} * Q{}) { continue; }
        lines.push_back({inputs[i], contributions[i], static_cast<double>(contributions[i] * contributions[i] / all)});
    }
    std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
    return lines;
}

} // namespace kernel

/// The budget of a result, largest contribution first. Inputs that contribute nothing are left out.
/// @param inputs paths, one for each contribution
template <class U>
[[nodiscard]] std::vector<budget_line<bu::quantity<U, double>>>
budget(std::span<const std::string> inputs, std::span<const bu::quantity<U, double>> contributions) {
    return kernel::budget<bu::quantity<U, double>>(inputs, contributions);
}
/// The same for contributions in SI, as `uncertain_result` has them.
[[nodiscard]] inline std::vector<budget_line<double>> budget(std::span<const std::string> inputs,
                                                             std::span<const double> contributions) {
    return kernel::budget<double>(inputs, contributions);
}

/// Standard uncertainty of a value that is only known to lie within `half_width` of its best estimate, with all places
/// equally likely: half_width/sqrt(3) (JCGM 100, 4.3.7). Such are a caliper's resolution and a printed tolerance.
/// @throws invalid_input for a negative width and for one that is not finite
template <class U>
[[nodiscard]] constexpr bu::quantity<U, double> rectangular(const bu::quantity<U, double>& half_width) {
    require("half_width", half_width, at_least(bu::quantity<U, double>::from_value(0)));
    return half_width / tautline::sqrt(3.0);
}

} // namespace tautline
