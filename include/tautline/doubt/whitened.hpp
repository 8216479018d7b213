#pragma once
/// @file
/// A state of a fit as all readings see it: misfits and slopes in doubts of the readings, the cost of the state, and the
/// direction in which it is pulled.

#include <cmath>
#include <span>
#include <vector>

#include "fit_problem.hpp"

namespace tautline::kernel {

/// One evaluation of a model.
template <std::floating_point R>
struct whitened {
    basic_modelled<R> model{}; ///< what the model told
    basic_matrix<R> slopes{};  ///< H: slopes in doubts of the readings
    std::vector<R> misfit{};   ///< d: misfits in doubts of the readings

    /// Counts what the model told in doubts of the readings, each scaled by its weight.
    void whiten(const basic_fit_problem<R>& problem, const std::vector<R>& weights) {
        const std::size_t m = problem.readings.size();
        misfit.resize(m);
        slopes = model.slopes;
        for (std::size_t k = 0; k < m; ++k) {
            const R share = std::sqrt(weights[k]);
            misfit[k] = share * (problem.readings[k] - model.values[k]);
            for (R& s : slopes.row(k)) { s *= share; }
        }
        solve_lower<R>(problem.reading_root, misfit);
        slopes = solved_lower(problem.reading_root, slopes);
    }
    /// The cost to be minimised, where this is the model at z.
    [[nodiscard]] R cost(const std::vector<R>& z) const { return dot<R>(z, z) + dot<R>(misfit, misfit); }
    /// Pull of inputs as read and readings together on the state: half of the fall of the cost along each of z.
    [[nodiscard]] std::vector<R> pull(const std::vector<R>& z) const {
        std::vector<R> out(z.size());
        for (std::size_t a = 0; a < z.size(); ++a) {
            out[a] = -z[a];
            for (std::size_t k = 0; k < misfit.size(); ++k) { out[a] += slopes(k, a) * misfit[k]; }
        }
        return out;
    }
    /// By how much a step from z would lower the cost if the model were linear.
    [[nodiscard]] R promised(const std::vector<R>& z, const std::vector<R>& delta) const {
        R sum{};
        for (std::size_t a = 0; a < z.size(); ++a) { sum -= (2 * z[a] + delta[a]) * delta[a]; }
        const auto moved = slopes * delta;
        for (std::size_t k = 0; k < moved.size(); ++k) { sum += (2 * misfit[k] - moved[k]) * moved[k]; }
        return sum;
    }
};

} // namespace tautline::kernel
