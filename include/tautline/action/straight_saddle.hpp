#pragma once
/// @file
/// One straight slanted saddle for strings that would each have a place of their own.
///
/// Source: weighted least squares on a straight line.

#include <span>
#include <vector>

#include "../core/describe.hpp"
#include "../core/linear_system.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A straight saddle in plan.
template <class R = double>
struct basic_straight_saddle {
    using real = R;
    length<R> at_centre{}; ///< its place on the centre line
    R slant{};             ///< change of its place along x for each unit across; negative: treble end nearer the nut

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("at_centre", self.at_centre...);
        visit("slant", self.slant...);
    }

    /// Place of the saddle along x, under a string at `y`.
    [[nodiscard]] constexpr length<R> at(const length<R>& y) const { return at_centre + slant * y; }
};

/// The straight saddle that comes nearest to the places that the strings ask for. With equal weights it makes the sum of
/// squared distances least. A weight that is the square of a string's cents for each length (nearly the same for all
/// strings) makes the sum of squared errors in cents least.
/// @param y      places of the strings across; at least two of them apart
/// @param wanted the place along x that each string asks for
/// @param weights one for each string, more than 0; empty: equal weights
template <class R>
[[nodiscard]] basic_straight_saddle<R> straight_saddle(std::span<const length<R>> y,
                                                       std::type_identity_t<std::span<const length<R>>> wanted,
                                                       std::type_identity_t<std::span<const R>> weights = {}) {
    require_that(y.size() == wanted.size() && (weights.empty() || weights.size() == y.size()), "y, wanted and weights",
                 "must have one entry for each string");
    require_that(y.size() >= 2, "y", "must hold at least two strings");
    R least = y[0].value(), most = least;
    for (std::size_t i = 0; i < y.size(); ++i) {
        constexpr auto across = between(-500 * units::mm, 500 * units::mm);
        if (!across.holds(y[i].value()) || !all_finite(wanted[i])) {
            require(messages::path_of("y", i), y[i], across);
            require(messages::path_of("wanted", i), wanted[i], any_finite<unit::length>());
        }
        if (!weights.empty() && !more_than(0.0).holds(weights[i])) {
            require(messages::path_of("weights", i), weights[i], more_than(0.0));
        }
        least = min(least, y[i].value());
        most = max(most, y[i].value());
    }
    require_that(in_all_lanes(least < most), "y", "must hold two strings that stand apart");
    const R half = number<R>(0.5L) * (most - least), middle = number<R>(0.5L) * (most + least);
    normal_equations<R, 2> fit;
    for (std::size_t i = 0; i < y.size(); ++i) {
        fit.add({number<R>(1), R((y[i].value() - middle) / half)}, wanted[i].value(),
                weights.empty() ? number<R>(1) : weights[i]);
    }
    const auto found = fit.solution();
    const R slant = found[1] / half;
    return {length<R>::from_value(found[0] - slant * middle), slant};
}
/// The same for places in a vector.
template <class R, class Allocator>
[[nodiscard]] basic_straight_saddle<R> straight_saddle(const std::vector<length<R>, Allocator>& y,
                                                       std::type_identity_t<std::span<const length<R>>> wanted,
                                                       std::type_identity_t<std::span<const R>> weights = {}) {
    return straight_saddle(std::span<const length<R>>(y), wanted, weights);
}

} // namespace tautline
