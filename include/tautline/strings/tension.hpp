#pragma once
/// @file
/// Tension, pitch and length of a string, and what its core bears.

#include "music_string.hpp"

namespace tautline {

namespace kernel {

/// Speed of waves that makes a speaking length sound a pitch.
template <class R>
[[nodiscard]] constexpr velocity<R> wave_speed(const length<R>& speaking_length, const frequency<R>& pitch) {
    return speaking_length * pitch * number<R>(2);
}

template <class R>
[[nodiscard]] constexpr force<R> tension(const linear_density<R>& mu, const length<R>& speaking_length,
                                         const frequency<R>& pitch) {
    return mu * square(wave_speed(speaking_length, pitch));
}

/// Slack string: the tension T with `T (1 + T/EA) = mu v^2`, since stretching by T/EA thins the mass per length.
template <class R>
[[nodiscard]] constexpr force<R> tension_of_stretching(const force<R>& mass_term, const force<R>& axial_stiffness) {
    const R x = ratio(mass_term, axial_stiffness), one = number<R>(1);
    // The root without the difference of near-equal numbers.
    return mass_term * R(number<R>(2) / (one + sqrt(R(one + number<R>(4) * x))));
}

} // namespace kernel

/// Tension of an ideal string, `mu (2 L f)^2`. `mu` is the mass per length at pitch. All > 0, else `invalid_input`.
/// Source: Mersenne's law; OpenStax University Physics 1, 16.3 and 16.6.
[[nodiscard]] constexpr auto tension(a_linear_density auto mu, a_length auto speaking_length, a_frequency auto pitch) {
    using R = common_real_t<decltype(mu), decltype(speaking_length), decltype(pitch)>;
    require("mass per length", over<R>(mu), more_than(0 * units::g_per_m));
    require("speaking length", over<R>(speaking_length), more_than(0 * units::mm));
    require("pitch", over<R>(pitch), more_than(0 * units::Hz));
    return kernel::tension<R>(over<R>(mu), over<R>(speaking_length), over<R>(pitch));
}

/// Tension of a string brought to pitch over a speaking length.
///
/// The string stretches by T/EA on its way there, which thins its mass per length: `T (1 + T/EA) = mu_slack (2 L f)^2`. For
/// steel that is some 0.5 % less than with the slack mass, for nylon several per cent.
template <class R>
[[nodiscard]] constexpr force<R> tension(const basic_music_string<R>& s, param<length<R>> speaking_length,
                                         param<frequency<R>> pitch) {
    require_valid_string(s);
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    return kernel::tension_of_stretching<R>(kernel::tension<R>(kernel::mass_per_length(s), speaking_length, pitch),
                                            kernel::axial_stiffness(s));
}

/// Strain of a string under a tension, `T/EA`.
template <class R>
[[nodiscard]] constexpr R strain(const basic_music_string<R>& s, param<force<R>> pull) {
    require_valid_string(s);
    require("tension", pull, at_least(0 * units::N));
    return ratio<unit::force, R>(pull, kernel::axial_stiffness(s));
}

/// Mass over length of the stretched string, `mu_slack/(1 + T/EA)`.
template <class R>
[[nodiscard]] constexpr linear_density<R> mass_per_length_at(const basic_music_string<R>& s, param<force<R>> pull) {
    const R eps = strain(s, pull);
    return kernel::mass_per_length(s) / R(number<R>(1) + eps);
}

/// Stress in the core, tension over its area.
template <class R>
[[nodiscard]] constexpr stress<R> core_stress(const basic_music_string<R>& s, param<force<R>> pull) {
    require_valid_string(s);
    require("tension", pull, at_least(0 * units::N));
    return pull / kernel::core_area(s.core);
}

/// Core stress as a share of the least strength of its material at that diameter (a hexagonal core by the circle of its
/// area); above 1 it is expected to break. Nothing when the strength is unknown.
template <class R>
[[nodiscard]] constexpr std::optional<R> share_of_strength(const basic_music_string<R>& s, param<force<R>> pull) {
    const stress<R> borne = core_stress(s, pull);
    const auto strength = minimum_strength<R>(s.core.material, kernel::core_round_diameter(s.core));
    if (!strength.has_value()) { return std::nullopt; }
    return ratio<unit::stress, R>(borne, *strength);
}

} // namespace tautline
