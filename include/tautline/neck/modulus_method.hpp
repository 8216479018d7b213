#pragma once
/// @file
/// How a modulus was measured, and the correction that follows.
///
/// `board_modulus` and `back_modulus` are moduli as bending tests give them, on two supports with the load midway. Such
/// a test reads low, because of shear and of crushing at the supports. A neck is in pure bending, so it takes 1.10
/// times these moduli. A modulus from a tone, from the speed of sound or over a constant moment has no such loss. It is
/// divided by the same factor first, so that it is not raised twice.

#include <optional>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// How a modulus along the grain was measured.
enum class modulus_method {
    three_point,     ///< bent on two supports with the load midway: the handbooks' way
    constant_moment, ///< bent by two loads, the sag taken between them: pure bending
    tap_tone,        ///< from the lowest tone of a free strip
    sound_speed,     ///< from the time of a stress wave or of ultrasound
    compression,     ///< pressed along the grain
    not_told         ///< the source does not say
};

/// The factor from a three-point modulus to one of pure bending: its default, and how far that may be off.
///
/// Shear alone gives 1.08 to 1.12 (Wood Handbook, note on its table of moduli, has 1.10). Specimens of black locust, 20
/// mm thick, gave 1.30 and 1.32 in pure bending (S. Adamopoulos and others, Wood Fiber Sci.). Shear does not explain
/// that, so the doubt is larger upward.
struct pure_bending {
    static constexpr double factor = 1.10; ///< the default of `basic_neck::pure_bending_factor`
    static constexpr double least = 1.05;  ///< lower end of some 95 %: shear of a light, short-grained wood
    static constexpr double most = 1.25;   ///< upper end of some 95 %: with local crushing
    /// Standard uncertainty of the default, taken alike to both sides. Values between `least` and `most` lie about 1.15
    /// with a standard deviation of 0.05; this is their root mean square distance from the default.
    static constexpr double standard = 0.0707;
};

/// Standard uncertainty, as a share, that dividing a dynamic or pure-bending modulus by the factor adds. Three tropical
/// woods had dynamic moduli 1.06 to 1.19 times their static ones (J. Ayarkwa, Y. Hirashima and Y. Sasaki), 30 boards
/// 1.01 to 1.26 (R. A. Johnson and D. W. Wichern, Applied Multivariate Statistical Analysis).
inline constexpr double method_doubt = 0.06;

/// Whether a modulus by this method is free of the loss of a three-point test.
[[nodiscard]] constexpr bool is_free_of_shear(modulus_method m) {
    return m == modulus_method::constant_moment || m == modulus_method::tap_tone || m == modulus_method::sound_speed;
}

/// A measured modulus as a three-point bending test would give it, which `board_modulus` and `back_modulus` mean. A
/// modulus that is free of shear is divided by the neck's factor, others stay. More than 0, else `invalid_input`.
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

/// Standard uncertainty, as a share, of a modulus that was measured on the wood in hand, by the method. Nothing for
/// `not_told`, and for `compression`, of which no comparison with bending is known.
///
/// Source: the scatter of 30 boards' static moduli is 7 % once their other static test is known, and 8 to 12 % once a
/// shock wave's speed or a vibration is known (worked out from the covariances in R. A. Johnson and D. W. Wichern,
/// Applied Multivariate Statistical Analysis).
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
