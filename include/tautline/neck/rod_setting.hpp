#pragma once
/// @file
/// The pull of a truss rod, from the torque on its nut or from turns of it, and the stress that the rod bears.

#include "beam.hpp"

namespace tautline {

/// State of a rod's thread; the torque for a pull depends on it.
enum class thread_state { black_finish, zinc_plated, lubricated, cadmium_plated, anti_seize };

/// Torque coefficient K of `T = K d P`.
/// Source: R. G. Budynas and J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed., table 8-15.
template <real R = double>
[[nodiscard]] constexpr R torque_coefficient(thread_state state) {
    switch (state) {
    case thread_state::black_finish:
        return number<R>(0.30L);
    case thread_state::zinc_plated:
        return number<R>(0.20L);
    case thread_state::lubricated:
        return number<R>(0.18L);
    case thread_state::cadmium_plated:
        return number<R>(0.16L);
    case thread_state::anti_seize:
        return number<R>(0.12L);
    }
    messages::refuse("thread_state", "", "must be one of those listed");
}

/// Standard deviation of the pull from one and the same torque, as a share of the pull, at best: of ten lubricated
/// bolts of one kind.
/// Source: Shigley, 9th ed., table 8-14: 2.88 kN of 34.18 kN.
inline constexpr long double torque_pull_scatter = 0.084L;

/// Pull of a rod from the torque on its nut, `T/(K d)`: torque at least 0, K more than 0, d the thread's outer
/// diameter. Torque is a weak measure: the pulls of rods with the same torque scatter by `torque_pull_scatter` at best.
[[nodiscard]] constexpr auto rod_pull_from_torque(a_moment auto torque, const real auto& coefficient,
                                                  a_length auto thread_diameter) {
    using R = std::remove_cvref_t<decltype(common_real_t<decltype(torque), decltype(thread_diameter)>() + coefficient)>;
    require("torque", over<R>(torque), at_least(0 * units::N_m));
    require("torque coefficient", R(coefficient), more_than_up_to(0, 1));
    require("thread diameter", over<R>(thread_diameter), more_than(0 * units::mm));
    return force<R>(over<R>(torque) / (over<R>(thread_diameter) * R(coefficient)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::MOMENT, messages::NUMBER, messages::LENGTH> rod_pull_from_torque(Given...)
    TAUTLINE_REFUSED("wanted are a MOMENT, a plain number, a LENGTH: rod_pull_from_torque(2*N_m, 0.2, 6*mm)");
/// Standard uncertainty of a pull that was set by torque, at best.
[[nodiscard]] constexpr auto torque_pull_uncertainty(a_force auto pull) {
    using R = common_real_t<decltype(pull)>;
    require("pull", over<R>(pull), at_least(0 * units::N));
    return force<R>(over<R>(pull) * number<R>(torque_pull_scatter));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE> torque_pull_uncertainty(Given...)
    TAUTLINE_REFUSED("wanted is a FORCE: torque_pull_uncertainty(900*N)");
/// Torque for a pull, `K d P`.
[[nodiscard]] constexpr auto torque_for_rod_pull(a_force auto pull, const real auto& coefficient,
                                                 a_length auto thread_diameter) {
    using R = std::remove_cvref_t<decltype(common_real_t<decltype(pull), decltype(thread_diameter)>() + coefficient)>;
    require("pull", over<R>(pull), at_least(0 * units::N));
    require("torque coefficient", R(coefficient), more_than_up_to(0, 1));
    require("thread diameter", over<R>(thread_diameter), more_than(0 * units::mm));
    return moment<R>(over<R>(pull) * over<R>(thread_diameter) * R(coefficient));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::NUMBER, messages::LENGTH> torque_for_rod_pull(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE, a plain number, a LENGTH: torque_for_rod_pull(900*N, 0.2, 6*mm)");

/// Tensile stress of a round rod. Give its least diameter, which is that of the thread's root where the rod has a cut
/// thread.
[[nodiscard]] constexpr auto rod_stress(a_force auto pull, a_length auto diameter) {
    using R = common_real_t<decltype(pull), decltype(diameter)>;
    require("pull", over<R>(pull), any_finite<unit::force>());
    require("diameter", over<R>(diameter), more_than(0 * units::mm));
    return stress<R>(number<R>(4) * over<R>(pull) / (over<R>(diameter) * over<R>(diameter) * pi<R>()));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH> rod_stress(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE and a LENGTH: rod_stress(900*N, 5*mm)");

/// Stress of a round rod as a share of `strength`, as a rule its yield strength; more than 0.
[[nodiscard]] constexpr auto rod_stress_share(a_force auto pull, a_length auto diameter, a_stress auto strength) {
    using R = common_real_t<decltype(pull), decltype(diameter), decltype(strength)>;
    require("strength", over<R>(strength), more_than(0 * units::MPa));
    return ratio(over<R>(rod_stress(pull, diameter)), over<R>(strength));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH, messages::STRESS> rod_stress_share(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE, a LENGTH, a STRESS: rod_stress_share(900*N, 5*mm, 400*MPa)");

/// The rod as a screw, for turns of its nut.
template <class R = double>
struct basic_rod_screw {
    using real = R;
    needed<length<R>> diameter; ///< of the rod's body
    needed<stress<R>> modulus;  ///< of steel 207 GPa (Shigley, table A-5, from memory)
    needed<length<R>> lead;     ///< what one turn advances
    /// How much longer the rod acts because the wood under its anchors gives way. Some 5 mm; a measurement settles it.
    field<length<R>> anchor_give = length<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("diameter", between(0.1 * units::mm, 20 * units::mm), self.diameter...);
        visit("modulus", between(0.1 * units::GPa, 1000 * units::GPa), self.modulus...);
        visit("lead", between(0.01 * units::mm, 5 * units::mm), self.lead...);
        visit("anchor_give",
              between(0 * units::mm, 100 * units::mm).fair_default("anchors that do not give, the least turn"),
              self.anchor_give...);
    }
};
using rod_screw = basic_rod_screw<double>;

namespace kernel {

/// How far the nut travels for each unit of pull: the stretch of the rod plus the shortening of the neck between its
/// anchors, `L/(EA)_rod + integral (1/EA + c^2/EI) dx`, and `c^2/k` at a joint that yields where the rod reaches it. A
/// two-way rod stretches one of its pair and shortens the other,
/// and bends the neck by their separation.
template <class R>
[[nodiscard]] constexpr compliance<R> rod_give(const basic_neck_beam<R>& beam, const basic_rod_screw<R>& screw) {
    const auto& rod = *beam.rod;
    const force<R> ea = screw.modulus * screw.diameter * screw.diameter * R(number<R>(0.25L) * pi<R>());
    const compliance<R> steel = (rod.x_to - rod.x_from + screw.anchor_give) / ea;
    compliance<R> wood{};
    for (const auto& s : beam.steps) {
        if (!s.rod_acts) { continue; }
        const auto at = [&](const basic_beam_point<R>& p) {
            const length<R> lever = rod.two_way() ? length<R>(rod.separation) : length<R>(p.neutral_axis - p.rod_height);
            const auto bending = lever * lever / p.bending_rigidity;
            if (rod.two_way()) { return decltype(bending)(bending); }
            return decltype(bending)(bending + number<R>(1) / p.axial_rigidity);
        };
        wood += s.span * (at(beam.at(s, 0)) + number<R>(4) * at(beam.at(s, 1)) + at(beam.at(s, 2))) / number<R>(6);
    }
    if (beam.joint_stiffness && !beam.steps.empty() && beam.steps.back().rod_acts) {
        const auto& p = beam.at(beam.steps.back(), 2);
        const length<R> lever = rod.two_way() ? length<R>(rod.separation) : length<R>(p.neutral_axis - p.rod_height);
        wood += compliance<R>::from_value(lever.value() * lever.value() / beam.joint_stiffness->value());
    }
    return (rod.two_way() ? number<R>(2) : number<R>(1)) * steel + wood;
}

template <class R>
void require_rod(const basic_neck_beam<R>& beam) {
    require_that(beam.rod.has_value(), "beam.rod", "must be there to be turned");
}

} // namespace kernel

/// Turns of the nut that change a rod's pull by `pull`, with strings and tuning left alone. Negative slackens.
template <class R = double>
[[nodiscard]] R rod_turns(const basic_neck_beam<R>& beam, const basic_rod_screw<R>& screw, param<force<R>> pull) {
    kernel::require_rod(beam);
    require_valid(screw, "screw");
    require("pull", pull, any_finite<unit::force>());
    return ratio(pull * kernel::rod_give(beam, screw), screw.lead);
}
/// Change of a rod's pull for so many turns of its nut from where the nut bears; negative slackens.
template <class R = double>
[[nodiscard]] force<R> rod_pull_from_turns(const basic_neck_beam<R>& beam, const basic_rod_screw<R>& screw,
                                           const std::type_identity_t<R>& turns) {
    kernel::require_rod(beam);
    require_valid(screw, "screw");
    require("turns", turns, between(-100, 100));
    return screw.lead * turns / kernel::rod_give(beam, screw);
}

} // namespace tautline
