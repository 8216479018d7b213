#pragma once
/// @file
/// How much more a neck bows under a lasting load than at first: usual values for `creep_factor`.
///
/// Relative creep hardly depends on the stress (R. J. Hoyle, M. C. Griffith and R. Y. Itani, Wood and Fiber Science, 4
/// x 4 in Douglas-fir at 12 %), so a factor on the elastic bow has the right form. The value for a week is measured, in
/// constant air. The value for a year is the same power law carried on. The value for a lifetime is that of building
/// codes for seasoned timber, with damp and dry seasons.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Factors on the elastic bow. None was measured on a neck: relief read at first and a week later tells more.
namespace usual_creep {
inline constexpr double day = 1.05;     ///< the measured law at a day
inline constexpr double week = 1.07;    ///< measured: teak, constant air
inline constexpr double year = 1.2;     ///< the same law carried on fifty times as long: no measurement
inline constexpr double lifetime = 1.5; ///< National Design Specification for Wood Construction 3.5.2; Eurocode 5 has 1.6
} // namespace usual_creep

/// Factor on the elastic bow after a time under load in constant air, `1 + 0.0242 (t/hour)^0.221`. Time from 30 s,
/// where the elastic bow was read, up to ten years; past a week it is an extrapolation. Damp seasons are left out.
///
/// Source: H.-M. Park, D.-M. Gong, M.-G. Shin and H.-S. Byeon, J. Korean Wood Sci. Technol. 48(5) 608 (2020), table 1: mean
/// of three beams of teak over 168 h.
template <class R>
[[nodiscard]] R creep_factor_after(const duration<R>& under_load) {
    const R hours = under_load.value() / number<R>(3600);
    require("hours under load", hours, between(30.0 / 3600, 87660));
    return number<R>(1) + number<R>(0.191L / 7.90L) * exp2(R(number<R>(0.221L) * log2(hours)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Given>
requires(!a_duration<Given>) messages::wanted_are<messages::DURATION> creep_factor_after(Given)
TAUTLINE_REFUSED("wanted is a TIME: creep_factor_after(3600*second)");

} // namespace tautline
