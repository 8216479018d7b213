#pragma once
/// @file
/// What is known after the readings where the model is not linear enough: a weighted sample of states about the one
/// found.
///
/// Source: importance sampling; states are drawn from the linear adjustment. Three of ten draws are stretched along one
/// direction, each direction in turn, so that a tail longer than that of a normal distribution is met. Weights are taken
/// over the mixture of all draws (E. Veach's balance heuristic). Both from memory.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include "fit_adjustment.hpp"
#include "normal_deviate.hpp"

namespace tautline {

/// Least effective share of draws with which a sample is trusted.
inline constexpr double least_effective = 0.3;

/// A result over a weighted sample.
template <std::floating_point R = double>
struct basic_sampled_result {
    R mean{};     ///< of the sample
    R standard{}; ///< standard deviation over the sample
};
using sampled_result = basic_sampled_result<double>;
/// The results of a weighted sample.
template <std::floating_point R = double>
struct basic_fit_sample {
    std::vector<basic_sampled_result<R>> inputs{};  ///< of the change t of each input
    std::vector<basic_sampled_result<R>> results{}; ///< of each result that was asked for
    R effective{};                                  ///< effective share of the draws, 0 to 1
    std::size_t refused = 0;                        ///< draws that the model refuses
    /// Whether enough draws count for the sample to be trusted.
    [[nodiscard]] bool trusted() const { return effective >= R(least_effective); }
};
using fit_sample = basic_fit_sample<double>;

namespace kernel {

/// A draw as deviates of doubt 1 along directions that do not err together, and the logarithm of the density of draws
/// there.
struct stretched_draw {
    std::vector<double> deviates{};
    double log_density = 0;
};
[[nodiscard]] inline stretched_draw drawn_of(std::uint64_t seed, std::size_t number, std::size_t directions) {
    constexpr double stretch = 2.5, plain = 0.7;
    stretched_draw d;
    double square = 0, tails = 0;
    for (std::size_t c = 0; c < directions; ++c) {
        const bool stretched = number % 10 >= 7 && (number / 10) % directions == c;
        d.deviates.push_back((stretched ? stretch : 1) * normal_deviate(seed, number, c));
        square += d.deviates[c] * d.deviates[c];
        tails += std::exp(d.deviates[c] * d.deviates[c] * (1 - 1 / (stretch * stretch)) / 2) / stretch;
    }
    const double all = directions > 0 ? plain + (1 - plain) * tails / static_cast<double>(directions) : 1;
    d.log_density = std::log(all) - square / 2;
    return d;
}

} // namespace kernel

/// Draws states, and weights each by the probability that inputs and readings give it.
/// @param model as `fit_weighted` takes it
/// @param results called with a state, right after the model with that state; gives a list of numbers
/// @param draws at least 2
/// @param seed the same seed gives the same sample
template <std::floating_point R, class Model, class Results>
[[nodiscard]] basic_fit_sample<R> sample_of(const basic_weighted_fit<R>& fit, const basic_linear_adjustment<R>& a,
                                            Model&& model, Results&& results, std::size_t draws, std::uint64_t seed) {
    require_that(2 <= draws && draws <= 10'000'000, "draws", "must be 2 to 10 million");
    const std::size_t r = a.causes();
    const basic_matrix<R> none(a.inputs(), 0);
    struct draw {
        R log_weight{};
        std::vector<R> numbers{}; ///< state, then results
    };
    basic_fit_sample<R> found;
    std::vector<draw> kept;
    for (std::size_t k = 0; k < draws; ++k) {
        const auto drawn = kernel::drawn_of(seed, k, r);
        std::vector<R> e(drawn.deviates.begin(), drawn.deviates.end());
        kernel::solve_upper<R>(a.factor(), e);
        for (std::size_t c = 0; c < r; ++c) { e[c] += fit.z[c]; }
        draw one;
        one.numbers = fit.problem.root * e;
        try {
            const auto there = model(std::span<const R>(one.numbers), none);
            std::vector<R> off(a.readings());
            for (std::size_t i = 0; i < off.size(); ++i) { off[i] = fit.problem.readings[i] - there.values[i]; }
            kernel::solve_lower<R>(a.reading_root(), off);
            one.log_weight = -(kernel::dot(e, e) + kernel::dot(off, off)) / 2 - R(drawn.log_density);
            const std::vector<R> asked = results(std::span<const R>(one.numbers));
            one.numbers.insert(one.numbers.end(), asked.begin(), asked.end());
        } catch (const invalid_input&) {
            ++found.refused;
            continue;
        }
        kept.push_back(std::move(one));
    }
    if (kept.empty()) { return found; }
    R largest = kept.front().log_weight;
    for (const draw& d : kept) { largest = std::max(largest, d.log_weight); }
    R sum{}, squares{};
    for (draw& d : kept) {
        d.log_weight = std::exp(d.log_weight - largest);
        sum += d.log_weight;
        squares += d.log_weight * d.log_weight;
    }
    found.effective = sum * sum / (squares * static_cast<R>(draws));
    const std::size_t numbers = kept.front().numbers.size();
    for (std::size_t i = 0; i < numbers; ++i) {
        basic_sampled_result<R> s;
        for (const draw& d : kept) { s.mean += d.log_weight / sum * d.numbers[i]; }
        for (const draw& d : kept) { s.standard += d.log_weight / sum * (d.numbers[i] - s.mean) * (d.numbers[i] - s.mean); }
        s.standard = std::sqrt(s.standard);
        (i < a.inputs() ? found.inputs : found.results).push_back(s);
    }
    return found;
}

} // namespace tautline
