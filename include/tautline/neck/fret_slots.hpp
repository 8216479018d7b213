#pragma once
/// @file
/// Fret slots: tangs wider than their slots stretch the top of the board and bend the neck back. Slots that bear no
/// pressure make the neck less stiff.

#include <vector>

#include "section.hpp"

namespace tautline {

/// Slots along a board and the tangs in them.
///
/// Pressed tangs: between two frets the board's top layer, down to the tangs' depth, wants to be longer. Its strain is
/// the lasting share of the interference over the frets' spacing; the rest of the interference crushes wood.
///
/// Source: eigenstrain of a layer bends a beam as in a bimetal strip (S. P. Timoshenko, Analysis of Bi-Metal Thermostats,
/// J. Opt. Soc. Am. 11, 1925, from memory).
///
/// Slots that bear no pressure: strings compress the board's top, but an empty slot, or one with a loose tang, passes
/// no pressure on. The layer as deep as the slots then carries only what shear brings into it from below. It keeps the
/// share `1 - tanh(u)/u` of its modulus, with `u = spacing/(2 lambda)`, `lambda = 1.06 depth sqrt(shear_ratio)`. Slots
/// 2 mm deep cost 12 to 20 % of an ordinary neck's bending rigidity, 3 mm deep ones 23 to 34 % (36 to 18 mm apart).
/// Between empty and tight only a measurement on the instrument can tell. Source: shear lag; the 1.06 is fitted to this
/// project's own plane finite elements. They give 0.97 to 1.16, and with 1.06 the rigidity is right within 1.5 % of the
/// whole. No published stiffness of a slotted board was found.
template <class R = double>
struct basic_fret_slots {
    using real = R;
    needed<length<R>> interference;         ///< tang's width at its barbs less the slot's
    R share = R(0);                         ///< of the interference that lasts as a stretch; only a measurement can tell
    needed<length<R>> tang_depth;           ///< how far down from the board's top the tangs reach, and the slots
    R bearing = R(1);                       ///< share of the pressure that slots bear: 1 tight, 0 empty or loose
    R shear_ratio = R(16);                  ///< of the board: modulus along the grain over shear modulus along and down
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

/// Strain of the layer in the bay before fret `i`. Every fret gives half of its stretch to the bay on either side; the
/// nut has no tang.
template <class R>
[[nodiscard]] constexpr R tang_strain(const basic_fret_slots<R>& slots, std::size_t i) {
    const length<R> before = i == 0 ? length<R>() : length<R>(slots.places[i - 1]);
    return slots.share * number<R>(i == 0 ? 0.5L : 1.0L) * ratio(slots.interference, slots.places[i] - before);
}

/// Whether to reckon with a layer that is less stiff than whole wood. Where the slots bear all pressure it is not less
/// stiff. Numbers with derivatives reckon with it all the same, since a doubt of `bearing` moves the neck.
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
/// The same before fret `i`. The board ends at the nut, which bears as little as a slot.
template <class R>
[[nodiscard]] constexpr R layer_share(const basic_fret_slots<R>& slots, std::size_t i) {
    const length<R> before = i == 0 ? length<R>() : length<R>(slots.places[i - 1]);
    return layer_share<R>(slots, length<R>(slots.places[i] - before));
}

/// Curvature of a section with a layer that wants to be longer by `strain`: `-strain sum(E (z - z_na) dA) / EI`.
template <class R>
[[nodiscard]] constexpr curvature<R> strain_curvature(const basic_section<R>& whole, const basic_section_sums<R>& layer,
                                                      const R& strain) {
    return -((layer.es - layer.ea * whole.neutral_axis) * strain / whole.bending_rigidity);
}

} // namespace kernel

/// Curvature of a section when one layer wants to be longer than the rest by `strain`. Negative bends the nut back,
/// away from the strings. The sums of the section include those of the layer.
template <class R = double>
[[nodiscard]] constexpr curvature<R> strain_curvature(const basic_section<R>& whole, const basic_section_sums<R>& layer,
                                                      const std::type_identity_t<R>& strain) {
    require("whole.bending_rigidity", whole.bending_rigidity, more_than(0 * units::N_m2));
    require("strain", strain, between(-0.1, 0.1));
    return kernel::strain_curvature(whole, layer, strain);
}

/// Share of its modulus that the board's top, as deep as the slots, keeps between two slots: 1 where the slots bear all
/// of the pressure. `bay` is the distance between the slots, 0.1 to 1000 mm, else `invalid_input`.
template <class R>
[[nodiscard]] R layer_share(const basic_fret_slots<R>& slots, param<length<R>> bay) {
    require_valid(slots, "slots");
    require("bay", bay, between(0.1 * units::mm, 1000 * units::mm));
    return kernel::layer_share<R>(slots, length<R>(bay));
}

} // namespace tautline
