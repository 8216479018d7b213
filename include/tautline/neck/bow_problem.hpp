#pragma once
/// @file
/// The bow of a neck under its loads as a linear problem: moments, integration, and the bow's own effect on the load.
///
/// The moment at x is that of all on the nut's side: `M(x) = sum T (z_string(x) - z_na(x)) - P (z_na(x) - z_rod(x))`,
/// and the curvature is `w'' = M/EI`. The neck is clamped at the joint, and w is integrated from there toward the nut.
/// Strings and neutral axis move with w. Everything is linear in w, so the bow's own effect on the load is found
/// exactly. One integration without a rise of the nut and one with a unit rise give `w(0) = r0 / (1 - r1)`. The method
/// is that of Runge and Kutta of fourth order on the beam's steps.
///
/// Behind a slanted nut each string's end rises with the neck under it. The rise of the strings adds
/// `sum T w_i (x_s - x)/(x_s - x_n) = U - V x` to the moment, with two unknown numbers U and V. Three integrations
/// (loads, a unit of U, a unit of V) and a system of two equations are exact in the same sense.
///
/// A string with a nut of its own on the neck is treated in the same way, but it bends the neck only between that nut
/// and the joint. Its share is taken off where the integration has passed its nut.
///
/// Source: Euler-Bernoulli beam with beam-column effect (S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, ch.
/// 1, from memory). Solid finite elements agree within 0.7 % in nut rise and 0.3 % in relief.

#include <array>
#include <span>

#include "bow_step.hpp"
#include "slanted_ends.hpp"

namespace tautline {

namespace kernel {

template <class R>
struct bow_problem {
    const basic_neck_beam<R>& beam;
    string_load<R> strings{};
    force<R> rod_pull{};
    length<R> nut_set{};                            ///< the set at a square nut lifts the strings' ends
    nut_kind behind = nut_kind::square;             ///< whether the strings' ends ride on a square or a slanted nut
    std::span<const basic_string_pull<R>> lifted{}; ///< the strings behind a slanted nut, `lifted_share` times as heavy
    R lifted_share = number<R>(1);

    /// Multiplies the pull of all strings by `share`.
    constexpr void scale_strings(const R& share) {
        strings.scale(share);
        lifted_share = lifted_share * share;
    }
    [[nodiscard]] constexpr bool rod_free() const {
        return beam.rod.has_value() && beam.rod->free_in_channel && !beam.rod->two_way();
    }

    /// Calls `f(string, its pull)` for every string whose own nut lies on the body's side of a step. The neck bears
    /// none of it there.
    template <class F>
    constexpr void for_each_unborne(const basic_beam_step<R>& step, F&& f) const {
        for (const auto& s : lifted) {
            if (!s.own_nut) { continue; }
            if (one_answer(is_less<unit::length, R>(step.x + step.span * number<R>(0.5L), s.x_nut))) {
                f(s, force<R>(s.pull * lifted_share));
            }
        }
    }
    /// How far a string's line rises at x for each unit of rise at its nut, a plain ratio.
    [[nodiscard]] static constexpr R lift_of_line(const basic_string_pull<R>& s, const length<R>& x) {
        return ratio(s.x_saddle - x, s.x_saddle - s.x_nut);
    }

    /// Moments at one place: of the dead load, of a unit rise of the nut, and along a free rod.
    struct place_moments {
        moment<R> dead{};
        force<R> nut_share{};
        R rod_share{};      ///< how far along the rod, 0 at its anchor toward the nut
        force<R> unborne{}; ///< pull of the strings that the neck does not bear there
    };
    [[nodiscard]] constexpr place_moments moments_at(const basic_beam_step<R>& step, const basic_beam_point<R>& p,
                                                     const length<R>& x) const {
        return behind == nut_kind::slanted ? moments_at<nut_kind::slanted>(step, p, x)
                                           : moments_at<nut_kind::square>(step, p, x);
    }
    /// The same where the kind of nut is known.
    template <nut_kind nut_is>
    [[nodiscard, gnu::always_inline]] constexpr place_moments
    moments_at(const basic_beam_step<R>& step, const basic_beam_point<R>& p, const length<R>& x) const {
        place_moments m;
        m.nut_share = strings.nut_share + strings.nut_share_per_x * x;
        m.dead = strings.at_zero + strings.per_x * x + m.nut_share * nut_set - strings.pull * (p.neutral_axis + p.set);
        if constexpr (nut_is == nut_kind::slanted) {
            for_each_unborne(step, [&](const basic_string_pull<R>& s, const force<R>& pull) {
                const length<R> z_nut = s.z_nut + permanent_bow_at<R>(beam.set, length<R>(s.x_nut));
                const length<R> line = z_nut + (s.z_saddle - z_nut) * R(number<R>(1) - lift_of_line(s, x));
                m.dead = m.dead - pull * (line - p.neutral_axis - p.set);
                m.unborne += pull;
            });
        }
        if (step.rod_acts) {
            const auto& rod = *beam.rod;
            if (rod.two_way()) {
                m.dead = m.dead - rod_pull * rod.separation;
            } else {
                m.dead = m.dead - rod_pull * (p.neutral_axis - p.rod_height);
                if (rod.free_in_channel) {
                    // The rod stays straight between its anchors while the neck bends away from it. An anchor in the
                    // head rides on the neck's end, an anchor in the body stays.
                    m.rod_share = ratio(x - rod.x_from, rod.x_to - rod.x_from);
                }
            }
        }
        return m;
    }

    /// Slope, toward the nut, that a yielding joint gives the neck.
    [[nodiscard]] constexpr R joint_slope(const bow_parts<R>& parts) const {
        if (!beam.joint_stiffness.has_value()) { return number<R>(0); }
        const auto& last = beam.steps.back();
        const auto m = moments_at(last, beam.at(last, 2), beam.joint);
        moment<R> all_parts = m.dead * parts.dead + m.nut_share * parts.nut_rise;
        if (behind == nut_kind::slanted) { all_parts += parts.lift - parts.lift_per_x * beam.joint; }
        if (last.rod_acts && rod_free()) { all_parts += rod_pull * parts.rod_rise * R(number<R>(1) - m.rod_share); }
        return R(all_parts.value() / beam.joint_stiffness->value());
    }

    /// Both parts of a load without a free rod, behind a square nut, as one row of moments along the neck.
    template <class V>
    struct moment_row {
        moment<V> at_zero; ///< at x = 0, before the neck's own height is taken off
        force<V> per_x;

        constexpr explicit moment_row(const bow_problem& problem) {
            const auto& load = problem.strings;
            const std::array<moment<R>, 2> start{load.at_zero + load.nut_share * problem.nut_set,
                                                 moment<R>::from_value(load.nut_share.value())};
            const std::array<force<R>, 2> change{load.per_x + load.nut_share_per_x * problem.nut_set,
                                                 force<R>::from_value(load.nut_share_per_x.value())};
            at_zero = quantity_row<V>([&](std::size_t k) { return start[k]; });
            per_x = quantity_row<V>([&](std::size_t k) { return change[k]; });
        }
        /// Curvatures at one place, and how much a rise there takes off them.
        [[nodiscard, gnu::always_inline]] constexpr place_bends<V, 1> at(const bow_problem& problem,
                                                                         const basic_beam_step<R>& step,
                                                                         const basic_beam_point<R>& p,
                                                                         const length<R>& x) const {
            moment<R> below = problem.strings.pull * (p.neutral_axis + p.set);
            if (step.rod_acts) {
                const auto& rod = *problem.beam.rod;
                below += problem.rod_pull * (rod.two_way() ? length<R>(rod.separation) : p.neutral_axis - p.rod_height);
            }
            const auto first = [](const auto& q) {
                return quantity_row<V>([&](std::size_t k) { return k == 0 ? q : std::remove_cvref_t<decltype(q)>(); });
            };
            const auto give = everywhere<V>(p.bending_compliance);
            place_bends<V, 1> bends;
            bends.load[0] = (at_zero + per_x * everywhere<V>(x) - first(below)) * give + first(p.free_curvature);
            bends.per_rise = everywhere<V>(problem.strings.pull) * give;
            return bends;
        }
    };
    /// Integrates the parts of the load side by side from the joint to the nut: the dead load of all that acts on the
    /// unbowed neck, a unit rise of the nut (behind a slanted one a unit of U and one of V) and, where there is one
    /// more, of a free rod's anchor. Two parts of built-in numbers make up one row. `visit(step number, states at the
    /// step's end toward the nut)`. Not inlined: with both N in one function compilers run out of registers.
    template <nut_kind nut_is, std::size_t N, class Visit>
    [[gnu::noinline]] constexpr std::array<bow_end<R>, N> integrate(Visit&& visit) const {
        constexpr bool slanted = nut_is == nut_kind::slanted;
        constexpr std::size_t rod_part = slanted ? 3 : 2;
        using V = std::conditional_t<!slanted && places_in<row_of<R>> == N, row_of<R>, R>;
        constexpr std::size_t W = places_in<V>, rows = N / W;
        std::array<bow_state<V>, rows> y;
        std::array<bow_end<R>, N> end;
        std::array<length<R>, N> rod_end{};
        // For strings whose own nuts are passed: the moment that their rising lines would add at x = 0, and its change
        // with x.
        std::array<moment<R>, N> unborne_lift{};
        std::array<force<R>, N> unborne_per_x{};
        bool any_passed = false;
        bool in_rod = beam.steps.back().rod_acts;
        const R half = number<R>(0.5L), one = number<R>(1), sixth = number<R>(1 / 6.0L);
        const V halved = number<V>(0.5L), two = number<V>(2);
        const length<R> unit_rise = length<R>::from_value(one);
        const auto bends_at = [&](const basic_beam_step<R>& step, const basic_beam_point<R>& p, const length<R>& x) {
            const place_moments m = moments_at<nut_is>(step, p, x);
            place_bends<R, N> bends;
            auto& load = bends.load;
            load[0] = m.dead * p.bending_compliance + p.free_curvature;
            if constexpr (slanted) {
                load[1] = moment<R>::from_value(one) * p.bending_compliance;
                load[2] = -(force<R>::from_value(one) * x) * p.bending_compliance;
            } else {
                load[1] = m.nut_share * unit_rise * p.bending_compliance;
            }
            bends.per_rise = strings.pull * p.bending_compliance;
            if constexpr (slanted) { bends.per_rise = (strings.pull - m.unborne) * p.bending_compliance; }
            if constexpr (N > rod_part) {
                load[rod_part] = curvature<R>();
                if (step.rod_acts) {
                    const auto rod_rate = rod_pull * p.bending_compliance;
                    load[rod_part] = rod_rate * unit_rise * R(one - m.rod_share);
                    for (std::size_t j = 0; j < N; ++j) { load[j] += rod_rate * rod_end[j] * m.rod_share; }
                    bends.per_rise += rod_rate;
                }
            }
            if constexpr (slanted) {
                for (std::size_t j = 0; any_passed && j < N; ++j) {
                    load[j] = load[j] - (unborne_lift[j] - unborne_per_x[j] * x) * p.bending_compliance;
                }
            }
            return bends;
        };
        std::array<bow_parts<R>, N> parts{};
        parts[0].dead = one;
        if constexpr (slanted) {
            parts[1].lift = moment<R>::from_value(one);
            parts[2].lift_per_x = force<R>::from_value(one);
        } else {
            parts[1].nut_rise = unit_rise;
        }
        if constexpr (N > rod_part) { parts[rod_part].rod_rise = unit_rise; }
        for (std::size_t r = 0; r < rows; ++r) {
            y[r].slope = row_from<V>([&](std::size_t k) { return joint_slope(parts[r * W + k]); });
        }
        struct no_row {};
        using one_row = std::conditional_t<(W > 1), moment_row<V>, no_row>;
        [[maybe_unused]] const one_row together = [&] {
            if constexpr (W > 1) {
                return one_row(*this);
            } else {
                return one_row();
            }
        }();
        const auto bends_of = [&](const basic_beam_step<R>& step, const basic_beam_point<R>& p, const length<R>& x)
            __attribute__((always_inline)) {
            if constexpr (W > 1) {
                return together.at(*this, step, p, x);
            } else {
                return bends_at(step, p, x);
            }
        };
        place_bends<V, rows> body_side;
        std::size_t far_point = beam.points.size();
        for (std::size_t i = beam.steps.size(); i-- > 0;) {
            const auto& s = beam.steps[i];
            if constexpr (N > rod_part) {
                if (s.rod_acts && !in_rod) {
                    for (std::size_t j = 0; j < N; ++j) { rod_end[j] = y[j].w; }
                    in_rod = true;
                }
            }
            if constexpr (slanted) {
                const bool goes_on = i + 1 < beam.steps.size();
                for_each_unborne(s, [&](const basic_string_pull<R>& string, const force<R>& pull) {
                    bool passed = false; // before this step
                    if (goes_on) {
                        for_each_unborne(beam.steps[i + 1],
                                         [&](const auto& there, const auto&) { passed = passed || &there == &string; });
                    }
                    if (passed) { return; }
                    any_passed = true;
                    far_point = beam.points.size();
                    const auto fall = pull / (string.x_saddle - string.x_nut);
                    for (std::size_t j = 0; j < N; ++j) {
                        unborne_lift[j] += fall * y[j].w * string.x_saddle;
                        unborne_per_x[j] += fall * y[j].w;
                    }
                });
            }
            const length<R> h = s.span, half_h = h * half;
            // The end of one step is the start of the next, except at breaks.
            const basic_beam_point<R>* const at = &beam.at(s, 0);
            if (s.first + 2 != far_point) { body_side = bends_of(s, at[2], s.x + h); }
            const place_bends<V, rows> middle = bends_of(s, at[1], s.x + half_h), head_side = bends_of(s, at[0], s.x);
            const length<R> sixth_h = h * sixth;
            const auto h_square = h * h, quarter_h = half_h * half_h, half_h_square = h * half_h,
                       sixth_h_square = h_square * sixth;
            const auto &span = everywhere<V>(h), &sixth_span = everywhere<V>(sixth_h);
            const auto &quarter = everywhere<V>(quarter_h), &half_square = everywhere<V>(half_h_square),
                       &sixth_square = everywhere<V>(sixth_h_square);
#pragma GCC unroll 3 // otherwise g++ keeps the parts in memory at -O2
            for (std::size_t r = 0; r < rows; ++r) {
                if constexpr (has_local_slopes<R, 1>) {
                    y[r] = stepped(y[r], h.value(), {&body_side.load[r], &middle.load[r], &head_side.load[r]},
                                   {&body_side.per_rise, &middle.per_rise, &head_side.per_rise});
                } else {
                    const length<V> w = y[r].w, rise = span * y[r].slope, risen = w + rise;
                    const curvature<V> k1 = body_side.load[r] - body_side.per_rise * w;
                    const curvature<V> k2 = middle.load[r] - middle.per_rise * (w + rise * halved);
                    const curvature<V> k3 = k2 - middle.per_rise * (quarter * k1);
                    const curvature<V> k4 = head_side.load[r] - head_side.per_rise * (risen + half_square * k2);
                    y[r].w = risen + sixth_square * (k1 + k2 + k3);
                    y[r].slope = y[r].slope + V((sixth_span * (k1 + two * (k2 + k3) + k4)).value());
                }
            }
            if constexpr (N > rod_part) {
                for (std::size_t j = 0; s.rod_acts && j < N; ++j) { end[j].rod = y[j].w; }
            }
            body_side = head_side;
            far_point = s.first;
            visit(i, one_by_one<R, N>(y));
        }
        const auto& at_nut = one_by_one<R, N>(y);
        for (std::size_t j = 0; j < N; ++j) { end[j].nut = at_nut[j].w; }
        if constexpr (N > rod_part) {
            // Between the nut and an anchor in the head the line goes on straight.
            const length<R> in_head = max<unit::length, R>(-beam.rod->x_from, length<R>());
            for (std::size_t j = 0; j < N; ++j) { end[j].rod += in_head * at_nut[j].slope; }
        }
        return end;
    }
};

} // namespace kernel

} // namespace tautline
