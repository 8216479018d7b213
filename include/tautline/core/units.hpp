#pragma once
/// @file
/// Unit tags and literals: `12 * thou` makes a length, `relief / thou` reads one as a number.
///
/// `60 * N / mm` makes a stiffness. `/` with a unit of the quantity's own kind reads a number; with any other unit it
/// divides. A tag multiplies any number type, so the same line serves double, float, dual numbers and packs; the
/// literals (`12.0_thou`) make doubles. Definitions: inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s^2
/// (all exact: international yard and pound agreement of 1959; BIPM, The International System of Units, for g_n; from
/// memory).

#include "quantity.hpp"

namespace tautline {

/// A unit, with its size in SI.
template <class U>
struct unit_tag {
    long double size; ///< one of the unit in SI
};

/// Makes a quantity: `12 * thou`. Whole numbers become doubles; any other number type stays.
template <class S, class U>
requires(!is_quantity<S>::value) [[nodiscard]] constexpr auto operator*(const S& s, unit_tag<U> t) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return bu::quantity<U, R>::from_value(static_cast<R>(s) * number<R>(t.size));
}
/// A quantity times a unit: `0.1 * mm * mm`.
template <class U, class R, class V>
[[nodiscard]] constexpr auto operator*(const bu::quantity<U, R>& q, unit_tag<V> t) {
    return q * bu::quantity<V, R>::from_value(number<R>(t.size));
}
/// The quantity as a number of a unit of its own kind: `relief / thou`.
template <class U, class R>
[[nodiscard]] constexpr R operator/(const bu::quantity<U, R>& q, unit_tag<std::type_identity_t<U>> t) {
    return q.value() / number<R>(t.size);
}
/// A quantity over a unit of another kind. It is a quantity of the quotient's kind, and not a number.
template <class Q>
struct quotient : Q {
    /// From the quantity itself.
    constexpr explicit quotient(const Q& q) : Q(q) {}
    /// As a number: refused, with a sentence that says what to write.
    template <class Number>
    requires std::is_arithmetic_v<Number>
    constexpr operator Number() const {
        static_assert(always_false<Number>,
                      "a quantity is read as a number in a unit of its own KIND: height / mm, pull / N");
        return {};
    }
};
template <class Q>
struct real_of<quotient<Q>> : real_of<Q> {};
/// A quantity over a unit of another kind: `60 * N / mm` is a stiffness.
template <class U, class R, other_than<U> V>
[[nodiscard]] constexpr auto operator/(const bu::quantity<U, R>& q, unit_tag<V> t) {
    return quotient(q / bu::quantity<V, R>::from_value(number<R>(t.size)));
}

namespace units {

inline constexpr unit_tag<unit::length> metre{1}, mm{1e-3L}, cm{1e-2L}, inch{25.4e-3L}, thou{25.4e-6L};
inline constexpr unit_tag<unit::area> mm2{1e-6L};
inline constexpr unit_tag<unit::volume> mm3{1e-9L};
inline constexpr unit_tag<unit::mass> kg{1}, gram{1e-3L}, lb{0.45359237L};
inline constexpr unit_tag<unit::duration> second{1};
inline constexpr unit_tag<unit::frequency> Hz{1}, kHz{1e3L};
inline constexpr unit_tag<unit::velocity> metre_per_second{1};
inline constexpr unit_tag<unit::acceleration> metre_per_second2{1}, standard_gravity{9.80665L};
inline constexpr unit_tag<unit::force> N{1}, kgf{9.80665L}, lbf{0.45359237L * 9.80665L};
inline constexpr unit_tag<unit::linear_density> kg_per_m{1}, g_per_m{1e-3L}, lb_per_in{0.45359237L / 25.4e-3L};
inline constexpr unit_tag<unit::density> kg_per_m3{1};
inline constexpr unit_tag<unit::stress> Pa{1}, MPa{1e6L}, GPa{1e9L}, psi{0.45359237L * 9.80665L / (25.4e-3L * 25.4e-3L)};
inline constexpr unit_tag<unit::angle> rad{1}, deg{std::numbers::pi_v<long double> / 180};
inline constexpr unit_tag<unit::curvature> per_metre{1};
inline constexpr unit_tag<unit::stiffness> N_per_m{1}, N_per_mm{1e3L};
inline constexpr unit_tag<unit::compliance> mm_per_N{1e-3L};
inline constexpr unit_tag<unit::moment> N_m{1}, N_mm{1e-3L}, lbf_in{0.45359237L * 9.80665L * 25.4e-3L};
inline constexpr unit_tag<unit::rotational_stiffness> N_m_per_rad{1};
inline constexpr unit_tag<unit::second_moment> mm4{1e-12L};
inline constexpr unit_tag<unit::flexural_rigidity> N_m2{1}, N_mm2{1e-6L};
inline constexpr unit_tag<unit::thermal_expansion> per_kelvin{1};
inline constexpr unit_tag<unit::temperature_difference> kelvin{1};

/// The letters m and s, with `using namespace units::letters;`. They are kept apart because many variables have these
/// names.
namespace letters {
inline constexpr auto m = metre;  ///< metre
inline constexpr auto s = second; ///< second
} // namespace letters

} // namespace units

namespace literals {

#define TAUTLINE_LITERAL(SUFFIX, TAG)                                                                                      \
    [[nodiscard]] constexpr auto operator""_##SUFFIX(long double v) { return static_cast<double>(v) * units::TAG; }        \
    [[nodiscard]] constexpr auto operator""_##SUFFIX(unsigned long long v) { return static_cast<double>(v) * units::TAG; }

TAUTLINE_LITERAL(inch, inch)
TAUTLINE_LITERAL(in, inch)
TAUTLINE_LITERAL(thou, thou)
TAUTLINE_LITERAL(mm, mm)
TAUTLINE_LITERAL(cm, cm)
TAUTLINE_LITERAL(N, N)
TAUTLINE_LITERAL(lbf, lbf)
TAUTLINE_LITERAL(kgf, kgf)
TAUTLINE_LITERAL(g_per_m, g_per_m)
TAUTLINE_LITERAL(lb_per_in, lb_per_in)
TAUTLINE_LITERAL(GPa, GPa)
TAUTLINE_LITERAL(MPa, MPa)
TAUTLINE_LITERAL(psi, psi)
TAUTLINE_LITERAL(deg, deg)
TAUTLINE_LITERAL(Hz, Hz)

#undef TAUTLINE_LITERAL

} // namespace literals
} // namespace tautline
