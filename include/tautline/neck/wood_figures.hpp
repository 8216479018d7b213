#pragma once
/// @file
/// What the table of woods holds for each wood, and how each figure is known.

#include <optional>
#include <string_view>

#include "../core/units.hpp"
#include "modulus_method.hpp"

namespace tautline {

/// Where a figure comes from.
enum class provenance {
    published,   ///< read in the source named with it
    quoted,      ///< read in another text that quotes the source
    from_memory, ///< attributed to the source, not checked against it
    caller       ///< not known here: the caller supplies it
};

/// A figure with its provenance; 0 where the caller supplies it.
struct wood_figure {
    double value = 0;                     ///< in the unit that the member's name or comment tells
    provenance from = provenance::caller; ///< how it is known

    /// Whether there is a figure at all.
    [[nodiscard]] constexpr bool known() const { return from != provenance::caller; }
};

/// Fibre saturation in %: the moisture content above which wood swells no further. For woods whose own value is not
/// known.
/// Source: Wood Handbook, ch. 4, 28 or 30 for most woods; CIRAD's sheets have 22 to 29 for five, blackwood 17.3.
inline constexpr double usual_fibre_saturation = 28;

/// The least and the greatest modulus that sources print, in GPa.
struct printed_moduli {
    double least = 0; ///< GPa
    double most = 0;  ///< GPa

    /// Whether the greatest is half as large again as the least, or more. The wood's name then tells little.
    [[nodiscard]] constexpr bool disagree() const { return most >= 1.5 * least && least > 0; }
};

/// A species. Figures are means of clear, straight-grained wood. The modulus of one board in three is off by more than
/// `standard_gpa`.
struct wood {
    std::string_view name{};         ///< the trade's English name
    std::string_view other_name{};   ///< another that the trade uses; empty: none
    wood_figure modulus_gpa{};       ///< along the grain at 12 % moisture content, as the first source prints it
    wood_figure green_modulus_gpa{}; ///< the same of green wood, of the same source
    modulus_method method = modulus_method::not_told; ///< how `modulus_gpa` was measured
    double use_gpa = 0;      ///< the modulus to use, weighed from all sources, in three-point bending; 0: none was found
    double standard_gpa = 0; ///< standard deviation between boards, and between sources where they disagree
    bool standard_measured = false;     ///< true: measured on this wood; false: the 20 % of woods in general, or more
    printed_moduli printed_gpa{};       ///< where several were read
    wood_figure air_dry_density{};      ///< kg/m^3
    wood_figure specific_gravity{};     ///< oven-dry mass over volume at 12 % (of some, over green volume)
    wood_figure radial_shrinkage{};     ///< green to oven-dry, %
    wood_figure tangential_shrinkage{}; ///< green to oven-dry, %
    wood_figure fibre_saturation{};     ///< moisture content above which it swells no further, %
    wood_figure radial_movement{};      ///< share of the width for 1 % of moisture content, 6 to 14 %
    wood_figure tangential_movement{};  ///< share of the width for 1 % of moisture content, 6 to 14 %
    std::string_view source{};          ///< of what is not from memory

    /// Density at 12 %, if known: as printed, else from the specific gravity. A specific gravity over green volume
    /// counts the swollen wood, so the density is then some 5 % low.
    template <real R = double>
    [[nodiscard]] constexpr std::optional<density<R>> density_at_12() const {
        if (air_dry_density.known()) { return over<R>(air_dry_density.value * units::kg_per_m3); }
        if (!specific_gravity.known()) { return std::nullopt; }
        return over<R>(1120 * specific_gravity.value * units::kg_per_m3);
    }
    /// Modulus at 12 % as bending tests give it, if known: what `board_modulus` and `back_modulus` take.
    template <real R = double>
    [[nodiscard]] constexpr std::optional<stress<R>> modulus() const {
        if (!(use_gpa > 0)) { return std::nullopt; }
        return over<R>(use_gpa * units::GPa);
    }
    /// Standard uncertainty of the modulus when nothing but the name is known.
    template <real R = double>
    [[nodiscard]] constexpr std::optional<stress<R>> modulus_standard() const {
        if (!(use_gpa > 0)) { return std::nullopt; }
        return over<R>(standard_gpa * units::GPa);
    }
    /// @{
    /// Movement as a share of the width for 1 % of moisture content, if known. It is the measured one, else total
    /// shrinkage over the wood's own fibre saturation, else over the usual fibre saturation. Take care with a wood
    /// whose fibre saturation is below some 24 %: it takes up less water than `equilibrium_moisture` says
    /// (docs/physics.md).
    [[nodiscard]] constexpr std::optional<double> radial_coefficient() const {
        return coefficient(radial_movement, radial_shrinkage);
    }
    [[nodiscard]] constexpr std::optional<double> tangential_coefficient() const {
        return coefficient(tangential_movement, tangential_shrinkage);
    }
    /// @}

private:
    [[nodiscard]] constexpr std::optional<double> coefficient(const wood_figure& movement,
                                                              const wood_figure& shrinkage) const {
        if (movement.known()) { return movement.value; }
        if (!shrinkage.known()) { return std::nullopt; }
        const double full = fibre_saturation.known() ? fibre_saturation.value : usual_fibre_saturation;
        return shrinkage.value / 100 / full;
    }
};

} // namespace tautline
