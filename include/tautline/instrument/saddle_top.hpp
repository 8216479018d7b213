#pragma once
/// @file
/// The shape of a saddle's top across the strings.

#include "../board/surface.hpp"
#include "parts.hpp"

namespace tautline::kernel {

/// Height z of the saddle under a string at y between the first string (at y0) and the last (at y1): a line between the two
/// heights, bulged by the arc of the saddle's top.
template <class R>
[[nodiscard]] length<R> saddle_height_at(const basic_saddle<R>& s, const length<R>& y0, const length<R>& y1,
                                         const length<R>& y) {
    // One string stands at y0 = y1: the bass height.
    const length<R> spread = y1 - y0;
    const bool one_place = !one_answer(is_less(length<R>(), spread));
    const R t = one_place ? number<R>(0) : R(ratio<unit::length, R>(y - y0, spread));
    const length<R> line = s.height_bass + (s.height_treble - s.height_bass) * t;
    if (!s.radius) { return line; }
    const curvature<R> k = number<R>(1) / *s.radius;
    const length<R> drop0 = arc_drop(k, y0), drop1 = arc_drop(k, y1);
    return line + drop0 + (drop1 - drop0) * t - arc_drop(k, y);
}

} // namespace tautline::kernel
