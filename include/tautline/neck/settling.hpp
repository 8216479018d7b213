#pragma once
/// @file
/// How long bare wood takes to come to rest after a change of the air.
///
/// Water diffuses into a plate. A board that is glued down, or finished on one side, takes it up through the other side
/// alone. Under a finish it takes several times as long; no value for that was found. Source: diffusion into a plate
/// (J. Crank, The Mathematics of Diffusion, ch. 4, from memory).

#include <numbers>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// How fast water spreads in wood, as an area over a time.
template <class R = double>
using diffusivity = decltype(area<R>() / duration<R>());

/// Time in which a bare plate with one open face comes nearer to rest by a factor of e: `(2 d/pi)^2/D`, with thickness
/// d and diffusivity D. With both faces open give half the thickness.
///
/// Thickness more than 0, diffusivity more than 0 and up to 100 000 mm^2 a day, else `invalid_input`. Across the grain
/// of woods for fingerboards it is some 1e-11 to 1e-10 m^2/s (common practice of kilns, from memory); African blackwood
/// 1.54e-11 +- 0.49e-11 across and 4.58e-11 along at 20 deg C (A. Alkadri and others, Wood Sci. Technol. 2020).
template <class R>
[[nodiscard]] constexpr duration<R> settling_time(const length<R>& thickness,
                                                  const std::type_identity_t<diffusivity<R>>& diffusion) {
    require("thickness", thickness, more_than(0 * units::mm));
    // In m^2/s it would be too small for a message.
    require("diffusion in mm^2/day", R(diffusion.value() * number<R>(86400e6L)), more_than_up_to(0, 1e5));
    const length<R> across = thickness * number<R>(2 / std::numbers::pi_v<long double>);
    return across * across / diffusion;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Thickness, of_any_kind Diffusion>
requires(!(a_length<Thickness> && of_kind<Diffusion, diffusivity<>::unit_type>))
    messages::wanted_are<messages::LENGTH, messages::AREA_OVER_TIME> settling_time(Thickness, Diffusion)
TAUTLINE_REFUSED("wanted are a LENGTH and an AREA over a TIME: settling_time(6*mm, 2e-5*mm2/second)");

/// Share of the final change that a plate has made after `time`, with `settling` from `settling_time`:
/// `1 - sum 8/((2k+1)^2 pi^2) exp(-(2k+1)^2 t/tau)`. At first it grows with the square root of the time. Time at least
/// 0.
template <class R>
[[nodiscard]] R share_settled(const duration<R>& time, const duration<std::type_identity_t<R>>& settling) {
    require("time", time, at_least(0 * units::second));
    require("settling time", settling, more_than(0 * units::second));
    const R t = ratio<unit::duration, R>(time, settling);
    R left = number<R>(0);
    // The last terms matter at the very start only. After a thousandth of the settling time they are below 1e-17.
    for (int k = 0; k < 100; ++k) {
        const R odd = number<R>(2 * k + 1), square = R(odd * odd);
        left = R(left + exp(R(-square * t)) / square);
    }
    return number<R>(1) - left * number<R>(8 / (std::numbers::pi_v<long double> * std::numbers::pi_v<long double>));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
requires(!(a_duration<Given> && ...)) messages::wanted_are<messages::DURATION, messages::DURATION> share_settled(Given...)
TAUTLINE_REFUSED("wanted are two TIMES: share_settled(3600*second, 7200*second)");

} // namespace tautline
