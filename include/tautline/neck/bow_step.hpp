#pragma once
/// @file
/// What the integration of a neck's bow carries from place to place, and its step for numbers with derivatives.

#include <array>

#include "../core/local_slopes.hpp"
#include "../core/number_row.hpp"
#include "../core/quantity.hpp"

namespace tautline::kernel {

/// The part of the load that an integration carries. The whole problem is the sum of its parts.
template <class R>
struct bow_parts {
    R dead = R(0);         ///< 1: strings, rod and all else that acts on the unbowed neck
    length<R> nut_rise{};  ///< rise of the strings' nut end
    length<R> rod_rise{};  ///< rise of a free rod's nut-side anchor
    moment<R> lift{};      ///< U: moment at x = 0 from the rise of the strings' ends behind a slanted nut
    force<R> lift_per_x{}; ///< V: by how much that moment falls for each unit of x
};

template <class R>
struct bow_state {
    length<R> w{};
    R slope{}; ///< toward the nut, dw/du with u = joint - x
};

/// The rises at the end of an integration; `rod` is 0 without a free rod.
template <class R>
struct bow_end {
    length<R> nut{};
    length<R> rod{}; ///< at the rod's anchor toward the nut
};

/// How much curvature a unit of rise takes off.
template <class V>
using curvature_per_rise = bu::quantity<bu::divide_typeof_helper<unit::curvature, unit::length>::type, V>;

/// Curvatures at one place from each part of the load on the unbowed neck, and how much a rise there takes off them.
template <class V, std::size_t N>
struct place_bends {
    std::array<curvature<V>, N> load;
    curvature_per_rise<V> per_rise;
};

/// The states of all N parts, out of their rows.
template <class R, std::size_t N, class V, std::size_t Rows>
[[nodiscard, gnu::always_inline]] constexpr decltype(auto) one_by_one(const std::array<bow_state<V>, Rows>& y) {
    constexpr std::size_t W = places_in<V>;
    if constexpr (W == 1) {
        return static_cast<const std::array<bow_state<R>, N>&>(y);
    } else {
        std::array<bow_state<R>, N> parts;
        for (std::size_t j = 0; j < N; ++j) {
            const auto& of = y[j / W];
            parts[j] = {length<R>::from_value(at_place(of.w.value(), j % W)), at_place(of.slope, j % W)};
        }
        return parts;
    }
}

/// One step of the integration for duals: its numbers, and their slopes by all that it starts from, backward through the
/// same formulas. `load` and `per_rise` are those on the body's side, midway and on the head's side.
template <class R>
[[nodiscard]] bow_state<R> stepped(const bow_state<R>& from, const R& span, const std::array<const curvature<R>*, 3>& load,
                                   const std::array<const curvature_per_rise<R>*, 3>& per_rise) {
    using S = std::remove_cvref_t<decltype(span.value)>; // of one number
    const auto l = [&](std::size_t i) -> const R& { return load[i]->value(); };
    const auto r = [&](std::size_t i) -> const R& { return per_rise[i]->value(); };
    const S sixth = number<S>(1 / 6.0L), half = number<S>(0.5L), two = number<S>(2), one = number<S>(1);
    const S w = from.w.value().value, s = from.slope.value, h = span.value, hh = h * h, quarter = hh * half * half;
    const S r1 = r(0).value, r2 = r(1).value, r3 = r(2).value;
    const S midway = w + h * s * half;
    const S k1 = l(0).value - r1 * w, k2 = l(1).value - r2 * midway, k3 = k2 - r2 * (quarter * k1);
    const S risen = w + h * s + hh * half * k2, k4 = l(2).value - r3 * risen;
    const S rises = k1 + k2 + k3, turns = k1 + two * (k2 + k3) + k4;
    // How much the result changes, whose change is `in_w` times that of w and `in_slope` times that of the slope.
    const auto result = [&](const S& is, const S& in_w, const S& in_slope) __attribute__((always_inline)) {
        const S by_w = in_w * hh * sixth, by_slope = in_slope * h * sixth, both = by_w + two * by_slope;
        const S by_risen = -by_slope * r3, by_k2 = both + both + by_risen * hh * half;
        const S by_midway = -by_k2 * r2, by_k1 = by_w + by_slope - both * r2 * quarter;
        const S by_span = in_w * (s + h * two * sixth * rises) + in_slope * sixth * turns + by_risen * (s + h * k2) -
                          both * r2 * k1 * h * half + by_midway * s * half;
        return from_slopes(is,
                           std::array<S, 9>{in_w + by_risen + by_midway - by_k1 * r1,
                                            in_slope + h * (in_w + by_risen + by_midway * half), by_span, by_k1, by_k2,
                                            by_slope, -by_k1 * w, -by_k2 * midway - both * quarter * k1, -by_slope * risen},
                           from.w.value(), from.slope, span, l(0), l(1), l(2), r(0), r(1), r(2));
    };
    return {length<R>::from_value(result(w + h * s + hh * sixth * rises, one, number<S>(0))),
            result(s + h * sixth * turns, number<S>(0), one)};
}

} // namespace tautline::kernel
