#pragma once
/// @file
/// A stiff string: its partials, its inharmonicity, and the tension at which it sounds a pitch.

#include "end_phase.hpp"
#include "tension.hpp"

namespace tautline {

/// How firmly each end holds the direction of a string. 0 lets it turn freely (hinged), 1 holds it fast (clamped), and
/// 1/2 is a string that runs on over an edge. The default of 1/2 at both ends is that of a knife edge. A broader saddle
/// or nut holds more; only a measurement on the instrument tells how much. The choice moves the compensation of a plain
/// string by millimetres.
template <class R = double>
struct basic_string_ends {
    using real = R;
    R nut = number<R>(0.5L);    ///< 0 hinged, 1/2 over an edge, 1 clamped
    R saddle = number<R>(0.5L); ///< the same at the other end

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("nut", between(0, 1).fair_default("half way from hinged to clamped"), self.nut...);
        visit("saddle", between(0, 1).fair_default("half way from hinged to clamped"), self.saddle...);
    }
};
using string_ends = basic_string_ends<double>;

namespace kernel {

/// The bending share `sqrt(EI/T)/L`: the length over which bending dies out at an end, as a share of the speaking
/// length.
template <class R>
[[nodiscard]] constexpr R bending_share(const flexural_rigidity<R>& ei, const force<R>& pull,
                                        const length<R>& speaking_length) {
    return sqrt(R(ratio<unit::flexural_rigidity, R>(ei, pull * speaking_length * speaking_length)));
}

template <class R>
[[nodiscard]] frequency<R> stiff_pitch(const linear_density<R>& mu, const length<R>& speaking_length, const force<R>& pull,
                                       const flexural_rigidity<R>& ei, const basic_string_ends<R>& ends, int n = 1) {
    return pitch_of_wave<R>(mu, speaking_length, pull) *
           partial_ratio<R>(n, bending_share<R>(ei, pull, speaking_length), ends.nut, ends.saddle);
}

template <class R>
constexpr void require_not_too_stiff(const R& e) {
    require("bending share sqrt(EI/T)/L", e, between(0, 0.1));
}

/// Tension of a stiff string, from a first guess `pull`. `mu` is the mass per length at pitch, or the slack one when
/// the axial stiffness is given.
template <class R>
[[nodiscard]] force<R> tension_of_stiff(force<R> pull, const linear_density<R>& mu, const length<R>& speaking_length,
                                        const frequency<R>& pitch, const flexural_rigidity<R>& ei,
                                        const basic_string_ends<R>& ends, const std::optional<force<R>>& axial_stiffness) {
    // The guess is Mersenne's tension. It exceeds the answer by a few bending shares at most.
    require_not_too_stiff<R>(bending_share<R>(ei, pull, speaking_length) * number<R>(1.3L));
    // Pitch goes nearly as the square root of tension. Each round multiplies the error by about the sum of k e and the
    // strain.
    for (int i = 0; i < 16; ++i) {
        const R stretched = axial_stiffness ? R(number<R>(1) + ratio(pull, *axial_stiffness)) : number<R>(1);
        const frequency<R> sounds = stiff_pitch<R>(mu / stretched, speaking_length, pull, ei, ends);
        const R flat = ratio<unit::frequency, R>(pitch, sounds);
        pull = pull * flat * flat;
    }
    return pull;
}

} // namespace kernel

/// Inharmonicity `B = pi^2 EI/(T L^2)`, as in `f_n = n f0 sqrt(1 + B n^2)` of a string with hinged ends. EI >= 0, the
/// others > 0. Source: H. Fletcher, J. Acoust. Soc. Am. 36(1) 203 (1964): `pi^3 E d^4/(64 T L^2)` for a round wire.
[[nodiscard]] constexpr auto inharmonicity(a_flexural_rigidity auto ei, a_force auto pull, a_length auto speaking_length) {
    using R = common_real_t<decltype(ei), decltype(pull), decltype(speaking_length)>;
    require("bending stiffness", over<R>(ei), at_least(0 * units::N_m2));
    require("tension", over<R>(pull), more_than(0 * units::N));
    require("speaking length", over<R>(speaking_length), more_than(0 * units::mm));
    const R e = kernel::bending_share<R>(over<R>(ei), over<R>(pull), over<R>(speaking_length));
    return R(pi<R>() * pi<R>() * e * e);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FLEXURAL_RIGIDITY, messages::FORCE, messages::LENGTH> inharmonicity(Given...)
    TAUTLINE_REFUSED("wanted are a FLEXURAL RIGIDITY, a FORCE, a LENGTH: inharmonicity(0.0001*N_m2, 70*N, 640*mm)");

/// Frequency of partial n of a stiff string; n is 1 (the fundamental) to 200. The bending share sqrt(EI/T)/L must be at
/// most 0.1, else `invalid_input`. Strings of fretted instruments stay below 0.01.
/// Source: the beam under tension, with the boundary layers of its ends taken as separate. To second order it agrees
/// with P. M. Morse, Vibration and Sound (1936), for clamped ends, and with Anderson & Beausoleil, J. Acoust. Soc. Am.
/// 156(1) 683 (2024), for one clamped and one hinged.
template <class R = double>
[[nodiscard]] frequency<R> partial(int n, const linear_density<R>& mu, param<length<R>> speaking_length,
                                   param<force<R>> pull, param<flexural_rigidity<R>> ei,
                                   const basic_string_ends<R>& ends = {}) {
    require_that(n >= 1 && n <= 200, "partial", "must be 1 (the fundamental) to 200", n);
    require_valid(ends, "ends");
    require("mass per length", mu, more_than(0 * units::g_per_m));
    require("speaking length", speaking_length, more_than(0 * units::mm));
    require("tension", pull, more_than(0 * units::N));
    require("bending stiffness", ei, at_least(0 * units::N_m2));
    kernel::require_not_too_stiff<R>(kernel::bending_share<R>(ei, pull, speaking_length));
    return kernel::stiff_pitch<R>(mu, speaking_length, pull, ei, ends, n);
}

/// Partial n of a string under a tension over a speaking length. Bending stiffness is that of the core alone, a lower
/// bound for a wound string. Bare ends count for the mass only.
template <class R = double>
[[nodiscard]] frequency<R> partial(int n, const basic_music_string<R>& s, param<length<R>> speaking_length,
                                   param<force<R>> pull, const basic_string_ends<R>& ends = {}) {
    require("speaking length", speaking_length, more_than(0 * units::mm));
    const R eps = strain<R>(s, pull);
    kernel::require_bare_ends_fit<R>(s, speaking_length);
    const linear_density<R> mu = kernel::felt_mass<R>(s, speaking_length) / R(number<R>(1) + eps);
    return partial<R>(n, mu, speaking_length, pull, kernel::core_bending_stiffness(s), ends);
}

/// How far partial n stands above n times the fundamental; positive is sharp.
template <class R = double>
[[nodiscard]] interval<R> partial_error(int n, const basic_music_string<R>& s, param<length<R>> speaking_length,
                                        param<force<R>> pull, const basic_string_ends<R>& ends = {}) {
    return interval_between<R>(frequency<R>(partial<R>(1, s, speaking_length, pull, ends) * number<R>(n)),
                               partial<R>(n, s, speaking_length, pull, ends));
}

/// Tension at which a stiff string sounds a pitch. It is less than Mersenne's tension, since stiffness raises the
/// pitch. `mu` is the mass per length at pitch. All > 0, the bending stiffness >= 0.
template <class R = double>
[[nodiscard]] force<R> tension_of_stiff(const linear_density<R>& mu, param<length<R>> speaking_length,
                                        param<frequency<R>> pitch, param<flexural_rigidity<R>> ei,
                                        const basic_string_ends<R>& ends = {}) {
    require_valid(ends, "ends");
    require("bending stiffness", ei, at_least(0 * units::N_m2));
    return kernel::tension_of_stiff<R>(tension(mu, length<R>(speaking_length), frequency<R>(pitch)), mu, speaking_length,
                                       pitch, ei, ends, {});
}

/// Tension at which a string sounds a pitch, with the stretch and the stiffness of its core.
template <class R = double>
[[nodiscard]] force<R> tension_of_stiff(const basic_music_string<R>& s, param<length<R>> speaking_length,
                                        param<frequency<R>> pitch, const basic_string_ends<R>& ends = {}) {
    require_valid(ends, "ends");
    const force<R> first = tension<R>(s, speaking_length, pitch);
    return kernel::tension_of_stiff<R>(first, kernel::felt_mass<R>(s, speaking_length), speaking_length, pitch,
                                       kernel::core_bending_stiffness(s), ends, kernel::axial_stiffness(s));
}

} // namespace tautline
