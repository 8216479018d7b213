#pragma once
/// @file
/// How a modulus was measured, and what that makes of it.
///
/// `board_modulus` and `back_modulus` are moduli "as bending tests give them": on two supports with the load midway, which
/// reads low by shear and by what the supports crush. The neck then bends purely and takes 1.10 of them. A modulus that was
/// told by a tone, by the speed of sound or over a constant moment has no such loss: it is brought down first, so that it
/// is not raised twice.

#include <optional>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// How a modulus along the grain was measured.
enum class modulus_method {
    three_point,     ///< bent on two supports with the load midway: the handbooks' way
    constant_moment, ///< bent by two loads, the sag taken between them: pure bending
    tap_tone,        ///< from the tone of a free strip
    sound_speed,     ///< from the time of a stress wave or of ultrasound
    compression,     ///< pressed along the grain
    not_told         ///< the source does not say
};

/// What pure bending takes of a three-point modulus: default, and how far it may be off.
///
/// Shear alone gives 1.08 to 1.12 (Wood Handbook, note on its table of moduli, has 1.10). Specimens of black locust, 20 mm
/// thick, gave 1.30 and 1.32 in pure bending (S. Adamopoulos and others, Wood Fiber Sci.), which shear does not explain: so
/// the doubt is lopsided.
struct pure_bending {
    static constexpr double factor = 1.10; ///< the default of `basic_neck::pure_bending_factor`
    static constexpr double least = 1.05;  ///< some 95 %: shear of a light, short-grained wood
    static constexpr double most = 1.25;   ///< some 95 %: what local crushing adds
    /// Standard uncertainty of the default: the root mean square of what lies between `least` and `most` about it, since
    /// these lie about 1.15 with a standard deviation of 0.05. It is doubted alike to both sides.
    static constexpr double standard = 0.0707;
};

/// Standard uncertainty that bringing a dynamic or a pure-bending modulus down adds, as a share. Three tropical woods had
/// dynamic moduli 1.06 to 1.19 times their static ones (J. Ayarkwa, Y. Hirashima and Y. Sasaki), 30 boards 1.01 to 1.26 (R.
/// A. Johnson and D. W. Wichern, Applied Multivariate Statistical Analysis).
inline constexpr double method_doubt = 0.06;

/// Whether a modulus of that method lacks the loss that a three-point test has.
[[nodiscard]] constexpr bool is_free_of_shear(modulus_method m) {
    return m == modulus_method::constant_moment || m == modulus_method::tap_tone || m == modulus_method::sound_speed;
}

/// A measured modulus as a three-point bending test would give it: what `board_modulus` and `back_modulus` mean. One that
/// is free of shear is divided by what the neck will take of it again, others stay. More than 0.
/// @param factor the neck's `pure_bending_factor`, 0.5 to 2
template <class R>
[[nodiscard]] constexpr stress<R> as_bending_tests_give(modulus_method how, const stress<R>& measured,
                                                        const std::type_identity_t<R>& factor) {
    require("modulus", measured, more_than(0 * units::GPa));
    require("pure_bending_factor", factor, between(0.5, 2));
    return is_free_of_shear(how) ? stress<R>(measured / factor) : stress<R>(measured);
}
/// The same where the neck has the default factor.
[[nodiscard]] constexpr auto as_bending_tests_give(modulus_method how, a_stress auto measured) {
    using R = std::remove_cvref_t<decltype(measured.value())>;
    return as_bending_tests_give<R>(how, stress<R>(measured), number<R>(pure_bending::factor));
}

/// Standard uncertainty of a modulus as a share, by how the wood in hand itself was measured; nothing where nobody says
/// that it was, and for one pressed along the grain, which was compared with no bending.
///
/// Source: what is left of 30 boards' static moduli once the other static test is known is 7 %, once a shock wave's speed
/// or a vibration is known 8 to 12 % (worked out of the covariances in R. A. Johnson and D. W. Wichern, Applied
/// Multivariate Statistical Analysis).
[[nodiscard]] constexpr std::optional<double> measured_doubt(modulus_method how) {
    switch (how) {
    case modulus_method::three_point:
    case modulus_method::constant_moment:
        return 0.07;
    case modulus_method::tap_tone:
    case modulus_method::sound_speed:
        return 0.10;
    case modulus_method::compression:
    case modulus_method::not_told:
        break;
    }
    return std::nullopt;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> as_bending_tests_give(modulus_method, Given)
TAUTLINE_REFUSED("wanted is a STRESS: as_bending_tests_give(modulus_method::tap_tone, 12*GPa)");

} // namespace tautline
