#pragma once
/// @file
/// What a neck's bow does to the load that bows it: its rise with that effect over the rise without.

#include "bow.hpp"

namespace tautline {

namespace kernel {

/// Rise of the nut if nothing moved with the bow: strings, neutral axis and a free rod stay where they are on the straight
/// neck. `w'' = M/EI` integrated twice is the integral of `x M/EI`, by Simpson's rule.
template <class R>
[[nodiscard]] length<R> first_order_rise(const bow_problem<R>& problem) {
    const auto& beam = problem.beam;
    const R half = number<R>(0.5L), four = number<R>(4), sixth = number<R>(1 / 6.0L);
    length<R> rise = beam.joint * problem.joint_slope({number<R>(1), {}, {}});
    for (const auto& s : beam.steps) {
        const auto turned = [&](std::size_t place, const length<R>& x) {
            const auto& p = beam.at(s, place);
            return R((x * (problem.moments_at(s, p, x).dead * p.bending_compliance + p.free_curvature)).value());
        };
        const length<R> middle = s.x + s.span * half, end = s.x + s.span;
        rise += s.span * R((turned(0, s.x) + four * turned(1, middle) + turned(2, end)) * sixth);
    }
    return rise;
}

} // namespace kernel

/// How much the nut's rise grows because the bow moves the load: the rise with the strings' lines, the neutral axis and a
/// free rod in their bowed places, over the rise with all of them where they are on the straight neck. 1.04 to 1.12 for
/// ordinary necks under their strings, 1 without load; where strings and rod all but cancel it can be any number.
///
/// @param rod_pull as `bend` takes it
/// @throws invalid_input where the neck would buckle
/// Source: the amplification of a beam-column (S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, ch. 1, from
/// memory).
template <class R>
[[nodiscard]] R second_order_growth(const basic_neck_beam<R>& beam,
                                    std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
                                    param<force<R>> rod_pull = force<R>()) {
    const auto problem = kernel::checked_problem<R>(beam, strings, rod_pull);
    const auto found = problem.solve();
    kernel::require_stands(problem, found);
    const R rise = found.parts.nut_rise.value(), first = kernel::first_order_rise(problem).value();
    const auto unloaded = first == number<R>(0);
    return select(unloaded, number<R>(1), R(rise / select(unloaded, number<R>(1), first)));
}

} // namespace tautline
