#pragma once
/// @file
/// How far a string stretches on its way to pitch, how much winds onto its post, and how its pitch changes with length,
/// bends and warmth.
///
/// All functions treat the string as elastic, with its slack area and the given modulus. It slides freely over nut and
/// saddle, so that stretch spreads over the whole path from post to anchor. Warmth does not change the modulus.

#include "../core/root.hpp"
#include "tension.hpp"

namespace tautline {

/// Length of slack string that must be wound onto the post to bring a string from just straight to a tension. It is
/// `eps/(1 + eps)` of the whole path from post to anchor, with eps = T/EA. Tension >= 0, length > 0.
template <class R = double>
[[nodiscard]] constexpr length<R> length_drawn_in(const basic_music_string<R>& s, param<length<R>> whole_path,
                                                  param<force<R>> pull) {
    require("whole path", whole_path, more_than(0 * units::mm));
    const R eps = strain<R>(s, pull);
    return whole_path * R(eps / (number<R>(1) + eps));
}

/// Turns of a post that wind up a length of string in one layer of touching coils (a helix along the string's axis).
/// Diameters > 0, length >= 0.
[[nodiscard]] constexpr auto post_turns(a_length auto wound_up, a_length auto post_diameter, a_length auto gauge) {
    using R = common_real_t<decltype(wound_up), decltype(post_diameter), decltype(gauge)>;
    require("length wound up", over<R>(wound_up), at_least(0 * units::mm));
    require("post diameter", over<R>(post_diameter), more_than(0 * units::mm));
    require("gauge", over<R>(gauge), more_than(0 * units::mm));
    const length<R> around = (over<R>(post_diameter) + over<R>(gauge)) * pi<R>();
    return ratio<unit::length, R>(over<R>(wound_up), hypot(around, over<R>(gauge)));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::LENGTH, messages::LENGTH> post_turns(Given...)
    TAUTLINE_REFUSED("wanted are three LENGTHS: post_turns(40*mm, 6*mm, 0.3*mm)");

/// A rate of change of pitch with length, in cents for each metre.
template <class R>
struct pitch_per_length {
    R cents_per_metre{}; ///< positive where a greater length is sharper

    /// The change of pitch for a small change of length.
    [[nodiscard]] constexpr interval<R> operator*(param<length<R>> change) const {
        return interval<R>::from_cents(cents_per_metre * change.value());
    }
};

/// Rate at which pitch rises when the whole path grows, as in a bend; the speaking length is taken as unchanged. It is
/// `600/ln 2 (EA/T + 2)` cents over the whole path. Tension > 0, path > 0.
///
/// The tension is T = EA eps, and the mass per length falls as the string lengthens. So d ln f = (EA/T + 2)/2 dl/l.
template <class R = double>
[[nodiscard]] constexpr pitch_per_length<R> pitch_by_path(const basic_music_string<R>& s, param<length<R>> whole_path,
                                                          param<force<R>> pull) {
    require("whole path", whole_path, more_than(0 * units::mm));
    require("tension", pull, more_than(0 * units::N));
    const R per_strain = number<R>(1) / strain<R>(s, pull);
    return {number<R>(600 / std::numbers::ln2_v<long double>) * (per_strain + number<R>(2)) / whole_path.value()};
}

/// Rate at which pitch rises when string is drawn in over an end of a fixed path, for the slack length drawn in. It is
/// `600/ln 2 (1 + eps)(1/eps + 2)` cents over the whole path; for small strains the product is EA/T + 3. Tension > 0,
/// path > 0.
template <class R = double>
[[nodiscard]] constexpr pitch_per_length<R> pitch_by_length_drawn_in(const basic_music_string<R>& s,
                                                                     param<length<R>> whole_path, param<force<R>> pull) {
    const auto by_path = pitch_by_path<R>(s, whole_path, pull);
    return {by_path.cents_per_metre * R(number<R>(1) + strain<R>(s, pull))};
}

// Bends ------------------------------------------------------------------------------------------------------------

/// Lateral stiffness of a string at a point: the force that pushes it aside there, over the small distance. It is
/// `T (1/p + 1/(l - p))`, with p and l - p the lengths to both sides. In the middle of l it is 4 T/l. Tension and
/// lengths > 0.
[[nodiscard]] constexpr auto lateral_stiffness(a_force auto pull, a_length auto to_one_side, a_length auto to_other_side) {
    using R = common_real_t<decltype(pull), decltype(to_one_side), decltype(to_other_side)>;
    require("tension", over<R>(pull), more_than(0 * units::N));
    require("length to one side", over<R>(to_one_side), more_than(0 * units::mm));
    require("length to the other side", over<R>(to_other_side), more_than(0 * units::mm));
    return stiffness<R>(over<R>(pull) / over<R>(to_one_side) + over<R>(pull) / over<R>(to_other_side));
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH, messages::LENGTH> lateral_stiffness(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE, a LENGTH, a LENGTH: lateral_stiffness(70*N, 320*mm, 320*mm)");

/// A fretted string pushed aside at the finger, along the fret.
template <class R = double>
struct basic_sideways_bend {
    using real = R;
    needed<length<R>> nut_to_finger; ///< the part that does not sound
    /// The part that sounds.
    needed<length<R>> finger_to_saddle;
    /// Length behind nut and saddle as far as stretch reaches (post to nut, saddle to anchor). 0 if the string is held
    /// at both.
    field<length<R>> beyond = length<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("nut_to_finger", between(0.01 * units::mm, 5000 * units::mm), self.nut_to_finger...);
        visit("finger_to_saddle", between(0.01 * units::mm, 5000 * units::mm), self.finger_to_saddle...);
        visit("beyond", between(0 * units::mm, 5000 * units::mm).fair_default("the string holds at nut and saddle"),
              self.beyond...);
    }
};
using sideways_bend = basic_sideways_bend<double>;

/// Tension and pitch of a string after a change of its path or its temperature.
template <class R = double>
struct basic_changed_pitch {
    force<R> pull{}; ///< the string's tension then
    /// Change against the pitch before; positive is sharper.
    interval<R> change{};
};
using changed_pitch = basic_changed_pitch<double>;

namespace kernel {

/// Tension and pitch of a bent string. `pull` is the tension before the bend; `aside` is how far the finger pushes.
template <class R>
[[nodiscard]] constexpr basic_changed_pitch<R> bent(const force<R>& axial_stiffness, const basic_sideways_bend<R>& b,
                                                    const force<R>& pull, const length<R>& aside) {
    const R one = number<R>(1);
    const length<R> before = b.nut_to_finger + b.finger_to_saddle + b.beyond;
    const length<R> sounding = hypot(length<R>(b.finger_to_saddle), aside);
    // sqrt(l^2 + a^2) - l in a form that never subtracts nearly equal numbers.
    const area<R> aside_squared = aside * aside;
    const length<R> grown = aside_squared / (sounding + b.finger_to_saddle) +
                            aside_squared / (hypot(length<R>(b.nut_to_finger), aside) + b.nut_to_finger);
    const R eps = ratio(pull, axial_stiffness);
    const R longer = one + ratio(grown, before);
    const R bent_eps = eps + ratio(grown, before) * (one + eps);
    // f = sqrt(T/mu)/(2 l) with mu (1 + eps) constant.
    const R octaves =
        number<R>(0.5L) * log2(R(bent_eps / eps * longer)) - log2(ratio<unit::length, R>(sounding, b.finger_to_saddle));
    return {axial_stiffness * bent_eps, interval<R>::from_cents(number<R>(1200) * octaves)};
}

} // namespace kernel

/// Tension and pitch of a string that the finger pushes aside by a distance; `pull` is its tension when straight. The
/// speaking part lengthens too, which lowers the pitch a little. Exact for an elastic string over point supports.
/// Tension > 0, 0 <= aside <= 1 m.
template <class R = double>
[[nodiscard]] constexpr basic_changed_pitch<R> bent(const basic_music_string<R>& s, const basic_sideways_bend<R>& b,
                                                    param<force<R>> pull, param<length<R>> aside) {
    require_valid_string(s);
    require_valid(b, "bend");
    require("tension", pull, more_than(0 * units::N));
    require("distance aside", aside, between(0 * units::mm, 1 * units::metre));
    return kernel::bent<R>(kernel::axial_stiffness(s), b, pull, aside);
}

/// How far a finger must push a string aside to raise its pitch by an interval. Nothing when no push up to `most` does.
/// Tension > 0, rise and most >= 0.
template <class R = double>
[[nodiscard]] std::optional<length<R>> distance_aside_for(const basic_music_string<R>& s, const basic_sideways_bend<R>& b,
                                                          param<force<R>> pull,
                                                          const std::type_identity_t<interval<R>>& rise,
                                                          param<length<R>> most = length<R>::from_value(number<R>(0.05L))) {
    require("rise", rise, between(0 * units::cents, 12000 * units::cents));
    const auto at_most = bent<R>(s, b, pull, most);
    if (!in_all_lanes(rise.cents() <= at_most.change.cents())) { return std::nullopt; }
    const force<R> ea = kernel::axial_stiffness(s);
    // The search runs over the square of the distance, because by it the rise has a slope above 0 from the start.
    const area<R> square_found = find_root(
        [&](const auto& square_aside) {
            using D = std::remove_cvref_t<decltype(square_aside.value())>;
            const D aside = sqrt(D(tautline::max<D>(square_aside.value(), number<D>(0)) + number<D>(1e-30L)));
            const auto c = kernel::bent<D>(tautline::over<D>(ea), tautline::over<D>(b), tautline::over<D>(force<R>(pull)),
                                           length<D>::from_value(aside));
            return area<D>::from_value(c.change.cents() - D(rise.cents()));
        },
        area<R>(), square(length<R>(most)));
    return length<R>::from_value(sqrt(R(tautline::max<R>(square_found.value(), number<R>(0)))));
}

// Warmth -----------------------------------------------------------------------------------------------------------

/// Tension and pitch of a string after string and body have both become warmer by the same difference; negative is
/// colder.
///
/// The slack string grows by s, its own expansion, and the path by b, the body's expansion along the neck. The strain
/// left is `(1 + eps)(1 + b)/(1 + s) - 1`. The pitch follows from tension, mass per length and path. A body of wood
/// hardly grows along the grain (some 4e-6/K, Wood Handbook, from memory); moisture moves it more. The modulus of nylon
/// depends on temperature, which is left out. Nothing when the string goes slack, or when the material's expansion is
/// unknown. Tension > 0; expansions at most 0.001/K, difference at most 200 K.
template <class R = double>
[[nodiscard]] constexpr std::optional<basic_changed_pitch<R>> warmed(const basic_music_string<R>& s, param<force<R>> pull,
                                                                     param<thermal_expansion<R>> body_expansion,
                                                                     param<temperature_difference<R>> warmer) {
    require("tension", pull, more_than(0 * units::N));
    require("body expansion", body_expansion, between(-0.001 * units::per_kelvin, 0.001 * units::per_kelvin));
    require("temperature difference", warmer, between(-200 * units::kelvin, 200 * units::kelvin));
    const R eps = strain<R>(s, pull), one = number<R>(1);
    if (!s.core.material.expansion.has_value()) { return std::nullopt; }
    const R string_growth = one + R(*s.core.material.expansion * warmer);
    const R path_growth = one + R(body_expansion * warmer);
    const R warm_eps = (one + eps) * path_growth / string_growth - one;
    if (!in_all_lanes(number<R>(0) < warm_eps)) { return std::nullopt; }
    // f = sqrt(T/(m/l))/(2 l) with the mass m on the path constant, so f goes as sqrt(T/l).
    const R octaves = number<R>(0.5L) * log2(R(warm_eps / eps / path_growth));
    return basic_changed_pitch<R>{kernel::axial_stiffness(s) * warm_eps,
                                  interval<R>::from_cents(number<R>(1200) * octaves)};
}

} // namespace tautline
