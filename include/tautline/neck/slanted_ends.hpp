#pragma once
/// @file
/// Strings' ends behind a slanted nut: each rises as the neck does under it, and the lines' rise adds
/// `sum T w_i (x_s - x)/(x_s - x_n) = U - V x` to the moment.

#include <array>

#include "beam.hpp"
#include "nut_kind.hpp"
#include "string_load.hpp"

namespace tautline::kernel {

/// What the rises of the strings' ends behind a slanted nut come to, for each of N parts of the load: numbers of U and of
/// V.
template <class R, std::size_t N>
struct end_lifts {
    std::span<const basic_string_pull<R>> strings{};
    R share{}; // as many times as heavy
    std::array<R, N> lift{}, per_x{};
    R furthest{}; // of the ends along x

    constexpr end_lifts(std::span<const basic_string_pull<R>> lifted, const R& times) : strings(lifted), share(times) {
        for (const auto& s : strings) { furthest = max(furthest, s.x_nut.value()); }
    }
    /// Adds the ends that `rise(x, j)` is for, part by part, where `in(x)` says so.
    template <class In, class Rise>
    constexpr void add(In&& in, Rise&& rise) {
        const R zero = number<R>(0);
        for (const auto& s : strings) {
            const R x = s.x_nut.value();
            const auto there = in(x);
            if (!in_any_lane(there)) { continue; }
            const R fall = share * s.pull.value() / (s.x_saddle.value() - x), reach = s.x_saddle.value();
            for (std::size_t j = 0; j < N; ++j) {
                const R w = select(there, R(fall * rise(x, j)), zero);
                per_x[j] = per_x[j] + w;
                lift[j] = lift[j] + w * reach;
            }
        }
    }
};

} // namespace tautline::kernel
