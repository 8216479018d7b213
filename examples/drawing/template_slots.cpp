#include <algorithm>

#include "labels.hpp"
#include "spread.hpp"
#include "template_parts.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

/// A string at the nut or saddle, mm: its place across from the centre line, and the height of its underside.
struct crossing {
    std::string label{}; ///< its number
    double y = 0, z = 0, gauge = 0;
    double first = 0; ///< how much higher it is left at first; 0: it is not cut
};

/// " Dashed: the first cut, 0.12 mm higher. ...": what is left at first, as the steps tell it.
std::string first_cut_words(const std::optional<tl::length<double>>& left, measures m) {
    if (!left) { return ""; }
    return " Dashed: the first cut, " + written_told(*left, tl::left_told(*left), m) +
           " higher. What is read at pitch tells the last one.";
}

/// How a support is drawn.
enum class elevation_on {
    sheet, ///< with its words
    page   ///< with words beside it, and letters for a small screen
};
/// The strings on a support from the body's side, left to right, over a base line of given heights.
true_size elevation(const std::string& name, const std::vector<crossing>& strings, double half_width,
                    const std::function<double(double)>& base, const std::string& words, bool slots, elevation_on where) {
    const bool alone = where == elevation_on::page;
    const double label = alone ? 2.8 : 2, stroke = alone ? 0.2 : 0.1;
    std::vector<double> wanted;
    double low = base(0), high = base(0);
    for (const crossing& s : strings) {
        wanted.push_back(s.y);
        high = std::max({high, s.z + s.gauge, s.z + s.first + 0.5});
        low = std::min(low, s.z);
    }
    for (const double y : {-half_width, half_width}) { low = std::min(low, base(y)); }
    const auto labels = spread_apart(wanted, 1.6 * label);
    const double reach = std::max({half_width, -labels.front() + 6, labels.back() + 6}) + 4;
    const double top = 10 + label, height = high - low;
    const double width = alone ? 2 * reach : std::max(2 * reach, 118.0);
    const lettering small{.size = 2.4};
    return {name, width, top + height + (alone ? 8 : 8.5 + lines_height(words, width - 8, small)),
            [=](canvas& c) {
                const auto on = [&](double y, double z) { return place{reach + y, top + high - z}; };
                std::vector<place> line;
                for (int k = 0; k <= 100; ++k) {
                    const double y = half_width * (k / 50.0 - 1);
                    line.push_back(on(y, base(y)));
                }
                c.path(line, {.width = 0.25});
                for (const double side : {-half_width, half_width}) {
                    c.line(on(side, base(side)), on(side, high), {.width = 0.15});
                }
                c.line(on(0, base(0) - 1), on(0, high + 1), {.width = 0.12, .dash = 1.5, .gap = 0.8});
                for (std::size_t i = 0; i < strings.size(); ++i) {
                    const crossing& s = strings[i];
                    const double r = s.gauge / 2;
                    if (s.first > 0) {
                        const double wide = slots ? r : 1.2;
                        c.line(on(s.y - wide, s.z + s.first), on(s.y + wide, s.z + s.first),
                               {.width = stroke, .dash = 0.3, .gap = 0.2});
                    }
                    if (slots) {
                        const place shape[] = {on(s.y - r, high), on(s.y - r, s.z), on(s.y + r, s.z), on(s.y + r, high)};
                        c.path(shape, {.width = stroke});
                    } else {
                        c.circle(on(s.y, s.z + r), r, {.width = stroke});
                        c.line(on(s.y - 1.2, s.z), on(s.y + 1.2, s.z), {.width = stroke});
                    }
                    c.line(on(s.y, high + 0.6), {reach + labels[i], 2.4 + label}, {.width = stroke});
                    c.text({reach + labels[i], 1.6 + label}, s.label, {.size = label, .side = align::middle});
                }
                // The centres again on a line of their own, for marking through the paper.
                const double marks = top + height + 4;
                c.line({reach - half_width, marks}, {reach + half_width, marks}, {.width = 0.12});
                for (const double side : {-half_width, half_width}) {
                    c.line({reach + side, marks - 2.5}, {reach + side, marks + 2.5}, {.width = 0.15});
                }
                for (const crossing& s : strings) {
                    c.line({reach + s.y, marks - 2}, {reach + s.y, marks + 2}, {.width = 0.12});
                }
                if (!alone) { write_lines(c, {4, marks + 6.5}, words, width - 8, small); }
            },
            alone ? words : ""};
}

std::vector<true_size> nut_and_saddle(const subject& s, measures m, elevation_on where) {
    const tl::instrument& i = s.instrument;
    const double column = m == measures::both ? 41 : 25;
    // Seen from the body's side, a left-handed instrument has its bass at the right.
    const double side = s.left_handed ? -1 : 1;
    const std::string bass = s.left_handed ? "bass at the right" : "bass at the left";
    std::vector<true_size> out;

    const auto slots_left = tl::first_cuts::most(s.first.slots), saddle_left = tl::first_cuts::most(s.first.saddle);
    std::vector<crossing> at_nut, at_saddle;
    std::vector<std::vector<std::string>> nut_rows, saddle_rows;
    const tl::length<double> half_nut = 0.5 * i.board.width_at_nut;
    for (std::size_t k = 0; k < s.setup.strings.size(); ++k) {
        const tl::string_setup& of = s.setup.strings[k];
        const tl::length<double> over_board = i.nut.slot_height(k);
        const auto arc =
            tl::surface_height(i.board.surface, 0 * mm, std::clamp<tl::length<double>>(of.y_at_nut, -half_nut, half_nut));
        if (of.frets_behind == 0) { // a string with its own nut does not cross this one
            const bool cut = k < s.first.slots.size() && s.first.slots[k];
            at_nut.push_back({s.setup.names.number(k), side * (of.y_at_nut / mm), (arc + over_board) / mm, of.gauge / mm,
                              cut ? *slots_left / mm : 0});
            const auto edge = of.y_at_nut + half_nut;
            nut_rows.push_back({string_label(s, k), written_place(edge, m), written_place(edge - 0.5 * of.gauge, m),
                                written_place(edge + 0.5 * of.gauge, m),
                                written_told(over_board, s.told_as(tl::nut_slot_path(k)), m)});
        }

        // Heights are those with slack strings; at pitch, a soundboard that gives takes the saddle down and forward.
        const tl::length<double> drop = s.setup.top ? s.setup.top->drop : tl::length<double>(),
                                 forward = s.setup.top ? s.setup.top->forward : tl::length<double>();
        const auto over_top = of.line.saddle_z + drop + i.saddle.board_line;
        at_saddle.push_back({s.setup.names.number(k), side * (of.y_at_saddle / mm), over_top / mm, of.gauge / mm,
                             saddle_left ? *saddle_left / mm : 0});
        saddle_rows.push_back({string_label(s, k), written_place(of.y_at_saddle - s.setup.strings.front().y_at_saddle, m),
                               written_place(of.y_at_saddle, m), written_place(of.line.saddle_x + forward, m),
                               written_told(over_top, s.told_as(tl::saddle_height_path(i.saddle, k)), m)});
    }
    if (s.left_handed) {
        std::reverse(at_nut.begin(), at_nut.end());
        std::reverse(at_saddle.begin(), at_saddle.end());
    }
    out.push_back(elevation(
        "Nut slots", at_nut, half_nut / mm,
        [surface = i.board.surface, half_nut](double y) {
            return tl::surface_height(surface, 0 * mm, std::clamp<tl::length<double>>(y * mm, -half_nut, half_nut)) / mm;
        },
        "From the body's side, " + bass + ", strings slack; slots as wide as their strings. Lower curve: the board." +
            first_cut_words(slots_left, m),
        true, where));
    if (where == elevation_on::sheet) {
        add_tables(out, "Nut slots, strings slack: from the board's bass edge; bottom over the board",
                   {"string", "middle", "bass edge", "treble edge", "over board"}, nut_rows, column);
    }

    const std::string top = tl::top_word(i);
    double half_saddle = 0;
    for (const crossing& c : at_saddle) { half_saddle = std::max(half_saddle, std::abs(c.y) + 5); }
    out.push_back(elevation(
        "Saddle", at_saddle, half_saddle, [](double) { return 0.0; },
        "From the tail's side, " + bass + ", strings slack. Lower line: the " + top + "." + first_cut_words(saddle_left, m),
        false, where));
    if (where == elevation_on::sheet) {
        add_tables(out, "Saddle, strings slack: places and bottoms of the strings",
                   {"string", "from bass string", "from centre line", "from nut", "over " + top}, saddle_rows, column);
    }
    return out;
}

} // namespace

std::vector<true_size> slot_templates(const subject& s, measures m) { return nut_and_saddle(s, m, elevation_on::sheet); }
std::vector<true_size> slot_pictures(const subject& s) { return nut_and_saddle(s, measures::metric, elevation_on::page); }

} // namespace drawing
