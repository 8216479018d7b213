#pragma once
/// @file
/// Matrices for readings and inputs: some dozens of rows and columns of plain numbers.

#include <concepts>
#include <cstddef>
#include <span>
#include <vector>

#include "../core/invalid_input.hpp"

namespace tautline {

/// A matrix of numbers; rows and columns count from 0.
template <std::floating_point R>
class basic_matrix {
public:
    basic_matrix() = default;
    /// A matrix of zeros.
    basic_matrix(std::size_t rows, std::size_t columns) : rows_(rows), columns_(columns), numbers_(rows * columns) {}
    /// A matrix from its numbers, row by row; throws `invalid_input` where their count is not rows times columns.
    basic_matrix(std::size_t rows, std::size_t columns, std::vector<R> numbers)
        : rows_(rows), columns_(columns), numbers_(std::move(numbers)) {
        require_that(numbers_.size() == rows * columns, "numbers", "must be as many as rows times columns");
    }
    /// The n by n matrix with ones on the diagonal.
    [[nodiscard]] static basic_matrix identity(std::size_t n) {
        basic_matrix one(n, n);
        for (std::size_t i = 0; i < n; ++i) { one(i, i) = R(1); }
        return one;
    }
    /// A diagonal matrix of the squares of these numbers: the covariance of quantities that do not err together.
    [[nodiscard]] static basic_matrix squares(std::span<const R> standard) {
        basic_matrix all(standard.size(), standard.size());
        for (std::size_t i = 0; i < standard.size(); ++i) { all(i, i) = standard[i] * standard[i]; }
        return all;
    }

    [[nodiscard]] std::size_t rows() const { return rows_; }       ///< number of rows
    [[nodiscard]] std::size_t columns() const { return columns_; } ///< number of columns
    /// @{
    /// The number in a row and a column; places are not checked.
    [[nodiscard]] R& operator()(std::size_t row, std::size_t column) { return numbers_[row * columns_ + column]; }
    [[nodiscard]] const R& operator()(std::size_t row, std::size_t column) const {
        return numbers_[row * columns_ + column];
    }
    [[nodiscard]] std::span<R> row(std::size_t i) { return std::span(numbers_).subspan(i * columns_, columns_); }
    [[nodiscard]] std::span<const R> row(std::size_t i) const {
        return std::span(numbers_).subspan(i * columns_, columns_);
    }
    /// @}
    /// Column `j` as a list.
    [[nodiscard]] std::vector<R> column(std::size_t j) const {
        std::vector<R> all(rows_);
        for (std::size_t i = 0; i < rows_; ++i) { all[i] = (*this)(i, j); }
        return all;
    }
    /// The transposed matrix.
    [[nodiscard]] basic_matrix transposed() const {
        basic_matrix t(columns_, rows_);
        for (std::size_t i = 0; i < rows_; ++i) {
            for (std::size_t j = 0; j < columns_; ++j) { t(j, i) = (*this)(i, j); }
        }
        return t;
    }
    /// Product of two matrices; the sizes must fit.
    [[nodiscard]] friend basic_matrix operator*(const basic_matrix& a, const basic_matrix& b) {
        basic_matrix product(a.rows_, b.columns_);
        for (std::size_t i = 0; i < a.rows_; ++i) {
            for (std::size_t k = 0; k < a.columns_; ++k) {
                const R f = a(i, k);
                for (std::size_t j = 0; j < b.columns_; ++j) { product(i, j) += f * b(k, j); }
            }
        }
        return product;
    }
    /// Product of a matrix and a list; the sizes must fit.
    [[nodiscard]] friend std::vector<R> operator*(const basic_matrix& a, std::span<const R> x) {
        std::vector<R> product(a.rows_);
        for (std::size_t i = 0; i < a.rows_; ++i) {
            for (std::size_t k = 0; k < a.columns_; ++k) { product[i] += a(i, k) * x[k]; }
        }
        return product;
    }
    /// Product of a matrix and a list; the sizes must fit.
    [[nodiscard]] friend std::vector<R> operator*(const basic_matrix& a, const std::vector<R>& x) {
        return a * std::span<const R>(x);
    }

private:
    std::size_t rows_ = 0, columns_ = 0;
    std::vector<R> numbers_{};
};
using matrix = basic_matrix<double>;

namespace kernel {

/// Sum of the products of two lists' numbers.
template <std::floating_point R>
[[nodiscard]] R dot(std::span<const R> a, std::span<const R> b) {
    R sum{};
    for (std::size_t i = 0; i < a.size(); ++i) { sum += a[i] * b[i]; }
    return sum;
}
template <std::floating_point R>
[[nodiscard]] R dot(const std::vector<R>& a, const std::vector<R>& b) {
    return dot<R>(std::span<const R>(a), std::span<const R>(b));
}

/// `A B^T`.
template <std::floating_point R>
[[nodiscard]] basic_matrix<R> times_transposed(const basic_matrix<R>& a, const basic_matrix<R>& b) {
    basic_matrix<R> product(a.rows(), b.rows());
    for (std::size_t i = 0; i < a.rows(); ++i) {
        for (std::size_t j = 0; j < b.rows(); ++j) { product(i, j) = dot<R>(a.row(i), b.row(j)); }
    }
    return product;
}

} // namespace kernel

} // namespace tautline
