#pragma once
/// @file
/// How far fret ends stand out of a board that has dried, or lie inside one that has swollen.
///
/// Source: half of the change of the board's width on each side (`movement`). The board is taken as free to move. The
/// back that it is glued to moves across as well, by as much where it is of a like wood.

#include "../board/board.hpp"
#include "../neck/moisture.hpp"

namespace tautline {

/// How far fret ends stand out over the board's edges, on each side.
template <class R = double>
struct basic_fret_overhang {
    using real = R;
    length<R> at_nut{}; ///< for the board's width at the nut; negative: the ends lie inside the edges
    length<R> at_end{}; ///< for its width at the end; negative: the ends lie inside the edges

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("at_nut", self.at_nut...);
        visit("at_end", self.at_end...);
    }
};
using fret_overhang = basic_fret_overhang<double>;

/// How far fret ends stand out in another air, where they are flush in the first, once the wood has come to rest there.
/// @param across share of its width by which the board grows for each per cent of moisture, 0 to 0.01
/// @throws invalid_input where the board or the share is out of range, and for airs outside -1.2 to 60 deg C or so damp
/// that the wood holds more than 25 % of moisture
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

/// In metres: fret ends that stand out further catch a hand that runs along the edge. Common practice, no source.
inline constexpr double overhang_felt = 0.05e-3;

} // namespace tautline
