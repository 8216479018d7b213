#pragma once
/// @file
/// A neck as a beam: its sections are worked out once along x, so that many loads can then bend it cheaply.

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>

#include "beam_breaks.hpp"
#include "neck_segment.hpp"
#include "rod_line.hpp"

namespace tautline {

/// The beam at one place.
template <class R = double>
struct basic_beam_point {
    using real = R;
    force<R> axial_rigidity{};               ///< EA
    flexural_rigidity<R> bending_rigidity{}; ///< EI about the neutral axis
    length<R> neutral_axis{};                ///< z in the straight, unloaded neck
    length<R> rod_height{};                  ///< z of the rod's axis over the neck's own line there; only where a rod is
    length<R> set{};                         ///< height of the unloaded neck over a straight line
    curvature<R> free_curvature{};           ///< of the unloaded neck, from tangs and from `board_strain`
    /// 1 / EI, kept because bending needs it many times.
    bu::quantity<unit::bending_compliance, R> bending_compliance{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("axial_rigidity", self.axial_rigidity...);
        visit("bending_rigidity", self.bending_rigidity...);
        visit("neutral_axis", self.neutral_axis...);
        visit("rod_height", self.rod_height...);
        visit("set", self.set...);
        visit("free_curvature", self.free_curvature...);
        visit("bending_compliance", self.bending_compliance...);
    }
};
using beam_point = basic_beam_point<double>;

/// A stretch of the beam without a jump or a kink inside. Three points of the beam describe it: at x, midway and at x +
/// span.
template <class R = double>
struct basic_beam_step {
    using real = R;
    length<R> x{};         ///< end toward the nut
    length<R> span{};      ///< along x
    std::size_t first = 0; ///< number of its point at x; the other two follow
    bool rod_acts = false; ///< the rod runs through it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("span", self.span...);
        visit("first", self.first...);
        visit("rod_acts", self.rod_acts...);
    }
};
using beam_step = basic_beam_step<double>;

/// A neck as a beam from the nut to the joint. No step crosses a place where the section jumps or kinks; between two
/// such places all steps are equally long.
template <class R = double>
struct basic_neck_beam {
    using real = R;
    std::vector<basic_beam_step<R>> steps{};   ///< from the nut on
    std::vector<basic_beam_point<R>> points{}; ///< three for each step; the last of one step is the first of the next,
                                               ///< unless a break lies between them
    std::vector<basic_beam_break<R>> breaks{}; ///< the nut, the places where something begins, ends or kinks, the joint
    length<R> joint{};                         ///< where the beam is held
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{}; ///< absent: held rigidly
    std::optional<basic_truss_rod<R>> rod{};                         ///< the rod, if there is one
    std::vector<basic_permanent_bow_mark<R>> set{};                  ///< the neck's shape without load
    R creep_factor = R(1);                                           ///< all of the elastic bow times this
    /// The greatest bending compliance of its points, without derivatives.
    bu::quantity<unit::bending_compliance, R> softest{};

    /// The beam where a step begins (`place` 0), midway (1) or where it ends (2).
    [[nodiscard]] constexpr const basic_beam_point<R>& at(const basic_beam_step<R>& step, std::size_t place) const {
        return points[step.first + place];
    }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("steps", self.steps...);
        visit("points", self.points...);
        visit("breaks", self.breaks...);
        visit("joint", self.joint...);
        visit("joint_stiffness", self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("set", self.set...);
        visit("creep_factor", self.creep_factor...);
        visit("softest", self.softest...);
    }
};
using neck_beam = basic_neck_beam<double>;

namespace kernel {

/// How a stretch between two breaks is cut into steps: into as few as keep each within the greatest length. Lanes of a
/// pack that need fewer steps than others get steps of length 0 at the end.
template <class R>
struct stretch_steps {
    std::size_t pieces = 1;
    R count = number<R>(1);
    length<R> span{};

    constexpr stretch_steps(const length<R>& whole, const length<R>& longest) {
        const R steps = ratio(whole, longest);
        for (auto more = number<R>(1 + 1e-9L) < steps; in_any_lane(more); ++pieces) {
            count = select(more, number<R>(static_cast<double>(pieces + 1)), count);
            more = number<R>(static_cast<double>(pieces + 1) + 1e-9) < steps;
        }
        span = whole / count;
    }
    /// Adds the steps of a stretch to those already made. The stretch begins at `from`; its first point has number
    /// `first`.
    constexpr void lay(std::vector<basic_beam_step<R>>& steps, std::size_t& steps_made, const length<R>& from,
                       std::size_t first, bool rod_acts) const {
        if (steps.size() < steps_made + pieces) { steps.resize(steps_made + pieces); }
        for (std::size_t i = 0; i < pieces; ++i) {
            auto& step = steps[steps_made++];
            const R before = number<R>(static_cast<double>(i));
            step.x = from + span * min(before, count);
            step.span = select(before < count, span, length<R>());
            step.first = first + 2 * i;
            step.rod_acts = rod_acts;
        }
    }
    /// x of the i-th point of the stretch, counted from 0 at `from`; a step has two intervals.
    [[nodiscard]] constexpr length<R> place(const length<R>& from, std::size_t i) const {
        return from + span * min(number<R>(0.5 * static_cast<int>(i)), count);
    }
};

/// The beam at W places, from the neck's sums without inserts there (`sums`). `left` and `right` are the breaks around
/// the places; they tell which inserts and rod reach there. Fills as many points as `points` has room for.
template <std::size_t W, class R>
[[gnu::always_inline]] inline void beam_points(const basic_neck<R>& n, const neck_segment<R>& segment,
                                               const std::array<R, W>& u, sums_at_places<R, W>& sums,
                                               const basic_beam_break<R>& left, const basic_beam_break<R>& right,
                                               const std::array<length<R>, W>& x, std::span<basic_beam_point<R>> points) {
    for (std::size_t i = 0; i < n.inserts.size(); ++i) {
        const auto& part = n.inserts[i];
        const int order = insert_order(i);
        if (!reaches<R>({part.x_from, order}, {part.x_to, order + 1}, left, right)) { continue; }
        for (std::size_t k = 0; k < W; ++k) {
            const auto more = insert_sums<R>(part, n.board_modulus * n.pure_bending_factor,
                                             n.back_modulus * n.pure_bending_factor, segment.glue_line(u[k]));
            sums[whole_ea][k] += more.ea.value();
            sums[whole_es][k] += more.es.value();
            sums[whole_ej][k] += more.ej.value();
        }
    }
    const auto bay = n.slots.has_value() ? bay_between<R>(n, left, right) : std::nullopt;
    const R tangs = bay ? tang_strain<R>(*n.slots, *bay) : number<R>(0);
    if (bay && bears_less<R>(*n.slots)) {
        // Slots that bear little leave the layer between them a smaller share of its modulus.
        const R kept = layer_share<R>(*n.slots, *bay), lost = number<R>(1) - kept;
        for (std::size_t k = 0; k < W; ++k) {
            for (const auto of : {whole_ea, board_ea}) { sums[of][k] -= lost * sums[tangs_ea][k]; }
            for (const auto of : {whole_es, board_es}) { sums[of][k] -= lost * sums[tangs_es][k]; }
            sums[whole_ej][k] -= lost * sums[tangs_ej][k];
            sums[tangs_ea][k] *= kept;
            sums[tangs_es][k] *= kept;
        }
    }
    std::array<R, W> axis, rigidity, compliance, bent;
    for (std::size_t k = 0; k < W; ++k) {
        if constexpr (has_local_slopes<R, 3>) {
            const auto found = by_local_slopes(
                [](const auto& ea, const auto& es, const auto& ej) __attribute__((always_inline)) {
                    using D = std::remove_cvref_t<decltype(ea)>;
                    const D z = es / ea, ei = ej - es * z;
                    return std::array<D, 3>{z, ei, number<D>(1) / ei};
                },
                sums[whole_ea][k], sums[whole_es][k], sums[whole_ej][k]);
            axis[k] = found[0];
            rigidity[k] = found[1];
            compliance[k] = found[2];
            const auto bend_of = [](const auto& ea, const auto& es, const auto& strain, const auto& z,
                                    const auto& per_rigidity) __attribute__((always_inline)) {
                using D = std::remove_cvref_t<decltype(ea)>;
                return std::array<D, 1>{(ea * z - es) * strain * per_rigidity};
            };
            bent[k] =
                by_local_slopes(bend_of, sums[board_ea][k], sums[board_es][k], n.board_strain, axis[k], compliance[k])[0];
            if (bay) {
                bent[k] = bent[k] +
                          by_local_slopes(bend_of, sums[tangs_ea][k], sums[tangs_es][k], tangs, axis[k], compliance[k])[0];
            }
        } else {
            const auto sec =
                section_from<R>({force<R>::from_value(sums[whole_ea][k]), moment<R>::from_value(sums[whole_es][k]),
                                 flexural_rigidity<R>::from_value(sums[whole_ej][k])});
            axis[k] = sec.neutral_axis.value();
            rigidity[k] = sec.bending_rigidity.value();
            compliance[k] = number<R>(1) / rigidity[k];
            // The same as strain_curvature, with one division less.
            bent[k] = ((sums[board_ea][k] * axis[k] - sums[board_es][k]) * n.board_strain +
                       (sums[tangs_ea][k] * axis[k] - sums[tangs_es][k]) * tangs) *
                      compliance[k];
        }
    }
    std::array<length<R>, W> set{}, rod_height{};
    if (n.rod.has_value() || !n.set.empty()) {
        using V = std::conditional_t<W % places_in<row_of<R>> == 0, row_of<R>, R>;
        const rod_line<R> rod(n.rod, n.set);
        for (std::size_t first = 0; first < W; first += places_in<V>) {
            const length<V> there = quantity_row<V>([&](std::size_t k) { return x[first + k]; });
            const length<V> bow = permanent_bow_at<R, V>(n.set, there), height = rod.over_neck(there, bow);
            for (std::size_t k = 0; k < places_in<V>; ++k) {
                set[first + k] = length<R>::from_value(at_place(bow.value(), k));
                rod_height[first + k] = length<R>::from_value(at_place(height.value(), k));
            }
        }
    }
    for (std::size_t k = 0; k < points.size(); ++k) {
        auto& p = points[k];
        p.axial_rigidity = force<R>::from_value(sums[whole_ea][k]);
        p.bending_rigidity = flexural_rigidity<R>::from_value(rigidity[k]);
        p.bending_compliance = decltype(p.bending_compliance)::from_value(compliance[k]);
        p.neutral_axis = length<R>::from_value(axis[k]);
        p.free_curvature = curvature<R>::from_value(bent[k]);
        p.set = set[k];
        p.rod_height = rod_height[k];
    }
}

/// Lays a beam over its breaks: makes the steps between them and the points of these steps, within the memory that the
/// beam already has.
/// @param longest of a step
/// @param at_stretch called with the middle of each stretch before its points are filled
/// @param measure    fills points from the number of the first of them in their stretch on: called with the breaks around
///                   them, how the stretch is cut, that number, and the points, at most `W` together
template <std::size_t W, class R, class AtStretch, class Measure>
void lay_beam(basic_neck_beam<R>& beam, const length<R>& longest, AtStretch&& at_stretch, Measure&& measure) {
    std::size_t steps_made = 0, points_made = 0;
    for (std::size_t k = 1; k < beam.breaks.size(); ++k) {
        const auto &left = beam.breaks[k - 1], &right = beam.breaks[k];
        at_stretch(length<R>(number<R>(0.5L) * (left.x + right.x)));
        const stretch_steps<R> cut(right.x - left.x, longest);
        const std::size_t first = points_made, last = first + 2 * cut.pieces;
        if (beam.points.size() < last + 1) { beam.points.resize(last + 1); }
        cut.lay(beam.steps, steps_made, left.x, first, rod_reaches<R>(beam.rod, left, right));
        for (std::size_t p = first; p <= last; p += W) {
            measure(left, right, cut, p - first, std::span(beam.points).subspan(p, std::min(W, last + 1 - p)));
        }
        points_made = last + 1;
    }
    beam.steps.resize(steps_made);
    beam.points.resize(points_made);
    using S = search_t<R>;
    S softest = number<S>(0), beside = softest; // side by side: a single one would have to wait for the one before
    for (std::size_t i = 0; i < points_made; i += 2) {
        softest = max(softest, searched(beam.points[i].bending_compliance.value()));
        beside = max(beside, searched(beam.points[std::min(i + 1, points_made - 1)].bending_compliance.value()));
    }
    beam.softest = decltype(beam.softest)::from_value(R(max(softest, beside)));
}
/// Copies into a beam what it keeps of its neck. Returns the greatest length of a step: two intervals between so many
/// stations.
template <class R, class Neck>
[[nodiscard]] length<R> begin_beam(const Neck& n, std::size_t stations, basic_neck_beam<R>& beam) {
    beam.joint = n.joint;
    beam.joint_stiffness = n.joint_stiffness;
    beam.rod = n.rod;
    beam.set = n.set;
    beam.creep_factor = n.creep_factor;
    return n.joint * number<R>(2 / static_cast<double>(stations - 1));
}

template <class R>
void make_beam(const basic_neck<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    const length<R> longest = begin_beam(n, stations, beam);
    find_breaks(n, beam.breaks);
    std::size_t at_station = 0;
    neck_segment<R> segment(n, 0);
    segment_polynomials<R> polynomials(segment, sums_wanted(n));
    constexpr std::size_t W = side_by_side<R>;
    sums_at_places<R, W> sums{}; // those that are not wanted stay 0
    lay_beam<W>(
        beam, longest,
        [&](const length<R>& middle) {
            const std::size_t before = at_station;
            while (at_station + 2 < n.stations.size() &&
                   one_answer(n.stations[at_station + 1].x.value() <= middle.value())) {
                ++at_station;
            }
            if (at_station == before) { return; }
            segment = neck_segment<R>(n, at_station);
            polynomials = segment_polynomials<R>(segment, sums_wanted(n));
        },
        [&](const auto& left, const auto& right, const stretch_steps<R>& cut, std::size_t first,
            std::span<basic_beam_point<R>> points) {
            std::array<length<R>, W> x;
            std::array<R, W> u;
            for (std::size_t i = 0; i < W; ++i) {
                x[i] = cut.place(left.x, first + i);
                u[i] = segment.share(x[i]);
            }
            polynomials.at(u, sums);
            beam_points<W>(n, segment, u, sums, left, right, x, points);
        });
}

} // namespace kernel

/// The neck's section at x, which must lie between its first and its last station. An insert counts between its ends.
template <class R = double>
[[nodiscard]] basic_beam_point<R> section_at(const basic_neck<R>& n, param<length<R>> x) {
    require_valid(n, "neck");
    require("x", x, any_finite<unit::length>());
    require_that(in_all_lanes(n.stations.front().x.value() <= x.value()) &&
                     in_all_lanes(x.value() <= n.stations.back().x.value()),
                 "x", "must lie between the neck's first and last station");
    const std::size_t i = kernel::segment_at<R>(n.stations, x);
    const basic_beam_break<R> here{x, kernel::nut_order};
    const kernel::neck_segment<R> segment(n, i);
    const R u = segment.share(x);
    const auto at = segment.at(u);
    kernel::sums_at_places<R, 1> sums;
    for (std::size_t k = 0; k < at.size(); ++k) { sums[k][0] = at[k]; }
    basic_beam_point<R> p;
    kernel::beam_points<1, R>(n, segment, {u}, sums, here, here, {x}, {&p, 1});
    return p;
}

/// Makes the beam of a neck in place. Nothing is allocated once `beam` has held a beam of this size.
///
/// @param stations the least number of places at which the section is taken, from the nut to the joint, both included;
///                 2 to 100 000. A step goes over two of the intervals between them. The error of a bow falls with the
///                 fourth power of their spacing; 65 are plenty.
template <class R = double>
void make_beam(const basic_neck<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    require_valid(n, "neck");
    require_that(2 <= stations && stations <= 100000, "stations", "must be between 2 and 100000");
    kernel::make_beam(n, stations, beam);
}
/// The beam of a neck.
template <class R = double>
[[nodiscard]] basic_neck_beam<R> make_beam(const basic_neck<R>& n, std::size_t stations = 65) {
    basic_neck_beam<R> beam;
    make_beam(n, stations, beam);
    return beam;
}

} // namespace tautline
