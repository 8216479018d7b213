#pragma once
/// @file
/// How far fret ends stand out of a board that has dried, or stand back in one that has swollen.
///
/// Source: half of the board's change of width on each side (`movement`). The board is taken as free to move: the back it
/// is glued to moves across as well, by as much where it is of a like wood.

#include "../board/board.hpp"
#include "../neck/moisture.hpp"

namespace tautline {

/// Fret ends over the board's edges, on each side.
template <class R = double>
struct basic_fret_overhang {
    using real = R;
    length<R> at_nut{}; ///< by the board's width at the nut; negative: the wood stands beyond them
    length<R> at_end{}; ///< by its width at the end

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("at_nut", self.at_nut...);
        visit("at_end", self.at_end...);
    }
};
using fret_overhang = basic_fret_overhang<double>;

/// What another air makes of fret ends that are flush in the first, once the wood has come to rest there.
/// @param across share of its width by which the board grows for 1 % of moisture, 0 to 0.01
/// @throws invalid_input for a board or a share out of range, and for airs outside -1.2 to 60 deg C or so damp that wood
///         comes to more than 25 % in them
template <class R>
[[nodiscard]] basic_fret_overhang<R> fret_overhang_in(const basic_board<R>& b, const std::type_identity_t<R>& across,
                                                      const std::type_identity_t<basic_climate<R>>& flush_in,
                                                      const std::type_identity_t<basic_climate<R>>& air) {
    const auto then = equilibrium_moisture(flush_in), now = equilibrium_moisture(air);
    const auto out = [&](const length<R>& width) {
        return length<R>(movement<R>(width, across, then, now) * number<R>(-0.5L));
    };
    return {.at_nut = out(b.width_at_nut), .at_end = out(b.width_at_end)};
}

/// Fret ends that stand out by this, in metres, catch a hand that runs along the edge. Common practice, no source.
inline constexpr double overhang_felt = 0.05e-3;

} // namespace tautline
