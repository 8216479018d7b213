#pragma once
/// @file
/// What the pictures of measuring are drawn with: arrows at both ends of a measure, and the tools it is taken with.

#include <numbers>
#include <string>
#include <vector>

#include "pictures.hpp"

namespace pictures {

/// They are many: as PNG they are drawn less finely than others.
inline constexpr double measuring_dots = 110;

/// A thin grey line from what is measured to its arrows.
inline void led(drawing::canvas& c, drawing::place from, drawing::place to) {
    c.line(from, to, {.width = 0.2, .shade = drawing::ink::grey});
}
/// A dashed line: what is not there to be touched.
inline void dashed(drawing::canvas& c, drawing::place from, drawing::place to) {
    c.line(from, to, {.width = 0.25, .shade = drawing::ink::grey, .dash = 1.6, .gap = 1});
}
/// What is measured: arrows to both its ends, from outside where it is short, and its number in a ring.
inline void measured(drawing::canvas& c, drawing::place a, drawing::place b, const std::string& number,
                     drawing::place ring) {
    const double length = std::hypot(b.x - a.x, b.y - a.y), along_x = (b.x - a.x) / length, along_y = (b.y - a.y) / length;
    const drawing::place middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    if (length > 7) {
        arrow(c, middle, a, {.width = 0.3});
        arrow(c, middle, b, {.width = 0.3});
    } else {
        const double tail = 5;
        arrow(c, {a.x - tail * along_x, a.y - tail * along_y}, a, {.width = 0.3});
        arrow(c, {b.x + tail * along_x, b.y + tail * along_y}, b, {.width = 0.3});
    }
    mark(c, number, ring, middle);
}
/// A word for a tool or a part.
inline void word(drawing::canvas& c, drawing::place at, const std::string& words,
                 drawing::align side = drawing::align::left) {
    c.text(at, words, {.size = 3.4, .side = side});
}
/// A straightedge whose underside runs from `a` to `b`, notched where frets stand.
inline void straightedge(drawing::canvas& c, drawing::place a, drawing::place b, double height,
                         const std::vector<double>& notches = {}) {
    const auto under = [&](double x) { return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x); };
    std::vector<drawing::place> edge{{a.x, a.y - height}, a};
    for (const double x : notches) {
        const double half = 1.5, deep = 3;
        edge.insert(edge.end(), {{x - half, under(x - half)},
                                 {x - half, under(x) - deep},
                                 {x + half, under(x) - deep},
                                 {x + half, under(x + half)}});
    }
    edge.insert(edge.end(), {b, {b.x, b.y - height}});
    c.fill(edge, drawing::ink::pale);
    c.path(edge, {.width = 0.3}, true);
}
/// Leaves of a feeler gauge in a gap, seen from their side; their handle lies to the right.
inline void feelers(drawing::canvas& c, drawing::place corner, double width, double height) {
    c.fill(drawing::box{corner.x, corner.y - height, width, height}, drawing::ink::grey);
    for (const double share : {0.0, 0.5, 1.0}) {
        const double y = corner.y - height * share;
        c.line({corner.x, y}, {corner.x + width, y}, {.width = 0.2});
    }
}
/// A steel rule that stands on its end.
inline void standing_rule(drawing::canvas& c, drawing::place foot, double height, double width = 6) {
    const drawing::box rule{foot.x, foot.y - height, width, height};
    c.fill(rule, drawing::ink::white);
    c.rectangle(rule, {.width = 0.3});
    for (double up = 1; up < height; up += 1) {
        const double tick = std::fmod(up, 5) < 0.5 ? 2.4 : 1.3;
        c.line({foot.x, foot.y - up}, {foot.x + tick, foot.y - up}, {.width = 0.15});
    }
}
/// A fret with its tang in a board whose face is at `foot`.
inline void fret(drawing::canvas& c, drawing::place foot, double crown, double width, double tang = 0) {
    std::vector<drawing::place> arc;
    for (int i = 0; i <= 20; ++i) {
        const double turn = std::numbers::pi * i / 20.0;
        arc.push_back({foot.x - width / 2 * std::cos(turn), foot.y - crown * std::sin(turn)});
    }
    c.fill(arc, drawing::ink::black);
    if (tang > 0) { c.fill(drawing::box{foot.x - 0.6, foot.y, 1.2, tang}, drawing::ink::black); }
}

} // namespace pictures
