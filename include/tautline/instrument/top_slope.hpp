#pragma once
/// @file
/// How the soundboard slopes under the bridge against the board's line, which all heights are told from. The soundboard
/// stays when neck and board move, so that its slope against their line changes.
///
/// Source: geometry.

#include "instrument.hpp"

namespace tautline::kernel {

/// Slope of the soundboard under the bridge, positive where it rises toward the tail; 0 where it is not told.
template <class R>
[[nodiscard]] constexpr angle<R> top_slope(const basic_instrument<R>& i) {
    if (i.feet) { return i.feet->top_slope; }
    if (i.pins) { return i.pins->top_slope; }
    if (i.tie_block) { return i.tie_block->top_slope; }
    return angle<R>();
}
/// Tells the soundboard's slope anew once the board's line has turned by `by` against the body: + where the head goes back,
/// so that the line rises toward the tail.
template <class R>
constexpr void turn_line_over_top(basic_instrument<R>& i, const angle<R>& by) {
    if (i.feet) { i.feet->top_slope = i.feet->top_slope - by; }
    if (i.pins) { i.pins->top_slope = i.pins->top_slope - by; }
    if (i.tie_block) { i.tie_block->top_slope = i.tie_block->top_slope - by; }
}

} // namespace tautline::kernel
