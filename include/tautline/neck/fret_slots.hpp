#pragma once
/// @file
/// Frets whose tangs are wider than their slots: they stretch the top of the board and bend the neck back.

#include <vector>

#include "section.hpp"

namespace tautline {

/// Tangs pressed into slots. Between two frets the board's top layer, down to the tangs' depth, wants to be longer by the
/// share of the interference that does not go into crushed wood, over the frets' spacing.
///
/// Source: eigenstrain of a layer bends a beam as in a bimetal strip (S. P. Timoshenko, Analysis of Bi-Metal Thermostats,
/// J. Opt. Soc. Am. 11, 1925, from memory).
template <class R = double>
struct basic_fret_slots {
    using real = R;
    needed<length<R>> interference; ///< tang's width at its barbs less the slot's
    R share = R(0);                 ///< of it that lasts as a stretch; only a measurement on the instrument can tell
    needed<length<R>> tang_depth;   ///< how far down from the board's top the tangs reach
    std::vector<field<length<R>>> places{}; ///< x of the frets, x increasing

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("interference", between(-1 * units::mm, 1 * units::mm), self.interference...);
        visit("share", between(0, 1).fair_default("no wedging lasts unless it was measured"), self.share...);
        visit("tang_depth", between(0.01 * units::mm, 10 * units::mm), self.tang_depth...);
        visit("places", between(0.1 * units::mm, 3000 * units::mm), self.places...);
    }
    template <class Report>
    void rules(Report&& report) const {
        for (std::size_t i = 1; i < places.size(); ++i) {
            if (!in_all_lanes(places[i - 1].value() < places[i].value())) {
                report(messages::path_of("places", i), "must be further from the nut than the fret before it");
            }
        }
    }
};
using fret_slots = basic_fret_slots<double>;

namespace kernel {

/// Stretch of the layer in the bay before fret `i`: every fret gives half of its share to the bay on either side, and the
/// nut has no tang.
template <class R>
[[nodiscard]] constexpr R tang_strain(const basic_fret_slots<R>& slots, std::size_t i) {
    const length<R> before = i == 0 ? length<R>() : length<R>(slots.places[i - 1]);
    return slots.share * number<R>(i == 0 ? 0.5L : 1.0L) * ratio(slots.interference, slots.places[i] - before);
}

/// Curvature that a layer gives a section when it wants to be longer by `strain`: `-strain sum(E (z - z_na) dA) / EI`.
template <class R>
[[nodiscard]] constexpr curvature<R> strain_curvature(const basic_section<R>& whole, const basic_section_sums<R>& layer,
                                                      const R& strain) {
    return -((layer.es - layer.ea * whole.neutral_axis) * strain / whole.bending_rigidity);
}

} // namespace kernel

/// Curvature of a section one layer of which wants to be longer by `strain` than the rest; negative bends the nut back,
/// away from the strings. The layer's sums are part of the section's.
template <class R = double>
[[nodiscard]] constexpr curvature<R> strain_curvature(const basic_section<R>& whole, const basic_section_sums<R>& layer,
                                                      const std::type_identity_t<R>& strain) {
    require("whole.bending_rigidity", whole.bending_rigidity, more_than(0 * units::N_m2));
    require("strain", strain, between(-0.1, 0.1));
    return kernel::strain_curvature(whole, layer, strain);
}

} // namespace tautline
