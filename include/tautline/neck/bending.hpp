#pragma once
/// @file
/// Moment and curvature along a neck under its strings and its rod.

#include "bow.hpp"

namespace tautline {

/// Moment and curvature of the neck at one place.
template <class R = double>
struct basic_bending {
    using real = R;
    length<R> x{};                      ///< along the neck
    tautline::moment<R> moment{};       ///< about the neutral axis there; positive bows the nut toward the strings' side
    tautline::curvature<R> curvature{}; ///< of the bow under load, with creep, without the set; positive is hollow

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("moment", self.moment...);
        visit("curvature", self.curvature...);
    }
};
using bending = basic_bending<double>;

namespace kernel {

/// Moment and curvature at the ends of every step, from the rises found and the bow they cause.
template <class R>
[[nodiscard]] std::vector<basic_bending<R>> bending_along(const bow_problem<R>& problem, const basic_bow<R>& bowed,
                                                          const bow_parts<R>& parts) {
    const auto& beam = problem.beam;
    const std::size_t n = beam.steps.size();
    // The moments follow from the elastic bow, without creep.
    const auto rise_at = [&](std::size_t i) { return length<R>(bowed.w[i] / beam.creep_factor); };
    // A free rod's line ends at its anchor toward the body. Seen from the joint the rod begins to act there.
    length<R> rod_end{};
    for (std::size_t i = 0; i < n; ++i) {
        if (beam.steps[i].rod_acts) { rod_end = rise_at(i + 1); }
    }
    std::vector<basic_bending<R>> along;
    along.reserve(2 * n);
    for (std::size_t i = 0; i < n; ++i) {
        const auto& s = beam.steps[i];
        // A step of length 0 lies between two things that begin or end at one place.
        if (in_all_lanes(s.span.value() == number<R>(0))) { continue; }
        for (const std::size_t place : {std::size_t{0}, std::size_t{2}}) {
            const auto& p = beam.at(s, place);
            const std::size_t end = place == 0 ? i : i + 1;
            const length<R> x = bowed.x[end], w = rise_at(end);
            const auto m = problem.moments_at(s, p, x);
            moment<R> whole = m.dead + m.nut_share * parts.nut_rise - (problem.strings.pull - m.unborne) * w;
            if (problem.behind == nut_kind::slanted) {
                whole += parts.lift - parts.lift_per_x * x;
                problem.for_each_unborne(s, [&](const basic_string_pull<R>& string, const force<R>& pull) {
                    std::size_t at = i + 1; // the end of a step where its own nut stands
                    while (at < n && one_answer(is_less<unit::length, R>(bowed.x[at], string.x_nut))) { ++at; }
                    whole = whole - pull * problem.lift_of_line(string, x) * rise_at(at);
                });
            }
            if (s.rod_acts && problem.rod_free()) {
                const length<R> line = parts.rod_rise * R(number<R>(1) - m.rod_share) + rod_end * m.rod_share;
                whole += problem.rod_pull * (line - w);
            }
            // Two steps without a break between them give the same values where they meet.
            if (place == 0 && i > 0 && beam.steps[i - 1].first + 2 == s.first) { continue; }
            along.push_back({x, whole, (whole * p.bending_compliance + p.free_curvature) * beam.creep_factor});
        }
    }
    return along;
}

} // namespace kernel

/// Moment and curvature along a neck under its strings and the pull of its rod, with the loads on the bowed neck
/// (second order). They are given at the ends of the beam's steps, from the nut to the joint. They may jump where
/// something begins, ends or kinks. That place then has two entries, the one toward the nut first. A neck that would
/// buckle is refused as by `bend`.
///
/// The moment is `sum T (z_string - z_neutral) - P (z_neutral - z_rod)` over the part on the nut's side of the place.
/// The curvature is `M/EI` plus the curvature that tangs and the air give the unloaded neck, times creep. The stress in
/// a fibre at z follows from it: `E (z - z_neutral)` times the curvature without creep.
///
/// @param rod_pull,nut_is as `bend` takes them
/// Source: Euler-Bernoulli beam (see `bow_problem.hpp`).
template <class R = double>
[[nodiscard]] std::vector<basic_bending<R>>
bending_along(const basic_neck_beam<R>& beam, std::type_identity_t<std::span<const basic_string_pull<R>>> strings,
              param<force<R>> rod_pull = force<R>(), nut_kind nut_is = nut_kind::square) {
    const auto problem = kernel::checked_problem<R>(beam, strings, rod_pull, nut_is);
    basic_bow<R> bowed;
    const auto found = kernel::bend(problem, bowed);
    kernel::require_stands(problem, found);
    return kernel::bending_along(problem, bowed, found.parts);
}

} // namespace tautline
