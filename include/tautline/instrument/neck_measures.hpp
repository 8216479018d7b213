#pragma once
/// @file
/// What is known of a neck: measures, woods by name or by modulus, the joint, the rod and the set.

#include <optional>
#include <string>
#include <vector>

#include "../neck/neck.hpp"
#include "../neck/wood_by_name.hpp"
#include "neck_slots.hpp"
#include "traced_back.hpp"

namespace tautline {

/// A neck as the bench measures it. Its widths, its board's thickness and its arc come from the board. So wood that is
/// taken off the board is gone from the neck too.
template <class R = double>
struct basic_neck_measures {
    using real = R;
    needed<length<R>> depth_at_nut;   ///< of board and back together on the centre line, without frets
    needed<length<R>> depth_at_joint; ///< the same just before the joint
    R back_exponent = number<R>(2);   ///< roundness of the back: 1 is a V, 2 an ellipse, more is squarer
    int joint_fret = not_counted;     ///< fret at which the neck meets the body
    std::string board_wood{};         ///< name of the board's wood; empty: not told
    needed<stress<R>> board_modulus;  ///< along the grain; not given: `take_moduli` takes it from the wood's name
    modulus_method board_method = modulus_method::not_told; ///< how `board_modulus` was measured
    std::string back_wood{};                                ///< name of the back's wood; empty: not told
    needed<stress<R>> back_modulus; ///< along the grain; not given: `take_moduli` takes it from the wood's name
    modulus_method back_method = modulus_method::not_told; ///< how `back_modulus` was measured
    /// Factor from the modulus of a bending test to that of pure bending. It applies to moduli that bending tests give;
    /// other moduli, by what `board_method` and `back_method` say, are taken as measured. On small specimens it was
    /// measured as 1.30. The default is less; `pure_bending` says why it stays.
    R pure_bending_factor = number<R>(pure_bending::factor);
    std::optional<field<rotational_stiffness<R>>> joint_stiffness{}; ///< absent: a rigid joint
    std::optional<basic_truss_rod<R>> rod{};                         ///< the truss rod, if there is one
    std::optional<field<force<R>>> rod_pull{};                       ///< of the rod as it is set; 0 N is slack
    /// How much more the board has grown than the back with the season since its shape was measured, as a share of its
    /// length.
    R board_strain = number<R>(0);
    R creep_factor = number<R>(1); ///< the whole elastic bow is multiplied by this; 1: no creep
    /// The back as traced, x increasing. It takes the place of `back_exponent` at the traced places and between them.
    std::vector<basic_traced_back<R>> traced{};
    std::vector<basic_insert<R>> inserts{};                ///< bars, tubes, the channel of a rod
    std::optional<basic_neck_slots<R>> slots{};            ///< absent: fret slots are left out of the bending
    std::vector<basic_permanent_bow_mark<R>> set{};        ///< heights of the slack board off the straight line, along
                                                           ///< the centre line
    std::vector<basic_permanent_bow_mark<R>> set_bass{};   ///< the same along the bass edge; given where the edges differ
    std::vector<basic_permanent_bow_mark<R>> set_treble{}; ///< the same along the treble edge

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("depth_at_nut", between(1 * units::mm, 100 * units::mm), self.depth_at_nut...);
        visit("depth_at_joint", between(1 * units::mm, 100 * units::mm), self.depth_at_joint...);
        visit("back_exponent", between(1, 20).fair_default("an ellipse, between V and square"), self.back_exponent...);
        visit("joint_fret", between(1, 240), self.joint_fret...);
        visit("board_wood", self.board_wood...);
        visit("board_modulus", between(0.01 * units::GPa, 1000 * units::GPa), self.board_modulus...);
        visit("board_method", self.board_method...);
        visit("back_wood", self.back_wood...);
        visit("back_modulus", between(0.01 * units::GPa, 1000 * units::GPa), self.back_modulus...);
        visit("back_method", self.back_method...);
        visit("pure_bending_factor", between(0.5, 2).fair_default("Wood Handbook, note on table 5-3"),
              self.pure_bending_factor...);
        visit("joint_stiffness", between(1 * units::N_m_per_rad, 1e9 * units::N_m_per_rad), self.joint_stiffness...);
        visit("rod", self.rod...);
        visit("rod_pull", between(-100000 * units::N, 100000 * units::N), self.rod_pull...);
        visit("board_strain", between(-0.01, 0.01).fair_default("the air that its shape was measured in"),
              self.board_strain...);
        visit("creep_factor", between(1, 10).fair_default("what was measured under load has crept already"),
              self.creep_factor...);
        visit("traced", self.traced...);
        visit("inserts", self.inserts...);
        visit("slots", self.slots...);
        visit("set", self.set...);
        visit("set_bass", self.set_bass...);
        visit("set_treble", self.set_treble...);
    }
    /// Whether the shape of the slack board is told along each edge.
    [[nodiscard]] constexpr bool told_by_edges() const { return !set_bass.empty() && !set_treble.empty(); }
    /// Pull of the rod; 0 where there is no rod.
    [[nodiscard]] constexpr force<R> pull_of_rod() const { return rod_pull ? force<R>(*rod_pull) : force<R>(); }
    template <class Report>
    void rules(Report&& report) const {
        kernel::report_marks(set_bass, "set_bass", report);
        kernel::report_marks(set_treble, "set_treble", report);
        if (set_bass.empty() != set_treble.empty()) {
            report(set_bass.empty() ? "set_bass" : "set_treble",
                   "must be given, too: the slack board is told along both edges or, where they are alike, by set alone");
        }
        if (!set.empty() && !(set_bass.empty() && set_treble.empty())) {
            report("set", "must be left out where set_bass and set_treble tell the slack board along its edges");
        }
        for (std::size_t i = 1; i < traced.size(); ++i) {
            if (!in_all_lanes(number<R>(1e-6L) < traced[i].x.value() - traced[i - 1].x.value())) {
                report(messages::path_of("traced", i, "x"), "must be further from the nut than the place before it");
            }
        }
        if (rod && !rod_pull) { report("rod_pull", "must be given where there is a rod: 0 N is a slack one"); }
        if (!rod && rod_pull && !in_all_lanes(rod_pull->value() == number<R>(0))) {
            report("rod_pull", "must be 0 where there is no rod");
        }
        if (rod && rod_pull && !rod->two_way() && !in_all_lanes(number<R>(0) <= rod_pull->value())) {
            report("rod_pull",
                   "must be at least 0 N: a single rod only pulls; one of a pair pushes, too, and has a separation");
        }
    }
};
using neck_measures = basic_neck_measures<double>;

} // namespace tautline
