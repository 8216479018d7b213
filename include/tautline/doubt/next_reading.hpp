#pragma once
/// @file
/// Which reading to take next: how much of a result's doubt each would take away. Values are not needed, so this can be
/// asked before the first reading.
///
/// Source: optimal design of experiments, criteria c and D (from memory); best linear prediction with one more reading.

#include <algorithm>
#include <cmath>

#include "linear_adjustment.hpp"

namespace tautline {

/// A reading that could be taken.
template <std::floating_point R = double>
struct basic_possible_reading {
    std::vector<R> slopes{}; ///< of what is read by each input
    R standard{};            ///< its standard uncertainty, more than 0
    int effort = 0;          ///< of readings with equal gain the one with less effort is taken
};
using possible_reading = basic_possible_reading<double>;

/// The gain from a reading.
template <std::floating_point R = double>
struct basic_reading_worth {
    std::size_t reading = 0; ///< place among the possible ones
    R share{};               ///< share of the result's variance that it takes away
    R standard{};            ///< standard uncertainty of the result with it and with those named before
    R information{};         ///< what it tells of all inputs together, `ln(1 + h P h^T / v^2) / 2`
};
using reading_worth = basic_reading_worth<double>;

/// Gains that differ by less than this share count as equal.
inline constexpr double equal_worth = 0.05;

/// The readings to take next for a result, best first. Each is judged as if those before it were taken.
/// @param slopes of the result by each input
/// @param count how many are wanted; fewer are returned where no other gains anything
/// @throws invalid_input for a reading without doubt
template <std::floating_point R>
[[nodiscard]] std::vector<basic_reading_worth<R>>
next_readings(const basic_linear_adjustment<R>& a, std::span<const R> slopes,
              std::span<const basic_possible_reading<R>> possible, std::size_t count) {
    // Everything is told by directions of doubt 1 that do not err together; a reading makes one of them surer.
    const auto directions = [&](std::span<const R> row) {
        auto x = a.by_cause(row);
        kernel::solve_lower<R>(a.factor(), x);
        return x;
    };
    std::vector<R> g = directions(slopes);
    std::vector<std::vector<R>> h;
    for (std::size_t i = 0; i < possible.size(); ++i) {
        require_that(R(0) < possible[i].standard, messages::path_of("readings", i), "must have a doubt, more than 0");
        h.push_back(directions(possible[i].slopes));
    }
    std::vector<basic_reading_worth<R>> chosen;
    std::vector<bool> taken(possible.size());
    while (chosen.size() < count) {
        const R variance = kernel::dot(g, g);
        std::vector<basic_reading_worth<R>> worth;
        R most{};
        for (std::size_t i = 0; i < possible.size(); ++i) {
            if (taken[i]) { continue; }
            const R own = kernel::dot(h[i], h[i]), v = possible[i].standard, shared = kernel::dot(g, h[i]);
            const R share = variance > R(0) ? shared * shared / ((own + v * v) * variance) : R(0);
            worth.push_back({i, share, std::sqrt(variance * std::max(R(0), 1 - share)), std::log1p(own / (v * v)) / 2});
            most = std::max(most, share);
        }
        const basic_reading_worth<R>* best = nullptr;
        for (const auto& w : worth) {
            if (!(w.share > R(0)) || w.share < (1 - R(equal_worth)) * most) { continue; }
            const bool easier = best && possible[w.reading].effort < possible[best->reading].effort;
            const bool as_easy = best && possible[w.reading].effort == possible[best->reading].effort;
            if (!best || easier || (as_easy && w.share > best->share)) { best = &w; }
        }
        if (!best) { break; }
        chosen.push_back(*best);
        taken[best->reading] = true;
        // x - h (h.x)/(v^2 + h.h + v sqrt(v^2 + h.h)): the root of P - P h h^T P/(...), applied to each row.
        const std::vector<R> with = h[best->reading];
        const R v = possible[best->reading].standard, all = kernel::dot(with, with) + v * v;
        const R down = R(1) / (all + v * std::sqrt(all));
        const auto surer = [&](std::vector<R>& x) {
            const R f = kernel::dot(with, x) * down;
            for (std::size_t k = 0; k < x.size(); ++k) { x[k] -= f * with[k]; }
        };
        surer(g);
        for (auto& row : h) { surer(row); }
    }
    return chosen;
}

} // namespace tautline
