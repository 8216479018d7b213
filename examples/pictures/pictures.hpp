#pragma once
/// @file
/// The pictures of the documents.

#include <cmath>
#include <string>
#include <vector>

#include "canvas.hpp"

namespace pictures {

/// A picture and the name of its file, without ending.
struct picture {
    std::string name{};
    drawing::page page{};
    double dots_per_inch = 150; ///< as PNG
};

/// Those of docs/strings.md.
[[nodiscard]] std::vector<picture> of_strings();
/// Those of docs/glossary.md: one instrument from the side and from above, its places numbered.
[[nodiscard]] std::vector<picture> of_an_instrument();
/// Those of docs/first-hour.md: where each measurement of an instrument is taken, its places numbered. First neck and head.
[[nodiscard]] std::vector<picture> of_measuring_necks();
/// Then the strings' ends at the body.
[[nodiscard]] std::vector<picture> of_measuring_bridges();

/// A straight arrow.
inline void arrow(drawing::canvas& c, drawing::place from, drawing::place to, const drawing::pen& p = {.width = 0.4}) {
    const double turn = std::atan2(to.y - from.y, to.x - from.x);
    const auto barb = [&](double by) {
        return drawing::place{to.x - 2.4 * std::cos(turn + by), to.y - 2.4 * std::sin(turn + by)};
    };
    c.line(from, to, p);
    c.line(barb(0.4), to, p);
    c.line(barb(-0.4), to, p);
}

/// A number in a ring, with a line to what it speaks of.
inline void mark(drawing::canvas& c, const std::string& number, drawing::place ring, drawing::place of) {
    const double away = std::hypot(of.x - ring.x, of.y - ring.y), r = 4;
    if (away > r) {
        c.line({ring.x + (of.x - ring.x) * r / away, ring.y + (of.y - ring.y) * r / away}, of,
               {.width = 0.25, .shade = drawing::ink::grey});
        c.dot(of, 0.6);
    }
    c.dot(ring, r, drawing::ink::white);
    c.circle(ring, r, {.width = 0.35});
    c.text({ring.x, ring.y + 1.6}, number, {.size = 4.6, .side = drawing::align::middle, .bold = true});
}

/// An empty sheet that is white on any ground.
[[nodiscard]] inline drawing::page white_page(double width, double height, std::function<void(drawing::canvas&)> draw) {
    const drawing::box sheet{0, 0, width, height};
    return {sheet, [sheet, draw = std::move(draw)](drawing::canvas& c) {
                c.fill(sheet, drawing::ink::white);
                draw(c);
            }};
}

} // namespace pictures
