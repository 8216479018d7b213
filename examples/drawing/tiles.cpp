#include "tiles.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <span>

#include "frame.hpp"
#include "labels.hpp"

namespace drawing {

namespace {

constexpr double bar_length = 100, gap_between = 5, name_height = 5, band = 9;

/// A bar 100 mm long. Marks at its ends and every 10 mm lie beside it.
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
/// A cross printed on both pages of a seam.
struct cross {
    place at{};
    std::string name{};
};
/// A thing on several pages: where each page begins in it, and the crosses of the seams.
struct tiling {
    true_size thing{};
    box room{};
    noted_marks marks{};
    std::vector<double> x{}, y{}; ///< left edges and upper edges of the pages
    std::vector<cross> crosses{};
};
/// The contents of a page: things beside and below one another, or one tile of a thing.
struct layout {
    std::vector<placed> things{};
    std::shared_ptr<const tiling> of{};
    std::size_t row = 0, column = 0;
};

/// "A1": rows by letters from the top, columns by numbers from the left.
std::string tile_name(std::size_t row, std::size_t column) {
    std::string letters;
    for (std::size_t r = row + 1; r > 0; r = (r - 1) / 26) {
        letters.insert(letters.begin(), static_cast<char>('A' + (r - 1) % 26));
    }
    return letters + std::to_string(column + 1);
}

/// A thing with free bands above and below it for the crosses of its seams.
true_size with_bands(const true_size& t) {
    return {t.name, t.width, t.height + 2 * band, [t](canvas& c) {
                c.within({0, 0, t.width, t.height + 2 * band}, {0, band}, t.draw);
            }};
}

/// The extent of a label along one axis.
struct reach {
    double from, to;
};
/// Where pages begin along one axis. Each page shares at least the overlap with the page before, and begins before any
/// label that the page before cuts.
std::vector<double> pages_along(double size, double room, const std::vector<reach>& labels) {
    constexpr double least_step = 20;
    std::vector<double> starts{0};
    while (starts.back() + room < size) {
        const double before = starts.back();
        double next = before + room - overlap;
        for (const reach& l : labels) {
            if (l.from >= before && l.to > before + room) { next = std::min(next, l.from - 0.5); }
        }
        starts.push_back(std::max(next, before + least_step));
    }
    return starts;
}

/// The room of a cross with its name.
box around(const cross& c) { return {c.at.x - 4.3, c.at.y - 4.3, 12.3, 8.6}; }

/// Places for a cross on the overlap of two pages, along the seam from one end. The middle comes first.
std::vector<cross> cross_places(const box& shared, bool upright, bool from_end, const std::string& name) {
    const double first = (upright ? shared.top : shared.left) + 4.5,
                 last = (upright ? shared.bottom() : shared.right()) - (upright ? 4.5 : 8.5);
    std::vector<double> across{upright ? shared.middle() - 2 : shared.top + shared.height / 2};
    const double from = upright ? shared.left + 4.4 : shared.top + 4.4,
                 to = upright ? shared.right() - 8.1 : shared.bottom() - 4.4;
    for (double v = from; v <= to; v += 1.5) { across.push_back(v); }
    std::vector<cross> places;
    for (const double off : across) {
        for (double v = 0; v < std::max(0.25, last - first + 0.25); v += 0.5) {
            const double at = from_end ? std::max(first, last - v) : first + v;
            places.push_back({upright ? place{off, at} : place{at, off}, name});
        }
    }
    return places;
}
/// Two crosses on the overlap of two pages alone, near both ends of the seam, clear of letters and if possible of lines. If
/// letters leave no room there, the crosses lie where other pages overlap too, or on the paper beyond.
void add_crosses(tiling& t, const box& alone, const box& shared, bool upright, const std::string& name) {
    noted_marks letters;
    letters.texts = t.marks.texts;
    std::optional<cross> one;
    for (const bool from_end : {false, true}) {
        std::vector<cross> candidates = cross_places(alone, upright, from_end, name);
        const auto more = cross_places(shared, upright, from_end, name);
        candidates.insert(candidates.end(), more.begin(), more.end());
        std::erase_if(candidates,
                      [&](const cross& c) { return one && std::hypot(c.at.x - one->at.x, c.at.y - one->at.y) < 15; });
        if (candidates.empty()) { break; }
        std::vector<box> boxes;
        for (const cross& c : candidates) { boxes.push_back(around(c)); }
        std::size_t at = first_free(boxes, t.marks);
        if (!is_free(boxes[at], t.marks)) { at = first_free(boxes, letters); }
        one = candidates[at];
        t.crosses.push_back(*one);
        t.marks.texts.push_back({name, boxes[at], {}, false, 0});
        letters.texts.push_back(t.marks.texts.back());
    }
}

std::shared_ptr<const tiling> tiled(const true_size& thing, const box& room) {
    auto t = std::make_shared<tiling>();
    t->thing = with_bands(thing);
    t->room = room;
    t->marks = note({0, 0, t->thing.width, t->thing.height}, t->thing.draw);
    std::vector<reach> along, down;
    for (const noted_text& l : t->marks.texts) {
        along.push_back({l.around.left, l.around.right()});
        down.push_back({l.around.top, l.around.bottom()});
    }
    t->x = pages_along(t->thing.width, room.width, along);
    t->y = pages_along(t->thing.height, room.height, down);
    const auto free_from = [](const std::vector<double>& starts, double length, std::size_t k) {
        return k > 0 ? starts[k - 1] + length : starts[k];
    };
    const auto free_to = [](const std::vector<double>& starts, double length, std::size_t k, double size) {
        return k + 1 < starts.size() ? starts[k + 1] : std::min(size, starts[k] + length);
    };
    for (std::size_t k = 1; k < t->x.size(); ++k) {
        for (std::size_t r = 0; r < t->y.size(); ++r) {
            const double top = free_from(t->y, room.height, r), end = free_to(t->y, room.height, r, t->thing.height);
            const double wide = t->x[k - 1] + room.width - t->x[k];
            add_crosses(*t, {t->x[k], top, wide, end - top}, {t->x[k], t->y[r], wide, room.height}, true,
                        tile_name(r, k - 1) + "|" + tile_name(r, k));
        }
    }
    for (std::size_t r = 1; r < t->y.size(); ++r) {
        for (std::size_t k = 0; k < t->x.size(); ++k) {
            const double left = free_from(t->x, room.width, k), end = free_to(t->x, room.width, k, t->thing.width);
            const double high = t->y[r - 1] + room.height - t->y[r];
            add_crosses(*t, {left, t->y[r], end - left, high}, {t->x[k], t->y[r], room.width, high}, false,
                        tile_name(r - 1, k) + "/" + tile_name(r, k));
        }
    }
    return t;
}

/// Fills pages shelf by shelf.
class shelves {
public:
    explicit shelves(const box& room) : room_(room) {}

    /// Whether these fit on the open page.
    [[nodiscard]] bool fit(std::span<const true_size> things) const {
        shelves tried = *this;
        for (const true_size& t : things) {
            if (!tried.put(t)) { return false; }
        }
        return true;
    }
    /// Puts a thing on the open page. Returns whether it fits.
    bool put(const true_size& t) {
        if (!open_) { return false; }
        place at{x_, y_};
        double shelf = shelf_;
        if (at.x > 0 && at.x + t.width > room_.width) { at = {0, y_ + shelf_ + gap_between}, shelf = 0; }
        const double high = name_height + t.height;
        if (at.y > 0 && at.y + high > room_.height) { return false; }
        pages.back().things.push_back({t, at});
        x_ = at.x + t.width + gap_between;
        y_ = at.y;
        shelf_ = std::max(shelf, high);
        return true;
    }
    void begin() {
        pages.emplace_back();
        x_ = y_ = shelf_ = 0;
        open_ = true;
    }
    /// The pages of a thing that is larger than a page.
    void add(const std::shared_ptr<const tiling>& t) {
        for (std::size_t r = 0; r < t->y.size(); ++r) {
            for (std::size_t k = 0; k < t->x.size(); ++k) { pages.push_back({{}, t, r, k}); }
        }
        open_ = false;
    }

    std::vector<layout> pages{};

private:
    box room_;
    double x_ = 0, y_ = 0, shelf_ = 0; // of the shelf that is being filled
    bool open_ = false;
};

std::vector<layout> lay_out(const box& room, const std::vector<true_size>& things) {
    shelves on(room);
    for (std::size_t i = 0; i < things.size();) {
        std::size_t end = i + 1;
        while (end < things.size() && things[end].is_table) { ++end; }
        const std::span<const true_size> group(&things[i], end - i);
        const true_size& drawing = group.front();
        const bool large = drawing.width > room.width || name_height + drawing.height > room.height;
        if (large) {
            on.add(tiled(drawing, room));
        } else if (!on.fit(group)) {
            on.begin();
            on.put(drawing);
        } else {
            on.put(drawing);
        }
        for (const true_size& table : group.subspan(1)) {
            if (on.put(table)) { continue; }
            on.begin();
            if (!large) { on.put(drawing); }
            on.put(table);
        }
        i = end;
    }
    return on.pages;
}

void draw_cross(canvas& c, const cross& one) {
    const pen p{.width = 0.15};
    const place& at = one.at;
    c.line({at.x - 4, at.y}, {at.x + 4, at.y}, p);
    c.line({at.x, at.y - 4}, {at.x, at.y + 4}, p);
    c.circle(at, 1.5, p);
    c.text({at.x + 0.7, at.y + 3.6}, one.name, {.size = 1.9});
}

/// The edge of a seam, interrupted at letters.
void draw_seam(canvas& c, const tiling& t, place from, place to) {
    const pen seam{.width = 0.12, .shade = ink::grey, .dash = 2, .gap = 2};
    const bool upright = from.x == to.x;
    std::vector<reach> taken;
    for (const noted_text& l : t.marks.texts) {
        const box& b = l.around;
        const bool on_it = upright ? b.left < from.x && b.right() > from.x : b.top < from.y && b.bottom() > from.y;
        if (on_it) { taken.push_back(upright ? reach{b.top, b.bottom()} : reach{b.left, b.right()}); }
    }
    std::sort(taken.begin(), taken.end(), [](const reach& a, const reach& b) { return a.from < b.from; });
    double at = upright ? from.y : from.x;
    const double end = upright ? to.y : to.x;
    const auto piece = [&](double until) {
        if (until > at) {
            c.line(upright ? place{from.x, at} : place{at, from.y}, upright ? place{from.x, until} : place{until, from.y},
                   seam);
        }
    };
    for (const reach& r : taken) {
        piece(std::min(end, r.from - 0.3));
        at = std::max(at, r.to + 0.3);
    }
    piece(end);
}

void draw_tile(canvas& c, const box& room, const layout& l) {
    const tiling& t = *l.of;
    const double x0 = t.x[l.column], y0 = t.y[l.row];
    c.within_uncut(room, {room.left - x0, room.top - y0}, [&](canvas& inside) {
        t.thing.draw(inside);
        for (std::size_t k = 1; k < t.x.size(); ++k) {
            for (const double x : {t.x[k], t.x[k - 1] + room.width}) {
                draw_seam(inside, t, {x, y0}, {x, y0 + room.height});
            }
        }
        for (std::size_t r = 1; r < t.y.size(); ++r) {
            for (const double y : {t.y[r], t.y[r - 1] + room.height}) {
                draw_seam(inside, t, {x0, y}, {x0 + room.width, y});
            }
        }
        for (const cross& one : t.crosses) { draw_cross(inside, one); }
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
        std::string name = l.of ? l.of->thing.name + ": part " + tile_name(l.row, l.column) + " of " + tile_name(0, 0) +
                                      " to " + tile_name(l.of->y.size() - 1, l.of->x.size() - 1) +
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
                 if (l.of) {
                     draw_tile(c, room, l);
                 } else {
                     for (const placed& p : l.things) {
                         const place at{room.left + p.corner.x, room.top + p.corner.y};
                         const lettering name_of{.size = 2.8, .bold = true};
                         const lettering fits = c.smaller(p.thing.name, p.thing.width - 2, name_of);
                         c.text({at.x + 1, at.y + 3.4}, c.fitted(p.thing.name, p.thing.width - 2, fits), fits);
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
