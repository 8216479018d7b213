#pragma once
/// @file
/// The usual materials of cores and wraps, each with the source of its values.
///
/// The values are those of the alloy or polymer in general, for want of better ones. A balance and a stretching test
/// give the values of a string in hand; every field may be set to them.

#include <array>

#include "wire.hpp"

namespace tautline {

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
/// Plain carbon steel for wraps. Its thin nickel plating is neglected.
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
            .expansion = 13.4e-6 * units::per_kelvin,
            .source =
                "commercially pure, annealed: 8.88 g/cm3, table of engineering materials; 30 Mpsi: Gere, Mechanics of "
                "Materials, App. H; expansion 13.4e-6/K: CRC Handbook"};
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
            .mass_density = 8660 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 19.1e-6 * units::per_kelvin,
            .source = "C24000: 8.66 g/cm3, 16 Mpsi, 19.1e-6/K, alloy data sheet to ASTM B36"};
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
            .source =
                "C26000: 8.53 g/cm3, 16 Mpsi, alloy data sheet to ASTM B36; expansion 11.1e-6/F of C26000, trade data "
                "sheet"};
}
/// Copper, for wraps. Its `source` says where the values come from, and which are from memory.
[[nodiscard]] constexpr wire_material copper() {
    return {.name = "copper",
            .mass_density = 8940 * units::kg_per_m3,
            .modulus = 110 * units::GPa,
            .expansion = 17e-6 * units::per_kelvin,
            .source = "modulus and expansion: OpenStax University Physics; density 8.94 g/cm3 from memory"};
}
/// Silver, for wraps. Its `source` says where the values come from, and which are from memory.
[[nodiscard]] constexpr wire_material silver() {
    return {.name = "silver",
            .mass_density = 10490 * units::kg_per_m3,
            .modulus = 83 * units::GPa,
            .expansion = 18e-6 * units::per_kelvin,
            .source = "expansion: OpenStax University Physics; density and modulus from memory"};
}

/// Drawn nylon monofilament.
///
/// The modulus of a polymer is not constant. It grows with stress and with the speed of stretching, and two nylon
/// strings may differ by a factor of two. Give the modulus of the string in hand where a result depends on it (stretch,
/// inharmonicity, bends); tension and pitch hardly do. The default is a textbook's value. Strings at pitch were
/// measured to have more, a thin one nearly three times as much (`nylon_slow_modulus` and `nylon_quick_modulus` go by
/// the stress). Source of the caution: Lynch-Aird & Woodhouse, Materials 10(5) 497 (2017).
template <a_stress Modulus = stress<double>>
[[nodiscard]] constexpr wire_material nylon(Modulus modulus = 5 * units::GPa) {
    return {.name = "nylon",
            .mass_density = 1134 * units::kg_per_m3,
            .modulus = modulus,
            .source =
                "nylon 6,6: 2.2 slug/ft3, table of engineering materials; modulus 5 GPa: OpenStax College Physics; it "
                "depends on stress and rate"};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> nylon(Given)
TAUTLINE_REFUSED("wanted is a STRESS: nylon(5*GPa)");
/// Fluorocarbon (PVDF) monofilament. The caution about the modulus of `nylon` holds here too.
template <a_stress Modulus = stress<double>>
[[nodiscard]] constexpr wire_material fluorocarbon(Modulus modulus = 5 * units::GPa) {
    return {.name = "fluorocarbon",
            .mass_density = 1780 * units::kg_per_m3,
            .modulus = modulus,
            .source = "PVDF: density from memory; modulus from memory, it depends on stress and rate"};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> fluorocarbon(Given)
TAUTLINE_REFUSED("wanted is a STRESS: fluorocarbon(5*GPa)");
/// Plain gut. Its modulus does not depend on stress (Lynch-Aird & Woodhouse, Materials 11(11) 2160, 2018), but it
/// varies from string to string. Its mass varies with humidity.
template <a_stress Modulus = stress<double>>
[[nodiscard]] constexpr wire_material gut(Modulus modulus = 6 * units::GPa) {
    return {.name = "gut",
            .mass_density = 1300 * units::kg_per_m3,
            .modulus = modulus,
            .source = "density and modulus from memory"};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> gut(Given)
TAUTLINE_REFUSED("wanted is a STRESS: gut(6*GPa)");
/// Silk, as floss under a wrap or as a core. Loose floss fills only a share of its sleeve (`basic_wrap::fill`).
template <a_stress Modulus = stress<double>>
[[nodiscard]] constexpr wire_material silk(Modulus modulus = 10 * units::GPa) {
    return {.name = "silk",
            .mass_density = 1340 * units::kg_per_m3,
            .modulus = modulus,
            .source = "density and modulus from memory"};
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_stress<Given>) messages::wanted_are<messages::STRESS> silk(Given)
TAUTLINE_REFUSED("wanted is a STRESS: silk(10*GPa)");

/// Every material above, in that order, polymers with their default modulus.
[[nodiscard]] constexpr auto wire_materials() {
    return std::array{music_wire(),
                      nickel_plated_steel(),
                      stainless_steel(),
                      ferritic_stainless_steel(),
                      nickel(),
                      phosphor_bronze(),
                      bronze_80_20(),
                      bronze_90_10(),
                      brass(),
                      copper(),
                      silver(),
                      nylon(),
                      fluorocarbon(),
                      gut(),
                      silk()};
}

/// The material of a name spelled as in `wire_materials()`, over number type R; nothing when there is none.
template <real R = double>
[[nodiscard]] constexpr std::optional<basic_wire_material<R>> find_wire_material(std::string_view name) {
    for (const wire_material& m : wire_materials()) {
        if (m.name == name) { return over<R>(m); }
    }
    return std::nullopt;
}

} // namespace tautline
