#pragma once
/// @file
/// How far a neck bows under its strings and its rod, in second order. w > 0: the nut rises toward the strings.
/// `bow_problem.hpp` and `bow_solution.hpp` hold the mechanics.

#include <algorithm>

#include "buckling.hpp"

namespace tautline {

/// A bowed neck, given at the places where the steps of its beam meet.
template <class R = double>
struct basic_bow {
    using real = R;
    std::vector<length<R>> x{};                     ///< nut to joint
    std::vector<length<R>> w{};                     ///< rise under load, with creep, without the set
    std::vector<R> slope{};                         ///< dw/dx
    std::vector<basic_permanent_bow_mark<R>> set{}; ///< the set of the unloaded neck
    /// r1: how far the nut rises further for each unit of its rise, a plain ratio. At 1 the neck buckles. The whole
    /// rise is `r0 / (1 - r1)`. r0 holds a part of the second order too; `second_order_growth` gives the whole effect.
    /// Behind a slanted nut r1 is 1 less the determinant of the equations of U and V; at 1 the neck buckles too.
    R rise_per_rise{};
    /// The integrated effect of each part: the dead load, a unit rise of the nut (behind a slanted nut U and V, see
    /// `bow_problem.hpp`), and a unit rise of a free rod's anchor.
    std::vector<std::array<kernel::bow_state<R>, 4>> parts{};

    /// Rise of the nut under load, without the set.
    [[nodiscard]] const length<R>& nut_rise() const { return w.front(); }
};
using bow = basic_bow<double>;

namespace kernel {

template <class R>
bow_solution<R> bend(const bow_problem<R>& problem, basic_bow<R>& bowed) {
    const auto& beam = problem.beam;
    const std::size_t n = beam.steps.size();
    bowed.x.resize(n + 1);
    bowed.w.resize(n + 1);
    bowed.slope.resize(n + 1);
    bowed.parts.resize(n);
    auto found =
        solve_bow(problem, [&](std::size_t i, const auto& y) { std::copy(y.begin(), y.end(), bowed.parts[i].begin()); });
    bowed.set = beam.set;
    bowed.rise_per_rise = found.rise_per_rise;
    bowed.x[n] = beam.joint;
    bowed.w[n] = length<R>();
    bowed.slope[n] = -problem.joint_slope(found.parts) * beam.creep_factor;
    const bool slanted = problem.behind == nut_kind::slanted, free_rod = problem.rod_free();
    const R rises = slanted ? found.parts.lift.value() : found.parts.nut_rise.value();
    const R per_x = found.parts.lift_per_x.value(), rod = found.parts.rod_rise.value();
    for (std::size_t i = 0; i < n; ++i) {
        const auto& y = bowed.parts[i];
        length<R> w = y[0].w + y[1].w * rises;
        R slope = y[0].slope + y[1].slope * rises;
        if (slanted) {
            w += y[2].w * per_x;
            slope += y[2].slope * per_x;
        }
        if (free_rod) {
            const auto& anchor = y[slanted ? 3 : 2];
            w += anchor.w * rod;
            slope += anchor.slope * rod;
        }
        bowed.x[i] = beam.steps[i].x;
        bowed.w[i] = w * beam.creep_factor;
        bowed.slope[i] = -slope * beam.creep_factor;
    }
    return found;
}

/// Rise under load at x by the cubic through heights and slopes at the two ends of its step.
template <class R>
[[nodiscard]] constexpr length<R> load_deflection_at(const basic_bow<R>& bowed, const length<R>& x) {
    const std::size_t n = bowed.x.size();
    if (in_all_lanes(bowed.x[n - 1].value() <= x.value())) { return {}; }
    // From the last place that every lane has passed to the first that none has passed. For a built-in number that is
    // one step.
    std::size_t low = 0, high = n - 1;
    while (high - low > 1) {
        const std::size_t middle = (low + high) / 2;
        if (in_all_lanes(bowed.x[middle].value() <= x.value())) {
            low = middle;
        } else {
            high = middle;
        }
    }
    length<R> rise = bowed.w[0] + (x - bowed.x[0]) * bowed.slope[0]; // ahead of the nut the neck goes on straight
    for (std::size_t i = low;; ++i) {
        const length<R> h = bowed.x[i + 1] - bowed.x[i];
        // A step may have length 0; then no place lies in it.
        const auto in = bowed.x[i].value() <= x.value() && is_less(length<R>(), h);
        const length<R> along = x - bowed.x[i], of = select(in, h, length<R>::from_value(number<R>(1)));
        const auto here = by_local_slopes(
            [](const auto& from, const auto& span, const auto& w0, const auto& w1, const auto& slope0, const auto& slope1)
                __attribute__((always_inline)) {
                    using D = std::remove_cvref_t<decltype(from)>;
                    const D one = number<D>(1), two = number<D>(2), three = number<D>(3), u = from / span, v = one - u;
                    return std::array<D, 1>{w0 * (v * v * (one + two * u)) + span * (slope0 * u * v * v) +
                                            w1 * (u * u * (three - two * u)) - span * (slope1 * u * u * v)};
                },
            along.value(), of.value(), bowed.w[i].value(), bowed.w[i + 1].value(), bowed.slope[i], bowed.slope[i + 1]);
        rise = select(in, length<R>::from_value(here[0]), rise);
        if (i + 2 >= n || in_all_lanes(x.value() < bowed.x[i + 1].value())) { break; }
    }
    return select(is_less(x, bowed.x[n - 1]), rise, length<R>());
}

/// The bow problem of a beam under its strings and the pull of its rod. Behind a slanted nut the problem refers to the
/// caller's strings, which must outlive it.
template <class R>
[[nodiscard]] bow_problem<R> problem_of(const basic_neck_beam<R>& beam, std::span<const basic_string_pull<R>> strings,
                                        const force<R>& rod_pull, nut_kind nut_is) {
    if (nut_is == nut_kind::slanted) {
        return {beam, gather_slanted<R>(strings, beam.set), rod_pull, length<R>(), nut_is, strings};
    }
    return {beam, gather<R>(strings), rod_pull, permanent_bow_at<R>(beam.set, length<R>())};
}

/// The same after a check of the loads.
template <class R>
[[nodiscard]] bow_problem<R> checked_problem(const basic_neck_beam<R>& beam, std::span<const basic_string_pull<R>> strings,
                                             const force<R>& rod_pull, nut_kind nut_is = nut_kind::square) {
    require_that(!beam.steps.empty(), "beam", "must be made from a neck first");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        // The path is put together only for a message.
        if (!is_valid(strings[i])) { require_valid(strings[i], messages::path_of("strings", i)); }
    }
    require("rod_pull", rod_pull, between(-100000 * units::N, 100000 * units::N));
    if (!beam.rod.has_value()) {
        require_that(in_all_lanes(rod_pull.value() == number<R>(0)), "rod_pull", "must be 0 on a neck without a truss rod");
    } else if (!beam.rod->two_way()) {
        require("rod_pull", rod_pull, at_least(0 * units::N));
    }
    return problem_of<R>(beam, strings, rod_pull, nut_is);
}

/// Refuses a neck that would buckle.
template <class R>
void require_stands(const bow_problem<R>& problem, const bow_solution<R>& found) {
    if (found.stable && far_from_buckling(problem)) { return; }
    const R share = buckling_share(problem);
    if (!one_answer(number<R>(1) < share)) {
        const force<R> total = problem.strings.pull + abs(problem.rod_pull);
        refuse_buckling(messages::plain_value(total.value()), messages::plain_value(share));
    }
}

/// Rise of the nut under load, without the rest of the bow. The loads must have been checked.
template <class R>
[[nodiscard]] length<R> nut_rise(const basic_neck_beam<R>& beam, std::span<const basic_string_pull<R>> strings,
                                 const force<R>& rod_pull) {
    const auto problem = problem_of<R>(beam, strings, rod_pull, nut_kind::square);
    const auto found = solve_bow(problem);
    require_stands(problem, found);
    return found.parts.nut_rise * beam.creep_factor;
}

} // namespace kernel

/// Bends a beam under its strings and the pull of its rod, in place. Nothing is allocated once `bowed` has held a bow
/// of this size. Throws `invalid_input` for a neck that would buckle, with the load at which it does.
///
/// @param rod_pull pull of a single rod, at least 0; of a two-way rod the force in each of its pair, negative
///                 pushes the other way; must be 0 when the neck has no rod
/// @param nut_is whether the strings' ends rise with the neck's end or each with the neck under it
template <class R = double>
void bend(const basic_neck_beam<R>& beam, std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
          param<force<R>> rod_pull, basic_bow<R>& bowed, nut_kind nut_is = nut_kind::square) {
    const auto problem = kernel::checked_problem<R>(beam, strings, rod_pull, nut_is);
    kernel::require_stands(problem, kernel::bend(problem, bowed));
}
/// Bends a beam.
template <class R = double>
[[nodiscard]] basic_bow<R> bend(const basic_neck_beam<R>& beam,
                                std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
                                param<force<R>> rod_pull = force<R>(), nut_kind nut_is = nut_kind::square) {
    basic_bow<R> bowed;
    bend(beam, strings, rod_pull, bowed, nut_is);
    return bowed;
}

/// Height of the bent board at x over a straight neck: the bow under load plus the set. Past the joint the board stays
/// with the body, and only the set counts.
template <class R = double>
[[nodiscard]] constexpr length<R> deflection_at(const basic_bow<R>& bowed, param<length<R>> x) {
    require_that(!bowed.x.empty(), "bow", "must be the bow of a beam");
    require("x", x, any_finite<unit::length>());
    return kernel::load_deflection_at<R>(bowed, x) + kernel::permanent_bow_at<R>(bowed.set, x);
}

} // namespace tautline
