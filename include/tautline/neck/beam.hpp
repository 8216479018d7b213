#pragma once
/// @file
/// The beam a neck makes: its sections worked out once along x, so that any number of loads can bend it cheaply.

#include <array>
#include <cstddef>

#include "neck.hpp"

namespace tautline {

/// The beam at one place.
template <class R>
struct basic_beam_point {
    using real = R;
    force<R> axial_rigidity{};               ///< EA
    flexural_rigidity<R> bending_rigidity{}; ///< EI about the neutral axis
    length<R> neutral_axis{};                ///< z in the straight, unloaded neck
    length<R> rod_height{};                  ///< z of the rod's axis there; only where a rod is
    length<R> set{};                         ///< of the unloaded neck above straight
    curvature<R> free_curvature{};           ///< that tangs and a board longer than its back give the unloaded neck
    /// 1 / EI: bending asks for it many times.
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

/// A stretch of the beam without a jump or a kink inside: its measures at both ends and midway.
template <class R>
struct basic_beam_step {
    using real = R;
    length<R> x{};                           ///< end toward the nut
    length<R> span{};                        ///< along x
    std::array<basic_beam_point<R>, 3> at{}; ///< at x, midway, at x + span
    bool rod_acts = false;                   ///< the rod runs through it

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("span", self.span...);
        visit("at[0]", self.at[0]...);
        visit("at[1]", self.at[1]...);
        visit("at[2]", self.at[2]...);
        visit("rod_acts", self.rod_acts...);
    }
};

/// A place that no step of a beam crosses. Where two things begin or end at one place both keep theirs, in the order of
/// `order`, and a step of no length lies between: derivatives for each of the two are then right.
template <class R>
struct basic_beam_break {
    using real = R;
    length<R> x{}; ///< along the neck
    int order = 0; ///< 0 and up, among breaks of one place

    /// In order along the beam.
    [[nodiscard]] constexpr bool not_after(const basic_beam_break& other) const {
        return agreed(less(x, other.x)) || (!agreed(less(other.x, x)) && order <= other.order);
    }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("order", self.order...);
    }
};

/// A neck's beam from the nut to the joint. Steps are equally long between places where the section jumps or kinks; no step
/// crosses such a place.
template <class R>
struct basic_neck_beam {
    using real = R;
    std::vector<basic_beam_step<R>> steps{};   ///< from the nut on
    std::vector<basic_beam_break<R>> breaks{}; ///< the nut, the places where something begins, ends or kinks, the joint
    length<R> joint{};                         ///< where the beam is held
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{}; ///< absent: held rigidly
    std::optional<basic_truss_rod<R>> rod{};                         ///< the rod, if there is one
    std::vector<basic_set_mark<R>> set{};                            ///< the neck's shape without load
    R creep_factor = R(1);                                           ///< all of the elastic bow times this

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("steps", self.steps...);
        visit("breaks", self.breaks...);
        visit("joint", self.joint...);
        visit("joint_stiffness", self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("set", self.set...);
        visit("creep_factor", self.creep_factor...);
    }
};
using neck_beam = basic_neck_beam<double>;

namespace kernel {

/// The neck between two stations, ready to be asked for its section at many places. Measures and the back's shape go
/// straight from one to the other. The arc's shape, which hardly changes, is a polynomial through its values at Chebyshev's
/// places: far cheaper than integrating it anew, and as exact.
template <class R>
class neck_segment {
public:
    neck_segment(const basic_neck_station<R>& a, const basic_neck_station<R>& b)
        : x_(a.x), per_span_(number<R>(1) / length<R>(b.x - a.x)), half_width_(a.half_width, b.half_width),
          board_thickness_(a.board_thickness, b.board_thickness), board_arc_(a.board_arc, b.board_arc),
          back_depth_(a.back_depth, b.back_depth), back_(back_shape(a)) {
        const auto far = back_shape(b);
        back_change_ = {far.area - back_.area, far.first - back_.first, far.second - back_.second};
        for (std::size_t i = 0; i < places.size(); ++i) {
            const R u = number<R>(places[i]);
            arcs_[i] = arc_shape_of<R>(R((board_arc_.at(u) * half_width_.at(u)).value()));
        }
        // Newton's divided differences.
        for (std::size_t order = 1; order < places.size(); ++order) {
            for (std::size_t i = places.size(); i-- > order;) {
                const R per_gap = number<R>(1 / (places[i] - places[i - order]));
                arcs_[i].first = (arcs_[i].first - arcs_[i - 1].first) * per_gap;
                arcs_[i].second = (arcs_[i].second - arcs_[i - 1].second) * per_gap;
                arcs_[i].third = (arcs_[i].third - arcs_[i - 1].third) * per_gap;
            }
        }
    }

    /// One place on it.
    struct section {
        length<R> half_width, board_thickness;
        curvature<R> board_arc;
        length<R> back_depth;
        arc_shape<R> arc;
        basic_back_shape<R> back;
    };
    [[nodiscard, gnu::always_inline]] section at(const length<R>& x) const {
        const R u = (x - x_) * per_span_;
        arc_shape<R> arc = arcs_.back();
        for (std::size_t i = arcs_.size() - 1; i-- > 0;) {
            const R d = u - number<R>(places[i]);
            arc = {arc.first * d + arcs_[i].first, arc.second * d + arcs_[i].second, arc.third * d + arcs_[i].third};
        }
        return {half_width_.at(u),
                board_thickness_.at(u),
                board_arc_.at(u),
                back_depth_.at(u),
                arc,
                {back_.area + back_change_.area * u, back_.first + back_change_.first * u,
                 back_.second + back_change_.second * u}};
    }

private:
    template <class Q>
    struct straight {
        Q from, change;
        straight(const Q& a, const Q& b) : from(a), change(b - a) {}
        [[nodiscard]] Q at(const R& u) const { return from + change * u; }
    };
    // Six keep a rigidity to some 1e-11 for any neck that can be played, and to 1e-6 for an arc as tight as the board is
    // wide.
    static constexpr std::array<long double, 6> places = {0.5L - 0.4829629131445341434L, 0.5L + 0.4829629131445341434L,
                                                          0.5L - 0.1294095225512603812L, 0.5L + 0.3535533905932737622L,
                                                          0.5L - 0.3535533905932737622L, 0.5L + 0.1294095225512603812L};

    length<R> x_;
    curvature<R> per_span_;
    straight<length<R>> half_width_, board_thickness_;
    straight<curvature<R>> board_arc_;
    straight<length<R>> back_depth_;
    basic_back_shape<R> back_, back_change_{};
    std::array<arc_shape<R>, places.size()> arcs_{};
};

/// Order of the breaks of one neck at one place: whatever lies at the nut reaches there, and at the joint too.
inline constexpr int joint_order = -1000000, nut_order = 1000000;

/// Whether something between two of its own breaks is there between two others.
template <class R>
[[nodiscard]] constexpr bool reaches(const basic_beam_break<R>& from, const basic_beam_break<R>& to,
                                     const basic_beam_break<R>& left, const basic_beam_break<R>& right) {
    return from.not_after(left) && right.not_after(to);
}
/// Numbers of the breaks: two for the rod, then two for each insert, then one for each fret.
template <class R>
[[nodiscard]] constexpr bool rod_reaches(const basic_neck<R>& n, const basic_beam_break<R>& left,
                                         const basic_beam_break<R>& right) {
    return n.rod.has_value() && reaches<R>({n.rod->x_from, 1}, {n.rod->x_to, 2}, left, right);
}
[[nodiscard]] constexpr int insert_order(std::size_t i) { return 3 + 2 * static_cast<int>(i); }
template <class R>
[[nodiscard]] constexpr int tang_order(const basic_neck<R>& n, std::size_t i) {
    return insert_order(n.inserts.size()) + static_cast<int>(i);
}

/// Puts a break in order if it lies inside the beam.
template <class R>
constexpr void add_break(std::vector<basic_beam_break<R>>& breaks, const basic_beam_break<R>& one) {
    if (!breaks.front().not_after(one) || !one.not_after(breaks.back())) { return; }
    std::size_t i = 0;
    while (breaks[i].not_after(one)) { ++i; }
    breaks.insert(breaks.begin() + static_cast<std::ptrdiff_t>(i), one);
}
/// The same for a kink, which needs no break of its own where there is one already.
template <class R>
constexpr void add_kink(std::vector<basic_beam_break<R>>& breaks, const length<R>& x) {
    const auto near = breaks.back().x * number<R>(1e-9L);
    for (const auto& b : breaks) {
        if (agreed(abs(b.x.value() - x.value()) <= near.value())) { return; }
    }
    add_break<R>(breaks, {x, 0});
}

template <class R>
constexpr void find_breaks(const basic_neck<R>& n, std::vector<basic_beam_break<R>>& breaks) {
    breaks.clear();
    breaks.push_back({length<R>(), nut_order});
    breaks.push_back({n.joint, joint_order});
    if (n.rod.has_value()) {
        add_break<R>(breaks, {n.rod->x_from, 1});
        add_break<R>(breaks, {n.rod->x_to, 2});
    }
    for (std::size_t i = 0; i < n.inserts.size(); ++i) {
        add_break<R>(breaks, {n.inserts[i].x_from, insert_order(i)});
        add_break<R>(breaks, {n.inserts[i].x_to, insert_order(i) + 1});
    }
    if (n.slots.has_value() && agreed(number<R>(0) < n.slots->share)) {
        for (std::size_t i = 0; i < n.slots->places.size(); ++i) {
            add_break<R>(breaks, {n.slots->places[i], tang_order(n, i)});
        }
    }
    for (const auto& s : n.stations) { add_kink<R>(breaks, s.x); }
    for (const auto& m : n.set) { add_kink<R>(breaks, m.x); }
}

/// Stretch that tangs give the board's top between two breaks.
template <class R>
[[nodiscard]] constexpr R tang_strain_between(const basic_neck<R>& n, const basic_beam_break<R>& left,
                                              const basic_beam_break<R>& right) {
    basic_beam_break<R> from{length<R>(), -nut_order};
    for (std::size_t i = 0; i < n.slots->places.size(); ++i) {
        const basic_beam_break<R> to{n.slots->places[i], tang_order(n, i)};
        if (reaches(from, to, left, right)) { return tang_strain<R>(*n.slots, i); }
        from = to;
    }
    return number<R>(0);
}

/// The beam's measures at x, which lies in `segment`; `left` and `right` are breaks around it, which say what reaches
/// there.
template <class R>
[[gnu::always_inline]] inline void beam_point(const basic_neck<R>& n, const neck_segment<R>& segment,
                                              const basic_beam_break<R>& left, const basic_beam_break<R>& right,
                                              const length<R>& x, basic_beam_point<R>& p) {
    const auto s = segment.at(x);
    const stress<R> board = n.board_modulus * n.pure_bending_factor, back = n.back_modulus * n.pure_bending_factor;
    const auto board_part = kernel::board_sums<R>(board, s.half_width, s.board_thickness, s.board_arc, s.arc);
    auto sums = board_part + kernel::back_sums<R>(back, s.half_width, s.back_depth, -s.board_thickness, s.back);
    for (std::size_t i = 0; i < n.inserts.size(); ++i) {
        const auto& part = n.inserts[i];
        const int order = insert_order(i);
        if (reaches<R>({part.x_from, order}, {part.x_to, order + 1}, left, right)) {
            sums = sums + insert_sums<R>(part, board, back, -s.board_thickness);
        }
    }
    const auto sec = kernel::section_from(sums);
    p.axial_rigidity = sec.axial_rigidity;
    p.bending_rigidity = sec.bending_rigidity;
    p.bending_compliance = number<R>(1) / sec.bending_rigidity;
    p.neutral_axis = sec.neutral_axis;
    p.set = set_height<R>(n.set, x);
    // As strain_curvature, without another division.
    const auto bends = [&](const basic_section_sums<R>& layer, const R& strain) {
        return curvature<R>((layer.ea * sec.neutral_axis - layer.es) * strain * p.bending_compliance);
    };
    p.free_curvature = bends(board_part, n.board_strain);
    if (n.slots.has_value()) {
        const auto layer = kernel::board_sums<R>(board, s.half_width, n.slots->tang_depth, s.board_arc, s.arc, true);
        p.free_curvature += bends(layer, tang_strain_between<R>(n, left, right));
    }
    p.rod_height = n.rod.has_value() ? rod_height<R>(*n.rod, x) : length<R>();
}

template <class R>
void make_beam(const basic_neck<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    const length<R> joint = n.joint;
    beam.joint = joint;
    beam.joint_stiffness = n.joint_stiffness;
    beam.rod = n.rod;
    beam.set = n.set;
    beam.creep_factor = n.creep_factor;

    find_breaks(n, beam.breaks);
    std::size_t steps_made = 0;
    const length<R> longest = joint / number<R>(static_cast<long double>(stations - 1));
    const auto places = static_cast<int>(n.stations.size());
    std::size_t at_station = 0;
    neck_segment<R> segment(n.stations[0], n.stations[1]);
    for (std::size_t k = 1; k < beam.breaks.size(); ++k) {
        const auto &left = beam.breaks[k - 1], &right = beam.breaks[k];
        const length<R> from = left.x, to = right.x;
        const length<R> middle = number<R>(0.5L) * (from + to);
        const std::size_t before = at_station;
        while (static_cast<int>(at_station) + 2 < places &&
               agreed(n.stations[at_station + 1].x.value() <= middle.value())) {
            ++at_station;
        }
        if (at_station != before) { segment = neck_segment<R>(n.stations[at_station], n.stations[at_station + 1]); }
        // The least whole number of steps that are not longer than asked. Lanes that need fewer than others get steps of
        // no length at the end.
        const R steps = ratio(to - from, longest);
        std::size_t pieces = 1;
        R count = number<R>(1);
        for (auto more = number<R>(1 + 1e-9L) < steps; any(more); ++pieces) {
            count = select(more, number<R>(static_cast<double>(pieces + 1)), count);
            more = number<R>(static_cast<double>(pieces + 1) + 1e-9) < steps;
        }
        const length<R> span = (to - from) / count;
        const std::size_t first = steps_made;
        steps_made += pieces;
        if (beam.steps.size() < steps_made) { beam.steps.resize(steps_made); }
        const bool rod_acts = rod_reaches<R>(n, left, right);
        const R half = number<R>(0.5L);
        const auto there = [&](std::size_t i) { return number<R>(static_cast<double>(i)) < count; };
        for (std::size_t i = 0; i < pieces; ++i) {
            auto& step = beam.steps[first + i];
            step.x = from + span * min(number<R>(static_cast<double>(i)), count);
            step.span = select(there(i), span, length<R>());
            step.rod_acts = rod_acts;
        }
        // Two places to a step; each end is the beginning of the next step, which is copied when all are done.
        beam_point<R>(n, segment, left, right, from, beam.steps[first].at[0]);
        for (std::size_t half_step = 0; half_step < 2 * pieces; ++half_step) {
            const auto& step = beam.steps[first + half_step / 2];
            const std::size_t at = 1 + half_step % 2;
            beam_point<R>(n, segment, left, right, step.x + step.span * (half * number<R>(static_cast<double>(at))),
                          beam.steps[first + half_step / 2].at[at]);
        }
        for (std::size_t i = 1; i < pieces; ++i) { beam.steps[first + i].at[0] = beam.steps[first + i - 1].at[2]; }
    }
    beam.steps.resize(steps_made);
}

} // namespace kernel

/// The neck's section at x, between its first and its last station; an insert counts between its ends.
template <class R>
[[nodiscard]] basic_beam_point<R> section_at(const basic_neck<R>& n, param<length<R>> x) {
    require_valid(n, "neck");
    require("x", x, any_finite<unit::length>());
    require_that(all(n.stations.front().x.value() <= x.value()) && all(x.value() <= n.stations.back().x.value()), "x",
                 "must lie between the neck's first and last station");
    const std::size_t i = kernel::segment_at<R>(n.stations, x);
    const basic_beam_break<R> here{x, kernel::nut_order};
    basic_beam_point<R> p;
    kernel::beam_point<R>(n, {n.stations[i], n.stations[i + 1]}, here, here, x, p);
    return p;
}

/// Makes the beam of a neck in place; nothing is allocated once `beam` has held one of its size.
///
/// @param stations at least so many places from the nut to the joint, both included; 2 to 100 000. The error of a bow falls
///                 with the fourth power of their spacing; 33 are plenty.
template <class R>
void make_beam(const basic_neck<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    require_valid(n, "neck");
    require_that(2 <= stations && stations <= 100000, "stations", "must be between 2 and 100000");
    kernel::make_beam(n, stations, beam);
}
/// The beam of a neck.
template <class R>
[[nodiscard]] basic_neck_beam<R> make_beam(const basic_neck<R>& n, std::size_t stations = 33) {
    basic_neck_beam<R> beam;
    make_beam(n, stations, beam);
    return beam;
}

} // namespace tautline
