#pragma once
/// @file
/// What intonation needs to know of a string: its mass, how hard it is to stretch and to bend, and how its ends hold it.
///
/// Source: stiff string as in H. Fletcher, J. Acoust. Soc. Am. 36(1), 203 (1964), for hinged ends; Morse's clamped string
/// and the one-end-clamped string of M. B. Anderson and R. G. Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), for the
/// rest.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A string as it sounds.
///
/// How firmly an end clamps the string is calibrated, not known: 0 hinged, 1/2 running on over an edge, 1 clamped. The
/// sum of both ends moves a plain string's setback by millimetres.
template <class R>
struct basic_sounding_string {
    using real = R;
    field<linear_density<R>> mass_per_length{};      ///< at pitch
    field<frequency<R>> open_pitch{};                ///< what the open string is tuned to
    field<force<R>> axial_stiffness{};               ///< E A of the core: tension for each unit of strain
    field<flexural_rigidity<R>> bending_stiffness{}; ///< E I of the core, at least 0
    R nut_end = number<R>(0.5L);                     ///< end factor at the nut
    R fret_end = number<R>(0.5L);                    ///< end factor at a fret
    R saddle_end = number<R>(0.5L);                  ///< end factor at the saddle
    /// String beyond nut and saddle that gives along when the string is stretched; 0 when friction holds it.
    field<length<R>> shared_afterlength{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("mass_per_length", more_than(0 * units::g_per_m), self.mass_per_length...);
        visit("open_pitch", more_than(0 * units::Hz), self.open_pitch...);
        visit("axial_stiffness", more_than(0 * units::N), self.axial_stiffness...);
        visit("bending_stiffness", at_least(0 * units::N_m2), self.bending_stiffness...);
        visit("nut_end", between(0.0, 1.0), self.nut_end...);
        visit("fret_end", between(0.0, 1.0), self.fret_end...);
        visit("saddle_end", between(0.0, 1.0), self.saddle_end...);
        visit("shared_afterlength", at_least(0 * units::mm), self.shared_afterlength...);
    }
};
using sounding_string = basic_sounding_string<double>;

namespace kernel {

/// Lowest partial of a stiff string over that of a limp one, with `e = sqrt(EI/T)/L` and the two end factors' sum k:
/// `sqrt(1 + pi^2 e^2) + k e + k^2 e^2`, exact for k = 0, to the second order in e for the others.
template <class R>
[[nodiscard]] R stiffness_factor(const R& e, const R& k) {
    return sqrt(R(number<R>(1) + pi<R>() * pi<R>() * e * e)) + k * e + k * k * e * e;
}

/// Tension at which a stiff string of a given length sounds its pitch: Newton steps on the root of the tension, in which
/// the law is almost straight, from where the law without its third order has its root. For the stiffest string allowed
/// three steps reach the last digit; they end earlier where a step is so short that the next would change nothing.
template <class R>
[[nodiscard]] force<R> tension_at_pitch(const basic_sounding_string<R>& s, const length<R>& speaking, const R& ends) {
    const R limp = R(number<R>(2) * speaking.value() * s.open_pitch.value()) * sqrt(R(s.mass_per_length.value()));
    const R a = root_or_zero<R>(s.bending_stiffness.value()) / speaking.value();
    const R one = number<R>(1), pa2 = pi<R>() * pi<R>() * a * a, ka = ends * a, ka2 = ka * ka;
    R root = limp - ka - (number<R>(0.5L) * pa2 + ka2) / limp;
    const R last_digit = R(std::numeric_limits<scalar_of_t<R>>::epsilon());
    for (int i = 0; i < 3; ++i) {
        const R hinged = sqrt(R(root * root + pa2)), per_root = one / root, clamped = ka2 * per_root;
        const R miss = hinged + ka + clamped - limp;
        const R step = miss / (root / hinged - clamped * per_root);
        root = root - step;
        // What is left is of the order of the step's square, and so are its derivatives: the start was near with them.
        if (all(step * step <= last_digit * root * root)) { break; }
    }
    return force<R>::from_value(root * root);
}

/// Frequency of the lowest partial.
/// @param length_per_mass the reciprocal of the mass per length
template <class R>
[[nodiscard]] frequency<R> lowest_partial(const bu::quantity<unit::length_per_mass, R>& length_per_mass,
                                          const length<R>& speaking, const force<R>& tension,
                                          const flexural_rigidity<R>& bending, const R& ends) {
    const R per_length = number<R>(1) / speaking.value();
    const R e = root_or_zero<R>(bending.value() / tension.value()) * per_length;
    const R limp = sqrt(R(tension.value() * length_per_mass.value())) * R(number<R>(0.5L) * per_length);
    return frequency<R>::from_value(limp * stiffness_factor(e, ends));
}

} // namespace kernel

/// Checks that a string can sound its open pitch over a speaking length: one too stiff to sound it at any tension is
/// refused.
template <class R>
void require_sounds(const basic_sounding_string<R>& s, param<length<R>> speaking) {
    require_valid(s, "string");
    require("speaking length", speaking, more_than(0 * units::mm));
    const R limp = R(number<R>(2) * speaking.value() * s.open_pitch.value()) * sqrt(R(s.mass_per_length.value()));
    const R stiff = root_or_zero<R>(s.bending_stiffness.value()) / speaking.value();
    require_that(
        all(number<R>(10) * stiff <= limp), "string.bending_stiffness",
        "must be less: a tenth of the pull that the pitch needs would be the stiffness, and this is a bar, not a string");
}

/// Tension at which the open string, stiffness included, sounds its pitch over a speaking length. A string too stiff to
/// sound that pitch at any tension is refused.
template <class R>
[[nodiscard]] force<R> tension_at_pitch(const basic_sounding_string<R>& s, param<length<R>> speaking) {
    require_sounds<R>(s, speaking);
    return kernel::tension_at_pitch<R>(s, speaking, R(s.nut_end + s.saddle_end));
}

} // namespace tautline
