#pragma once
/// @file
/// Where the strings meet the saddle: the shape of one top across the strings, or each string's own saddle.

#include "../board/surface.hpp"
#include "saddle.hpp"

namespace tautline::kernel {

/// Height of the saddle under a string at y, between the first string (at y0) and the last (at y1): a straight line
/// between the two heights, with the arc of the saddle's top added.
template <class R>
[[nodiscard]] length<R> saddle_height_at(const basic_saddle<R>& s, const length<R>& y0, const length<R>& y1,
                                         const length<R>& y) {
    // A single string has y0 = y1: it takes the bass height.
    const length<R> spread = y1 - y0;
    const bool one_place = !one_answer(is_less(length<R>(), spread));
    const R t = one_place ? number<R>(0) : R(ratio<unit::length, R>(y - y0, spread));
    const length<R> line = s.height_bass + (s.height_treble - s.height_bass) * t;
    if (!s.radius) { return line; }
    const curvature<R> k = number<R>(1) / *s.radius;
    const length<R> drop0 = arc_drop(k, y0), drop1 = arc_drop(k, y1);
    return line + drop0 + (drop1 - drop0) * t - arc_drop(k, y);
}
/// The same for string `i`, which may have a saddle of its own.
template <class R>
[[nodiscard]] length<R> saddle_height_of(const basic_saddle<R>& s, std::size_t i, const length<R>& y0, const length<R>& y1,
                                         const length<R>& y) {
    return s.single.empty() ? saddle_height_at<R>(s, y0, y1, y) + s.slot_offset(i) : length<R>(s.single[i].height);
}
/// Where string `i` meets the saddle, along x; `line_x` is the place of the saddle's line for it.
/// @param across 0 at the outermost bass string, 1 at the outermost treble string
template <class R>
[[nodiscard]] length<R> saddle_place_of(const basic_saddle<R>& s, std::size_t i, const length<R>& line_x, const R& across) {
    if (!s.single.empty()) { return line_x + s.single[i].setback; }
    return line_x + s.setback_bass + (s.setback_treble - s.setback_bass) * across;
}

/// A number for each of the two outermost strings.
template <class R>
struct outer_pair {
    length<R> bass{}, treble{};
};
/// Heights of the saddle under both outermost strings.
template <class R>
[[nodiscard]] outer_pair<R> outer_saddle_heights(const basic_saddle<R>& s) {
    if (s.single.empty()) { return {s.height_bass, s.height_treble}; }
    return {s.single.front().height, s.single.back().height};
}
/// Setbacks of both outermost strings.
template <class R>
[[nodiscard]] outer_pair<R> outer_setbacks(const basic_saddle<R>& s) {
    if (s.single.empty()) { return {s.setback_bass, s.setback_treble}; }
    return {s.single.front().setback, s.single.back().setback};
}
/// The most setback of any string.
template <class R>
[[nodiscard]] length<R> most_setback(const basic_saddle<R>& s) {
    if (s.single.empty()) { return max<unit::length, R>(s.setback_bass, s.setback_treble); }
    length<R> most = s.single.front().setback;
    for (const auto& one : s.single) { most = max<unit::length, R>(most, one.setback); }
    return most;
}
/// The least setback of any string.
template <class R>
[[nodiscard]] length<R> least_setback(const basic_saddle<R>& s) {
    if (s.single.empty()) { return min<unit::length, R>(s.setback_bass, s.setback_treble); }
    length<R> least = s.single.front().setback;
    for (const auto& one : s.single) { least = min<unit::length, R>(least, one.setback); }
    return least;
}

} // namespace tautline::kernel
