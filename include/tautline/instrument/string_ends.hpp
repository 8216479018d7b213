#pragma once
/// @file
/// Where strings end behind the saddle, whatever holds them: a hung tailpiece, pins, a tie block, or a bridge on the
/// body.

#include "instrument.hpp"

namespace tautline {

/// What the heights of the saddle are told from, in a word: "soundboard", or "body" for a bridge on a solid body.
template <class R>
[[nodiscard]] constexpr const char* top_word(const basic_instrument<R>& i) {
    return i.body_bridge ? "body" : "soundboard";
}

namespace kernel {

/// Calls `f(behind, over, spread)` with the measures of what the strings end on: how far its fixed place is behind the
/// saddle's line, how high that place is over the soundboard or the body's face, and how far apart the outermost strings
/// are there. For a tailpiece the fixed place is the hinge, else it is the edge that the strings leave. `f` may change
/// the measures of an instrument that is not const.
template <class Instrument, class F>
constexpr decltype(auto) with_string_ends(Instrument& i, F&& f) {
    if (i.tailpiece) { return f(i.tailpiece->hinge_distance, i.tailpiece->hinge_height, i.tailpiece->spread); }
    if (i.pins) { return f(i.pins->distance, i.pins->height, i.pins->spread); }
    if (i.tie_block) { return f(i.tie_block->distance, i.tie_block->hole_height, i.tie_block->spread); }
    return f(i.body_bridge->distance, i.body_bridge->height, i.body_bridge->spread);
}

/// The measures of a bridge that holds the strings' ends, whatever holds them on it.
template <class R>
struct end_holding_bridge {
    length<R> top_thickness{}, saddle_exposed{};
};
/// Those measures; nothing where the strings do not end on a bridge on a soundboard.
template <class R>
[[nodiscard]] constexpr std::optional<end_holding_bridge<R>> bridge_holding_ends(const basic_instrument<R>& i) {
    if (i.pins) { return end_holding_bridge<R>{i.pins->top_thickness, i.pins->saddle_exposed}; }
    if (i.tie_block) { return end_holding_bridge<R>{i.tie_block->top_thickness, i.tie_block->saddle_exposed}; }
    return std::nullopt;
}
/// Height of a string's axis over its fixed place. It lies with its underside on the edge of a pin's hole or of a body
/// bridge, so that its axis is half a gauge higher, as on the saddle. In a tie block it lies against the upper edge of
/// its hole. On a hinged tailpiece the pull goes through the hinge's axis: 0.
template <class R>
[[nodiscard]] constexpr length<R> axis_at_end(const basic_instrument<R>& i, const length<R>& gauge) {
    const length<R> half = gauge * number<R>(0.5L);
    if (i.tailpiece) { return length<R>(); }
    return i.tie_block ? length<R>(i.tie_block->upper_edge() - i.tie_block->hole_height - half) : half;
}

/// The fixed place behind the saddle, in the instrument's frame, and the spread there.
template <class R>
struct string_ends {
    length<R> x{}, z{}, spread{};
    R lean{}; ///< of pins and bridges, which follow a fan's saddle line: how much further along x for each unit of y; 0
              ///< for a hinge
};
template <class R>
[[nodiscard]] string_ends<R> string_ends_of(const basic_instrument<R>& i) {
    const board_lines<R> lines(i);
    const auto line = lines.saddle();
    return with_string_ends(i, [&](const length<R>& behind, const length<R>& over, const length<R>& spread) {
        return string_ends<R>{line.x + behind, over - i.saddle.board_line, spread, i.tailpiece ? R{} : line.lean};
    });
}

} // namespace kernel
} // namespace tautline
