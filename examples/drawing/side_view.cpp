#include "side_view.hpp"

#include <memory>

#include <tautline/neck/relief.hpp>

#include "labels.hpp"
#include "profile.hpp"
#include "spread.hpp"
#include "states.hpp"
#include "view.hpp"

namespace drawing {

namespace {

constexpr pen straightedge{.width = 0.15, .dash = 0.4, .gap = 0.6};

/// A measurement line between two heights, with its letter above.
void dimension(canvas& c, place low, place high, const std::string& letter, double letters) {
    const pen thin{.width = 0.18};
    c.line(low, high, thin);
    for (const place& end : {low, high}) { c.line({end.x - 0.9, end.y}, {end.x + 0.9, end.y}, thin); }
    c.text({low.x, std::min(low.y, high.y) - 1.2}, letter,
           {.size = 3 * letters, .side = align::middle, .bold = true, .backed = true});
}

/// The places of a panel's lines and table.
struct panel_room {
    box lines{}, numbers{};
};
/// A panel's words, written after its lines: a title above and rows beside.
struct panel_words {
    std::string heading{};
    state_table numbers;
};
/// Draws a panel's border. Returns the rooms for its lines and its table.
panel_room panel(canvas& c, const box& b) {
    constexpr double table = 70;
    c.rectangle(b, {.width = 0.15, .shade = ink::pale});
    const double lines = b.width - table - 6;
    return {{b.left + 4, b.top + 8, lines - 8, b.height - 14}, {b.left + lines + 3, b.top + 2, table, b.height - 4}};
}
/// Writes a panel's words, after its lines.
void say(canvas& c, const box& b, const panel_room& room, const panel_words& w) {
    const lettering large{.size = 2.9, .bold = true};
    c.text({b.left + 2, b.top + 4.2}, w.heading, c.smaller(w.heading, room.numbers.left - b.left - 4, large));
    w.numbers.draw(c, room.numbers);
}

/// Index of the fret at which action is told.
std::optional<std::size_t> action_index(const subject& s) {
    const int fret = tl::action_fret(s.action_fret, s.setup);
    return fret > 0 ? std::optional(static_cast<std::size_t>(fret - 1)) : std::nullopt;
}
/// Index of the last crest that the straightedge touches: the fret at the joint.
std::optional<std::size_t> straightedge_end(const subject& s) {
    const auto last = std::min(s.setup.fret_x.size(), static_cast<std::size_t>(s.instrument.neck.joint_fret));
    if (last < 3) { return std::nullopt; }
    return last - 1;
}
std::optional<tl::relief> relief_under(const subject& s, std::size_t string) {
    const auto last = straightedge_end(s);
    if (!last) { return std::nullopt; }
    std::vector<tl::crest> crests;
    const tl::string_setup& of = s.setup.strings[string];
    for (std::size_t n = 0; n <= *last; ++n) { crests.push_back({s.setup.crest_places(of)[n], of.crest_z[n]}); }
    return tl::relief_between<double>(crests, 0, *last);
}

/// The names of the parts above the instrument, each led to its part.
void name_parts(canvas& c, const box& lines, const view& v, const whole_profile& w, double letters) {
    struct named {
        const char* name;
        place at;
    };
    std::vector<named> parts{
        {"posts", w.posts.back()}, {"nut", w.nut}, {"joint", w.joint}, {"saddle", w.strings.front()[2]}};
    if (w.tailpiece.empty()) {
        parts.push_back({w.end, w.anchor});
    } else {
        parts.push_back({w.end, {(w.tailpiece[0].x + w.tailpiece[1].x) / 2, (w.tailpiece[0].y + w.tailpiece[1].y) / 2}});
    }
    std::stable_sort(parts.begin(), parts.end(),
                     [](const named& one, const named& other) { return one.at.x < other.at.x; });
    std::vector<double> wanted;
    for (const auto& part : parts) { wanted.push_back(v.of(part.at).x); }
    const auto at = spread_within(wanted, 16 * letters, lines.left + 5 * letters, lines.right() - 6 * letters);
    for (std::size_t k = 0; k < parts.size(); ++k) {
        c.text({at[k], lines.top + 1}, parts[k].name, {.size = 2.5 * letters, .side = align::middle});
        c.line({at[k], lines.top + 1.8}, v.of(parts[k].at), {.width = 0.12, .shade = ink::grey});
    }
    const place plane = v.of({(w.joint.x + w.soundboard.back().x) / 2, w.soundboard.front().y});
    c.text({plane.x - 20, plane.y + 3.4 * letters}, w.top, {.size = 2.3 * letters, .side = align::middle, .backed = true});
}

panel_words draw_whole(canvas& c, const box& lines, const states& s, measures m, double letters) {
    extent x, z;
    s.each([&](const subject& of, const pen&, bool) {
        const whole_profile p = profile_of(of);
        for (const auto* points : {&p.board, &p.neck, &p.head, &p.posts, &p.soundboard, &p.bridge, &p.tailpiece,
                                   &p.strings.front(), &p.strings.back()}) {
            for (const place& q : *points) { x.take(q.x), z.take(q.y); }
        }
        x.take(p.anchor.x), z.take(p.anchor.y);
    });
    const view v = fitted_view({lines.left, lines.top + 5, lines.width, lines.height - 3}, x, z);
    s.each([&](const subject& of, const pen& p, bool) {
        const whole_profile w = profile_of(of);
        const pen thin{p.width * 0.6, p.shade, p.dash, p.gap}, round{p.width, p.shade};
        for (const auto* points : {&w.board, &w.neck, &w.head, &w.soundboard, &w.bridge}) { c.path(v.of(*points), p); }
        c.path(v.of(w.underside), thin);
        for (const auto& part : w.inside) { c.path(v.of(part), {p.width * 0.4, p.shade}); }
        c.path(v.of(w.tailpiece), {p.width * 2, p.shade, p.dash, p.gap});
        for (const auto& string : w.strings) { c.path(v.of(string), thin); }
        for (const auto& further : w.beyond) { c.path(v.of(further), thin); }
        for (const place& post : w.posts) { c.circle(v.of(post), 0.8, round); }
        c.circle(v.of(w.tailpiece.empty() ? w.anchor : w.tailpiece.front()), 0.9, round);
    });
    name_parts(c, lines, v, profile_of(s.latest()), letters);

    state_table rows(s, m);
    const auto end = straightedge_end(s.latest());
    rows.add(
        end ? "relief, frets 1-" + std::to_string(*end + 1) : "relief",
        [](const subject& of) { return of.setup.relief ? std::optional(of.setup.relief->gap) : std::nullopt; },
        "relief.gap");
    rows.add("nut rises under load", [](const subject& of) { return std::optional(of.setup.nut_rise); });
    rows.add("strings pull together", [](const subject& of) { return of.setup.total_tension; });
    rows.add("press on the saddle", [](const subject& of) { return of.setup.down_force; });
    return {"Whole instrument, strings at pitch: " + v.words() +
                (profile_of(s.latest()).inside.empty() ? "" : "; thin lines: what is let into the neck"),
            rows};
}

/// Fret numbers under a panel's lines, every one.
void draw_axis(canvas& c, double y, const view& v, const string_profile& w, double letters) {
    const lettering end{.size = 2.3 * letters, .side = align::right};
    const double nut = v.of(w.nut).x, saddle = v.of(w.saddle).x;
    // A string with a nut of its own has frets behind it.
    const bool own_nut = !w.crests.empty() && w.crests.front().x < w.nut.x;
    const double begin = own_nut ? v.of(w.crests.front()).x - 3 : nut;
    place_labels numbers{.y = y, .least = begin + 1, .most = saddle - c.text_width("saddle", end) - 1, .size = end.size};
    for (std::size_t n = 0; n < w.crests.size(); ++n) {
        numbers.x.push_back(v.of(w.crests[n]).x);
        numbers.words.push_back(std::to_string(n + 1));
    }
    write_labels(c, numbers);
    c.line({begin, y}, {saddle, y}, {.width = 0.15});
    const double words = y + 2.3 + 0.76 * end.size;
    if (own_nut) {
        c.text({nut - 1.2, v.of(w.nut).y}, "nut", {.size = end.size, .side = align::right, .backed = true});
    } else {
        c.text({nut, words}, "nut", end);
    }
    c.text({saddle, words}, "saddle", end);
}

/// Readings of a string's heights: each a bar as long as its doubt, with a ring when it disagrees with the rest.
void draw_readings(canvas& c, const view& v, const subject& of, std::size_t string, const string_profile& its) {
    for (const tl::read_height& r : of.read) {
        const auto fret = static_cast<std::size_t>(r.fret - 1);
        if (r.string_index != string || fret >= its.crests.size()) { continue; }
        const place& crest = its.crests[fret];
        const double height = r.height / tl::units::mm, by = r.give_or_take / tl::units::mm;
        const place read = v.of({crest.x, crest.y + height});
        const place low = v.of({crest.x, crest.y + height - by}), high = v.of({crest.x, crest.y + height + by});
        const pen thin{.width = 0.2};
        c.line(low, high, thin);
        for (const place& end : {low, high}) { c.line({end.x - 0.7, end.y}, {end.x + 0.7, end.y}, thin); }
        c.dot(read, 0.45);
        if (r.disagrees) { c.circle(read, 1.6, {.width = 0.35}); }
    }
}

panel_words draw_string(canvas& c, const box& lines, const states& s, measures m, bool last, double letters) {
    const auto which = [last](const subject& of) { return last ? of.setup.strings.size() - 1 : 0; };
    extent x, z;
    s.each([&](const subject& of, const pen&, bool) {
        const string_profile p = profile_under(of, which(of));
        for (const auto* points : {&p.board, &p.crests}) {
            for (const place& q : *points) { x.take(q.x), z.take(q.y); }
        }
        for (const place& q : {p.nut, p.saddle}) { x.take(q.x), z.take(q.y); }
    });
    x.take(x.least - 0.01 * x.size());
    const view v = fitted_view({lines.left, lines.top + 1, lines.width, lines.height - 4}, x, z);
    const subject& latest = s.latest();
    const string_profile w = profile_under(latest, which(latest));
    s.each([&](const subject& of, const pen& p, bool) {
        const string_profile its = profile_under(of, which(of));
        const pen stout{p.width * 2.2, p.shade};
        c.path(v.of(its.board), {p.width * 0.6, p.shade, p.dash, p.gap});
        for (std::size_t n = 0; n < its.crests.size(); ++n) {
            c.line(v.of(its.feet[n]), v.of(its.crests[n]), {p.width * 1.5, p.shade});
        }
        c.line(v.of(its.nut), v.of({its.nut.x, its.board.front().y}), stout);
        c.line(v.of(its.saddle), {v.of(its.saddle).x, lines.bottom() - 2}, stout);
        c.line(v.of(its.nut), v.of(its.saddle), p);
    });
    // Rings are drawn over the bars, so that a higher crest does not hide a lower one.
    s.each([&](const subject& of, const pen& p, bool ringed) {
        if (!ringed) { return; }
        for (const place& crest : profile_under(of, which(of)).crests) {
            c.dot(v.of(crest), 0.55, ink::white);
            c.circle(v.of(crest), 0.55, {0.18, p.shade});
        }
    });

    s.each([&](const subject& of, const pen&, bool) { draw_readings(c, v, of, which(of), profile_under(of, which(of))); });

    draw_axis(c, lines.bottom() - 1, v, w, letters);

    const auto end = straightedge_end(latest);
    if (end) { c.line(v.of(w.crests[0]), v.of(w.crests[*end]), straightedge); }
    // Letters come after all lines, so that no line crosses them, and lie apart from one another.
    struct measured {
        place low, high;
        std::string letter;
    };
    std::vector<measured> lettered;
    state_table rows(s, m);
    const auto add_action = [&](std::size_t n, const std::string& letter) {
        const double along = (w.crests[n].x - w.nut.x) / (w.saddle.x - w.nut.x);
        lettered.push_back({v.of(w.crests[n]), v.of({w.crests[n].x, w.nut.y + along * (w.saddle.y - w.nut.y)}), letter});
        const std::string list = tl::messages::path_of("strings", which(latest), "heights");
        rows.add(
            letter + "  action, fret " + std::to_string(n + 1),
            [&](const subject& of) {
                const auto& heights = of.setup.strings[which(of)].heights;
                return n < heights.size() && of.setup.strings[which(of)].has_fret(n + 1) ? std::optional(heights[n])
                                                                                         : std::nullopt;
            },
            tl::messages::path_of(list, n));
    };
    if (const auto told = action_index(latest)) {
        const std::size_t first = latest.setup.strings[which(latest)].frets_behind;
        add_action(first, "A");
        if (*told > first) { add_action(*told, "B"); }
    }
    if (end) {
        const tl::relief r = *relief_under(latest, which(latest));
        const place& low = w.crests[r.index];
        const double along = (low.x - w.crests[0].x) / (w.crests[*end].x - w.crests[0].x);
        lettered.push_back({v.of(low), v.of({low.x, w.crests[0].y + along * (w.crests[*end].y - w.crests[0].y)}), "C"});
        rows.add(
            "C  relief here, fret " + std::to_string(r.index + 1),
            [&](const subject& of) {
                const auto relief = relief_under(of, which(of));
                return relief ? std::optional(relief->gap) : std::nullopt;
            },
            "relief.gap");
    }
    rows.add(std::string("saddle over ") + tl::top_word(s.latest().instrument), [&](const subject& of) {
        return std::optional<tl::length<double>>(of.setup.strings[which(of)].line.saddle_z +
                                                 of.instrument.saddle.board_line);
    });
    rows.add("break over saddle", [&](const subject& of) { return of.setup.strings[which(of)].at_saddle.break_angle; });
    for (const measured& one : lettered) { dimension(c, one.low, one.high, one.letter, letters); }
    return {"String " + string_label(latest, which(latest)) +
                (w.crests.empty() ? " over the board, " : " over its frets, ") + (last ? "treble" : "bass") +
                " side, at pitch: " + v.words(),
            rows};
}

} // namespace

sheets side_view(const heading& h, const subject& found, const subject* planned) {
    const box sheet = landscape(h.paper);
    const auto kept = std::make_shared<std::pair<subject, std::optional<subject>>>(found, planned ? std::optional(*planned)
                                                                                                  : std::nullopt);
    const auto draw = [=](canvas& c) {
        const states s{kept->first, kept->second ? &*kept->second : nullptr};
        const box room =
            draw_frame(c, h, sheet, "Side view. Heights are stretched against lengths, by the factor said over each part.");
        const lettering words{.size = 2.6};
        const double legend = room.top + 2.6;
        double x = room.left;
        const auto entry = [&](const pen& p, const std::string& meaning) {
            c.line({x, legend - 1}, {x + 14, legend - 1}, p);
            c.text({x + 16, legend}, meaning, words);
            x += 22 + c.text_width(meaning, words);
        };
        s.each([&](const subject&, const pen& p, bool dashed) {
            entry(p, dashed      ? "as found (dashed, grey; crests ringed)"
                     : s.planned ? "planned (unbroken, black)"
                                 : "as found");
        });
        if (straightedge_end(s.latest())) { entry(straightedge, "straightedge on fret 1 and the joint's fret"); }

        bool any_read = false, any_ringed = false;
        s.each([&](const subject& of, const pen&, bool) {
            any_read = any_read || !of.read.empty();
            for (const tl::read_height& r : of.read) { any_ringed = any_ringed || r.disagrees; }
        });
        if (any_read) {
            c.text({x, legend}, any_ringed ? "bars: as read, ± its doubt; ringed: disagrees" : "bars: as read, ± its doubt",
                   words);
        }

        const bool two = s.latest().setup.strings.size() > 1;
        const double top = legend + 2, height = room.bottom() - top, whole = two ? 0.34 * height : 0.45 * height;
        const auto in_panel = [&](const box& b, const auto& draw_lines) {
            const panel_room parts = panel(c, b);
            say(c, b, parts, draw_lines(parts.lines));
        };
        in_panel({room.left, top, room.width, whole - 2},
                 [&](const box& lines) { return draw_whole(c, lines, s, h.measures, 1); });
        const double each = (height - whole) / (two ? 2 : 1);
        in_panel({room.left, top + whole, room.width, each - (two ? 2 : 0)},
                 [&](const box& lines) { return draw_string(c, lines, s, h.measures, false, 1); });
        if (two) {
            in_panel({room.left, top + whole + each, room.width, each},
                     [&](const box& lines) { return draw_string(c, lines, s, h.measures, true, 1); });
        }
    };
    return {"side_view", {{sheet, draw}}};
}

std::vector<side_panel> side_panels(const subject& found, const subject* planned, measures m, double width) {
    const auto kept = std::make_shared<std::pair<subject, std::optional<subject>>>(found, planned ? std::optional(*planned)
                                                                                                  : std::nullopt);
    // Letters for a small screen are larger than those of a printed sheet.
    constexpr double letters = 1.3;
    std::vector<side_panel> panels;
    const auto add = [&](double height, auto&& draw_lines) {
        const box sheet{0, 0, width, height};
        const auto draw = [=](canvas& c) {
            const states s{kept->first, kept->second ? &*kept->second : nullptr};
            const panel_words words = draw_lines(c, box{4, 2, width - 8, height - 9}, s);
            return side_panel{words.heading, {}, words.numbers.rows()};
        };
        (void)note(sheet, [&](canvas& c) { panels.push_back(draw(c)); });
        panels.back().drawn = {sheet, [=](canvas& c) { (void)draw(c); }};
    };
    add(0.42 * width, [=](canvas& c, const box& lines, const states& s) { return draw_whole(c, lines, s, m, letters); });
    for (const bool last : {false, true}) {
        if (last && found.setup.strings.size() < 2) { continue; }
        add(0.46 * width,
            [=](canvas& c, const box& lines, const states& s) { return draw_string(c, lines, s, m, last, letters); });
    }
    return panels;
}

} // namespace drawing
