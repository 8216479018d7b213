#pragma once
/// @file
/// The kinds of quantities of a setup: the unit of each, its name, how it is written in code and in messages, and the
/// least and the greatest value that it may have on an instrument.

#include "unit.hpp"

#include <numbers>
#include <type_traits>

namespace tautline {

/// The name of a kind of quantity, how a value of it is written in code, and how messages print it.
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

/// False for every T, for a static_assert in a template.
template <class...>
inline constexpr bool always_false = false;

// Concepts for a formula's arguments. They and the sentences at the end appear in compilers' messages, so they are not
// made by macros.
template <class T>
concept a_length = of_kind<T, unit::length>;
template <class T>
concept an_area = of_kind<T, unit::area>;
template <class T>
concept a_volume = of_kind<T, unit::volume>;
template <class T>
concept a_mass = of_kind<T, unit::mass>;
template <class T>
concept a_duration = of_kind<T, unit::duration>;
template <class T>
concept a_frequency = of_kind<T, unit::frequency>;
template <class T>
concept a_velocity = of_kind<T, unit::velocity>;
template <class T>
concept an_acceleration = of_kind<T, unit::acceleration>;
template <class T>
concept a_force = of_kind<T, unit::force>;
template <class T>
concept a_stress = of_kind<T, unit::stress>;
template <class T>
concept a_density = of_kind<T, unit::density>;
template <class T>
concept an_angle = of_kind<T, unit::angle>;
template <class T>
concept a_curvature = of_kind<T, unit::curvature>;
template <class T>
concept a_linear_density = of_kind<T, unit::linear_density>;
template <class T>
concept a_stiffness = of_kind<T, unit::stiffness>;
template <class T>
concept a_compliance = of_kind<T, unit::compliance>;
template <class T>
concept a_moment = of_kind<T, unit::moment>;
template <class T>
concept a_rotational_stiffness = of_kind<T, unit::rotational_stiffness>;
template <class T>
concept a_second_moment = of_kind<T, unit::second_moment>;
template <class T>
concept a_flexural_rigidity = of_kind<T, unit::flexural_rigidity>;
template <class T>
concept a_thermal_expansion = of_kind<T, unit::thermal_expansion>;
template <class T>
concept a_temperature_difference = of_kind<T, unit::temperature_difference>;

// One line for each kind: alias, name for messages, unit for messages and its size in SI, and the least and the
// greatest value in SI. These limits lie far outside what is built, but near enough that no product of such numbers
// overflows a float.
#define TAUTLINE_KIND(NAME, SYMBOL, SIZE, LEAST, MOST)                                                                     \
    template <class R = double>                                                                                            \
    using NAME = bu::quantity<unit::NAME, R>;                                                                              \
    template <>                                                                                                            \
    struct kind<unit::NAME> {                                                                                              \
        static constexpr const char* name = #NAME;                                                                         \
        static constexpr const char* symbol = SYMBOL;                                                                      \
        static constexpr long double size = SIZE;                                                                          \
        static constexpr long double least = LEAST;                                                                        \
        static constexpr long double most = MOST;                                                                          \
    };

TAUTLINE_KIND(length, "mm", 1e-3L, 1e-7L, 1e4L)
TAUTLINE_KIND(area, "mm^2", 1e-6L, 1e-14L, 1e8L)
TAUTLINE_KIND(volume, "cm^3", 1e-6L, 1e-21L, 1e12L)
TAUTLINE_KIND(mass, "g", 1e-3L, 1e-9L, 1e6L)
TAUTLINE_KIND(duration, "s", 1, 1e-9L, 1e11L)
TAUTLINE_KIND(frequency, "Hz", 1, 1e-3L, 1e7L)
TAUTLINE_KIND(velocity, "m/s", 1, 1e-6L, 1e6L)
TAUTLINE_KIND(acceleration, "m/s^2", 1, 1e-6L, 1e6L)
TAUTLINE_KIND(force, "N", 1, 1e-9L, 1e11L)
TAUTLINE_KIND(stress, "MPa", 1e6L, 1, 1e15L)
TAUTLINE_KIND(density, "kg/m^3", 1, 1e-3L, 1e6L)
TAUTLINE_KIND(angle, "deg", std::numbers::pi_v<long double> / 180, 1e-9L, 1e3L)
TAUTLINE_KIND(curvature, "1/m", 1, 1e-9L, 1e6L)
TAUTLINE_KIND(linear_density, "g/m", 1e-3L, 1e-9L, 1e3L)
TAUTLINE_KIND(stiffness, "N/mm", 1e3L, 1e-6L, 1e15L)
TAUTLINE_KIND(compliance, "mm/N", 1e-3L, 1e-15L, 1e6L)
TAUTLINE_KIND(moment, "N m", 1, 1e-9L, 1e9L)
TAUTLINE_KIND(rotational_stiffness, "N m/rad", 1, 1e-6L, 1e15L)
TAUTLINE_KIND(second_moment, "mm^4", 1e-12L, 1e-28L, 1e4L)
TAUTLINE_KIND(flexural_rigidity, "N m^2", 1, 1e-15L, 1e12L)
TAUTLINE_KIND(thermal_expansion, "1/K", 1, 1e-9L, 1e-1L)
TAUTLINE_KIND(temperature_difference, "K", 1, 1e-6L, 1e4L)

#undef TAUTLINE_KIND

/// Messages of a field about anything that is not of its kind.
namespace messages {

template <class Given>
constexpr void wanted(kind<unit::length>) {
    static_assert(!sizeof(Given), "a LENGTH is needed here: write 12*thou, 25.5*inch or 640*mm");
}
template <class Given>
constexpr void wanted(kind<unit::area>) {
    static_assert(!sizeof(Given), "an AREA is needed here: write 0.1*mm*mm");
}
template <class Given>
constexpr void wanted(kind<unit::volume>) {
    static_assert(!sizeof(Given), "a VOLUME is needed here: write 900*mm3");
}
template <class Given>
constexpr void wanted(kind<unit::mass>) {
    static_assert(!sizeof(Given), "a MASS is needed here: write 3.2*gram");
}
template <class Given>
constexpr void wanted(kind<unit::duration>) {
    static_assert(!sizeof(Given), "a TIME is needed here: write 0.5*second");
}
template <class Given>
constexpr void wanted(kind<unit::frequency>) {
    static_assert(!sizeof(Given), "a FREQUENCY is needed here: write 110*Hz");
}
template <class Given>
constexpr void wanted(kind<unit::velocity>) {
    static_assert(!sizeof(Given), "a VELOCITY is needed here: write 427*metre_per_second");
}
template <class Given>
constexpr void wanted(kind<unit::acceleration>) {
    static_assert(!sizeof(Given), "an ACCELERATION is needed here: write 9.81*metre_per_second2");
}
template <class Given>
constexpr void wanted(kind<unit::force>) {
    static_assert(!sizeof(Given), "a FORCE is needed here: write 70*N, 16*lbf or 7*kgf");
}
template <class Given>
constexpr void wanted(kind<unit::stress>) {
    static_assert(!sizeof(Given), "a STRESS or MODULUS is needed here: write 203*GPa, 2400*MPa or 29500000*psi");
}
template <class Given>
constexpr void wanted(kind<unit::density>) {
    static_assert(!sizeof(Given), "a DENSITY is needed here: write 7850*kg_per_m3");
}
template <class Given>
constexpr void wanted(kind<unit::angle>) {
    static_assert(!sizeof(Given), "an ANGLE is needed here: write 14*deg");
}
template <class Given>
constexpr void wanted(kind<unit::curvature>) {
    static_assert(!sizeof(Given), "a CURVATURE is needed here: write 0.01*per_metre");
}
template <class Given>
constexpr void wanted(kind<unit::linear_density>) {
    static_assert(!sizeof(Given), "a LINEAR DENSITY is needed here: write 0.56*g_per_m or 0.00003*lb_per_in");
}
template <class Given>
constexpr void wanted(kind<unit::stiffness>) {
    static_assert(!sizeof(Given), "a STIFFNESS is needed here: write 400*N_per_mm");
}
template <class Given>
constexpr void wanted(kind<unit::compliance>) {
    static_assert(!sizeof(Given), "a COMPLIANCE is needed here: write 0.01*mm_per_N");
}
template <class Given>
constexpr void wanted(kind<unit::moment>) {
    static_assert(!sizeof(Given), "a MOMENT is needed here: write 3*N_m");
}
template <class Given>
constexpr void wanted(kind<unit::rotational_stiffness>) {
    static_assert(!sizeof(Given), "a ROTATIONAL STIFFNESS is needed here: write 2000*N_m_per_rad");
}
template <class Given>
constexpr void wanted(kind<unit::second_moment>) {
    static_assert(!sizeof(Given), "a SECOND MOMENT OF AREA is needed here: write 5000*mm4");
}
template <class Given>
constexpr void wanted(kind<unit::flexural_rigidity>) {
    static_assert(!sizeof(Given), "a FLEXURAL RIGIDITY is needed here: write 60*N_m2");
}
template <class Given>
constexpr void wanted(kind<unit::thermal_expansion>) {
    static_assert(!sizeof(Given), "a COEFFICIENT OF THERMAL EXPANSION is needed here: write 12e-6*per_kelvin");
}
template <class Given>
constexpr void wanted(kind<unit::temperature_difference>) {
    static_assert(!sizeof(Given), "a TEMPERATURE DIFFERENCE is needed here: write 5*kelvin");
}

/// Message of a field about its own kind over a number type that it cannot hold.
template <class Given>
constexpr void fits() {
    static_assert(!sizeof(Given), "this NUMBER TYPE does not fit the model beside it: carry the model over, as in "
                                  "over<dual<double, 2>>(music_wire())");
}

/// Named in g++'s message when a needed member is left out.
struct give_it_by_name {};

/// Named in g++'s message for a formula whose number types have no common type.
struct NUMBER_TYPES_do_not_mix_carry_one_over;

// What a formula wants, as the name of the type that its refusal returns. clang prints the sentence of the refusal, g++
// this name.
template <class... Kinds>
struct wanted_are;
struct ANGLE;
struct AREA_OVER_TIME;
struct CURVATURE;
struct DENSITY;
struct DURATION;
struct FLEXURAL_RIGIDITY;
struct FORCE;
struct FREQUENCY;
struct INTERVAL;
struct LENGTH;
struct LINEAR_DENSITY;
struct MOMENT;
struct NUMBER;
struct STRESS;
struct WHOLE_NUMBER;

} // namespace messages

} // namespace tautline
