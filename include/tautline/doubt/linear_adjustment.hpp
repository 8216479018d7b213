#pragma once
/// @file
/// Inputs and readings adjusted to each other where the model is linear enough: how sure each is afterwards, what each
/// reading does to a result, and what is known without one of them.
///
/// With `S = L L^T` of the inputs, `R = Lambda Lambda^T` of the readings, slopes J and `H = Lambda^-1 J L`: `P_z = (1 +
/// H^T H)^-1`, `P = L P_z L^T`, `W = (J S J^T + R)^-1`, gain `K = S J^T W`. The variance of a result is never taken as a
/// difference of two variances: where the inputs are hardly known, such a difference cancels.
///
/// Source: generalised least squares in the form of conditions; C. D. Rodgers, Inverse Methods for Atmospheric Sounding
/// (2000), ch. 2 and 3 for gain and averaging kernel (from memory).

#include "covariance_root.hpp"

namespace tautline {

/// An adjustment about a state. A result is given as a row of slopes, one for each input.
template <std::floating_point R>
class basic_linear_adjustment {
public:
    /// @param root L, n inputs by r causes
    /// @param readings Lambda, m by m
    /// @param by_input J, m by n
    /// @param misfit what the model, linearised and at t = 0, leaves unexplained of each reading
    basic_linear_adjustment(basic_matrix<R> root, basic_matrix<R> readings, basic_matrix<R> by_input, std::vector<R> misfit)
        : root_(std::move(root)), reading_root_(std::move(readings)), by_input_(std::move(by_input)),
          misfit_(std::move(misfit)) {
        const std::size_t m = reading_root_.rows(), n = root_.rows();
        require_that(by_input_.rows() == m && by_input_.columns() == n, "slopes",
                     "must have a row for each reading and a column for each input");
        require_that(misfit_.size() == m, "misfit", "must be one for each reading");
        white_input_ = kernel::solved_lower(reading_root_, by_input_);
        white_ = white_input_ * root_;
        white_misfit_ = misfit_;
        kernel::solve_lower<R>(reading_root_, white_misfit_);
        factor_ = kernel::root_of_one_and(white_);
        directions_ = kernel::solved_lower(factor_, root_.transposed()).transposed();
        shift_.assign(root_.columns(), R(0));
        for (std::size_t a = 0; a < shift_.size(); ++a) {
            for (std::size_t k = 0; k < m; ++k) { shift_[a] += white_(k, a) * white_misfit_[k]; }
        }
        solve_normal(shift_);
        left_ = white_misfit_;
        const auto explained = white_ * shift_;
        for (std::size_t k = 0; k < m; ++k) { left_[k] -= explained[k]; }
        for (std::size_t i = 0; i < n; ++i) { standard_.push_back(std::sqrt(kernel::dot<R>(root_.row(i), root_.row(i)))); }
    }

    [[nodiscard]] std::size_t inputs() const { return root_.rows(); }           ///< n
    [[nodiscard]] std::size_t readings() const { return reading_root_.rows(); } ///< m
    [[nodiscard]] std::size_t causes() const { return root_.columns(); }        ///< r
    /// @{
    /// The matrices as given; `white_slopes` is H, and `factor` the lower root C of `1 + H^T H`.
    [[nodiscard]] const basic_matrix<R>& root() const { return root_; }
    [[nodiscard]] const basic_matrix<R>& reading_root() const { return reading_root_; }
    [[nodiscard]] const basic_matrix<R>& by_input() const { return by_input_; }
    [[nodiscard]] const basic_matrix<R>& white_slopes() const { return white_; }
    [[nodiscard]] const basic_matrix<R>& white_by_input() const { return white_input_; }
    [[nodiscard]] const basic_matrix<R>& factor() const { return factor_; }
    /// @}
    /// Standard uncertainty of an input before the readings.
    [[nodiscard]] R standard_before(std::size_t input) const { return standard_[input]; }
    /// Standard uncertainty of a reading, as given.
    [[nodiscard]] R standard_of_reading(std::size_t k) const {
        return std::sqrt(kernel::dot<R>(reading_root_.row(k), reading_root_.row(k)));
    }
    /// The state that inputs and readings make most probable, in causes of doubt 1.
    [[nodiscard]] const std::vector<R>& causes_moved() const { return shift_; }
    /// The same state as changes t of the inputs.
    [[nodiscard]] std::vector<R> inputs_moved() const { return root_ * shift_; }
    /// The remaining misfits in doubts of the readings, `Lambda^T W d`.
    [[nodiscard]] const std::vector<R>& white_left() const { return left_; }
    /// The squares of all misfits together, as the doubts of readings and inputs weigh them: `d^T W d`.
    [[nodiscard]] R square() const { return kernel::dot<R>(shift_, shift_) + kernel::dot<R>(left_, left_); }

    /// The covariance afterwards as directions of doubt 1 that do not err together: `L P_z^(1/2)`, n by r.
    [[nodiscard]] const basic_matrix<R>& unit_directions() const { return directions_; }
    /// Slopes by inputs turned into slopes by causes: `g L`.
    [[nodiscard]] std::vector<R> by_cause(std::span<const R> by_input) const {
        require_that(by_input.size() == inputs(), "slopes", "must be one for each input");
        std::vector<R> row(causes());
        for (std::size_t i = 0; i < inputs(); ++i) {
            if (by_input[i] == R(0)) { continue; }
            for (std::size_t a = 0; a < causes(); ++a) { row[a] += by_input[i] * root_(i, a); }
        }
        return row;
    }
    /// Covariance of two results after the readings; of one with itself it is the variance.
    [[nodiscard]] R covariance(std::span<const R> a, std::span<const R> b) const {
        auto x = by_cause(a), y = by_cause(b);
        kernel::solve_lower<R>(factor_, x);
        kernel::solve_lower<R>(factor_, y);
        return kernel::dot<R>(x, y);
    }
    /// Standard uncertainty of a result before the readings.
    [[nodiscard]] R standard_before(std::span<const R> slopes) const {
        const auto x = by_cause(slopes);
        return std::sqrt(kernel::dot<R>(x, x));
    }
    /// Standard uncertainty of a result after the readings.
    [[nodiscard]] R standard(std::span<const R> slopes) const { return std::sqrt(covariance(slopes, slopes)); }
    /// Covariance P of the inputs after the readings, n by n.
    [[nodiscard]] basic_matrix<R> covariance() const {
        const auto& u = unit_directions();
        basic_matrix<R> p(inputs(), inputs());
        for (std::size_t i = 0; i < inputs(); ++i) {
            const auto filled = kernel::filled_columns::of<R>(u.row(i));
            const auto own = u.row(i).subspan(filled.first, filled.end - filled.first);
            for (std::size_t j = i; j < inputs(); ++j) {
                p(i, j) = p(j, i) = kernel::dot<R>(own, u.row(j).subspan(filled.first, own.size()));
            }
        }
        return p;
    }
    /// By how much one unit of each reading moves a result: `g K`.
    [[nodiscard]] std::vector<R> gain(std::span<const R> slopes) const {
        auto x = by_cause(slopes);
        solve_normal(x);
        std::vector<R> row = white_ * x;
        kernel::solve_upper<R>(reading_root_, row);
        return row;
    }
    /// By how much one unit of each reading moves each input: K, n by m.
    [[nodiscard]] basic_matrix<R> gain() const {
        auto all = root_ * kernel::solved_upper(factor_, kernel::solved_lower(factor_, white_.transposed()));
        for (std::size_t i = 0; i < inputs(); ++i) { kernel::solve_upper<R>(reading_root_, all.row(i)); }
        return all;
    }
    /// By how much one unit of each input's own reading moves a result: `g (1 - K J)`.
    [[nodiscard]] std::vector<R> input_gain(std::span<const R> slopes) const {
        const auto k = gain(slopes);
        std::vector<R> row(slopes.begin(), slopes.end());
        for (std::size_t j = 0; j < readings(); ++j) {
            for (std::size_t i = 0; i < inputs(); ++i) { row[i] -= k[j] * by_input_(j, i); }
        }
        return row;
    }
    /// Applies `(1 + H^T H)^-1` to a row by causes, in place.
    void solve_normal(std::vector<R>& x) const {
        kernel::solve_lower<R>(factor_, x);
        kernel::solve_upper<R>(factor_, x);
    }

private:
    basic_matrix<R> root_, reading_root_, by_input_, white_input_{}, white_{}, factor_{}, directions_{};
    std::vector<R> misfit_, white_misfit_{}, shift_{}, left_{}, standard_{};
};
using linear_adjustment = basic_linear_adjustment<double>;

} // namespace tautline
