#pragma once
/// @file
/// Two scales in place of one: what makes the frets of an instrument's board fan out.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The scales of a fanned board, each along its outer string, and the fret between them that stands square.
template <class R = double>
struct basic_two_scales {
    using real = R;
    needed<length<R>> bass_scale;   ///< nut to saddle before compensation along the outermost bass string, seen from above
    needed<length<R>> treble_scale; ///< the same along the outermost treble string
    /// The fret that stands square to the centre line; between two frets if it is not whole, 0 for a square nut.
    R square_fret = not_given<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass_scale", between(10 * units::mm, 3000 * units::mm), self.bass_scale...);
        visit("treble_scale", between(10 * units::mm, 3000 * units::mm), self.treble_scale...);
        visit("square_fret", between(0, 240), self.square_fret...);
    }
};
using two_scales = basic_two_scales<double>;

} // namespace tautline
