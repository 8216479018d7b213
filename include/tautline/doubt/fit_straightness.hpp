#pragma once
/// @file
/// Whether a model is linear enough about the state found for its slopes to tell the doubts.

#include <algorithm>
#include <cmath>

#include "fit_adjustment.hpp"

namespace tautline {

/// In doubts left after the fit: where the first step lands further from the end of the fit, the readings moved the model
/// far.
inline constexpr double moved_far = 0.5;
/// In doubts of the readings: where the model bends more than this over one doubt, doubts are only rough and a sample
/// says more.
inline constexpr double bent_much = 0.3;

/// How far from linear a fit is.
template <std::floating_point R = double>
struct basic_fit_straightness {
    R moved{}; ///< greatest distance of an input from where the first step led, in its doubt afterwards
    R bent{};  ///< greatest bend of the readings along a direction of doubt 1, in their doubts; infinite where the model
               ///< refuses
    [[nodiscard]] bool far_off() const { return !(moved <= R(moved_far)); }  ///< whether the readings moved the model far
    [[nodiscard]] bool stretched() const { return !(bent <= R(bent_much)); } ///< whether a sample is advisable
};
using fit_straightness = basic_fit_straightness<double>;

/// How far from linear a fit is. Asks the model once along each direction.
/// @param model as `fit_weighted` takes it
template <std::floating_point R, class Model>
[[nodiscard]] basic_fit_straightness<R> straightness_of(const basic_weighted_fit<R>& fit,
                                                        const basic_linear_adjustment<R>& a, Model&& model) {
    basic_fit_straightness<R> found;
    if (a.readings() == 0) { return found; } // nothing moved it
    const auto& directions = a.unit_directions();
    for (std::size_t i = 0; i < a.inputs(); ++i) {
        const R left = std::sqrt(kernel::dot<R>(directions.row(i), directions.row(i)));
        if (left > R(0)) { found.moved = std::max(found.moved, std::abs(fit.first_step[i] - fit.t[i]) / left); }
    }
    const auto straight = fit.by_input * directions;
    const basic_matrix<R> none(a.inputs(), 0);
    for (std::size_t c = 0; c < directions.columns(); ++c) {
        std::vector<R> t = fit.t;
        for (std::size_t i = 0; i < t.size(); ++i) { t[i] += directions(i, c); }
        std::vector<R> off(a.readings());
        try {
            const auto there = model(std::span<const R>(t), none);
            for (std::size_t k = 0; k < off.size(); ++k) { off[k] = there.values[k] - fit.values[k] - straight(k, c); }
        } catch (const invalid_input&) {
            found.bent = std::numeric_limits<R>::infinity();
            continue;
        }
        kernel::solve_lower<R>(a.reading_root(), off);
        found.bent = std::max(found.bent, std::sqrt(kernel::dot(off, off)));
    }
    return found;
}

} // namespace tautline
