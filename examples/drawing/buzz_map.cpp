#include "buzz_map.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "frame.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

/// Classes of clearance and their patterns. Their bounds are at most common practice, no source.
struct clearance_class {
    double below_mm;
    double hatch; ///< distance of hatch lines, mm; 0: none
    bool crossed;
};
constexpr clearance_class classes[] = {{0.10, 0.9, true}, {0.20, 1.1, false}, {0.40, 2.6, false}};

/// The class of a number as it is written, so that a written 0.40 never counts as less than 0.40.
const clearance_class* class_of(tl::length<double> gap, measures m) {
    const auto written = [m](tl::length<double> q) {
        return std::round(m == measures::imperial ? q / thou * 10 : q / mm * 100);
    };
    for (const auto& c : classes) {
        if (written(gap) < written(c.below_mm * mm)) { return &c; }
    }
    return nullptr;
}

constexpr double row_height = 8.6, least_column = 10.2, label_column = 17, block_head = 11;

/// Part of one state's map: strings and places (0 is open) from one to before another.
struct block {
    const subject* of = nullptr;
    std::string words{};
    std::size_t first_string = 0, end_string = 0;
    std::size_t first_place = 0, end_place = 0;

    [[nodiscard]] double height() const { return block_head + row_height * static_cast<double>(end_string - first_string); }
};

/// A sign that nobody mistakes for a number's shade: a ring with a cross.
void touching_sign(canvas& c, place middle, double r, ink shade) {
    const pen p{.width = 0.35, .shade = shade};
    c.circle(middle, r, p);
    const double d = r * 0.7;
    c.line({middle.x - d, middle.y - d}, {middle.x + d, middle.y + d}, p);
    c.line({middle.x - d, middle.y + d}, {middle.x + d, middle.y - d}, p);
}

void draw_pattern(canvas& c, const box& b, const clearance_class* k) {
    if (k) { c.hatch(b, k->hatch, k->crossed, {.width = 0.18}); }
}

void draw_cell(canvas& c, const box& b, const tl::least_clearance_result* least, measures m, double letters = 1) {
    const pen border{.width = 0.15, .shade = ink::grey};
    if (!least) {
        c.text({b.middle(), b.top + b.height / 2 + 0.9}, "-", {.side = align::middle, .shade = ink::grey});
        c.rectangle(b, border);
        return;
    }
    // A cell has no room for both systems. The metric number then serves both.
    const std::string number =
        m == measures::imperial ? tl::fixed_text(least->gap, thou, 1) : tl::fixed_text(least->gap, mm, 2);
    const std::string nearest = std::to_string(least->fret_number());
    const bool touches = least->gap <= 0 * mm;
    const box strip{b.left, b.bottom() - 3.2, b.width, 3.2};
    if (touches) {
        c.fill(b, ink::black);
        touching_sign(c, {b.left + 2.2, strip.top + 1.3}, 1.1, ink::white);
    } else {
        draw_pattern(c, strip, class_of(least->gap, m));
        c.line({b.left, strip.top}, {b.right(), strip.top}, {.width = 0.1, .shade = ink::pale});
    }
    c.text({b.middle(), b.top + 3.9}, number,
           {.size = 2.9 * letters, .side = align::middle, .bold = touches, .shade = touches ? ink::white : ink::black});
    if (touches) {
        c.text({b.right() - 0.8, b.bottom() - 0.8}, nearest,
               {.size = 2.2 * letters, .side = align::right, .shade = ink::white});
    } else {
        c.text({b.right() - 0.8, b.bottom() - 0.7}, nearest, {.size = 2.2 * letters, .side = align::right, .backed = true});
    }
    c.rectangle(b, border);
}

void draw_block(canvas& c, const box& room, const block& b, measures m) {
    const auto columns = static_cast<double>(b.end_place - b.first_place);
    const double column = std::min(16.0, (room.width - label_column) / columns);
    c.text({room.left, room.top + 3.4}, b.words, {.size = 3, .bold = true});
    double y = room.top + block_head;
    for (std::size_t n = b.first_place; n < b.end_place; ++n) {
        const double x = room.left + label_column + column * (static_cast<double>(n - b.first_place) + 0.5);
        c.text({x, y - 1.2}, n == 0 ? "open" : std::to_string(n), {.size = 2.6, .side = align::middle});
    }
    for (std::size_t i = b.first_string; i < b.end_string; ++i, y += row_height) {
        const std::string name = string_label(*b.of, i);
        c.text({room.left, y + row_height / 2 + 1}, name, c.smaller(name, label_column - 1, {.size = 2.8}));
        const auto& string = b.of->setup.strings[i];
        const auto& clearances = string.clearances;
        for (std::size_t n = b.first_place; n < b.end_place; ++n) {
            const box cell{room.left + label_column + column * static_cast<double>(n - b.first_place), y, column,
                           row_height};
            draw_cell(c, cell, n < clearances.size() && string.has_fret(n) ? &clearances[n] : nullptr, m);
        }
    }
}

/// What the patterns mean, side by side or one under the other.
void draw_legend(canvas& c, place at, measures m, bool downward = false) {
    double x = at.x, y = at.y;
    const lettering l{.size = downward ? 3.2 : 2.5};
    const auto entry = [&](const std::string& words, const std::function<void(const box&)>& sample) {
        const box b{x, y - 3, 9, 3.6};
        sample(b);
        c.rectangle(b, {.width = 0.15, .shade = ink::grey});
        c.text({x + 10.5, y}, words, l);
        (downward ? y : x) += downward ? 5.5 : 15 + c.text_width(words, l);
    };
    entry("touches", [&](const box& b) {
        c.fill(b, ink::black);
        touching_sign(c, {b.middle(), b.top + b.height / 2}, 1.1, ink::white);
    });
    for (const auto& k : classes) {
        entry("less than " + written_height(k.below_mm * mm, m), [&](const box& b) { draw_pattern(c, b, &k); });
    }
    entry("more", [](const box&) {});
    c.text({x, y}, "small number: the fret that is nearest", l);
}

std::vector<block> blocks_of(const subject& s, const std::string& words, const box& room) {
    const auto most_rows = static_cast<std::size_t>((room.height - block_head) / row_height);
    const auto most_columns = static_cast<std::size_t>((room.width - label_column) / least_column);
    const std::size_t strings = s.setup.strings.size(), places = s.setup.fret_x.size() + 1;
    std::vector<block> blocks;
    for (std::size_t n = 0; n < places; n += most_columns) {
        for (std::size_t i = 0; i < strings; i += most_rows) {
            block b{&s, words, i, std::min(strings, i + most_rows), n, std::min(places, n + most_columns)};
            if (strings > most_rows || places > most_columns) {
                b.words += "; strings " + s.setup.names.number(b.first_string) + "-" +
                           s.setup.names.number(b.end_string - 1) + ", frets " + (n == 0 ? "open" : std::to_string(n)) +
                           "-" + std::to_string(b.end_place - 1);
            }
            blocks.push_back(b);
        }
    }
    return blocks;
}

} // namespace

sheets buzz_map(const heading& h, const subject& found, const subject* planned) {
    const box sheet = landscape(h.paper);
    // What draw_frame leaves, less the legend.
    const box room{margin, margin + 19, sheet.width - 2 * margin, sheet.height - 2 * margin - 24};
    const auto kept = std::make_shared<std::pair<subject, std::optional<subject>>>(found, planned ? std::optional(*planned)
                                                                                                  : std::nullopt);
    const std::string unit = h.measures == measures::imperial ? "thou" : "mm";
    std::vector<block> blocks = blocks_of(kept->first, "As found, strings at pitch, " + unit, room);
    if (kept->second) {
        for (auto& b : blocks_of(*kept->second, "Planned, strings at pitch, " + unit, room)) {
            blocks.push_back(std::move(b));
        }
    }

    std::vector<std::vector<block>> on_pages;
    double used = room.height;
    for (const block& b : blocks) {
        constexpr double between = 4;
        if (used + between + b.height() > room.height) {
            on_pages.emplace_back();
            used = -between;
        }
        on_pages.back().push_back(b);
        used += between + b.height();
    }
    sheets out{"buzz_map", {}};
    for (std::size_t k = 0; k < on_pages.size(); ++k) {
        const std::string count =
            on_pages.size() > 1 ? " Page " + std::to_string(k + 1) + " of " + std::to_string(on_pages.size()) + "." : "";
        out.pages.push_back(
            {sheet, [=, drawn = on_pages[k]](canvas& c) {
                 draw_frame(c, h, sheet,
                            "Least clearance ahead of the pressed fret, string at pitch and at rest; rows strings, "
                            "columns where it is pressed." +
                                count);
                 draw_legend(c, {room.left, room.top - 3.5}, h.measures);
                 double y = room.top;
                 for (const block& b : drawn) {
                     draw_block(c, {room.left, y, room.width, b.height()}, b, h.measures);
                     y += b.height() + 4;
                 }
                 (void)kept;
             }});
    }
    return out;
}

std::vector<map_part> map_parts(const subject& s, const std::string& state, measures m) {
    constexpr double side = 1, numbers = 11, cell = 12, head = 7;
    constexpr std::size_t most_columns = 9;
    const auto kept = std::make_shared<subject>(s);
    const std::size_t strings = s.setup.strings.size(), places = s.setup.fret_x.size() + 1;
    const std::string unit = m == measures::imperial ? "thou" : "mm";
    std::vector<map_part> parts;
    // As few parts as possible, all of about the same width.
    const std::size_t count = (strings + most_columns - 1) / most_columns, each = (strings + count - 1) / count;
    for (std::size_t first = 0; first < strings; first += each) {
        const std::size_t end = std::min(strings, first + each);
        const auto columns = static_cast<double>(end - first);
        const box sheet{0, 0, 2 * side + numbers + cell * columns, head + row_height * static_cast<double>(places) + side};
        std::string heading = state + ", strings at pitch, " + unit;
        if (count > 1) { heading += "; strings " + s.setup.names.number(first) + "-" + s.setup.names.number(end - 1); }
        parts.push_back(
            {heading, {sheet, [=](canvas& c) {
                           for (std::size_t i = first; i < end; ++i) {
                               const double x = side + numbers + cell * static_cast<double>(i - first);
                               const std::string name = string_label(*kept, i);
                               c.text({x + cell / 2, head - 2}, name,
                                      c.smaller(name, cell - 1, {.size = 3.2, .side = align::middle}));
                               const auto& string = kept->setup.strings[i];
                               for (std::size_t n = 0; n < places; ++n) {
                                   draw_cell(c, {x, head + row_height * static_cast<double>(n), cell, row_height},
                                             n < string.clearances.size() && string.has_fret(n) ? &string.clearances[n]
                                                                                                : nullptr,
                                             m, 1.1);
                               }
                           }
                           for (std::size_t n = 0; n < places; ++n) {
                               const double y = head + row_height * (static_cast<double>(n) + 0.5) + 1;
                               c.text({side + numbers - 1.5, y}, n == 0 ? "open" : std::to_string(n),
                                      {.size = 3.2, .side = align::right});
                           }
                       }}});
    }
    return parts;
}

page map_legend(measures m) {
    return {{0, 0, 78, 34}, [m](canvas& c) { draw_legend(c, {1, 5}, m, true); }};
}

} // namespace drawing
