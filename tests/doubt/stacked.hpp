#pragma once
/// @file
/// Adjustment by another method: inputs and readings stacked as n + m observations with weights, normal equations, their
/// inverse by Gauss and Jordan with pivots, residuals and their covariance.

#include <cmath>
#include <vector>

#include <tautline/doubt/matrix.hpp>

namespace stack {

using tautline::matrix;

inline matrix inverse(matrix a) {
    const std::size_t n = a.rows();
    matrix b = matrix::identity(n);
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t p = k;
        for (std::size_t i = k; i < n; ++i) { p = std::abs(a(i, k)) > std::abs(a(p, k)) ? i : p; }
        for (std::size_t j = 0; j < n; ++j) {
            std::swap(a(k, j), a(p, j));
            std::swap(b(k, j), b(p, j));
        }
        const double pivot = a(k, k);
        for (std::size_t j = 0; j < n; ++j) {
            a(k, j) /= pivot;
            b(k, j) /= pivot;
        }
        for (std::size_t i = 0; i < n; ++i) {
            const double f = i == k ? 0 : a(i, k);
            for (std::size_t j = 0; j < n; ++j) {
                a(i, j) -= f * a(k, j);
                b(i, j) -= f * b(k, j);
            }
        }
    }
    return b;
}

struct result {
    std::vector<double> moved;
    matrix covariance;
    double square;
    std::vector<double> w, redundancy; ///< inputs first
};
/// Inputs observed as 0 with covariance s, readings as `misfit` with covariance r; neither may be singular.
inline result adjusted(const matrix& s, const matrix& r, const matrix& j, const std::vector<double>& misfit) {
    const std::size_t n = s.rows(), m = r.rows(), all = n + m;
    matrix cov(all, all), a(all, n);
    std::vector<double> y(all);
    for (std::size_t i = 0; i < n; ++i) {
        a(i, i) = 1;
        for (std::size_t k = 0; k < n; ++k) { cov(i, k) = s(i, k); }
    }
    for (std::size_t k = 0; k < m; ++k) {
        y[n + k] = misfit[k];
        for (std::size_t i = 0; i < n; ++i) { a(n + k, i) = j(k, i); }
        for (std::size_t l = 0; l < m; ++l) { cov(n + k, n + l) = r(k, l); }
    }
    const matrix weight = inverse(cov), at = a.transposed(), q = inverse(at * weight * a);
    result out{q * (at * (weight * y)), q, 0, {}, {}};
    auto e = y;
    const auto fitted = a * out.moved;
    for (std::size_t i = 0; i < all; ++i) { e[i] -= fitted[i]; }
    const auto we = weight * e;
    // Covariance of the residuals and of the weighted residuals.
    matrix qe = cov;
    const matrix aqa = a * q * at;
    for (std::size_t i = 0; i < all; ++i) {
        for (std::size_t k = 0; k < all; ++k) { qe(i, k) -= aqa(i, k); }
    }
    const matrix qw = weight * qe * weight, share = qe * weight;
    for (std::size_t i = 0; i < all; ++i) {
        out.square += e[i] * we[i];
        out.w.push_back(we[i] / std::sqrt(qw(i, i)));
        out.redundancy.push_back(share(i, i));
    }
    return out;
}

} // namespace stack
