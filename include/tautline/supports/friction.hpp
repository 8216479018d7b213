#pragma once
/// @file
/// Friction where a string bends over an edge: how far the tensions of the two sides may differ, and what that does to
/// tuning.
///
/// Source: Euler's (Eytelwein's) capstan law, `T2/T1` within `exp(-mu theta) ... exp(mu theta)`; examples as in
/// tests/published/supports/capstan.cpp. Published coefficients of one pair of materials scatter by a factor of two and
/// more from handbook to handbook: friction is an interval here, never one number.

#include "../core/describe.hpp"
#include "../core/interval.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A coefficient of friction known to lie between two values.
template <class R = double>
struct basic_friction {
    using real = R;
    R least = not_given<R>(); ///< lower bound
    R most = not_given<R>();  ///< upper bound

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("least", between(0.0, 2.0), self.least...);
        visit("most", between(0.0, 2.0), self.most...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(least <= most)) { report("most", "must be at least as large as the least coefficient"); }
    }
};
using friction = basic_friction<double>;

/// Published coefficients; each interval holds static and sliding friction. No source was found for steel on dry bone,
/// nor for strings measured on a nut of bone, plastic or wood.
namespace published_friction {
inline constexpr friction metal_on_wood{0.20,
                                        0.65};    ///< OpenStax College Physics Table 5.1 (0.3-0.5); dry, pickedshares.com
inline constexpr friction wood_on_wood{0.3, 0.5}; ///< OpenStax College Physics Table 5.1
inline constexpr friction brass_on_steel{0.11, 0.51};  ///< clean 0.51, oiled 0.19, castor oil 0.11: reference chart
inline constexpr friction nylon_on_steel{0.10, 0.45};  ///< lubricated to dry, pickedshares.com
inline constexpr friction graphite_on_steel{0.1, 0.1}; ///< reference chart
inline constexpr friction ptfe_on_steel{0.04, 0.22};   ///< OpenStax College Physics Table 5.1; pickedshares.com
/// @{
/// Measured on the metal saddle of an electric guitar from the pitches of both sides. No string was above this bound; no
/// lower bound was published. T. Groves and J. A. Kemp, Archives of Acoustics (2019), abstract. Plain tinned steel;
/// nickel-plated wrap on steel.
inline constexpr friction plain_steel_on_saddle{0, 0.17};
inline constexpr friction wound_steel_on_saddle{0, 0.26};
/// @}
} // namespace published_friction

/// Least and most tension beyond a support before the string slips.
template <class R = double>
struct basic_tension_range {
    using real = R;
    force<R> least{}; ///< lower bound
    force<R> most{};  ///< upper bound
};
using tension_range = basic_tension_range<double>;

/// Two bounds of a pitch interval, in cents.
template <class R = double>
struct basic_interval_range {
    using real = R;
    interval<R> least{}; ///< lower bound
    interval<R> most{};  ///< upper bound

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("least", self.least...);
        visit("most", self.most...);
    }
};
using interval_range = basic_interval_range<double>;

namespace kernel {

/// Tension ratio at the point of slipping, `exp(mu theta)`.
template <class R>
[[nodiscard]] R capstan_ratio(const R& mu, const angle<R>& wrap_angle) {
    return exp(R(mu * wrap_angle.value()));
}

template <class R>
[[nodiscard]] basic_interval_range<R> tuning_dead_band(const basic_friction<R>& rubbing, const angle<R>& wrap_angle) {
    const R cents = number<R>(600 / std::numbers::ln2_v<long double>) * wrap_angle.value();
    return {interval<R>::from_cents(rubbing.least * cents), interval<R>::from_cents(rubbing.most * cents)};
}

} // namespace kernel

/// Tension ratio across a support at the point of slipping, `exp(mu theta)`.
/// @param mu   coefficient of friction, 0 to 2
/// @param wrap_angle the whole angle through which the string bends on the support, side angle included, at least 0
template <class R>
[[nodiscard]] R capstan_ratio(const std::type_identity_t<R>& mu, const angle<R>& wrap_angle) {
    require("mu", mu, between(0.0, 2.0));
    require("wrap_angle", wrap_angle, at_least(0 * units::deg));
    return kernel::capstan_ratio<R>(mu, wrap_angle);
}
/// Refused: other kinds, or these in another order.
template <class Coefficient, of_any_kind Given>
requires(!an_angle<Given>) messages::wanted_are<messages::NUMBER, messages::ANGLE> capstan_ratio(const Coefficient&, Given)
TAUTLINE_REFUSED("wanted are a plain number and an ANGLE: capstan_ratio(0.2, 30*deg)");

/// The range of tension beyond a support in which the string does not slip, with friction at its most.
/// @param tension on the near side, at least 0
template <class R = double>
[[nodiscard]] basic_tension_range<R> tension_beyond(const basic_friction<R>& rubbing, param<force<R>> tension,
                                                    param<angle<R>> wrap_angle) {
    require_valid(rubbing, "friction");
    require("tension", tension, at_least(0 * units::N));
    require("wrap_angle", wrap_angle, at_least(0 * units::deg));
    const R r = kernel::capstan_ratio<R>(rubbing.most, wrap_angle);
    return {tension / r, tension * r};
}

/// Tuning dead band, in cents up or down: how far the pitch may be off while the tension on the tuner's side is right,
/// `600 mu theta / ln 2`. `least` and `most` are this half width at the two ends of the friction interval. This is a
/// bound: less is left after playing and stretching in.
template <class R = double>
[[nodiscard]] basic_interval_range<R> tuning_dead_band(const basic_friction<R>& rubbing, param<angle<R>> wrap_angle) {
    require_valid(rubbing, "friction");
    require("wrap_angle", wrap_angle, at_least(0 * units::deg));
    return kernel::tuning_dead_band<R>(rubbing, wrap_angle);
}

} // namespace tautline
