#pragma once
/// @file
/// How the wire of new frets is cut and bent.

#include "../board/fret_pieces.hpp"

namespace tautline {

/// How pieces of wire are cut to length, and how far their ends touch down before their middle does.
template <class R = double>
struct basic_wire_cut {
    using real = R;
    basic_piece_rule<R> rule{}; ///< overhang, tang, waste, spare
    /// How much more the wire's arc rises from its ends to its middle than the board's.
    field<length<R>> lead = 0.3 * units::mm;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", self.rule...);
        visit("lead", between(0.01 * units::mm, 5 * units::mm).fair_default("common practice"), self.lead...);
    }
};
using wire_cut = basic_wire_cut<double>;

} // namespace tautline
