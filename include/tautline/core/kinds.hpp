#pragma once
/// @file
/// The kinds of quantities of a setup: SI units of Boost.Units, what each kind is called, how it is written in code and in
/// messages, and the least and the most that anything about an instrument may measure.

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/acceleration.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/plane_angle.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/velocity.hpp>
#include <boost/units/systems/si/volume.hpp>
#include <boost/units/systems/si/wavenumber.hpp>

#include <numbers>
#include <type_traits>

namespace tautline {

namespace bu = boost::units;

/// Unit types, all SI.
namespace unit {
using length = bu::si::length;
using area = bu::si::area;
using volume = bu::si::volume;
using mass = bu::si::mass;
using duration = bu::si::time;
using frequency = bu::si::frequency;
using velocity = bu::si::velocity;
using acceleration = bu::si::acceleration;
using force = bu::si::force;
using stress = bu::si::pressure;
using density = bu::si::mass_density;
using angle = bu::si::plane_angle;
using curvature = bu::si::wavenumber;
using linear_density = bu::divide_typeof_helper<mass, length>::type;
using length_per_mass = bu::divide_typeof_helper<length, mass>::type;
using stiffness = bu::divide_typeof_helper<force, length>::type;
using compliance = bu::divide_typeof_helper<length, force>::type;
using moment = bu::multiply_typeof_helper<force, length>::type;
using rotational_stiffness = bu::divide_typeof_helper<moment, angle>::type;
using second_moment = bu::multiply_typeof_helper<area, area>::type;
using flexural_rigidity = bu::multiply_typeof_helper<moment, length>::type;
using bending_compliance = bu::divide_typeof_helper<bu::si::dimensionless, flexural_rigidity>::type;
using thermal_expansion = bu::divide_typeof_helper<bu::si::dimensionless, bu::si::temperature>::type;
using temperature_difference = bu::si::temperature;
} // namespace unit

/// What a kind of quantity is called, how a value of it is written in code, and how messages print it.
template <class Unit>
struct kind;

/// Whether `T` is (or derives from) a quantity of unit `U`, whatever its number type.
template <class U>
struct kind_probe {
    template <class S>
    static std::true_type test(const bu::quantity<U, S>*);
    static std::false_type test(...);
};
/// Whether T is, or derives from, a quantity of unit U over any number type.
template <class T, class U>
inline constexpr bool of_kind = decltype(kind_probe<U>::test(static_cast<std::remove_cvref_t<T>*>(nullptr)))::value;

/// False, but only once T is known: for static_assert in a template.
template <class T>
inline constexpr bool always_false = false;

// One line a kind: alias, concept, name and example for messages, unit that messages print and its size in SI; the least
// and the most, in SI, that anything about an instrument may measure: far outside what is built, near enough that no
// product of such numbers leaves the range of a float's powers or ends in infinity.
#define TAUTLINE_KIND(NAME, ARTICLE, LOUD, EXAMPLE, SYMBOL, SIZE, LEAST, MOST)                                             \
    template <class R = double>                                                                                            \
    using NAME = bu::quantity<unit::NAME, R>;                                                                              \
    template <class T>                                                                                                     \
    concept ARTICLE##_##NAME = of_kind<T, unit::NAME>;                                                                     \
    template <>                                                                                                            \
    struct kind<unit::NAME> {                                                                                              \
        static constexpr const char* name = #NAME;                                                                         \
        static constexpr const char* symbol = SYMBOL;                                                                      \
        static constexpr long double size = SIZE;                                                                          \
        static constexpr long double least = LEAST;                                                                        \
        static constexpr long double most = MOST;                                                                          \
        template <class Given>                                                                                             \
        static constexpr void refuse() {                                                                                   \
            static_assert(always_false<Given>, ARTICLE##_needed LOUD " is needed here: write " EXAMPLE);                   \
        }                                                                                                                  \
    };
#define a_needed "a "
#define an_needed "an "

TAUTLINE_KIND(length, a, "LENGTH", "12*thou, 25.5*inch or 640*mm", "mm", 1e-3L, 1e-7L, 1e4L)
TAUTLINE_KIND(area, an, "AREA", "0.1*mm*mm", "mm^2", 1e-6L, 1e-14L, 1e8L)
TAUTLINE_KIND(volume, a, "VOLUME", "900*mm3", "cm^3", 1e-6L, 1e-21L, 1e12L)
TAUTLINE_KIND(mass, a, "MASS", "3.2*gram", "g", 1e-3L, 1e-9L, 1e6L)
TAUTLINE_KIND(duration, a, "TIME", "0.5*second", "s", 1, 1e-9L, 1e11L)
TAUTLINE_KIND(frequency, a, "FREQUENCY", "110*Hz", "Hz", 1, 1e-3L, 1e7L)
TAUTLINE_KIND(velocity, a, "VELOCITY", "427*metre_per_second", "m/s", 1, 1e-6L, 1e6L)
TAUTLINE_KIND(acceleration, an, "ACCELERATION", "9.81*metre_per_second2", "m/s^2", 1, 1e-6L, 1e6L)
TAUTLINE_KIND(force, a, "FORCE", "70*N, 16*lbf or 7*kgf", "N", 1, 1e-9L, 1e11L)
TAUTLINE_KIND(stress, a, "STRESS or MODULUS", "203*GPa, 2400*MPa or 29500000*psi", "MPa", 1e6L, 1, 1e15L)
TAUTLINE_KIND(density, a, "DENSITY", "7850*kg_per_m3", "kg/m^3", 1, 1e-3L, 1e6L)
TAUTLINE_KIND(angle, an, "ANGLE", "14*deg", "deg", std::numbers::pi_v<long double> / 180, 1e-9L, 1e3L)
TAUTLINE_KIND(curvature, a, "CURVATURE", "0.01*per_metre", "1/m", 1, 1e-9L, 1e6L)
TAUTLINE_KIND(linear_density, a, "LINEAR DENSITY", "0.56*g_per_m or 0.00003*lb_per_in", "g/m", 1e-3L, 1e-9L, 1e3L)
TAUTLINE_KIND(stiffness, a, "STIFFNESS", "400*N_per_mm", "N/mm", 1e3L, 1e-6L, 1e15L)
TAUTLINE_KIND(compliance, a, "COMPLIANCE", "0.01*mm_per_N", "mm/N", 1e-3L, 1e-15L, 1e6L)
TAUTLINE_KIND(moment, a, "MOMENT", "3*N_m", "N m", 1, 1e-9L, 1e9L)
TAUTLINE_KIND(rotational_stiffness, a, "ROTATIONAL STIFFNESS", "2000*N_m_per_rad", "N m/rad", 1, 1e-6L, 1e15L)
TAUTLINE_KIND(second_moment, a, "SECOND MOMENT OF AREA", "5000*mm4", "mm^4", 1e-12L, 1e-28L, 1e4L)
TAUTLINE_KIND(flexural_rigidity, a, "FLEXURAL RIGIDITY", "60*N_m2", "N m^2", 1, 1e-15L, 1e12L)
TAUTLINE_KIND(thermal_expansion, a, "COEFFICIENT OF THERMAL EXPANSION", "12e-6*per_kelvin", "1/K", 1, 1e-9L, 1e-1L)
TAUTLINE_KIND(temperature_difference, a, "TEMPERATURE DIFFERENCE", "5*kelvin", "K", 1, 1e-6L, 1e4L)

#undef a_needed
#undef an_needed
#undef TAUTLINE_KIND

} // namespace tautline
