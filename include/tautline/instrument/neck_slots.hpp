#pragma once
/// @file
/// The fret slots of a board as they count for its neck's bending.

#include "../neck/fret_slots.hpp"

namespace tautline {

/// How deep the slots are, how tightly they are filled, and whether their tangs wedge. They lie where the frets are.
/// Nobody has published a value for any of it. Only a reading of the relief before and after can tell bearing and wedging.
/// Physics, sources and sizes: `basic_fret_slots`.
template <class R = double>
struct basic_neck_slots {
    using real = R;
    needed<length<R>> depth;                     ///< from the board's top down: of tangs that fill them, their depth
    R bearing = number<R>(1);                    ///< of the pressure that they meet: 1 filled tightly, 0 empty or loose
    field<length<R>> interference = length<R>(); ///< tang's width at its barbs less the slot's
    R wedging = number<R>(0);                    ///< share of it that lasts as a stretch of the board
    R shear_ratio = number<R>(16);               ///< of the board: modulus along the grain over that of shear

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
