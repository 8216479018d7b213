#pragma once
/// @file
/// What a string is made of: density, modulus, strength and expansion of a material, by diameter where they depend on it.

#include <optional>
#include <string_view>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// How modulus and strength depend on diameter.
enum class wire_grade {
    fixed,      ///< as the material's own fields say, whatever the diameter
    music_wire, ///< drawn to ASTM A228: strength and modulus fall as the wire gets thicker
};

/// A material of cores and wraps.
template <class R = double>
struct basic_wire_material {
    using real = R;
    /// The trade's name. Names and sources are texts that outlive the material: string literals.
    std::string_view name{};
    /// Mass over volume, slack.
    needed<tautline::density<R>> mass_density;
    /// Young's modulus; for music wire the modulus of thin wire.
    needed<tautline::stress<R>> modulus;
    /// Least tensile strength to expect. Absent: unknown, or by diameter (see `minimum_strength`).
    std::optional<field<tautline::stress<R>>> strength{};
    /// Linear thermal expansion. Absent: unknown.
    std::optional<field<thermal_expansion<R>>> expansion{};
    wire_grade grade = wire_grade::fixed; ///< whether strength and modulus depend on diameter
    /// Where the values come from.
    std::string_view source{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", self.name...);
        visit("mass_density", between(100 * units::kg_per_m3, 25000 * units::kg_per_m3), self.mass_density...);
        visit("modulus", between(0.001 * units::GPa, 1000 * units::GPa), self.modulus...);
        visit("strength", between(0.1 * units::MPa, 10000 * units::MPa), self.strength...);
        visit("expansion", between(-0.001 * units::per_kelvin, 0.001 * units::per_kelvin), self.expansion...);
        visit("grade", self.grade...);
        visit("source", self.source...);
    }
};
using wire_material = basic_wire_material<double>;

namespace kernel {

/// Modulus by diameter. The steps lie midway between the sizes that Shigley's table names.
template <class R>
[[nodiscard]] constexpr stress<R> modulus_at(const basic_wire_material<R>& m, const length<R>& diameter) {
    if (m.grade == wire_grade::fixed) { return m.modulus; }
    // Ratios to the thin wire's 203.4 GPa: a caller who has measured thin wire keeps the measured value.
    const auto thicker_than = [&](long double thou) {
        return length<R>::from_value(number<R>(thou * 25.4e-6L)).value() < diameter.value();
    };
    R share = number<R>(1);
    share = select(thicker_than(32.5L), number<R>(200.0L / 203.4L), share);
    share = select(thicker_than(63.5L), number<R>(196.5L / 203.4L), share);
    share = select(thicker_than(125.0L), number<R>(193.0L / 203.4L), share);
    return m.modulus * share;
}

/// `2153.5 MPa (d / 1 mm)^-0.1625`, by exp2 and log2 so that it works in constant expressions too.
template <class R>
[[nodiscard]] constexpr stress<R> music_wire_strength(const length<R>& diameter) {
    const R mm = diameter / units::mm;
    return stress<R>::from_value(number<R>(2153.5e6L) * exp2(R(number<R>(-0.1625L) * log2(mm))));
}

} // namespace kernel

/// Young's modulus of a wire of a diameter > 0: the material's own, or for music wire by diameter.
/// Source: Shigley's Mechanical Engineering Design, 9th ed., Table 10-5 (203.4, 200, 196.5, 193 GPa).
template <class R = double>
[[nodiscard]] constexpr stress<R> modulus_at(const basic_wire_material<R>& m, param<length<R>> diameter) {
    require("diameter", diameter, more_than(0 * units::mm));
    require("modulus", m.modulus, more_than(0 * units::GPa));
    return kernel::modulus_at<R>(m, diameter);
}

/// Least tensile strength to expect of a wire of a diameter > 0. For music wire of 0.1 to 7 mm it is the curve
/// `2153.5 MPa mm^0.1625 / d^0.1625`; for thinner and thicker music wire nothing. For other materials it is their own
/// value; nothing when that is unknown.
///
/// The curve was fitted for 0.3 to 6 mm. Against the minima of ASTM A228 it lies up to 1.4 % low from 0.016 to 0.156 in
/// (0.41 to 3.96 mm), a safe lower bound there; at 0.009 in it is 1.0 % high, at 0.004 in 3.2 % high.
/// Source: coefficients of the tensile strength of music wire in a spring-design handbook's Table 1.2; minima of
/// ASTM A228/A228M.
template <class R = double>
[[nodiscard]] constexpr std::optional<stress<R>> minimum_strength(const basic_wire_material<R>& m,
                                                                  param<length<R>> diameter) {
    require("diameter", diameter, more_than(0 * units::mm));
    if (m.grade == wire_grade::music_wire) {
        const R& d = diameter.value();
        if (!one_answer(number<R>(0.1e-3L) <= d && d <= number<R>(7e-3L))) { return std::nullopt; }
        return kernel::music_wire_strength<R>(diameter);
    }
    if (!m.strength.has_value()) { return std::nullopt; }
    return stress<R>(*m.strength);
}

} // namespace tautline
