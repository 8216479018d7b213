#include "drawn_bows.hpp"

#include <cstdio>
#include <iterator>

#include <file.hpp>

#include "canvas.hpp"

namespace tutorial {

namespace {

using namespace tautline;
using namespace tautline::units;

constexpr drawing::box sheet{0, 0, 150, 84}, room{16, 16, 110, 48};
constexpr double heights = 120; // of paper for each of the neck

/// How far a crest lies under the straightedge.
double gap_mm(const drawn_bow& b, std::size_t i) {
    const auto &first = b.crests.front(), &last = b.crests.back(), &here = b.crests[i];
    const double along = (here.x - first.x) / (last.x - first.x);
    return (first.z + (last.z - first.z) * along - here.z) / mm;
}

void draw(drawing::canvas& c, const std::vector<drawn_bow>& bows) {
    c.fill(sheet, drawing::ink::white);
    c.text({room.left, 8}, "Gap under a straightedge on frets 1 and 14, heights 120 times", {.size = 3.6, .bold = true});
    c.line({room.left, room.top}, {room.right(), room.top}, {.width = 0.3});
    c.text({room.right() + 1.5, room.top + 1}, "straightedge");
    const drawing::pen strokes[] = {
        {.width = 0.35, .dash = 1, .gap = 0.8}, {.width = 0.35}, {.width = 0.35, .dash = 3, .gap = 1}};
    const auto &first = bows.front().crests.front(), &last = bows.front().crests.back();
    const auto x_of = [&](const crest& k) { return room.left + room.width * ((k.x - first.x) / (last.x - first.x)); };
    for (std::size_t b = 0; b < bows.size(); ++b) {
        std::vector<drawing::place> curve;
        for (std::size_t i = 0; i < bows[b].crests.size(); ++i) {
            curve.push_back({x_of(bows[b].crests[i]), room.top + heights * gap_mm(bows[b], i)});
        }
        c.path(curve, strokes[b % std::size(strokes)]);
        const auto y = room.bottom() + 4 + 4.2 * static_cast<double>(b);
        c.line({room.left, y - 1}, {room.left + 14, y - 1}, strokes[b % std::size(strokes)]);
        char text[80];
        std::snprintf(text, sizeof text, "%s set: relief %.2f mm", bows[b].name.c_str(), bows[b].relief / mm);
        c.text({room.left + 16, y}, text);
    }
    for (std::size_t i = 0; i < bows.front().crests.size(); ++i) {
        const double x = x_of(bows.front().crests[i]);
        c.dot({x, room.top}, 0.5);
        c.text({x, room.top - 2}, std::to_string(i + 1), {.size = 2.5, .side = drawing::align::middle});
    }
}

} // namespace

void draw_bows(const std::string& file, const std::vector<drawn_bow>& bows) {
    const drawing::page page{sheet, [&](drawing::canvas& c) { draw(c, bows); }};
    outside::write_file(file, drawing::png_of(page, 150));
}

} // namespace tutorial
