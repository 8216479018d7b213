#pragma once
/// @file
/// Strings' ends behind a slanted nut. Each rises with the neck under it, and the rise of the strings adds
/// `sum T w_i (x_s - x)/(x_s - x_n) = U - V x` to the moment.

#include <array>

#include "beam.hpp"
#include "nut_kind.hpp"
#include "string_load.hpp"

namespace tautline::kernel {

/// Sums over the rises of the strings' ends behind a slanted nut, for each of N parts of the load: U and V.
template <class R, std::size_t N>
struct end_lifts {
    std::span<const basic_string_pull<R>> strings{};
    R share{}; // factor on every pull
    std::array<R, N> lift{}, per_x{};
    R furthest{}; // greatest x of an end

    constexpr end_lifts(std::span<const basic_string_pull<R>> lifted, const R& times) : strings(lifted), share(times) {
        for (const auto& s : strings) { furthest = max(furthest, s.x_nut.value()); }
    }
    /// Adds the ends at which `in(x)` holds; `rise(x, j)` is their rise in part j.
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
