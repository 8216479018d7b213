#include <algorithm>
#include <cmath>

#include "labels.hpp"
#include "plan.hpp"
#include "spread.hpp"
#include "template_parts.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

constexpr double label_pitch = 3.3, label_size = 2.4, leader = 6;

/// Distances along one edge. Labels are upright, moved apart, and each is led to its line.
struct edge_labels {
    std::vector<place> ends{}; ///< of the lines on the edge
    std::vector<std::string> words{};

    [[nodiscard]] std::vector<double> places() const {
        std::vector<double> x;
        for (const place& p : ends) { x.push_back(p.x); }
        std::sort(x.begin(), x.end());
        return spread_apart(x, label_pitch);
    }
    /// Outward from `edge`: above the board (`up`) or below it.
    void draw(canvas& c, place origin, double edge, bool up) const {
        const auto at = places();
        const double turn = up ? -1 : 1;
        for (std::size_t n = 0; n < ends.size(); ++n) {
            const pen thin{.width = 0.12};
            const place bend{origin.x + at[n], origin.y + edge + turn * leader};
            c.line({origin.x + ends[n].x, origin.y + ends[n].y + turn * 0.6}, bend, thin);
            c.text({bend.x + 0.85, bend.y + turn * 0.8}, words[n],
                   {.size = label_size, .side = up ? align::left : align::right, .upward = true});
        }
    }
};

/// A number on the rule.
struct rule_number {
    place at{};
    std::string words{};
    lettering how{};
};
/// Writes the number of every fifth mark beside it, clear of lines, dots and other numbers. If need be it is smaller or
/// further away.
template <class On, class Draw>
std::vector<rule_number> free_rule_numbers(const On& on, double end, const Draw& draw_board) {
    std::vector<rule_number> numbers;
    noted_marks taken = note({}, draw_board);
    (void)note({}, [&](canvas& c) {
        for (int k = 0; 10.0 * k <= end; k += 5) {
            std::vector<rule_number> places;
            std::vector<box> boxes;
            for (const double size : {1.7, 1.4, 1.1}) {
                for (const double off : {0.0, 1.2, 3.2, 4.6, 6.0, 7.5}) {
                    for (const bool over : {true, false}) {
                        for (const align side : {align::left, align::right}) {
                            const double beside = off > 1 ? 0.2 : 0.6;
                            const place at = on({10.0 * k + (side == align::left ? beside : -beside),
                                                 over ? -0.8 - off : 0.8 + off + 0.76 * size});
                            places.push_back({at, std::to_string(10 * k), {.size = size, .side = side}});
                            boxes.push_back(
                                text_box(at, c.text_width(places.back().words, places.back().how), places.back().how));
                        }
                    }
                }
            }
            const std::size_t at = first_free(boxes, taken);
            numbers.push_back(places[at]);
            taken.texts.push_back({places[at].words, boxes[at], {}, false, 0});
        }
    });
    return numbers;
}

/// What a fan's template tells of one end of a fret: its number, its distance from the nut along that edge, and the bevel
/// of its end.
std::string end_words(std::size_t n, const tl::length<double>& from_nut, const tl::angle<double>& cut, measures m) {
    return (n == 0 ? "nut" : std::to_string(n)) + "  " + written_place(from_nut, m) + "  " + tl::fixed_text(cut, deg, 1) +
           " deg";
}
/// The distance from the nut to a fret of a fan: along an outer string, or along the board's edge if it was measured there.
tl::length<double> from_nut(const subject& s, std::size_t n, bool bass) {
    if (const auto fan = fan_shown(s)) {
        return (bass ? fan->bass_scale : fan->treble_scale) * (1 - std::exp2(-static_cast<double>(n) / fan->steps));
    }
    const auto& measured = *s.instrument.board.scale.fan;
    const auto& places = bass ? measured.bass_places : measured.treble_places;
    return n == 0 ? tl::length<double>() : tl::length<double>(places[n - 1]);
}

} // namespace

true_size fret_template(const subject& s, measures m) {
    const bool fan = fan_shown(s) || s.instrument.board.scale.fan;
    // Seen on its face, with the nut at the left, a right-handed board has its bass edge below and a left-handed one above.
    const double up = s.left_handed ? 1 : -1;
    const auto turned = [up](place p) { return place{p.x, up * p.y}; };
    const auto lines = fret_lines(s);
    auto outline = board_outline(s);
    for (place& p : outline) { p = turned(p); }
    double half = 0;
    for (const place& p : outline) { half = std::max(half, std::abs(p.y)); }
    const double end = outline[1].x;

    edge_labels above, below;
    for (std::size_t n = 0; n < lines.size(); ++n) {
        const auto &bass = lines[n].bass, &treble = lines[n].treble;
        above.ends.push_back(turned(s.left_handed ? bass : treble));
        if (!fan) {
            above.words.push_back((n == 0 ? "nut" : std::to_string(n)) + "  " +
                                  written_place(tl::fret_position(s.instrument.board.scale, static_cast<int>(n)), m));
            continue;
        }
        const auto cut = tl::end_angles<double>(
            {.bass = {bass.x * mm, bass.y * mm}, .treble = {treble.x * mm, treble.y * mm}}, s.instrument.board);
        const std::string at_bass = end_words(n, from_nut(s, n, true), cut.bass, m),
                          at_treble = end_words(n, from_nut(s, n, false), cut.treble, m);
        below.ends.push_back(turned(s.left_handed ? treble : bass));
        above.words.push_back(s.left_handed ? at_bass : at_treble);
        below.words.push_back(s.left_handed ? at_treble : at_bass);
    }
    double least = -6, most = end + 6;
    for (const auto* labels : {&above, &below}) {
        for (const double x : labels->places()) {
            least = std::min(least, x - 4);
            most = std::max(most, x + 4);
        }
    }
    for (const auto& l : lines) {
        least = std::min({least, l.bass.x - 4, l.treble.x - 4});
        most = std::max({most, l.bass.x + 4, l.treble.x + 4});
    }
    double longest = 0;
    (void)note({}, [&](canvas& c) {
        for (const auto* labels : {&above, &below}) {
            for (const std::string& w : labels->words) {
                longest = std::max(longest, c.text_width(w, {.size = label_size}));
            }
        }
    });
    const double label_height = leader + 0.8 + longest + 0.5;
    const double above_board = label_height, below_board = fan ? label_height : 10;
    const place origin{-least, above_board + half};

    const auto on = [origin](place p) { return place{origin.x + p.x, origin.y + p.y}; };
    const auto draw_board = [=](canvas& c) {
        std::vector<place> corners;
        for (const place& p : outline) { corners.push_back(on(p)); }
        c.path(corners, {.width = 0.3}, true);
        for (std::size_t n = 0; n < lines.size(); ++n) {
            c.line(on(turned(lines[n].bass)), on(turned(lines[n].treble)), {.width = n == 0 ? 0.35 : 0.2});
        }
        // The centre line bears a rule that begins at the nut's front face.
        c.line(on({least + 1, 0}), on({most - 1, 0}), {.width = 0.12});
        for (int k = 0; k <= static_cast<int>(end / 10); ++k) {
            const double tick = k % 5 == 0 ? 1.4 : 0.7;
            c.line(on({10.0 * k, -tick}), on({10.0 * k, tick}), {.width = 0.12});
        }
        const dots marks = marker_places(s);
        for (const place& dot : marks.face) {
            const place p = turned(dot);
            c.circle(on(p), 3, {.width = 0.15, .dash = 1, .gap = 0.6});
            c.line(on({p.x - 1, p.y}), on({p.x + 1, p.y}), {.width = 0.15});
            c.line(on({p.x, p.y - 1}), on({p.x, p.y + 1}), {.width = 0.15});
        }
        for (const place& p : marks.side) {
            const place tip = on({p.x, up * (p.y - 0.3)});
            const place arrow[] = {tip, {tip.x - 0.8, tip.y - up * 1.8}, {tip.x + 0.8, tip.y - up * 1.8}};
            c.fill(arrow, ink::black);
        }
        above.draw(c, origin, -half, true);
        below.draw(c, origin, half, false);
        if (fan) { return; }
        place_labels numbers{.y = origin.y + half + 0.3, .least = 1, .most = origin.x + most - 1, .size = 2.6};
        for (std::size_t n = 1; n < lines.size(); ++n) {
            numbers.x.push_back(origin.x + lines[n].bass.x);
            numbers.words.push_back(std::to_string(n));
        }
        write_labels(c, numbers);
    };
    const auto rule_numbers = free_rule_numbers(on, end, draw_board);

    const std::string which = s.left_handed ? "above" : "below", along = fan_shown(s) ? "outermost strings" : "edges";
    const std::string words =
        (fan ? "Distances from the nut along the " + along + "; angles that fret ends are cut to, on the bridge's side"
             : std::string("Distances from the front face of the nut along the centre line")) +
        "; the bass edge is " + which +
        ". Rule on the centre line in mm. Crosses in rings: middles of dots on the face; arrows: dots "
        "on the bass side. Their size is free. Board's end at " +
        written_place(s.instrument.board.board_length, m) + ".";
    const lettering small{.size = 2.5};
    // These stay on one page, even if the board takes several.
    const double wide = std::min(most - least - 8, 230.0);
    return {"Board and frets", most - least, above_board + 2 * half + below_board + 1 + lines_height(words, wide, small),
            [=](canvas& c) {
                draw_board(c);
                for (const rule_number& one : rule_numbers) { c.text(one.at, one.words, one.how); }
                write_lines(c, {4, origin.y + half + below_board + 2.5}, words, wide, small);
            }};
}

} // namespace drawing
