#pragma once
/// @file
/// Measured modulus of drawn nylon strings. There are two: one for a slow pull, one for quick bending.
///
/// A string that is fretted, bent or tuned is pulled slowly and creeps while it is pulled; its partials bend it some
/// hundred times a second. Measured on strings at pitch, the slow modulus is up to a third lower. Take the slow one for
/// stretch, fretting and bends, the quick one for inharmonicity: `nylon(nylon_slow_modulus(pull/area))`. Both grow with
/// the stress, so there is no figure for the material alone. Both hold for plain nylon that has settled at pitch, at 50
/// to 250 MPa.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Axial stiffness over tension, `EA/T`, of a settled nylon string at pitch.
///
/// Source: mean of 18 strings, nine plain and nine wound on stranded nylon; they lie between 46 and 68, with a standard
/// deviation of 6. Worked out from the raw table of M. B. Anderson and R. G. Beausoleil, J. Acoust. Soc. Am. 156 (2024)
/// 683. Another set of light strings of theirs gave 60 to 140, which they could not explain.
inline constexpr double nylon_stretch_slope = 57;

/// Modulus of nylon that is pulled slowly, from the stress it bears: `57 stress`. Stress: tension over slack area, more
/// than 0 and up to 400 MPa, else `invalid_input`. Source: as `nylon_stretch_slope`.
[[nodiscard]] constexpr auto nylon_slow_modulus(a_stress auto tensile_stress) {
    using R = std::remove_cvref_t<decltype(tensile_stress.value())>;
    require("tensile stress", tensile_stress, more_than_up_to(0 * units::MPa, 400 * units::MPa));
    return stress<R>(tensile_stress * number<R>(nylon_stretch_slope));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::STRESS> nylon_slow_modulus(Given...)
    TAUTLINE_REFUSED("wanted is a STRESS: nylon_slow_modulus(100*MPa)");

/// Modulus of nylon that is bent quickly, from the stress it bears: `4.5 GPa + 39 stress`. Stress 0 to 400 MPa, else
/// `invalid_input`.
/// Source: J. Woodhouse and N. Lynch-Aird, Acta Acustica 105 (2019) 516, as others quote it.
[[nodiscard]] constexpr auto nylon_quick_modulus(a_stress auto tensile_stress) {
    using R = std::remove_cvref_t<decltype(tensile_stress.value())>;
    require("tensile stress", tensile_stress, between(0 * units::MPa, 400 * units::MPa));
    return stress<R>(over<R>(4.5 * units::GPa) + tensile_stress * number<R>(39));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::STRESS> nylon_quick_modulus(Given...)
    TAUTLINE_REFUSED("wanted is a STRESS: nylon_quick_modulus(100*MPa)");

} // namespace tautline
