#pragma once
/// @file
/// A neck given by its flexural rigidity along its length, measured or worked out elsewhere, in place of its sections
/// and woods.

#include "beam.hpp"

namespace tautline {

/// Rigidity and neutral axis of the neck at one place.
template <class R = double>
struct basic_rigidity_mark {
    using real = R;
    needed<length<R>> x;                             ///< from the nut's front face
    needed<flexural_rigidity<R>> rigidity;           ///< EI about the neutral axis
    needed<length<R>> neutral_axis;                  ///< its height; negative: below the board's top on the centre line
    std::optional<field<force<R>>> axial_rigidity{}; ///< EA; needed for turns of a single rod; absent: unknown

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-300 * units::mm, 3000 * units::mm), self.x...);
        visit("rigidity", between(0.001 * units::N_m2, 1e6 * units::N_m2), self.rigidity...);
        visit("neutral_axis", between(-100 * units::mm, 0 * units::mm), self.neutral_axis...);
        visit("axial_rigidity", between(1 * units::N, 1e10 * units::N), self.axial_rigidity...);
    }
};
using rigidity_mark = basic_rigidity_mark<double>;

/// A neck clamped in the body at its joint. Its rigidity and neutral axis are linear between marks.
template <class R = double>
struct basic_neck_by_rigidity {
    using real = R;
    /// Marks from the nut (x <= 0) to the joint or past it; at least two, x increasing. For a jump give two marks close
    /// together.
    std::vector<basic_rigidity_mark<R>> marks{};
    needed<length<R>> joint; ///< where the neck meets the body
    /// Moment for each unit of angle by which the joint gives way; absent: the joint is rigid.
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{};
    std::optional<basic_truss_rod<R>> rod{}; ///< the truss rod, if there is one; a single one needs every `axial_rigidity`
    R creep_factor = R(1);                   ///< factor on the whole elastic bow, as in `basic_neck`
    /// The set of the neck as measured with no load on it: marks with x increasing. It is straight between marks and
    /// level outside them.
    std::vector<basic_permanent_bow_mark<R>> set{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("marks", self.marks...);
        visit("joint", between(1 * units::mm, 3000 * units::mm), self.joint...);
        visit("joint_stiffness", between(1 * units::N_m_per_rad, 1e9 * units::N_m_per_rad), self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("creep_factor", between(1, 10).fair_default("what was measured under load has crept already"),
              self.creep_factor...);
        visit("set", self.set...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (marks.size() < 2) {
            report("marks", "must be at least two, one at the nut and one at the joint");
            return;
        }
        for (std::size_t i = 0; i < marks.size(); ++i) {
            if (i > 0 && !in_all_lanes(marks[i - 1].x.value() < marks[i].x.value())) {
                report(messages::path_of("marks", i, "x"), "must be further from the nut than the mark before it");
            }
            if (rod.has_value() && !rod->two_way() && !marks[i].axial_rigidity.has_value()) {
                report(messages::path_of("marks", i, "axial_rigidity"), "must be given where a single rod pulls");
            }
        }
        if (!in_all_lanes(marks.front().x.value() <= number<R>(0))) {
            report("marks[0].x", "must be at the nut (0) or before it");
        }
        if (!in_all_lanes(joint.value() <= marks.back().x.value())) { report("joint", "must not lie past the last mark"); }
        kernel::report_marks(set, "set", report);
    }
};
using neck_by_rigidity = basic_neck_by_rigidity<double>;

namespace kernel {

/// The beam at x, between two marks.
template <class R>
[[nodiscard]] basic_beam_point<R> beam_point(const basic_rigidity_mark<R>& a, const basic_rigidity_mark<R>& b,
                                             const rod_line<R>& rod, const std::vector<basic_permanent_bow_mark<R>>& set,
                                             const length<R>& x) {
    const R u = ratio(x - a.x, b.x - a.x);
    basic_beam_point<R> p;
    p.axial_rigidity = force<R>::from_value(not_given<R>());
    if (a.axial_rigidity.has_value() && b.axial_rigidity.has_value()) {
        p.axial_rigidity = *a.axial_rigidity + (*b.axial_rigidity - *a.axial_rigidity) * u;
    }
    p.bending_rigidity = a.rigidity + (b.rigidity - a.rigidity) * u;
    p.bending_compliance = number<R>(1) / p.bending_rigidity;
    p.neutral_axis = a.neutral_axis + (b.neutral_axis - a.neutral_axis) * u;
    p.set = permanent_bow_at<R>(set, x);
    p.rod_height = rod.over_neck(x, p.set);
    return p;
}

template <class R>
void make_beam(const basic_neck_by_rigidity<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    const length<R> longest = begin_beam(n, stations, beam);
    begin_breaks<R>(n.joint, n.rod, beam.breaks);
    for (const auto& m : n.marks) { add_kink<R>(beam.breaks, m.x); }
    for (const auto& m : n.set) { add_kink<R>(beam.breaks, m.x); }
    const rod_line<R> rod(n.rod, n.set);
    std::size_t at_mark = 0;
    lay_beam<1>(
        beam, longest,
        [&](const length<R>& middle) {
            while (at_mark + 2 < n.marks.size() && one_answer(n.marks[at_mark + 1].x.value() <= middle.value())) {
                ++at_mark;
            }
        },
        [&](const auto& left, const auto&, const stretch_steps<R>& cut, std::size_t first,
            std::span<basic_beam_point<R>> points) {
            points[0] = beam_point<R>(n.marks[at_mark], n.marks[at_mark + 1], rod, n.set, cut.place(left.x, first));
        });
}

} // namespace kernel

/// Makes the beam of a neck known by its rigidity, in place, for `bend`, `relief_under` and whatever else takes a beam.
///
/// @param stations as for `make_beam` of a neck, 2 to 100 000; every mark is a place too
template <class R = double>
void make_beam(const basic_neck_by_rigidity<R>& n, std::size_t stations, basic_neck_beam<R>& beam) {
    require_valid(n, "neck");
    require_that(2 <= stations && stations <= 100000, "stations", "must be between 2 and 100000");
    kernel::make_beam(n, stations, beam);
}
/// The beam of a neck known by its rigidity.
template <class R = double>
[[nodiscard]] basic_neck_beam<R> make_beam(const basic_neck_by_rigidity<R>& n, std::size_t stations = 65) {
    basic_neck_beam<R> beam;
    make_beam(n, stations, beam);
    return beam;
}

} // namespace tautline
