#pragma once
/// @file
/// A fit as a linear adjustment about the state that it found.

#include "linear_adjustment.hpp"
#include "weighted_fit.hpp"

namespace tautline {

namespace kernel {

template <std::floating_point R>
[[nodiscard]] basic_linear_adjustment<R> adjustment_of(const basic_weighted_fit<R>& fit, basic_matrix<R> reading_root) {
    const auto moved = fit.by_input * fit.t;
    std::vector<R> misfit(moved.size());
    for (std::size_t k = 0; k < misfit.size(); ++k) { misfit[k] = fit.problem.readings[k] - fit.values[k] + moved[k]; }
    return {fit.problem.root, std::move(reading_root), fit.by_input, std::move(misfit)};
}

} // namespace kernel

/// The adjustment about a fit's state. Its misfits are those of the model linearised there, `y - h + J t`.
template <std::floating_point R>
[[nodiscard]] basic_linear_adjustment<R> adjustment_of(const basic_weighted_fit<R>& fit) {
    return kernel::adjustment_of(fit, fit.problem.reading_root);
}

/// The same with the weights of a robust fit: a reading that lies far out counts as more doubtful.
template <std::floating_point R>
[[nodiscard]] basic_linear_adjustment<R> weighted_adjustment_of(const basic_weighted_fit<R>& fit) {
    auto root = fit.problem.reading_root;
    for (std::size_t k = 0; k < root.rows(); ++k) {
        for (R& x : root.row(k)) { x /= std::sqrt(fit.weights[k]); }
    }
    return kernel::adjustment_of(fit, std::move(root));
}

} // namespace tautline
