#pragma once
/// @file
/// A neck as it is measured: sections at a few places along it, its woods, its joint, its rod, the set it carries.

#include <optional>
#include <vector>

#include "section.hpp"
#include "truss_rod.hpp"

namespace tautline {

/// The neck's section at one place. Between stations every measure changes linearly along x.
template <class R>
struct basic_neck_station {
    using real = R;
    field<length<R>> x{};               ///< from the nut's front face
    field<length<R>> half_width{};      ///< half the board's width
    field<length<R>> board_thickness{}; ///< on the centre line
    field<curvature<R>> board_arc{};    ///< 1 / radius of the board's top; 0 is flat
    field<length<R>> back_depth{};      ///< of the wood under the board, on the centre line
    R back_exponent = 2;                ///< of the back's half superellipse: 1 a V, 2 an ellipse, more is squarer

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-300 * units::mm, 2000 * units::mm), self.x...);
        visit("half_width", more_than_up_to(0 * units::mm, 200 * units::mm), self.half_width...);
        visit("board_thickness", more_than_up_to(0 * units::mm, 30 * units::mm), self.board_thickness...);
        visit("board_arc", between(0 * units::per_metre, 100 * units::per_metre), self.board_arc...);
        visit("back_depth", more_than_up_to(0 * units::mm, 100 * units::mm), self.back_depth...);
        visit("back_exponent", between(1, 20), self.back_exponent...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!all(board_arc.value() * half_width.value() <= number<R>(0.95L))) {
            report("board_arc", "must have a radius of more than half the board's width");
        } else if (!all(kernel::arc_fall<R>(board_arc, half_width).value() < board_thickness.value())) {
            report("board_thickness", "must be more than the board's arc falls at the edge");
        }
    }
};
using neck_station = basic_neck_station<double>;

/// One point of a measured profile: the bare board's height above the straight line, with no load on the neck.
template <class R>
struct basic_set_mark {
    using real = R;
    field<length<R>> x{};
    field<length<R>> z{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(-300 * units::mm, 2000 * units::mm), self.x...);
        visit("z", between(-50 * units::mm, 50 * units::mm), self.z...);
    }
};
using set_mark = basic_set_mark<double>;

/// A neck, clamped in the body at its joint.
template <class R>
struct basic_neck {
    using real = R;
    /// From the nut (x <= 0) to the joint or past it, at least two, x increasing.
    std::vector<basic_neck_station<R>> stations{};
    field<stress<R>> board_modulus{}; ///< along the grain, as bending tests give it
    field<stress<R>> back_modulus{};  ///< along the grain, as bending tests give it
    /// Bending tests include shear and read low; pure bending takes this times their modulus.
    /// Source: USDA Forest Products Laboratory, Wood Handbook, note on table 5-3.
    R pure_bending_factor = R(1.10L);
    field<length<R>> joint{}; ///< where the neck meets the body
    /// What the joint gives way to a moment; none is a rigid joint. A neck held by its back in a pocket tilts some 10 %
    /// more than one held rigidly.
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{};
    std::optional<basic_truss_rod<R>> rod{};
    /// All of the elastic bow times this: 1 when just strung up, 1.5 for seasoned wood under lasting load
    /// (AWC, National Design Specification for Wood Construction, 3.5.2).
    R creep_factor = R(1);
    /// The set the neck carries with no load on it, as measured; x increasing; straight between marks, level outside them.
    std::vector<basic_set_mark<R>> set{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("stations", self.stations...);
        visit("board_modulus", more_than_up_to(0 * units::GPa, 1000 * units::GPa), self.board_modulus...);
        visit("back_modulus", more_than_up_to(0 * units::GPa, 1000 * units::GPa), self.back_modulus...);
        visit("pure_bending_factor", between(0.5, 2), self.pure_bending_factor...);
        visit("joint", more_than_up_to(0 * units::mm, 2000 * units::mm), self.joint...);
        visit("joint_stiffness", more_than_up_to(0 * units::N_m_per_rad, 1e9 * units::N_m_per_rad),
              self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("creep_factor", between(1, 10), self.creep_factor...);
        visit("set", self.set...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (stations.size() < 2) {
            report("stations", "must be at least two sections, one at the nut and one at the joint");
            return;
        }
        for (std::size_t i = 1; i < stations.size(); ++i) {
            if (!all(stations[i - 1].x.value() < stations[i].x.value())) {
                report("stations[" + std::to_string(i) + "].x", "must be further from the nut than the station before it");
            }
        }
        if (!all(stations.front().x.value() <= number<R>(0))) {
            report("stations[0].x", "must be at the nut (0) or before it");
        }
        if (!all(joint.value() <= stations.back().x.value())) { report("joint", "must not lie past the last station"); }
        for (std::size_t i = 1; i < set.size(); ++i) {
            if (!all(set[i - 1].x.value() < set[i].x.value())) {
                report("set[" + std::to_string(i) + "].x", "must be further from the nut than the mark before it");
            }
        }
    }
};
using neck = basic_neck<double>;

namespace kernel {

/// Height of a profile given by marks: straight between them, level outside, 0 without marks.
template <class R>
[[nodiscard]] constexpr length<R> set_height(const std::vector<basic_set_mark<R>>& marks, const length<R>& x) {
    if (marks.empty()) { return {}; }
    length<R> z = marks.front().z;
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const R u = ratio(x - marks[i - 1].x, marks[i].x - marks[i - 1].x);
        const R within = max(number<R>(0), min(number<R>(1), u));
        z = z + (marks[i].z - marks[i - 1].z) * within;
    }
    return z;
}

} // namespace kernel

} // namespace tautline
