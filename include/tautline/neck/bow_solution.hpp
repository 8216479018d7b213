#pragma once
/// @file
/// The bow that agrees with the load it causes, from the integrations of its parts.

#include "bow_problem.hpp"

namespace tautline::kernel {

/// The rises that agree with the bow they cause.
template <class R>
struct bow_solution {
    bow_parts<R> parts{};
    R rise_per_rise{};
    bool stable = false;
};

/// `solve_bow` behind a slanted nut, by three integrations, or four with a free rod. It eliminates the rise of the
/// rod's anchor and solves for U and V.
template <std::size_t N, class R, class Visit>
[[nodiscard]] constexpr bow_solution<R> solve_slanted(const bow_problem<R>& problem, Visit&& visit) {
    const R one = number<R>(1), two = number<R>(2), three = number<R>(3), zero = number<R>(0);
    end_lifts<R, N> at_ends(problem.lifted, problem.lifted_share);
    std::array<bow_state<R>, N> body_side;
    for (auto& part : body_side) { part.w = length<R>(); }
    const auto looked_at = [&](std::size_t i, const std::array<bow_state<R>, N>& head_side) {
        const auto& step = problem.beam.steps[i];
        const R from = step.x.value(), h = step.span.value();
        // Taken from the next step: the sum may be off by a rounding, so that a string's end there would count
        // twice.
        const R to = i + 1 < problem.beam.steps.size() ? problem.beam.steps[i + 1].x.value() : R(from + h);
        if (in_any_lane(from <= at_ends.furthest)) {
            // The cubic through both ends of the step; the slopes point toward the nut.
            at_ends.add([&](const R& x) { return from <= x && x < to; },
                        [&](const R& x, std::size_t j) {
                            const R u = (x - from) / select(zero < h, h, one), v = one - u;
                            return R(head_side[j].w.value() * v * v * (one + two * u) - h * head_side[j].slope * u * v * v +
                                     body_side[j].w.value() * u * u * (three - two * u) +
                                     h * body_side[j].slope * u * u * v);
                        });
        }
        body_side = head_side;
        visit(i, head_side);
    };
    const auto ends_of = problem.template integrate<nut_kind::slanted, N>(looked_at);
    // Ahead of the nut the neck goes on straight.
    at_ends.add([&](const R& x) { return x < zero; },
                [&](const R& x, std::size_t j) { return R(body_side[j].w.value() - x * body_side[j].slope); });
    const auto rod = [&](std::size_t j) { return ends_of[j].rod.value(); };
    R left = one, rod_lift = zero, rod_per_x = zero;
    if constexpr (N == 4) {
        left = one - rod(3);
        rod_lift = at_ends.lift[3] / left;
        rod_per_x = at_ends.per_x[3] / left;
    }
    const auto lift = [&](std::size_t j) { return R(at_ends.lift[j] + rod_lift * rod(j)); };
    const auto per_x = [&](std::size_t j) { return R(at_ends.per_x[j] + rod_per_x * rod(j)); };
    const R a = one - lift(1), b = -lift(2), c = -per_x(1), d = one - per_x(2), whole = a * d - b * c;
    const R u = (lift(0) * d - b * per_x(0)) / whole, v = (a * per_x(0) - c * lift(0)) / whole;
    bow_solution<R> s;
    s.rise_per_rise = one - whole;
    s.stable = one_answer(zero < left) && one_answer(zero < whole);
    R rise = ends_of[0].nut.value() + u * ends_of[1].nut.value() + v * ends_of[2].nut.value(), anchor = zero;
    if constexpr (N == 4) {
        anchor = (rod(0) + u * rod(1) + v * rod(2)) / left;
        rise = rise + anchor * ends_of[3].nut.value();
    }
    s.parts = {one, length<R>::from_value(rise), length<R>::from_value(anchor), moment<R>::from_value(u),
               force<R>::from_value(v)};
    return s;
}

/// Finds the rises that agree with the bow they cause. It eliminates the rise of a free rod's anchor first, then that of
/// the nut. `visit(step number, states at the step's end toward the nut)` gets each part of the load: the dead load, a
/// unit rise of the nut and, with a free rod, of the rod's anchor. The bow is their sum with the rises found.
template <class R, class Visit>
[[nodiscard]] constexpr bow_solution<R> solve_bow(const bow_problem<R>& problem, Visit&& visit) {
    if (problem.behind == nut_kind::slanted) {
        return problem.rod_free() ? solve_slanted<4>(problem, visit) : solve_slanted<3>(problem, visit);
    }
    const R one = number<R>(1), zero = number<R>(0);
    bow_end<R> dead, nut, anchor;
    if (problem.rod_free()) {
        const auto ends = problem.template integrate<nut_kind::square, 3>(visit);
        dead = ends[0];
        nut = ends[1];
        anchor = ends[2];
    } else {
        const auto ends = problem.template integrate<nut_kind::square, 2>(visit);
        dead = ends[0];
        nut = ends[1];
    }
    // Rises for each unit of rise are plain ratios.
    const R left = one - anchor.rod.value();
    const R r1 = nut.nut.value() + anchor.nut.value() * nut.rod.value() / left;
    bow_solution<R> s;
    s.rise_per_rise = r1;
    s.stable = one_answer(zero < left) && one_answer(r1 < one);
    const length<R> rise = (dead.nut + dead.rod * R(anchor.nut.value() / left)) / R(one - r1);
    s.parts = {one, rise, (dead.rod + rise * nut.rod.value()) / left, {}, {}};
    return s;
}
/// The same where nothing but the rises is wanted.
template <class R>
[[nodiscard]] constexpr bow_solution<R> solve_bow(const bow_problem<R>& problem) {
    return solve_bow(problem, [](std::size_t, const auto&) {});
}

} // namespace tautline::kernel
