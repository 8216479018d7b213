#pragma once
/// @file
/// The fret slots of a board, as far as they count for the bending of its neck.

#include "../neck/fret_slots.hpp"

namespace tautline {

/// How deep the slots are, how tightly they are filled, and whether their tangs wedge. They lie where the frets are. No
/// values have been published. Only readings of the relief before and after fretting can tell bearing and wedging.
/// Physics, sources and sizes: `basic_fret_slots`.
template <class R = double>
struct basic_neck_slots {
    using real = R;
    needed<length<R>> depth;                     ///< from the board's top down; where tangs fill them, that of the tangs
    R bearing = number<R>(1);                    ///< share of the pressure in the board that they pass on: 1 filled
                                                 ///< tightly, 0 empty or loose
    field<length<R>> interference = length<R>(); ///< width of the tang at its barbs less that of the slot
    R wedging = number<R>(0);                    ///< share of the interference that lasts as a stretch of the board
    R shear_ratio = number<R>(16);               ///< of the board: modulus along the grain over shear modulus

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("depth", between(0.01 * units::mm, 10 * units::mm), self.depth...);
        visit("bearing", between(0, 1).fair_default("frets that sit tight"), self.bearing...);
        visit("interference", between(-1 * units::mm, 1 * units::mm).fair_default("tangs as wide as their slots"),
              self.interference...);
        visit("wedging", between(0, 1).fair_default("no wedging lasts unless it was measured"), self.wedging...);
        visit("shear_ratio", between(1, 100).fair_default("sugar maple on the quarter; of ebony no figure is known"),
              self.shear_ratio...);
    }
};
using neck_slots = basic_neck_slots<double>;

} // namespace tautline
