#pragma once
/// @file
/// Tension, pitch and length of a string, each from the other two, and what its core bears.
///
/// Mersenne's law `T = mu (2 L f)^2` holds for the mass per length of the string at pitch. On its way there a string
/// stretches by T/EA, which makes it thinner: `mu = mu_slack/(1 + T/EA)`. The functions of a string take that into
/// account. For steel it is some 0.5 %, for nylon several per cent. The formulas on plain quantities take the mass per
/// length as given. Source: Mersenne's law; OpenStax University Physics 1, 16.3 and 16.6; conservation of mass.

#include "../core/when_used.hpp"
#include "music_string.hpp"

namespace tautline {

namespace kernel {

/// Speed of waves at which a speaking length sounds a pitch, `2 L f`.
template <class R>
[[nodiscard]] constexpr velocity<R> wave_speed(const length<R>& speaking_length, const frequency<R>& pitch) {
    return speaking_length * pitch * number<R>(2);
}

template <class R>
[[nodiscard]] constexpr force<R> tension(const linear_density<R>& mu, const length<R>& speaking_length,
                                         const frequency<R>& pitch) {
    return mu * square(wave_speed(speaking_length, pitch));
}

/// The tension T that solves `T (1 + T/EA) = slack`. `slack` is the tension that the slack mass per length would need.
template <class R>
[[nodiscard]] constexpr force<R> tension_of_stretching(const force<R>& slack, const force<R>& axial_stiffness) {
    const R x = ratio(slack, axial_stiffness), one = number<R>(1);
    // The root in a form that never subtracts nearly equal numbers.
    return slack * R(number<R>(2) / (one + sqrt(R(one + number<R>(4) * x))));
}

/// Share of the fundamental's squared motion that lies within `b` of an end. It is the weight with which mass there
/// counts.
template <class R>
[[nodiscard]] R share_of_motion(const length<R>& b, const length<R>& speaking_length) {
    const R x = ratio(b, speaking_length), turn = number<R>(2) * pi<R>();
    return x - sin(R(turn * x)) / turn;
}

/// Slack mass per length that counts for the fundamental. It is less than that of the wound middle where the ends are
/// bare core.
template <class R>
[[nodiscard]] constexpr linear_density<R> felt_mass(const basic_music_string<R>& s, const linear_density<R>& middle,
                                                    const linear_density<R>& core, const length<R>& speaking_length) {
    if (!s.bare.has_value()) { return middle; }
    const R share =
        share_of_motion<R>(s.bare->at_nut, speaking_length) + share_of_motion<R>(s.bare->at_saddle, speaking_length);
    return middle - (middle - core) * share;
}
template <class R>
[[nodiscard]] constexpr linear_density<R> felt_mass(const basic_music_string<R>& s, const length<R>& speaking_length) {
    return felt_mass<R>(s, kernel::mass_per_length(s), core_mass(s.core), speaking_length);
}

template <class R>
constexpr void require_bare_ends_fit(const basic_music_string<R>& s, const length<R>& speaking_length) {
    if (s.bare.has_value()) {
        require_that(in_all_lanes(s.bare->at_nut.value() + s.bare->at_saddle.value() < speaking_length.value()),
                     "string.bare",
                     "must leave a wound part: both bare ends together must be less than the speaking length");
    }
}

template <class R>
[[nodiscard]] constexpr frequency<R> pitch_of_wave(const linear_density<R>& mu, const length<R>& speaking_length,
                                                   const force<R>& pull) {
    return sqrt(pull / mu) / (speaking_length * number<R>(2));
}

} // namespace kernel

// Formulas on plain quantities -------------------------------------------------------------------------------------

/// Speed of a wave along a string, `sqrt(T/mu)`. Both > 0, else `invalid_input`.
[[nodiscard]] constexpr auto wave_speed(a_linear_density auto mu, a_force auto pull) {
    using R = common_real_t<decltype(mu), decltype(pull)>;
    require("mass per length", over<R>(mu), more_than(0 * units::g_per_m));
    require("tension", over<R>(pull), more_than(0 * units::N));
    return velocity<R>(sqrt(over<R>(pull) / over<R>(mu)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LINEAR_DENSITY, messages::FORCE> wave_speed(Given...)
    TAUTLINE_REFUSED("wanted are a LINEAR DENSITY and a FORCE: wave_speed(1*g_per_m, 70*N)");

/// Tension of an ideal string, `mu (2 L f)^2`. All > 0, else `invalid_input`.
[[nodiscard]] constexpr auto tension(a_linear_density auto mu, a_length auto speaking_length, a_frequency auto pitch) {
    using R = common_real_t<decltype(mu), decltype(speaking_length), decltype(pitch)>;
    require("mass per length", over<R>(mu), more_than(0 * units::g_per_m));
    require("speaking length", over<R>(speaking_length), more_than(0 * units::mm));
    require("pitch", over<R>(pitch), more_than(0 * units::Hz));
    return kernel::tension<R>(over<R>(mu), over<R>(speaking_length), over<R>(pitch));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LINEAR_DENSITY, messages::LENGTH, messages::FREQUENCY> tension(Given...)
    TAUTLINE_REFUSED("wanted are a LINEAR DENSITY, a LENGTH, a FREQUENCY: tension(1*g_per_m, 25.5*inch, 330*Hz)");

/// Pitch of an ideal string, `sqrt(T/mu)/(2 L)`; its mode n sounds n times that. All > 0, else `invalid_input`.
[[nodiscard]] constexpr auto pitch_at(a_linear_density auto mu, a_length auto speaking_length, a_force auto pull) {
    using R = common_real_t<decltype(mu), decltype(speaking_length), decltype(pull)>;
    require("speaking length", over<R>(speaking_length), more_than(0 * units::mm));
    return frequency<R>(wave_speed(over<R>(mu), over<R>(pull)) / (over<R>(speaking_length) * number<R>(2)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LINEAR_DENSITY, messages::LENGTH, messages::FORCE> pitch_at(Given...)
    TAUTLINE_REFUSED("wanted are a LINEAR DENSITY, a LENGTH, a FORCE: pitch_at(1*g_per_m, 25.5*inch, 70*N)");

/// Speaking length at which an ideal string sounds a pitch, `sqrt(T/mu)/(2 f)`. All > 0, else `invalid_input`.
[[nodiscard]] constexpr auto speaking_length_at(a_linear_density auto mu, a_frequency auto pitch, a_force auto pull) {
    using R = common_real_t<decltype(mu), decltype(pitch), decltype(pull)>;
    require("pitch", over<R>(pitch), more_than(0 * units::Hz));
    return length<R>(wave_speed(over<R>(mu), over<R>(pull)) / (over<R>(pitch) * number<R>(2)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LINEAR_DENSITY, messages::FREQUENCY, messages::FORCE> speaking_length_at(Given...)
    TAUTLINE_REFUSED("wanted are a LINEAR DENSITY, a FREQUENCY, a FORCE: speaking_length_at(1*g_per_m, 330*Hz, 70*N)");

/// Mass per length, at pitch, that needs a tension: `T/(2 L f)^2`. All > 0, else `invalid_input`.
[[nodiscard]] constexpr auto mass_per_length_for(a_force auto pull, a_length auto speaking_length, a_frequency auto pitch) {
    using R = common_real_t<decltype(pull), decltype(speaking_length), decltype(pitch)>;
    require("tension", over<R>(pull), more_than(0 * units::N));
    require("speaking length", over<R>(speaking_length), more_than(0 * units::mm));
    require("pitch", over<R>(pitch), more_than(0 * units::Hz));
    return linear_density<R>(over<R>(pull) / square(kernel::wave_speed<R>(over<R>(speaking_length), over<R>(pitch))));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH, messages::FREQUENCY> mass_per_length_for(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE, a LENGTH, a FREQUENCY: mass_per_length_for(70*N, 25.5*inch, 330*Hz)");

// Answers of a string ----------------------------------------------------------------------------------------------

/// Tension of a string at a pitch over a speaking length, with its stretch. Length and pitch > 0, bare ends within the
/// length, else `invalid_input`. Bare ends count by Rayleigh's principle: the mass they lack is weighted with the
/// square of the fundamental's motion there. That is good while they are short.
template <class R = double>
[[nodiscard]] constexpr force<R> tension(const basic_music_string<R>& s, param<length<R>> speaking_length,
                                         param<frequency<R>> pitch) {
    require_valid_string(s);
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("pitch", pitch, more_than(0 * units::Hz));
    kernel::require_bare_ends_fit<R>(s, speaking_length);
    return kernel::tension_of_stretching<R>(
        kernel::tension<R>(kernel::felt_mass<R>(s, speaking_length), speaking_length, pitch), kernel::axial_stiffness(s));
}
TAUTLINE_HELD(force<> tension<double>(const music_string&, param<length<>>, param<frequency<>>))

/// Strain of a string under a tension, `T/EA`; tension >= 0.
template <class R = double>
[[nodiscard]] constexpr R strain(const basic_music_string<R>& s, param<force<R>> pull) {
    require_valid_string(s);
    require("tension", pull, at_least(0 * units::N));
    return ratio<unit::force, R>(pull, kernel::axial_stiffness(s));
}

/// Mass per length of the stretched string, `mu_slack/(1 + T/EA)`; tension >= 0.
template <class R = double>
[[nodiscard]] constexpr linear_density<R> mass_per_length_at(const basic_music_string<R>& s, param<force<R>> pull) {
    const R eps = strain<R>(s, pull);
    return kernel::mass_per_length(s) / R(number<R>(1) + eps);
}

/// Pitch of a string under a tension over a speaking length, both > 0, else `invalid_input`.
template <class R = double>
[[nodiscard]] constexpr frequency<R> pitch_at(const basic_music_string<R>& s, param<length<R>> speaking_length,
                                              param<force<R>> pull) {
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("tension", pull, more_than(0 * units::N));
    const R eps = strain<R>(s, pull);
    kernel::require_bare_ends_fit<R>(s, speaking_length);
    const linear_density<R> mu = kernel::felt_mass<R>(s, speaking_length) / R(number<R>(1) + eps);
    return kernel::pitch_of_wave<R>(mu, speaking_length, pull);
}

/// Speaking length over which a string under a tension sounds a pitch, both > 0, else `invalid_input`. Bare ends must fit
/// into it.
template <class R = double>
[[nodiscard]] constexpr length<R> speaking_length_at(const basic_music_string<R>& s, param<frequency<R>> pitch,
                                                     param<force<R>> pull) {
    require("pitch", pitch, more_than(0 * units::Hz));
    require("tension", pull, more_than(0 * units::N));
    const R eps = strain<R>(s, pull);
    const auto from = [&](const linear_density<R>& slack) {
        return length<R>(sqrt(pull * R(number<R>(1) + eps) / slack) / (pitch * number<R>(2)));
    };
    length<R> l = from(kernel::mass_per_length(s));
    kernel::require_bare_ends_fit<R>(s, l);
    if (s.bare.has_value()) {
        // The mass that the ends lack depends weakly on the length, so this settles to the last digit in a few rounds.
        for (int i = 0; i < 30; ++i) { l = from(kernel::felt_mass(s, l)); }
    }
    return l;
}

/// Stress in the core: tension over slack area of the core; tension >= 0.
template <class R = double>
[[nodiscard]] constexpr stress<R> core_stress(const basic_music_string<R>& s, param<force<R>> pull) {
    require_valid_string(s);
    require("tension", pull, at_least(0 * units::N));
    return pull / kernel::core_area(s.core);
}

/// The pull at which the core reaches the least strength of its material at that diameter (a hexagonal core by the circle
/// of its area). Nothing when the strength is unknown.
template <class R = double>
[[nodiscard]] constexpr std::optional<force<R>> breaking_tension(const basic_music_string<R>& s) {
    require_valid_string(s);
    const auto strength = minimum_strength<R>(s.core.material, kernel::core_round_diameter(s.core));
    if (!strength.has_value()) { return std::nullopt; }
    return force<R>(*strength * kernel::core_area(s.core));
}

/// Share of the least strength from which a string is called close to breaking. It lies below the point at which wire
/// yields.
///
/// Music wire of 0.56 mm yields at 0.71 of the least strength (0.2 % offset; U. P. Sinha and D. W. Levinson, J. Testing
/// and Evaluation, 1992, as quoted). Five wires of another laboratory yielded at 1.02 to 1.15 of it, which was 0.87 to
/// 0.89 of the stress that broke them: wire as sold is stronger than the least. Common practice stays below 0.75 (no
/// source).
inline constexpr double strength_warning = 0.70;

/// Core stress as a share of the least strength of its material. Above 1 the string is expected to break; keep it below
/// `strength_warning`. Nothing when the strength is unknown.
template <class R = double>
[[nodiscard]] constexpr std::optional<R> share_of_strength(const basic_music_string<R>& s, param<force<R>> pull) {
    require("tension", pull, at_least(0 * units::N));
    const auto breaking = breaking_tension(s);
    if (!breaking.has_value()) { return std::nullopt; }
    return ratio<unit::force, R>(pull, *breaking);
}
TAUTLINE_HELD(std::optional<double> share_of_strength<double>(const music_string&, param<force<>>))

/// The highest pitch that a string bears over a speaking length, when its core may bear the given share of its
/// strength, more than 0 and up to 1. For a plain string it hardly depends on the gauge. Nothing when the strength is
/// unknown.
template <class R = double>
[[nodiscard]] constexpr std::optional<frequency<R>> highest_pitch(const basic_music_string<R>& s,
                                                                  param<length<R>> speaking_length,
                                                                  const std::type_identity_t<R>& share = number<R>(1)) {
    require("share of strength", share, more_than_up_to(0, 1));
    const auto breaking = breaking_tension(s);
    if (!breaking.has_value()) { return std::nullopt; }
    return pitch_at(s, speaking_length, force<R>(*breaking * share));
}

/// The longest speaking length over which a string bears a pitch, when its core may bear the given share of its
/// strength, more than 0 and up to 1. Nothing when the strength is unknown.
template <class R = double>
[[nodiscard]] constexpr std::optional<length<R>>
longest_speaking_length(const basic_music_string<R>& s, param<frequency<R>> pitch,
                        const std::type_identity_t<R>& share = number<R>(1)) {
    require("share of strength", share, more_than_up_to(0, 1));
    const auto breaking = breaking_tension(s);
    if (!breaking.has_value()) { return std::nullopt; }
    return speaking_length_at(s, pitch, force<R>(*breaking * share));
}

} // namespace tautline
