#pragma once
/// @file
/// Second order: what a neck's bow does to the load that bows it, as the rise with that effect over the rise without.

#include "bow.hpp"

namespace tautline {

namespace kernel {

/// Rise of the nut in first order: strings, neutral axis and a free rod stay where they are on the straight neck.
/// `w'' = M/EI` integrated twice is the integral of `x M/EI`, taken by Simpson's rule.
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

/// The bow in first order, step by step from the joint. It is exact for curvatures up to a parabola.
template <class R>
[[nodiscard]] basic_bow<R> bend_first_order(const bow_problem<R>& problem) {
    const auto& beam = problem.beam;
    const std::size_t n = beam.steps.size();
    const R half = number<R>(0.5L), two = number<R>(2), four = number<R>(4), sixth = number<R>(1 / 6.0L);
    basic_bow<R> bowed;
    bowed.x.resize(n + 1);
    bowed.w.resize(n + 1);
    bowed.slope.resize(n + 1);
    bowed.set = beam.set;
    length<R> w{};
    R slope = problem.joint_slope({number<R>(1), {}, {}}); // toward the nut
    bowed.x[n] = beam.joint;
    bowed.w[n] = w;
    bowed.slope[n] = -slope * beam.creep_factor;
    for (std::size_t i = n; i-- > 0;) {
        const auto& s = beam.steps[i];
        const auto bent = [&](std::size_t place, const length<R>& x) {
            const auto& p = beam.at(s, place);
            return curvature<R>(problem.moments_at(s, p, x).dead * p.bending_compliance + p.free_curvature);
        };
        const curvature<R> head_side = bent(0, s.x), middle = bent(1, s.x + s.span * half),
                           body_side = bent(2, s.x + s.span);
        w += s.span * slope + s.span * s.span * R(sixth) * (body_side + two * middle);
        slope += R((s.span * (body_side + four * middle + head_side) * sixth).value());
        bowed.x[i] = s.x;
        bowed.w[i] = w * beam.creep_factor;
        bowed.slope[i] = -slope * beam.creep_factor;
    }
    return bowed;
}

} // namespace kernel

/// Bends a beam in first order, as handbook formulas for beams do: strings, neutral axis and a free rod stay where they
/// are on the straight neck. `bend` gives the whole bow. Without the second order there is no buckling, so no load is
/// refused for it. `rise_per_rise` is 0 and `parts` is empty.
///
/// @param rod_pull,nut_is as `bend` takes them
/// Source: `w'' = M/EI` of the unbowed neck, integrated twice.
template <class R = double>
[[nodiscard]] basic_bow<R> bend_first_order(const basic_neck_beam<R>& beam,
                                            std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
                                            param<force<R>> rod_pull = force<R>(), nut_kind nut_is = nut_kind::square) {
    return kernel::bend_first_order(kernel::checked_problem<R>(beam, strings, rod_pull, nut_is));
}

/// How much the nut's rise grows because the bow moves the load. It is the rise with strings, neutral axis and a free
/// rod in their bowed places, over the rise with all of them where they are on the straight neck. It is 1.04 to 1.12
/// for ordinary necks under their strings and 1 without load. Where strings and rod nearly cancel it can be any number.
///
/// @param rod_pull,nut_is as `bend` takes them
/// @throws invalid_input where the neck would buckle
/// Source: the amplification of a beam-column (S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, ch. 1, from
/// memory).
template <class R = double>
[[nodiscard]] R second_order_growth(const basic_neck_beam<R>& beam,
                                    std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
                                    param<force<R>> rod_pull = force<R>(), nut_kind nut_is = nut_kind::square) {
    const auto problem = kernel::checked_problem<R>(beam, strings, rod_pull, nut_is);
    const auto found = solve_bow(problem);
    kernel::require_stands(problem, found);
    const R rise = found.parts.nut_rise.value(), first = kernel::first_order_rise(problem).value();
    const auto unloaded = first == number<R>(0);
    return select(unloaded, number<R>(1), R(rise / select(unloaded, number<R>(1), first)));
}

} // namespace tautline
