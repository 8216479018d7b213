#include "tiles.hpp"

#include <algorithm>
#include <cmath>

#include "frame.hpp"

namespace drawing {

namespace {

constexpr double bar_length = 100, gap_between = 5, name_height = 5, band = 9;

/// A bar of 100 mm from one end to the other, its ends and every 10 mm marked outside its length.
void draw_bar(canvas& c, place start, bool upright) {
    const auto at = [&](double along, double off) {
        return upright ? place{start.x + off, start.y - along} : place{start.x + along, start.y - off};
    };
    c.line(at(0, 0), at(bar_length, 0), {.width = 0.3});
    for (int k = 0; k <= 10; ++k) { c.line(at(10 * k, 0), at(10 * k, k % 5 == 0 ? 3 : 1.8), {.width = 0.15}); }
}

struct placed {
    true_size thing{};
    place corner{}; ///< of its name, within the room
};
/// What one page shows: things beside and under one another, or one tile of a thing.
struct layout {
    std::vector<placed> things{};
    std::optional<true_size> tiled{};
    int row = 0, column = 0, rows = 1, columns = 1;
};

int tiles_along(double size, double room) {
    return size <= room ? 1 : 1 + static_cast<int>(std::ceil((size - room) / (room - overlap) - 1e-9));
}
/// "A1": rows by letters from the top, columns by numbers from the left.
std::string tile_name(int row, int column) {
    std::string letters;
    for (int r = row; r >= 0; r = r / 26 - 1) { letters.insert(letters.begin(), static_cast<char>('A' + r % 26)); }
    return letters + std::to_string(column + 1);
}

/// A thing with free bands above and below it, where the crosses of its seams stand.
true_size with_bands(const true_size& t) {
    return {t.name, t.width, t.height + 2 * band, [t](canvas& c) {
                c.within({0, 0, t.width, t.height + 2 * band}, {0, band}, t.draw);
            }};
}

std::vector<layout> lay_out(const box& room, const std::vector<true_size>& things) {
    std::vector<layout> pages;
    double x = 0, y = 0, shelf = 0; // of the shelf that is being filled
    bool open = false;
    for (const true_size& t : things) {
        const double high = name_height + t.height;
        if (t.width > room.width || high > room.height) {
            const true_size banded = with_bands(t);
            const int columns = tiles_along(banded.width, room.width), rows = tiles_along(banded.height, room.height);
            for (int r = 0; r < rows; ++r) {
                for (int k = 0; k < columns; ++k) { pages.push_back({{}, banded, r, k, rows, columns}); }
            }
            open = false;
            continue;
        }
        if (open && x + t.width > room.width) {
            x = 0;
            y += shelf + gap_between;
            shelf = 0;
        }
        if (!open || y + high > room.height) {
            pages.emplace_back();
            x = y = shelf = 0;
            open = true;
        }
        pages.back().things.push_back({t, {x, y}});
        x += t.width + gap_between;
        shelf = std::max(shelf, high);
    }
    return pages;
}

/// A cross that is printed on both pages of a seam.
void draw_cross(canvas& c, place at, const std::string& name) {
    const pen p{.width = 0.15};
    c.line({at.x - 4, at.y}, {at.x + 4, at.y}, p);
    c.line({at.x, at.y - 4}, {at.x, at.y + 4}, p);
    c.circle(at, 1.5, p);
    c.text({at.x + 0.7, at.y + 3.6}, name, {.size = 1.9});
}

void draw_tile(canvas& c, const box& room, const layout& l) {
    const true_size& t = *l.tiled;
    const double step_x = room.width - overlap, step_y = room.height - overlap;
    const double x0 = l.column * step_x, y0 = l.row * step_y;
    c.within(room, {room.left - x0, room.top - y0}, [&](canvas& inside) {
        t.draw(inside);
        const pen seam{.width = 0.12, .shade = ink::grey, .dash = 2, .gap = 2};
        // Crosses stand in the middle of what two pages share, near both ends of the seam.
        for (int k = 1; k < l.columns; ++k) {
            inside.line({k * step_x, y0}, {k * step_x, y0 + room.height}, seam);
            inside.line({k * step_x + overlap, y0}, {k * step_x + overlap, y0 + room.height}, seam);
            for (int r = 0; r < l.rows; ++r) {
                const std::string name = tile_name(r, k - 1) + "|" + tile_name(r, k);
                const double top = r * step_y + (r > 0 ? overlap : 0),
                             bottom = std::min(t.height, r * step_y + room.height - (r + 1 < l.rows ? overlap : 0));
                draw_cross(inside, {k * step_x + overlap / 2, top + band / 2}, name);
                draw_cross(inside, {k * step_x + overlap / 2, std::max(top + 15, bottom - 5)}, name);
            }
        }
        for (int r = 1; r < l.rows; ++r) {
            inside.line({x0, r * step_y}, {x0 + room.width, r * step_y}, seam);
            inside.line({x0, r * step_y + overlap}, {x0 + room.width, r * step_y + overlap}, seam);
            for (int k = 0; k < l.columns; ++k) {
                const std::string name = tile_name(r - 1, k) + "/" + tile_name(r, k);
                const double left = k * step_x + (k > 0 ? overlap : 0),
                             right = std::min(t.width, k * step_x + room.width - (k + 1 < l.columns ? overlap : 0));
                draw_cross(inside, {left + 5, r * step_y + overlap / 2}, name);
                draw_cross(inside, {std::max(left + 15, right - 5), r * step_y + overlap / 2}, name);
            }
        }
    });
}

} // namespace

box template_room(paper p) {
    const box sheet = landscape(p);
    return {margin + 12, margin + 12, sheet.width - 2 * margin - 12, sheet.height - 2 * margin - 12 - 22};
}

std::vector<page> true_size_pages(const heading& h, const std::string& below_title, const std::vector<true_size>& things) {
    const box sheet = landscape(h.paper), room = template_room(h.paper);
    const std::vector<layout> laid = lay_out(room, things);
    std::vector<page> pages;
    for (std::size_t n = 0; n < laid.size(); ++n) {
        const layout& l = laid[n];
        std::string name = l.tiled ? l.tiled->name + ": part " + tile_name(l.row, l.column) + " of " + tile_name(0, 0) +
                                         " to " + tile_name(l.rows - 1, l.columns - 1) +
                                         ", lay the crosses of one name on one another"
                                   : "";
        const std::string count = "page " + std::to_string(n + 1) + " of " + std::to_string(laid.size());
        pages.push_back(
            {sheet, [=](canvas& c) {
                 const lettering large{.size = 4.2, .bold = true}, plain{.size = 2.6}, small{.size = 2.4};
                 const double right = sheet.width - margin;
                 const double counted = c.text_width(count, plain) + 4;
                 c.text({right, margin + 4}, count, {.size = plain.size, .side = align::right});
                 c.text({margin, margin + 4}, c.fitted(h.title, right - margin - counted, large), large);
                 c.text({margin, margin + 8.6}, c.fitted(below_title + " " + name, right - margin, plain), plain);
                 c.rectangle(room, {.width = 0.1, .shade = ink::pale});
                 if (l.tiled) {
                     draw_tile(c, room, l);
                 } else {
                     for (const placed& p : l.things) {
                         const place at{room.left + p.corner.x, room.top + p.corner.y};
                         const lettering name_of{.size = 2.8, .bold = true};
                         c.text({at.x + 1, at.y + 3.4}, c.fitted(p.thing.name, p.thing.width - 2, name_of), name_of);
                         c.within({at.x, at.y + name_height, p.thing.width, p.thing.height}, {at.x, at.y + name_height},
                                  p.thing.draw);
                     }
                 }
                 const double foot = sheet.height - margin;
                 draw_bar(c, {room.left, foot - 13}, false);
                 draw_bar(c, {margin + 2, room.top + room.height / 2 + bar_length / 2}, true);
                 c.text({margin + 9, room.top + room.height / 2}, "100 mm",
                        {.size = 2.6, .side = align::middle, .upward = true});
                 const double words = room.left + bar_length + 6;
                 c.text({words, foot - 14}, "Both bars must measure 100 mm (3.937 in) on the print.",
                        {.size = 2.9, .bold = true});
                 c.text({words, foot - 10},
                        c.fitted("Print at 100 %, no fit to page. Cut no wood before both bars are measured.",
                                 right - words, plain),
                        plain);
                 c.text({room.left, foot - 8.6}, "100 mm", {.size = 2.6});
                 c.text({margin, foot - 3.4},
                        c.fitted("Paper moves with the weather: check against a steel rule before cutting, and measure the "
                                 "instrument itself again.",
                                 right - margin, small),
                        small);
                 c.text({margin, foot}, c.fitted(caution, right - margin, small), small);
             }});
    }
    return pages;
}

} // namespace drawing
