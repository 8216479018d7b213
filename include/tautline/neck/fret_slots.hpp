#pragma once
/// @file
/// Fret slots: tangs that are wider stretch the top of the board and bend the neck back; slots that bear no pressure make
/// it limp.

#include <vector>

#include "section.hpp"

namespace tautline {

/// Slots along a board and what is in them.
///
/// Tangs pressed into them: between two frets the board's top layer, down to the tangs' depth, wants to be longer by the
/// share of the interference that does not go into crushed wood, over the frets' spacing.
///
/// Source: eigenstrain of a layer bends a beam as in a bimetal strip (S. P. Timoshenko, Analysis of Bi-Metal Thermostats,
/// J. Opt. Soc. Am. 11, 1925, from memory).
///
/// Slots that bear no pressure: strings press the board's top together, and a slot that is empty, or whose tang is loose,
/// does not close. The layer as deep as the slots then keeps only what shear brings into it from below, `1 - tanh(u)/u` of
/// its modulus, `u = spacing/(2 lambda)`, `lambda = 1.06 depth sqrt(shear_ratio)`. Slots 2 mm deep cost
/// 12 to 20 % of an ordinary neck's bending rigidity, 3 mm deep ones 23 to 34 % (36 to 18 mm apart). Only a measurement on
/// the instrument can tell what lies between empty and tight. Source: shear lag; 1.06 fitted to plane finite elements,
/// in which it is 0.97 to 1.16, with the rigidity within 1.5 % of the whole (this project's own). Nobody has published a
/// slotted board's stiffness.
template <class R = double>
struct basic_fret_slots {
    using real = R;
    needed<length<R>> interference; ///< tang's width at its barbs less the slot's
    R share = R(0);                 ///< of it that lasts as a stretch; only a measurement on the instrument can tell
    needed<length<R>> tang_depth;   ///< how far down from the board's top the tangs reach, and the slots
    R bearing = R(1);               ///< how much of the pressure they bear: 1 tight, 0 empty or loose
    R shear_ratio = R(16);          ///< of the board: modulus along the grain over that of shear along and down
    std::vector<field<length<R>>> places{}; ///< x of the frets, x increasing

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("interference", between(-1 * units::mm, 1 * units::mm), self.interference...);
        visit("share", between(0, 1).fair_default("no wedging lasts unless it was measured"), self.share...);
        visit("tang_depth", between(0.01 * units::mm, 10 * units::mm), self.tang_depth...);
        visit("bearing", between(0, 1).fair_default("frets that sit tight"), self.bearing...);
        visit("shear_ratio", between(1, 100).fair_default("sugar maple on the quarter; of ebony no figure is known"),
              self.shear_ratio...);
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

/// Whether the layer between the slots counts for less than wood that is whole. Where slots bear all, it does not; but
/// numbers with derivatives are asked all the same, since a doubt of that moves the neck.
template <class R>
[[nodiscard]] constexpr bool bears_less(const basic_fret_slots<R>& slots) {
    return derivatives_in<R> > 0 || !in_all_lanes(slots.bearing == number<R>(1));
}

/// Share of its modulus that the layer as deep as the slots keeps in a bay between two slots.
template <class R>
[[nodiscard]] constexpr R layer_share(const basic_fret_slots<R>& slots, const length<R>& bay) {
    const R one = number<R>(1), two = number<R>(2);
    const R u = ratio(bay, slots.tang_depth) / (number<R>(2 * 1.06L) * sqrt(slots.shear_ratio));
    const R e = exp(R(-two * u)), tanh = (one - e) / (one + e);
    const R empty = one - tanh / u;
    return empty + (one - empty) * slots.bearing;
}
/// The same before fret `i`; the nut is the end of the board and bears as little as a slot.
template <class R>
[[nodiscard]] constexpr R layer_share(const basic_fret_slots<R>& slots, std::size_t i) {
    const length<R> before = i == 0 ? length<R>() : length<R>(slots.places[i - 1]);
    return layer_share<R>(slots, length<R>(slots.places[i] - before));
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

/// Share of its modulus that the board's top, as deep as the slots, keeps between two slots so far apart: 1 where they bear
/// all of the pressure. 0.1 to 1000 mm.
template <class R>
[[nodiscard]] R layer_share(const basic_fret_slots<R>& slots, param<length<R>> bay) {
    require_valid(slots, "slots");
    require("bay", bay, between(0.1 * units::mm, 1000 * units::mm));
    return kernel::layer_share<R>(slots, length<R>(bay));
}

} // namespace tautline
