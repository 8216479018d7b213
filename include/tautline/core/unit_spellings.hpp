#pragma once
/// @file
/// How units are spelled behind a number: "mm", "thou", "kgf".

#include <string_view>

#include "units.hpp"

namespace tautline {

/// A unit as it is spelled, and its size in SI.
struct unit_spelling {
    std::string_view spelled; ///< as it is written behind a number
    long double size;         ///< one of it in SI
};

namespace spelling {

template <class U>
constexpr unit_spelling as(std::string_view text, unit_tag<U> tag) {
    return {text, tag.size};
}
/// The spellings of each kind; the first is the one that messages suggest.
template <class U>
struct of;
template <>
struct of<unit::length> {
    static constexpr unit_spelling list[] = {
        as("mm", units::mm),   as("cm", units::cm),     as("m", units::metre),
        as("in", units::inch), as("inch", units::inch), as("inches", units::inch),
        as("\"", units::inch), as("thou", units::thou), as("um", unit_tag<unit::length>{1e-6L})};
};
template <>
struct of<unit::force> {
    static constexpr unit_spelling list[] = {as("N", units::N), as("lbf", units::lbf), as("kgf", units::kgf)};
};
template <>
struct of<unit::mass> {
    static constexpr unit_spelling list[] = {as("g", units::gram), as("kg", units::kg), as("lb", units::lb)};
};
template <>
struct of<unit::frequency> {
    static constexpr unit_spelling list[] = {as("Hz", units::Hz), as("kHz", units::kHz)};
};
template <>
struct of<unit::linear_density> {
    static constexpr unit_spelling list[] = {as("g/m", units::g_per_m), as("kg/m", units::kg_per_m),
                                             as("lb/in", units::lb_per_in)};
};
template <>
struct of<unit::density> {
    static constexpr unit_spelling list[] = {as("kg/m^3", units::kg_per_m3), as("kg/m3", units::kg_per_m3),
                                             as("g/cm^3", unit_tag<unit::density>{1000}),
                                             as("g/cm3", unit_tag<unit::density>{1000})};
};
template <>
struct of<unit::stress> {
    static constexpr unit_spelling list[] = {as("GPa", units::GPa), as("MPa", units::MPa), as("Pa", units::Pa),
                                             as("psi", units::psi)};
};
template <>
struct of<unit::angle> {
    static constexpr unit_spelling list[] = {as("deg", units::deg), as("°", units::deg), as("rad", units::rad)};
};
template <>
struct of<unit::stiffness> {
    static constexpr unit_spelling list[] = {as("N/mm", units::N_per_mm), as("N/m", units::N_per_m)};
};
template <>
struct of<unit::rotational_stiffness> {
    static constexpr unit_spelling list[] = {as("N m/rad", units::N_m_per_rad)};
};
template <>
struct of<unit::moment> {
    static constexpr unit_spelling list[] = {as("N m", units::N_m), as("N mm", units::N_mm), as("lbf in", units::lbf_in)};
};
template <>
struct of<unit::flexural_rigidity> {
    static constexpr unit_spelling list[] = {as("N m^2", units::N_m2), as("N m2", units::N_m2), as("N mm^2", units::N_mm2),
                                             as("N mm2", units::N_mm2)};
};
template <>
struct of<unit::second_moment> {
    static constexpr unit_spelling list[] = {as("mm^4", units::mm4), as("mm4", units::mm4)};
};
template <>
struct of<unit::curvature> {
    static constexpr unit_spelling list[] = {as("1/m", units::per_metre)};
};
template <>
struct of<unit::area> {
    static constexpr unit_spelling list[] = {as("mm^2", units::mm2), as("mm2", units::mm2)};
};
template <>
struct of<unit::volume> {
    static constexpr unit_spelling list[] = {as("cm^3", unit_tag<unit::volume>{1e-6L}),
                                             as("cm3", unit_tag<unit::volume>{1e-6L}), as("mm^3", units::mm3),
                                             as("mm3", units::mm3)};
};
template <>
struct of<unit::compliance> {
    static constexpr unit_spelling list[] = {as("mm/N", units::mm_per_N)};
};
template <>
struct of<unit::duration> {
    static constexpr unit_spelling list[] = {as("s", units::second)};
};
template <>
struct of<unit::velocity> {
    static constexpr unit_spelling list[] = {as("m/s", units::metre_per_second)};
};
template <>
struct of<unit::acceleration> {
    static constexpr unit_spelling list[] = {as("m/s^2", units::metre_per_second2), as("m/s2", units::metre_per_second2)};
};
template <>
struct of<unit::thermal_expansion> {
    static constexpr unit_spelling list[] = {as("1/K", units::per_kelvin)};
};
template <>
struct of<unit::temperature_difference> {
    static constexpr unit_spelling list[] = {as("K", units::kelvin)};
};

} // namespace spelling
} // namespace tautline
