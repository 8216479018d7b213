#pragma once
/// @file
/// How far a neck bows under its strings and its rod, second order included. w > 0: the nut rises toward the strings' side.
/// `bow_problem.hpp` holds the mechanics.

#include "bow_problem.hpp"

namespace tautline {

/// A bowed neck, at every station of its beam.
template <class R>
struct basic_bow {
    using real = R;
    std::vector<length<R>> x{};           ///< nut to joint
    std::vector<length<R>> w{};           ///< rise under load, creep included, the set the neck carried before not
    std::vector<R> slope{};               ///< dw/dx
    std::vector<basic_set_mark<R>> set{}; ///< what it carried before
    R rise_per_rise{};                    ///< r1: what the first-order rise grows by, `1 / (1 - r1)`

    /// Rise of the nut under load.
    [[nodiscard]] const length<R>& nut_rise() const { return w.front(); }
};
using bow = basic_bow<double>;

namespace kernel {

template <class R>
void bend(const bow_problem<R>& problem, const typename bow_problem<R>::solution& found, basic_bow<R>& bowed) {
    const auto& beam = problem.beam;
    const std::size_t n = beam.steps.size();
    bowed.x.resize(n + 1);
    bowed.w.resize(n + 1);
    bowed.slope.resize(n + 1);
    bowed.set = beam.set;
    bowed.rise_per_rise = found.rise_per_rise;
    bowed.x[n] = beam.joint;
    bowed.w[n] = length<R>();
    const R joint_slope = problem.joint_slope(found.parts);
    bowed.slope[n] = -joint_slope * beam.creep_factor;
    problem.integrate(found.parts, [&](std::size_t i, const bow_state<R>& y) {
        bowed.x[i] = beam.steps[i].x;
        bowed.w[i] = y.w * beam.creep_factor;
        bowed.slope[i] = -y.slope * beam.creep_factor;
    });
}

/// Rise under load at x by the cubic through heights and slopes of the two stations around it.
template <class R>
[[nodiscard]] constexpr length<R> load_deflection_at(const basic_bow<R>& bowed, const length<R>& x) {
    const std::size_t n = bowed.x.size();
    if (all(bowed.x[n - 1] <= x)) { return {}; }
    if (all(x <= bowed.x[0])) { return bowed.w[0] + (x - bowed.x[0]) * bowed.slope[0]; }
    std::size_t low = 0, high = n - 1;
    while (high - low > 1) {
        const std::size_t middle = (low + high) / 2;
        if (all(bowed.x[middle] <= x)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    const length<R> h = bowed.x[high] - bowed.x[low];
    const R one = number<R>(1), two = number<R>(2), three = number<R>(3);
    const R u = ratio(x - bowed.x[low], h), v = one - u;
    return bowed.w[low] * R(v * v * (one + two * u)) + h * R(bowed.slope[low] * u * v * v) +
           bowed.w[high] * R(u * u * (three - two * u)) - h * R(bowed.slope[high] * u * u * v);
}

} // namespace kernel

/// Bends a beam under its strings and the pull of its rod, in place; nothing is allocated once `bowed` has held one of its
/// size. A neck that would buckle is refused with the load at which it starts.
///
/// @param rod_pull pull of a single rod, at least 0; of a two-way rod the force in each of its pair, negative pushes the
/// other
///                 way; must be 0 when the neck has no rod
template <class R>
void bend(const basic_neck_beam<R>& beam, std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
          param<force<R>> rod_pull, basic_bow<R>& bowed) {
    require_that(!beam.steps.empty(), "beam", "must be made from a neck first");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        // The path is put together only when there is something to say.
        if (!is_valid(strings[i])) { require_valid(strings[i], "strings[" + std::to_string(i) + "]"); }
    }
    require("rod_pull", rod_pull, between(-100000 * units::N, 100000 * units::N));
    if (!beam.rod.has_value()) {
        require_that(all(rod_pull.value() == number<R>(0)), "rod_pull", "must be 0 on a neck without a truss rod");
    } else if (!beam.rod->two_way()) {
        require("rod_pull", rod_pull, at_least(0 * units::N));
    }
    kernel::bow_problem<R> problem{beam, kernel::gather<R>(strings), rod_pull,
                                   kernel::set_height<R>(beam.set, length<R>())};
    const auto found = problem.solve();
    if (!found.stable || !kernel::far_from_buckling(problem)) {
        const R share = kernel::buckling_share(problem);
        if (!all(number<R>(1) < share)) {
            const force<R> total = problem.strings.pull + abs(problem.rod_pull);
            kernel::refuse_buckling(static_cast<long double>(value_of(total.value())),
                                    static_cast<long double>(value_of(share)));
        }
    }
    kernel::bend(problem, found, bowed);
}
/// Bends a beam.
template <class R>
[[nodiscard]] basic_bow<R> bend(const basic_neck_beam<R>& beam,
                                std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
                                param<force<R>> rod_pull = force<R>()) {
    basic_bow<R> bowed;
    bend(beam, strings, rod_pull, bowed);
    return bowed;
}

/// How far the board at x stands above the straight, unloaded neck: the bow under load and the set it carried before. Past
/// the joint the board stays with the body: only the set is left.
template <class R>
[[nodiscard]] constexpr length<R> deflection_at(const basic_bow<R>& bowed, param<length<R>> x) {
    require_that(!bowed.x.empty(), "bow", "must be the bow of a beam");
    require("x", x, any_finite<unit::length>());
    return kernel::load_deflection_at<R>(bowed, x) + kernel::set_height<R>(bowed.set, x);
}

} // namespace tautline
