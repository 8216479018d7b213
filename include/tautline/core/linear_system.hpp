#pragma once
/// @file
/// Small systems of linear equations, and least squares through them.

#include <array>
#include <cstddef>
#include <span>

#include "real.hpp"

namespace tautline {

/// Solves A X = B in place by elimination without pivoting. It suits symmetric positive definite matrices, and an
/// identity plus something small; the physics here leads to these only. Every Real follows the same path.
/// @param a n by n, row by row; destroyed
/// @param b n by m, row by row; becomes X
template <real R>
constexpr void solve_in_place(std::span<R> a, std::span<R> b, std::size_t n) {
    const std::size_t m = n == 0 ? 0 : b.size() / n;
    for (std::size_t k = 0; k < n; ++k) {
        for (std::size_t i = k + 1; i < n; ++i) {
            const R f = a[i * n + k] / a[k * n + k];
            for (std::size_t j = k; j < n; ++j) { a[i * n + j] = a[i * n + j] - f * a[k * n + j]; }
            for (std::size_t j = 0; j < m; ++j) { b[i * m + j] = b[i * m + j] - f * b[k * m + j]; }
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = 0; j < m; ++j) {
            R sum = b[k * m + j];
            for (std::size_t i = k + 1; i < n; ++i) { sum = sum - a[k * n + i] * b[i * m + j]; }
            b[k * m + j] = sum / a[k * n + k];
        }
    }
}

/// Least squares for N unknowns: add one observation after another, then solve. The columns should be of similar size.
template <real R, std::size_t N>
class normal_equations {
public:
    /// Adds an observation: `row . unknowns` was observed to be `value`, with a weight.
    constexpr void add(const std::array<R, N>& row, const R& value, const R& weight = number<R>(1)) {
        for (std::size_t i = 0; i < N; ++i) {
            for (std::size_t j = 0; j < N; ++j) { a_[i * N + j] += weight * row[i] * row[j]; }
            b_[i] += weight * row[i] * value;
        }
    }
    /// The unknowns; at least N independent observations must have been added.
    [[nodiscard]] constexpr std::array<R, N> solution() const {
        auto a = a_;
        auto b = b_;
        solve_in_place<R>(a, b, N);
        return b;
    }

private:
    std::array<R, N * N> a_{};
    std::array<R, N> b_{};
};

} // namespace tautline
