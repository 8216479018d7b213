#pragma once
/// @file
/// The units of a setup, all SI. Each is a list of exponents of the base units. Quantities are those of Boost.Units,
/// which adds, multiplies and compares them. Its own units would make a compiler's message list every base unit; these
/// keep messages short.

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/dimensionless.hpp>

#include <type_traits>

namespace tautline {

namespace bu = boost::units;

/// Unit types, all SI.
namespace unit {

/// Metre, kilogram, second, kelvin and radian to these powers.
template <int Metre, int Kilogram = 0, int Second = 0, int Kelvin = 0, int Radian = 0>
struct si {
    using type = si; ///< the type of such a product or quotient
};
/// Without dimension it is Boost.Units' own unit, so that a ratio converts to a number.
template <>
struct si<0, 0, 0, 0, 0> {
    using type = bu::si::dimensionless; ///< the type of such a product or quotient
};

using length = si<1>;
using area = si<2>;
using volume = si<3>;
using mass = si<0, 1>;
using duration = si<0, 0, 1>;
using frequency = si<0, 0, -1>;
using velocity = si<1, 0, -1>;
using acceleration = si<1, 0, -2>;
using force = si<1, 1, -2>;
using stress = si<-1, 1, -2>;
using density = si<-3, 1>;
using angle = si<0, 0, 0, 0, 1>;
using curvature = si<-1>;
using linear_density = si<-1, 1>;
using length_per_mass = si<1, -1>;
using stiffness = si<0, 1, -2>;
using compliance = si<0, -1, 2>;
using moment = si<2, 1, -2>;
using rotational_stiffness = si<2, 1, -2, 0, -1>;
using second_moment = si<4>;
using flexural_rigidity = si<3, 1, -2>;
using bending_compliance = si<-3, -1, 2>;
using thermal_expansion = si<0, 0, 0, -1>;
using temperature_difference = si<0, 0, 0, 1>;
} // namespace unit

} // namespace tautline

// The units of sums, products and so on, as specialisations that Boost.Units asks for.
namespace boost::units {

#define TAUTLINE_POWERS(N) int M##N, int KG##N, int S##N, int K##N, int RAD##N
#define TAUTLINE_UNIT(N) tautline::unit::si<M##N, KG##N, S##N, K##N, RAD##N>

template <TAUTLINE_POWERS(1)>
struct unary_plus_typeof_helper<TAUTLINE_UNIT(1)> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1)>
struct unary_minus_typeof_helper<TAUTLINE_UNIT(1)> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1)>
struct add_typeof_helper<TAUTLINE_UNIT(1), TAUTLINE_UNIT(1)> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1)>
struct subtract_typeof_helper<TAUTLINE_UNIT(1), TAUTLINE_UNIT(1)> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1), TAUTLINE_POWERS(2)>
struct multiply_typeof_helper<TAUTLINE_UNIT(1), TAUTLINE_UNIT(2)>
    : tautline::unit::si<M1 + M2, KG1 + KG2, S1 + S2, K1 + K2, RAD1 + RAD2> {};
template <TAUTLINE_POWERS(1), TAUTLINE_POWERS(2)>
struct divide_typeof_helper<TAUTLINE_UNIT(1), TAUTLINE_UNIT(2)>
    : tautline::unit::si<M1 - M2, KG1 - KG2, S1 - S2, K1 - K2, RAD1 - RAD2> {};
template <TAUTLINE_POWERS(1), class System>
struct multiply_typeof_helper<TAUTLINE_UNIT(1), unit<dimensionless_type, System>> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1), class System>
struct multiply_typeof_helper<unit<dimensionless_type, System>, TAUTLINE_UNIT(1)> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1), class System>
struct divide_typeof_helper<TAUTLINE_UNIT(1), unit<dimensionless_type, System>> : TAUTLINE_UNIT(1) {};
template <TAUTLINE_POWERS(1), class System>
struct divide_typeof_helper<unit<dimensionless_type, System>, TAUTLINE_UNIT(1)>
    : tautline::unit::si<-M1, -KG1, -S1, -K1, -RAD1> {};
template <TAUTLINE_POWERS(1), long N>
struct power_typeof_helper<TAUTLINE_UNIT(1), static_rational<N>>
    : tautline::unit::si<M1* int(N), KG1* int(N), S1* int(N), K1* int(N), RAD1* int(N)> {};
template <TAUTLINE_POWERS(1), long N>
struct root_typeof_helper<TAUTLINE_UNIT(1), static_rational<N>>
    : tautline::unit::si<M1 / N, KG1 / N, S1 / N, K1 / N, RAD1 / N> {
    static_assert(!(M1 % N) && !(KG1 % N) && !(S1 % N) && !(K1 % N) && !(RAD1 % N), "no whole unit is this root");
};

/// No unit converts to another implicitly. Boost.Units asks for `type` where one might convert; there is none, so the
/// answer is no.
template <TAUTLINE_POWERS(1), TAUTLINE_POWERS(2)>
struct is_implicitly_convertible<TAUTLINE_UNIT(1), TAUTLINE_UNIT(2)> {
    static constexpr bool value = false; ///< whether a quantity of one unit is one of the other
};

/// @{
/// Two different units have no sum. This is empty, as in Boost.Units for its own units, so that a sum is looked for
/// elsewhere.
template <TAUTLINE_POWERS(1), TAUTLINE_POWERS(2), class X, class Y>
requires(!std::is_same_v<TAUTLINE_UNIT(1), TAUTLINE_UNIT(2)>) struct add_typeof_helper<quantity<TAUTLINE_UNIT(1), X>,
                                                                                       quantity<TAUTLINE_UNIT(2), Y>> {
};
template <TAUTLINE_POWERS(1), TAUTLINE_POWERS(2), class X, class Y>
requires(!std::is_same_v<TAUTLINE_UNIT(1), TAUTLINE_UNIT(2)>) struct subtract_typeof_helper<quantity<TAUTLINE_UNIT(1), X>,
                                                                                            quantity<TAUTLINE_UNIT(2), Y>> {
};
/// @}

#undef TAUTLINE_POWERS
#undef TAUTLINE_UNIT

} // namespace boost::units
