#pragma once
/// @file
/// What strings are made of: density, modulus, strength and expansion of the usual materials, each with its source.
///
/// The values are those of the alloy or polymer in general, for want of better: a string's own are what a balance and a
/// stretching test say, and every field may be set to them.

#include <array>
#include <optional>
#include <string_view>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// How modulus and strength go with diameter.
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
    field<tautline::density<R>> mass_density{};
    /// Young's modulus; for a graded wire that of thin wire. Absent: unknown, and what needs it cannot be asked.
    field<tautline::stress<R>> modulus{};
    /// Tensile strength, the least to be expected. Absent: unknown, or by diameter (see `minimum_strength`).
    std::optional<field<tautline::stress<R>>> strength{};
    /// Linear thermal expansion. Absent: unknown.
    std::optional<field<thermal_expansion<R>>> expansion{};
    wire_grade grade = wire_grade::fixed;
    /// Where the values come from.
    std::string_view source{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", self.name...);
        visit("mass_density", more_than_up_to(0 * units::kg_per_m3, 25000 * units::kg_per_m3), self.mass_density...);
        visit("modulus", more_than_up_to(0 * units::GPa, 1000 * units::GPa), self.modulus...);
        visit("strength", more_than_up_to(0 * units::MPa, 10000 * units::MPa), self.strength...);
        visit("expansion", between(-0.001 * units::per_kelvin, 0.001 * units::per_kelvin), self.expansion...);
        visit("grade", self.grade...);
        visit("source", self.source...);
    }
};
using wire_material = basic_wire_material<double>;

namespace kernel {

/// Modulus by diameter, the steps of Shigley's table placed midway between the sizes it names.
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

/// Young's modulus of a wire of a diameter: the material's own, or for music wire by size.
/// Source: Shigley's Mechanical Engineering Design, 9th ed., Table 10-5 (203.4, 200, 196.5, 193 GPa).
template <class R>
[[nodiscard]] constexpr stress<R> modulus_at(const basic_wire_material<R>& m, param<length<R>> diameter) {
    require("diameter", diameter, more_than(0 * units::mm));
    require("modulus", m.modulus, more_than(0 * units::GPa));
    return kernel::modulus_at<R>(m, diameter);
}

/// Least tensile strength to expect of a wire of a diameter: for music wire the curve `2153.5 MPa mm^0.1625 / d^0.1625`
/// (0.1 to 7 mm), else the material's own; nothing when that is unknown.
///
/// The curve was fitted for 0.3 to 6 mm, where it lies within 1.1 % of the minima of ASTM A228, above and below; thinner
/// wire is weaker than it says, by 3 % at 0.1 mm.
/// Source: coefficients of the tensile strength of music wire in a spring-design handbook's Table 1.2; minima of
/// ASTM A228/A228M.
template <class R>
[[nodiscard]] constexpr std::optional<stress<R>> minimum_strength(const basic_wire_material<R>& m,
                                                                  param<length<R>> diameter) {
    require("diameter", diameter, more_than(0 * units::mm));
    if (m.grade == wire_grade::music_wire) {
        require("diameter of music wire", diameter, between(0.1 * units::mm, 7 * units::mm));
        return kernel::music_wire_strength<R>(diameter);
    }
    if (!m.strength.has_value()) { return std::nullopt; }
    return stress<R>(*m.strength);
}

// The materials ----------------------------------------------------------------------------------------------------

/// High-carbon steel drawn to ASTM A228, bare or tinned: plain strings and cores.
[[nodiscard]] constexpr wire_material music_wire() {
    return {.name = "music wire",
            .mass_density = 7850 * units::kg_per_m3,
            .modulus = 203.4 * units::GPa,
            .expansion = 12e-6 * units::per_kelvin,
            .grade = wire_grade::music_wire,
            .source = "density of carbon steel 7.85 g/cm3: Callister & Rethwisch, App. B; modulus: Shigley 9th ed., Table "
                      "10-5; strength: minima of ASTM A228; expansion of steel 12e-6/K: OpenStax University Physics"};
}
/// Plain carbon steel as a wrap, its thin nickel plating neglected.
[[nodiscard]] constexpr wire_material nickel_plated_steel() {
    return {.name = "nickel-plated steel",
            .mass_density = 7850 * units::kg_per_m3,
            .modulus = 207 * units::GPa,
            .expansion = 12e-6 * units::per_kelvin,
            .source = "carbon steel without its plating: Callister & Rethwisch, App. B; expansion: OpenStax University "
                      "Physics"};
}
/// Austenitic stainless steel, grade 304.
[[nodiscard]] constexpr wire_material stainless_steel() {
    return {.name = "stainless steel",
            .mass_density = 8000 * units::kg_per_m3,
            .modulus = 193 * units::GPa,
            .expansion = 17.2e-6 * units::per_kelvin,
            .source = "grade 304: Callister & Rethwisch, App. B; expansion 17.2e-6/K from memory"};
}
/// Ferritic stainless steel, the magnetic kind.
[[nodiscard]] constexpr wire_material ferritic_stainless_steel() {
    return {.name = "ferritic stainless steel",
            .mass_density = 7800 * units::kg_per_m3,
            .modulus = 200 * units::GPa,
            .expansion = 10.8e-6 * units::per_kelvin,
            .source = "grade 405: Callister & Rethwisch, App. B; expansion 10.8e-6/K from memory"};
}
/// Commercially pure nickel.
[[nodiscard]] constexpr wire_material nickel() {
    return {.name = "nickel",
            .mass_density = 8880 * units::kg_per_m3,
            .modulus = 207 * units::GPa,
            .expansion = 13.3e-6 * units::per_kelvin,
            .source = "commercially pure, annealed: Callister & Rethwisch, App. B; expansion 13.3e-6/K from memory"};
}
/// Phosphor bronze of 5 % tin, C51000 (ASTM B139).
[[nodiscard]] constexpr wire_material phosphor_bronze() {
    return {.name = "phosphor bronze",
            .mass_density = 8858 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 17.8e-6 * units::per_kelvin,
            .source = "C51000: 0.320 lb/in3 and 16 Mpsi, data sheet to ASTM B139; expansion 17.8e-6/K from memory"};
}
/// The trade's "80/20 bronze": 80 % copper, 20 % zinc, a red brass (C24000).
[[nodiscard]] constexpr wire_material bronze_80_20() {
    return {.name = "80/20 bronze",
            .mass_density = 8670 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 19.1e-6 * units::per_kelvin,
            .source = "C24000: all from memory of the copper industry's data sheet"};
}
/// Copper with 10 % zinc, C22000.
[[nodiscard]] constexpr wire_material bronze_90_10() {
    return {.name = "90/10 bronze",
            .mass_density = 8800 * units::kg_per_m3,
            .modulus = 117 * units::GPa,
            .expansion = 18.4e-6 * units::per_kelvin,
            .source = "C22000: 8.80 g/cm3 and 17 Mpsi, tables of engineering materials; expansion 18.4e-6/K from memory"};
}
/// Cartridge brass, 70 % copper, 30 % zinc, C26000.
[[nodiscard]] constexpr wire_material brass() {
    return {.name = "brass",
            .mass_density = 8530 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 19.9e-6 * units::per_kelvin,
            .source = "C26000: Callister & Rethwisch, App. B; modulus and expansion from memory"};
}
[[nodiscard]] constexpr wire_material copper() {
    return {.name = "copper",
            .mass_density = 8940 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 17e-6 * units::per_kelvin,
            .source = "modulus and expansion: OpenStax University Physics; density 8.94 g/cm3 from memory"};
}
[[nodiscard]] constexpr wire_material silver() {
    return {.name = "silver",
            .mass_density = 10490 * units::kg_per_m3,
            .modulus = 83 * units::GPa,
            .expansion = 18e-6 * units::per_kelvin,
            .source = "expansion: OpenStax University Physics; density and modulus from memory"};
}

/// Every material above, in that order.
[[nodiscard]] constexpr auto wire_materials() {
    return std::array{music_wire(),      nickel_plated_steel(),
                      stainless_steel(), ferritic_stainless_steel(),
                      nickel(),          phosphor_bronze(),
                      bronze_80_20(),    bronze_90_10(),
                      brass(),           copper(),
                      silver()};
}

/// The material of a name, spelled as in `wire_materials()`; nothing when there is none.
[[nodiscard]] constexpr std::optional<wire_material> find_wire_material(std::string_view name) {
    for (const wire_material& m : wire_materials()) {
        if (m.name == name) { return m; }
    }
    return std::nullopt;
}

} // namespace tautline
