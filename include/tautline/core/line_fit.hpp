#pragma once
/// @file
/// A straight line through measured points by least squares, with what its uncertainty needs.

#include <optional>
#include <vector>

#include "real.hpp"

namespace tautline {

/// A fitted line `y = offset + slope x`, or `y = slope x` when no offset was asked for.
template <class R = double>
struct basic_line_fit {
    R offset{};                 ///< y at x = 0
    R slope{};                  ///< change of y for each unit of x
    std::vector<R> residuals{}; ///< measured less fitted, in the order given
    std::vector<R> leverages{}; ///< how strongly each point pulls the line to itself, 0 to 1
    int freedom = 0;            ///< number of points less number of fitted coefficients
    R squares{};                ///< sum of the squared residuals
    /// Variance of the offset, for readings of variance 1.
    R offset_offset{};
    R offset_slope{}; ///< covariance of offset and slope, likewise
    R slope_slope{};  ///< variance of the slope, likewise
};
using line_fit = basic_line_fit<double>;

/// Variance of one reading about the line, `squares/freedom`. None when there are no more points than coefficients, so
/// that the line goes through every point.
template <class R>
[[nodiscard]] std::optional<R> reading_variance(const basic_line_fit<R>& f) {
    if (f.freedom < 1) { return std::nullopt; }
    return R(f.squares / number<R>(f.freedom));
}

/// Variance of the line's height at x, for readings of variance 1.
template <class R>
[[nodiscard]] R height_variance(const basic_line_fit<R>& f, const std::type_identity_t<R>& x) {
    return f.offset_offset + number<R>(2) * x * f.offset_slope + x * x * f.slope_slope;
}

/// A straight line `y = offset + slope x`.
template <class R = double>
struct basic_fitted_line {
    R offset{}; ///< y at x = 0
    R slope{};  ///< change of y for each unit of x
};
using fitted_line = basic_fitted_line<double>;
/// The line of least squares in y through the points `x(i)`, `y(i)`, without its uncertainty. At least two points must
/// have different x.
template <class R, class X, class Y>
[[nodiscard]] constexpr basic_fitted_line<R> line_through(std::size_t count, X&& x, Y&& y) {
    R mean_x{}, mean_y{}, sxx{}, sxy{};
    for (std::size_t i = 0; i < count; ++i) {
        mean_x += x(i);
        mean_y += y(i);
    }
    const R share = number<R>(1 / static_cast<long double>(count));
    mean_x = mean_x * share;
    mean_y = mean_y * share;
    for (std::size_t i = 0; i < count; ++i) {
        const R d = x(i) - mean_x;
        sxx += d * d;
        sxy += d * (y(i) - mean_y);
    }
    const R slope = sxy / sxx;
    return {R(mean_y - slope * mean_x), slope};
}

/// The line of least squares in y. Callers must check that there are two points at different x (without an offset: one
/// at x != 0).
/// Source: any text on linear regression, e.g. N. R. Draper and H. Smith, Applied Regression Analysis, ch. 1 (from memory).
template <class R>
[[nodiscard]] basic_line_fit<R> fit_line(const std::vector<R>& x, const std::vector<R>& y, bool with_offset) {
    const R count = number<R>(static_cast<long double>(x.size()));
    R mean_x{}, mean_y{}, sxx{}, sxy{};
    if (with_offset) {
        // Sums about the mean keep their digits when x is far from 0.
        for (std::size_t i = 0; i < x.size(); ++i) {
            mean_x += x[i] / count;
            mean_y += y[i] / count;
        }
    }
    for (std::size_t i = 0; i < x.size(); ++i) {
        sxx += (x[i] - mean_x) * (x[i] - mean_x);
        sxy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    const R one = number<R>(1), shared = with_offset ? R(one / count) : R{};
    basic_line_fit<R> f;
    f.slope = sxy / sxx;
    f.offset = mean_y - f.slope * mean_x;
    f.freedom = static_cast<int>(x.size()) - (with_offset ? 2 : 1);
    f.slope_slope = one / sxx;
    f.offset_slope = -mean_x / sxx;
    f.offset_offset = shared + mean_x * mean_x / sxx;
    for (std::size_t i = 0; i < x.size(); ++i) {
        f.residuals.push_back(y[i] - f.offset - f.slope * x[i]);
        f.leverages.push_back(shared + (x[i] - mean_x) * (x[i] - mean_x) / sxx);
        f.squares += f.residuals.back() * f.residuals.back();
    }
    return f;
}

} // namespace tautline
