#pragma once
/// @file
/// Woods: moduli and movement with their sources, and a caller's own modulus from a bending or a tapping test.

#include <array>
#include <optional>
#include <string_view>

#include "../core/climate.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Where a figure comes from.
enum class provenance {
    published,   ///< read in the source named with it
    from_memory, ///< attributed to the source, not checked against it
    caller       ///< not known here: the caller supplies it
};

/// A figure with its provenance; 0 where the caller supplies it.
struct wood_figure {
    double value = 0;                     ///< in the unit its name says
    provenance from = provenance::caller; ///< how it is known

    /// Whether there is a figure at all.
    [[nodiscard]] constexpr bool known() const { return from != provenance::caller; }
};

/// A species. Figures are means of clear, straight-grained wood: a board in hand differs by a tenth and more.
struct wood {
    std::string_view name{};            ///< the trade's English name
    wood_figure modulus_gpa{};          ///< along the grain, static bending at 12 % moisture content
    wood_figure green_modulus_gpa{};    ///< the same of green wood
    wood_figure specific_gravity{};     ///< oven-dry mass over volume at 12 % (basic where said)
    wood_figure radial_shrinkage{};     ///< green to oven-dry, %
    wood_figure tangential_shrinkage{}; ///< green to oven-dry, %
    wood_figure radial_movement{};      ///< share of the width for 1 % of moisture content, 6 to 14 %
    wood_figure tangential_movement{};  ///< share of the width for 1 % of moisture content, 6 to 14 %

    /// Mass per volume at 12 %, from the specific gravity, if known; a basic one counts the wood's green volume and reads
    /// some 5 % low.
    template <real R = double>
    [[nodiscard]] constexpr std::optional<density<R>> density_at_12() const {
        if (!specific_gravity.known()) { return std::nullopt; }
        return over<R>(1120 * specific_gravity.value * units::kg_per_m3);
    }
    /// Modulus at 12 %, if known.
    template <real R = double>
    [[nodiscard]] constexpr std::optional<stress<R>> modulus() const {
        if (!modulus_gpa.known()) { return std::nullopt; }
        return over<R>(modulus_gpa.value * units::GPa);
    }
};

namespace woods {

inline constexpr auto seen = provenance::published;     ///< short for a published figure
inline constexpr auto memory = provenance::from_memory; ///< short for one from memory

/// Source of all but the rosewoods: USDA Forest Products Laboratory, Wood Handbook (moduli tables 5-3 to 5-5, shrinkage
/// tables 4-3 and 4-4, movement table 13-5); rosewoods: M. Chudnoff, Tropical Timbers of the World, AH-607.
inline constexpr std::array<wood, 13> all{{
    {.name = "sugar maple",
     .modulus_gpa = {12.6, seen},
     .green_modulus_gpa = {10.7, seen},
     .specific_gravity = {0.63, seen},
     .radial_shrinkage = {4.8, seen},
     .tangential_shrinkage = {9.9, seen},
     .radial_movement = {0.00165, seen},
     .tangential_movement = {0.00353, seen}},
    {.name = "bigleaf maple", .radial_movement = {0.00126, seen}, .tangential_movement = {0.00248, seen}},
    {.name = "black cherry",
     .modulus_gpa = {10.27, seen}, // 1.49e6 psi
     .specific_gravity = {0.50, seen},
     .radial_shrinkage = {3.7, seen},
     .tangential_shrinkage = {7.1, seen},
     .radial_movement = {0.00126, seen},
     .tangential_movement = {0.00248, seen}},
    {.name = "black walnut",
     .modulus_gpa = {11.6, memory},
     .specific_gravity = {0.55, memory},
     .radial_shrinkage = {5.5, seen},
     .tangential_shrinkage = {7.8, seen},
     .radial_movement = {0.00190, seen},
     .tangential_movement = {0.00274, seen}},
    {.name = "yellow-poplar",
     .modulus_gpa = {10.9, memory},
     .specific_gravity = {0.42, memory},
     .radial_shrinkage = {4.6, seen},
     .tangential_shrinkage = {8.2, seen}},
    {.name = "Sitka spruce",
     .modulus_gpa = {10.8, memory},
     .specific_gravity = {0.40, memory},
     .radial_shrinkage = {4.3, memory},
     .tangential_shrinkage = {7.5, memory}},
    {.name = "western redcedar",
     .modulus_gpa = {7.65, seen}, // 1.11e6 psi
     .specific_gravity = {0.32, memory},
     .radial_shrinkage = {2.4, seen},
     .tangential_shrinkage = {5.0, seen}},
    {.name = "African mahogany",
     .modulus_gpa = {9.65, seen}, // 1.4e6 psi
     .green_modulus_gpa = {7.93, seen},
     .specific_gravity = {0.42, seen}, // basic
     .radial_shrinkage = {2.5, seen},
     .tangential_shrinkage = {4.5, seen}},
    {.name = "Honduras mahogany",
     .modulus_gpa = {10.34, seen}, // 1.5e6 psi
     .green_modulus_gpa = {9.24, seen},
     .specific_gravity = {0.45, seen}, // basic
     .radial_shrinkage = {3.0, seen},
     .tangential_shrinkage = {4.1, seen}},
    {.name = "Indian rosewood",
     .modulus_gpa = {12.27, seen}, // 1.78e6 psi, two-inch standard
     .green_modulus_gpa = {8.20, seen},
     .specific_gravity = {0.70, seen}, // basic
     .radial_shrinkage = {2.7, seen},
     .tangential_shrinkage = {5.8, seen}},
    {.name = "Brazilian rosewood",
     .modulus_gpa = {12.96, seen}, // 1.88e6 psi
     .green_modulus_gpa = {12.69, seen},
     .specific_gravity = {0.80, seen}},
    {.name = "ebony"},
    {.name = "Spanish-cedar"},
}};

/// The species of that name, or none.
[[nodiscard]] constexpr std::optional<wood> find(std::string_view name) {
    for (const wood& w : all) {
        if (w.name == name) { return w; }
    }
    return std::nullopt;
}

} // namespace woods

/// Movement coefficient from total shrinkage green to oven-dry in %, taken as linear over the 28 or 30 % below fibre
/// saturation: a fallback where the coefficient itself is not known. Shrinkage at least 0, fibre saturation 20 to 35 %.
template <real R>
[[nodiscard]] constexpr R movement_from_shrinkage(const R& shrinkage_percent,
                                                  const std::type_identity_t<R>& fibre_saturation) {
    require("shrinkage", shrinkage_percent, between(0, 30));
    require("fibre saturation", fibre_saturation, between(20, 35));
    return shrinkage_percent / number<R>(100) / fibre_saturation;
}

/// Modulus at another moisture content, `E12 (E12/Egreen)^((12 - M)/(Mp - 12))`, Mp = 25 % where wood acts as green.
/// Both moduli more than 0; M from 0 up to Mp, above which the wood is green.
/// Source: Wood Handbook, equation 5-3 (from memory).
template <class R>
[[nodiscard]] stress<R> modulus_at(const stress<R>& at_12, const stress<std::type_identity_t<R>>& green,
                                   const moisture_content<std::type_identity_t<R>>& moisture) {
    require("modulus at 12 %", at_12, more_than(0 * units::GPa));
    require("green modulus", green, more_than(0 * units::GPa));
    require_valid(moisture, "moisture content");
    const R m = min(number<R>(25), moisture.in_unit());
    return at_12 * R(exp(R(log(ratio(at_12, green)) * (number<R>(12) - m) / number<R>(13))));
}

/// Modulus of a strip from a bending test on two supports with the load midway, `P L^3 / (4 w t^3 d)`: the deflection that
/// the load adds. It includes shear like any bending test's, some 10 % low at a span of 14 times the thickness. All more
/// than 0.
[[nodiscard]] constexpr auto modulus_from_bending_test(a_length auto span, a_force auto load, a_length auto deflection,
                                                       a_length auto width, a_length auto thickness) {
    using R = common_real_t<decltype(span), decltype(load), decltype(deflection), decltype(width), decltype(thickness)>;
    require("span", over<R>(span), more_than(0 * units::mm));
    require("load", over<R>(load), more_than(0 * units::N));
    require("deflection", over<R>(deflection), more_than(0 * units::mm));
    require("width", over<R>(width), more_than(0 * units::mm));
    require("thickness", over<R>(thickness), more_than(0 * units::mm));
    const auto l = over<R>(span), t = over<R>(thickness);
    return stress<R>(over<R>(load) * l * l * l / (number<R>(4) * over<R>(width) * t * t * t * over<R>(deflection)));
}

/// Modulus of a strip from its lowest tap tone, held free at 0.224 of its length from both ends:
/// `f = beta^2/(2 pi L^2) sqrt(EI/m)`, beta = 4.730041. Thin strips: a length of twenty thicknesses or more. All more than
/// 0. Source: Euler-Bernoulli beam with free ends (R. D. Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1,
/// from memory).
[[nodiscard]] constexpr auto modulus_from_tap_tone(a_frequency auto tone, a_length auto strip_length,
                                                   a_length auto thickness, a_density auto strip_density) {
    using R = common_real_t<decltype(tone), decltype(strip_length), decltype(thickness), decltype(strip_density)>;
    require("tone", over<R>(tone), more_than(0 * units::Hz));
    require("strip_length", over<R>(strip_length), more_than(0 * units::mm));
    require("thickness", over<R>(thickness), more_than(0 * units::mm));
    require("strip_density", over<R>(strip_density), more_than(0 * units::kg_per_m3));
    const auto l2 = over<R>(strip_length) * over<R>(strip_length);
    const R beta = number<R>(4.7300407448627040260L);
    const auto speed = over<R>(tone) * l2 / over<R>(thickness) * R(number<R>(2) * pi<R>() / (beta * beta));
    return stress<R>(speed * speed * over<R>(strip_density) * number<R>(12));
}

} // namespace tautline
