#pragma once
/// @file
/// A neck as it is measured: sections at a few places along it, its woods, its joint, its rod and its set.

#include <optional>
#include <vector>

#include "../core/profile.hpp"
#include "fret_slots.hpp"
#include "insert.hpp"
#include "station.hpp"
#include "truss_rod.hpp"

namespace tautline {

/// One point of a measured profile: the bare board's height above the straight line, with no load on the neck.
template <class R>
using basic_permanent_bow_mark = basic_profile_mark<R>;
using permanent_bow_mark = basic_permanent_bow_mark<double>;

template <class R = double>
struct basic_neck;
namespace kernel {
template <class R, class Report>
void report_rod(const basic_neck<R>& n, Report&& report);
template <class R, class Report>
void report_inserts(const basic_neck<R>& n, Report&& report);
} // namespace kernel

/// A neck, clamped in the body at its joint.
template <class R>
struct basic_neck {
    using real = R;
    /// Sections from the nut (x <= 0) to the joint or past it; at least two, x increasing.
    std::vector<basic_neck_station<R>> stations{};
    needed<stress<R>> board_modulus; ///< along the grain, as bending tests give it
    needed<stress<R>> back_modulus;  ///< along the grain, as bending tests give it
    /// Factor from a modulus of bending tests, which include shear and read low, to one of pure bending, 0.5 to 2. It
    /// may be off by -0.05 to +0.15 (`pure_bending`). For moduli that are free of shear set it to 1, or convert them
    /// with `as_bending_tests_give`. Source: USDA Forest Products Laboratory, Wood Handbook, note on table 5-3.
    R pure_bending_factor = R(1.10L);
    needed<length<R>> joint; ///< where the neck meets the body
    /// Moment for each unit of angle by which the joint gives way. Absent: the joint is rigid. A neck held by its back
    /// in a pocket tilts some 10 % more than one held rigidly.
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{};
    std::optional<basic_truss_rod<R>> rod{};    ///< the truss rod, if there is one
    std::vector<basic_insert<R>> inserts{};     ///< bars, tubes, channels
    std::optional<basic_fret_slots<R>> slots{}; ///< fret slots and tangs, if they are to count
    /// Strain by which the whole board wants to be longer than the back, compared with when the set was measured. Wood
    /// that takes up moisture grows a little along the grain too, and two woods differ (see `board_strain` of
    /// `moisture.hpp`).
    R board_strain = R(0);
    /// Factor on the whole elastic bow: 1 when just strung up or measured as it stands, `usual_creep` for a week or a
    /// year, 1.5 for seasoned wood under lasting load (AWC, National Design Specification for Wood Construction,
    /// 3.5.2).
    R creep_factor = R(1);
    /// The set of the neck as measured with no load on it: marks with x increasing. It is straight between marks and
    /// level outside them.
    std::vector<basic_permanent_bow_mark<R>> set{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("stations", self.stations...);
        visit("board_modulus", between(0.01 * units::GPa, 1000 * units::GPa), self.board_modulus...);
        visit("back_modulus", between(0.01 * units::GPa, 1000 * units::GPa), self.back_modulus...);
        visit("pure_bending_factor", between(0.5, 2).fair_default("Wood Handbook, note on table 5-3"),
              self.pure_bending_factor...);
        visit("joint", between(1 * units::mm, 3000 * units::mm), self.joint...);
        visit("joint_stiffness", between(1 * units::N_m_per_rad, 1e9 * units::N_m_per_rad), self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("inserts", self.inserts...);
        visit("slots", self.slots...);
        visit("board_strain", between(-0.01, 0.01).fair_default("the air the set was measured in"), self.board_strain...);
        visit("creep_factor", between(1, 10).fair_default("what was measured under load has crept already"),
              self.creep_factor...);
        visit("set", self.set...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (stations.size() < 2) {
            report("stations", "must be at least two sections, one at the nut and one at the joint");
            return;
        }
        for (std::size_t i = 1; i < stations.size(); ++i) {
            if (!in_all_lanes(stations[i - 1].x.value() < stations[i].x.value())) {
                report(messages::path_of("stations", i, "x"), "must be further from the nut than the station before it");
            }
        }
        if (!in_all_lanes(stations.front().x.value() <= number<R>(0))) {
            report("stations[0].x", "must be at the nut (0) or before it");
        }
        if (!in_all_lanes(joint.value() <= stations.back().x.value())) {
            report("joint", "must not lie past the last station");
        }
        kernel::report_marks(set, "set", report);
        if (slots.has_value() && !slots->places.empty() && !in_all_lanes(slots->places.front().value() <= joint.value())) {
            report("joint", "must not be nearer than the first fret");
        }
        if (slots.has_value() && !in_all_lanes(slots->tang_depth.value() < least_board_thickness().value())) {
            report("slots.tang_depth", "must be less than the board's thickness");
        }
        if (rod.has_value()) { kernel::report_rod(*this, report); }
        kernel::report_inserts(*this, report);
    }
    /// The least thickness of the board at any station.
    [[nodiscard]] length<R> least_board_thickness() const {
        length<R> least = stations.front().board_thickness;
        for (const auto& s : stations) { least = min<unit::length, R>(least, s.board_thickness); }
        return least;
    }
};
using neck = basic_neck<double>;

namespace kernel {

/// Height of the set at x.
template <class R, class V = R>
[[nodiscard]] constexpr length<V> permanent_bow_at(const std::vector<basic_permanent_bow_mark<R>>& marks,
                                                   const length<V>& x) {
    return profile_height<R, V>(marks, x);
}

/// The measures of the neck between two stations, at a share of the way.
template <class R>
[[nodiscard]] constexpr basic_neck_station<R> station_between(const basic_neck_station<R>& a,
                                                              const basic_neck_station<R>& b, const R& u) {
    const auto mix = [&](const auto& p, const auto& q) { return p + (q - p) * u; };
    basic_neck_station<R> s;
    s.x = mix(a.x, b.x);
    s.half_width = mix(a.half_width, b.half_width);
    s.board_thickness = mix(a.board_thickness, b.board_thickness);
    s.board_arc = arc_between<R>(a.board_arc, b.board_arc, u);
    s.back_depth = mix(a.back_depth, b.back_depth);
    return s;
}

/// Number of the segment between two stations in which x lies, from 0. Outside all it is the first or the last one.
template <class R>
[[nodiscard]] constexpr std::size_t segment_at(const std::vector<basic_neck_station<R>>& stations, const length<R>& x) {
    std::size_t i = 0;
    while (i + 2 < stations.size() && one_answer(stations[i + 1].x.value() <= x.value())) { ++i; }
    return i;
}

/// Calls `f(station, outline)` with the neck's measures at x.
template <class R, class F>
auto with_station_at(const basic_neck<R>& n, const length<R>& x, F&& f) {
    const std::size_t i = segment_at<R>(n.stations, x);
    const auto &a = n.stations[i], &b = n.stations[i + 1];
    const R u = max(number<R>(0), min(number<R>(1), ratio(x - a.x, b.x - a.x)));
    return f(station_between<R>(a, b, u),
             [&](const R& v) { return R(outline_depth<R>(a, v) + (outline_depth<R>(b, v) - outline_depth<R>(a, v)) * u); });
}

template <class R, class Report>
void report_rod(const basic_neck<R>& n, Report&& report) {
    const auto& rod = *n.rod;
    const length<R> middle = number<R>(0.5L) * (rod.x_from + rod.x_to);
    for (const length<R>& x : {length<R>(rod.x_from), middle, length<R>(rod.x_to)}) {
        const bool inside = with_station_at(n, x, [&](const basic_neck_station<R>& s, const auto& outline) {
            const length<R> back = -s.board_thickness - s.back_depth * outline(number<R>(0));
            return in_all_lanes(is_less(back, rod_height<R>(rod, x))) &&
                   in_all_lanes(rod_height<R>(rod, x).value() <= number<R>(0));
        });
        if (!inside) {
            report("rod.z_ends", "must keep the whole rod inside the neck");
            return;
        }
    }
}

template <class R, class Report>
void report_inserts(const basic_neck<R>& n, Report&& report) {
    for (std::size_t i = 0; i < n.inserts.size(); ++i) {
        const auto& part = n.inserts[i];
        const auto check = [&](const length<R>& x) {
            return with_station_at(n, x, [&](const basic_neck_station<R>& s, const auto& outline) {
                return insert_sticks_out(part, s, outline);
            });
        };
        const char* wrong = check(part.x_from);
        if (wrong == nullptr) { wrong = check(part.x_to); }
        for (const auto& s : n.stations) {
            if (wrong == nullptr && in_any_lane(part.x_from.value() < s.x.value() && s.x.value() < part.x_to.value())) {
                wrong = check(s.x);
            }
        }
        if (wrong != nullptr) { report(messages::path_of("inserts", i), wrong); }
        for (std::size_t k = 0; k < i; ++k) {
            if (inserts_overlap(n.inserts[k], part)) {
                report(messages::path_of("inserts", i),
                       messages::joined({"must not overlap ", messages::path_of("inserts", k)}));
            }
        }
    }
}

} // namespace kernel

} // namespace tautline
