#pragma once
/// @file
/// Roots of covariances: a matrix L with `L L^T = S`, with which readings and inputs are counted in units of their own
/// doubts.
///
/// Source: A.-L. Cholesky's method, as in G. H. Golub and C. F. Van Loan, Matrix Computations, ch. 4.2 (from memory).
/// Where inputs always err alike the covariance is singular: the column that they share is kept once.

#include <algorithm>
#include <cmath>
#include <limits>

#include "matrix.hpp"

namespace tautline {

namespace kernel {

/// A pivot below this share of its variance counts as 0: it is only rounding.
template <std::floating_point R>
inline constexpr R no_pivot = std::max(R(1e-12L), 64 * std::numeric_limits<R>::epsilon());

/// Solves `root x = b` in place; `root` is a lower triangle. Zeros of b cost nothing.
template <std::floating_point R>
void solve_lower(const basic_matrix<R>& root, std::span<R> b) {
    for (std::size_t k = 0; k < root.rows(); ++k) {
        if (b[k] == R(0)) { continue; }
        b[k] /= root(k, k);
        for (std::size_t i = k + 1; i < root.rows(); ++i) { b[i] -= root(i, k) * b[k]; }
    }
}
/// Solves `root^T x = b` in place; `root` is a lower triangle.
template <std::floating_point R>
void solve_upper(const basic_matrix<R>& root, std::span<R> b) {
    for (std::size_t i = root.rows(); i-- > 0;) {
        R sum = b[i];
        for (std::size_t k = i + 1; k < root.rows(); ++k) { sum -= root(k, i) * b[k]; }
        b[i] = sum / root(i, i);
    }
}
/// The columns of a row from the first to the last that is not 0.
struct filled_columns {
    std::size_t first = 0, end = 0;

    template <std::floating_point R>
    [[nodiscard]] static filled_columns of(std::span<const R> row) {
        filled_columns f{0, row.size()};
        while (f.first < f.end && row[f.first] == R(0)) { ++f.first; }
        while (f.end > f.first && row[f.end - 1] == R(0)) { --f.end; }
        return f;
    }
    void add(const filled_columns& other) {
        if (other.first == other.end) { return; }
        *this = first == end ? other : filled_columns{std::min(first, other.first), std::max(end, other.end)};
    }
};
/// `root^-1 B`, column by column. What is 0 in the triangle or beyond a row's ends costs nothing.
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> solved_lower(const basic_matrix<R>& root, const basic_matrix<R>& b) {
    basic_matrix<R> x = b;
    std::vector<filled_columns> filled(root.rows());
    for (std::size_t i = 0; i < root.rows(); ++i) {
        filled[i] = filled_columns::of<R>(b.row(i));
        for (std::size_t k = 0; k < i; ++k) {
            const R f = root(i, k);
            if (f == R(0)) { continue; }
            for (std::size_t j = filled[k].first; j < filled[k].end; ++j) { x(i, j) -= f * x(k, j); }
            filled[i].add(filled[k]);
        }
        for (std::size_t j = filled[i].first; j < filled[i].end; ++j) { x(i, j) /= root(i, i); }
    }
    return x;
}
/// `root^-T B`, column by column; costs as little.
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> solved_upper(const basic_matrix<R>& root, const basic_matrix<R>& b) {
    basic_matrix<R> x = b;
    std::vector<filled_columns> filled(root.rows());
    for (std::size_t i = root.rows(); i-- > 0;) {
        filled[i] = filled_columns::of<R>(b.row(i));
        for (std::size_t k = i + 1; k < root.rows(); ++k) {
            const R f = root(k, i);
            if (f == R(0)) { continue; }
            for (std::size_t j = filled[k].first; j < filled[k].end; ++j) { x(i, j) -= f * x(k, j); }
            filled[i].add(filled[k]);
        }
        for (std::size_t j = filled[i].first; j < filled[i].end; ++j) { x(i, j) /= root(i, i); }
    }
    return x;
}

/// Lower root of `1 + B^T B`, which always exists. `more` enlarges the diagonal by that share.
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> root_of_one_and(const basic_matrix<R>& b, R more = R(0)) {
    const std::size_t n = b.columns();
    if (b.rows() == 0 && more == R(0)) { return basic_matrix<R>::identity(n); }
    basic_matrix<R> root(n, n);
    for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t i = j; i < n; ++i) {
            R sum = i == j ? R(1) : R(0);
            for (std::size_t k = 0; k < b.rows(); ++k) { sum += b(k, i) * b(k, j); }
            if (i == j) { sum *= 1 + more; }
            for (std::size_t k = 0; k < j; ++k) { sum -= root(i, k) * root(j, k); }
            // Above 1, apart from rounding.
            root(i, j) = i == j ? std::sqrt(std::max(sum, R(1))) : sum / root(j, j);
        }
    }
    return root;
}

} // namespace kernel

/// Root of a covariance that may be singular: a row for each quantity, and a column for each cause that is left. A
/// quantity without variance has a row of zeros.
/// @throws invalid_input where it is no covariance: a variance below 0, or correlations that contradict each other
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> covariance_root(const basic_matrix<R>& s) {
    const std::size_t n = s.rows();
    require_that(s.columns() == n, "covariance", "must have as many rows as columns");
    const auto contradicts = [] {
        messages::refuse("correlations", "",
                         "must be such that all can hold at once: what errs with one cannot err against another that errs "
                         "with it");
    };
    const R nothing = kernel::no_pivot<R>, rest = 2 * std::sqrt(nothing), below = std::max(R(1e-9L), nothing);
    basic_matrix<R> root(n, n);
    std::size_t kept = 0;
    for (std::size_t j = 0; j < n; ++j) {
        require_that(R(0) <= s(j, j) && s(j, j) <= std::numeric_limits<R>::max(), messages::path_of("variance", j),
                     "must be a finite number, at least 0");
        R pivot = s(j, j);
        for (std::size_t k = 0; k < kept; ++k) { pivot -= root(j, k) * root(j, k); }
        if (!(pivot >= -below * s(j, j))) { contradicts(); }
        const bool none = pivot <= nothing * s(j, j);
        for (std::size_t i = j + 1; i < n; ++i) {
            R sum = s(i, j);
            for (std::size_t k = 0; k < kept; ++k) { sum -= root(i, k) * root(j, k); }
            // A quantity without remaining variance cannot move others.
            if (none && !(std::abs(sum) <= rest * std::sqrt(s(i, i) * s(j, j)))) { contradicts(); }
            if (!none) { root(i, kept) = sum / std::sqrt(pivot); }
        }
        if (!none) { root(j, kept++) = std::sqrt(pivot); }
    }
    basic_matrix<R> narrow(n, kept);
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t k = 0; k < kept; ++k) { narrow(i, k) = root(i, k); }
    }
    return narrow;
}

/// Root of the covariance of readings, a lower triangle. Each reading must have a doubt, and none may err exactly as
/// others do: it would say nothing that they do not.
/// @throws invalid_input where a reading has no doubt or errs exactly as others do
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> reading_root(const basic_matrix<R>& r) {
    for (std::size_t k = 0; k < r.rows(); ++k) {
        require_that(k < r.columns() && R(0) < r(k, k), messages::path_of("readings", k),
                     "must have a doubt: a reading without one is no reading");
    }
    basic_matrix<R> root = covariance_root(r);
    require_that(root.columns() == root.rows(), "readings",
                 "must not err exactly alike: correlations between readings must lie above -1 and below 1");
    return root;
}

} // namespace tautline
