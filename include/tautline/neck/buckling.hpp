#pragma once
/// @file
/// Whether a neck withstands its load, and the load at which it buckles.

#include "bow_solution.hpp"

namespace tautline {

namespace kernel {

/// Whether the pull of a rod grows with that of the strings when the load is scaled.
enum class rod_load { grows, stays };

/// The share of the loads, between 0 and 1, at which the neck buckles; 1 or more when it withstands them all.
///
/// A coarse walk from 0 up finds the first unstable share, and halving refines it. Past a second critical load the sums
/// would look stable again.
template <class R>
[[nodiscard]] R buckling_share(const bow_problem<R>& problem, rod_load rod = rod_load::grows) {
    const auto stable_at = [&](const R& share) {
        bow_problem<R> p = problem;
        p.scale_strings(share);
        if (rod == rod_load::grows) { p.rod_pull = p.rod_pull * share; }
        return solve_bow(p).stable;
    };
    constexpr int walk = 64;
    R low = R(0);
    for (int i = 1; i <= walk; ++i) {
        R high = number<R>(static_cast<long double>(i) / walk);
        if (stable_at(high)) {
            low = high;
            continue;
        }
        for (int k = 0; k < 50; ++k) {
            const R middle = number<R>(0.5L) * (low + high);
            if (stable_at(middle)) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return high;
    }
    return number<R>(2);
}

[[noreturn]] inline void refuse_buckling(long double total, long double share) {
    messages::refuse("neck", "",
                     messages::joined({"must bear the pull of the strings and the rod, ", quantity_text<unit::force>(total),
                                       " in all, but starts to buckle at ", quantity_text<unit::force>(total * share)}));
}

/// Whether the load is so far below buckling that no walk is needed. The weakest case is a cantilever under a load that
/// keeps its direction. It stands up to `T L^2/EI = pi^2/4`, less with a yielding joint.
template <class R>
[[nodiscard]] bool far_from_buckling(const bow_problem<R>& problem) {
    const auto& beam = problem.beam;
    // A rod held in its channel bends with the neck and cannot buckle it. A free rod anchored in the head has a longer
    // lever.
    const bool free = problem.rod_free();
    const force<R> strings = problem.strings.pull, rod = free ? abs(problem.rod_pull) : force<R>();
    const length<R> lever = beam.joint;
    const length<R> rod_lever = free ? lever + max<unit::length, R>(-beam.rod->x_from, length<R>()) : lever;
    const auto pushed = strings * lever + rod * rod_lever;
    R load = R((strings * lever * lever + rod * rod_lever * rod_lever).value()) * beam.softest.value();
    if (beam.joint_stiffness.has_value()) {
        load = load + R(pushed.value() / beam.joint_stiffness->value()) * number<R>(2.5L);
    }
    return in_all_lanes(load < number<R>(2)); // one lane near buckling makes all take the walk, which does no harm
}

} // namespace kernel

} // namespace tautline
