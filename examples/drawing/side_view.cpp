#include "side_view.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include <tautline/neck/relief.hpp>

#include "frame.hpp"
#include "profile.hpp"
#include "spread.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

/// Instrument to paper: lengths by one scale, heights by the same times `stretch`.
struct view {
    double x0 = 0, left = 0, scale = 1, z0 = 0, bottom = 0, stretch = 1;

    [[nodiscard]] place of(place p) const { return {left + (p.x - x0) * scale, bottom - (p.y - z0) * scale * stretch}; }
    [[nodiscard]] std::vector<place> of(const std::vector<place>& points) const {
        std::vector<place> out;
        for (const place& p : points) { out.push_back(of(p)); }
        return out;
    }
};

/// The largest round factor that is not more than `most`.
double round_factor(double most) {
    double best = 0.05;
    for (const double f :
         {0.1, 0.2, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0}) {
        if (f <= most) { best = f; }
    }
    return best;
}

struct extent {
    double least = INFINITY, most = -INFINITY;
    void take(double v) {
        if (!std::isfinite(v)) { return; }
        least = std::min(least, v);
        most = std::max(most, v);
    }
};

view fit(const box& room, const extent& x, const extent& z) {
    view v;
    v.x0 = x.least;
    v.left = room.left;
    v.scale = room.width / std::max(1.0, x.most - x.least);
    const double range = std::max(0.01, z.most - z.least);
    v.stretch = round_factor(room.height / (range * v.scale));
    v.z0 = z.least;
    v.bottom = room.bottom() - (room.height - range * v.scale * v.stretch) / 2;
    return v;
}

std::string factor_text(const view& v) {
    return "heights " + tl::number_text(v.stretch) + "x, lengths 1 : " + tl::number_text(std::round(10 / v.scale) / 10);
}

/// A measurement line between two heights, and its letter.
void dimension(canvas& c, place low, place high, const std::string& letter, bool letter_above) {
    const pen thin{.width = 0.18};
    c.line(low, high, thin);
    for (const place& end : {low, high}) { c.line({end.x - 0.9, end.y}, {end.x + 0.9, end.y}, thin); }
    const double top = std::min(low.y, high.y), bottom = std::max(low.y, high.y);
    c.text({low.x, letter_above ? top - 1.2 : bottom + 3.4}, letter,
           {.size = 3, .side = align::middle, .bold = true, .backed = true});
}

/// Both states, the found one first so that the planned one lies on it.
struct states {
    const subject& found;
    const subject* planned;

    template <class F>
    void each(F&& f) const {
        f(found, planned ? found_pen : planned_pen, planned != nullptr);
        if (planned) { f(*planned, planned_pen, false); }
    }
    [[nodiscard]] const subject& latest() const { return planned ? *planned : found; }
};

/// A row of numbers, one a state; a second row in imperial units where both are asked.
using number_of = std::function<std::optional<tl::length<double>>(const subject&)>;
void add_height(std::vector<std::vector<std::string>>& rows, const states& s, measures m, const std::string& what,
                const number_of& number) {
    const auto add = [&](tl::unit_tag<tl::unit::length> unit, const char* name, int decimals) {
        std::vector<std::string> row{what + ", " + name};
        s.each([&](const subject& of, const pen&, bool) {
            const auto q = number(of);
            row.push_back(q ? tl::fixed_text(*q, unit, decimals) : "-");
        });
        rows.push_back(row);
    };
    if (m != measures::imperial) { add(mm, "mm", 2); }
    if (m != measures::metric) { add(thou, "thou", 1); }
}
void add_force(std::vector<std::vector<std::string>>& rows, const states& s, measures m, const std::string& what,
               const std::function<tl::force<double>(const subject&)>& number) {
    const auto add = [&](tl::unit_tag<tl::unit::force> unit, const char* name) {
        std::vector<std::string> row{what + ", " + name};
        s.each([&](const subject& of, const pen&, bool) { row.push_back(tl::fixed_text(number(of), unit, 1)); });
        rows.push_back(row);
    };
    if (m != measures::imperial) { add(N, "N"); }
    if (m != measures::metric) { add(lbf, "lbf"); }
}
std::vector<std::vector<std::string>> empty_table(const states& s) {
    if (!s.planned) { return {{"", "as found"}}; }
    return {{"", "as found", "planned"}};
}

constexpr double table_width = 72, number_column = 17;

/// A panel's border and heading; returns the room for lines and the room for its table.
std::pair<box, box> panel(canvas& c, const box& b) {
    c.rectangle(b, {.width = 0.15, .shade = ink::pale});
    const double lines = b.width - table_width - 6;
    return {{b.left + 4, b.top + 8, lines - 8, b.height - 14}, {b.left + lines + 3, b.top + 2, table_width, b.height - 4}};
}

/// The fret that stands for the octave: the octave fret, or the last one before it.
std::optional<std::size_t> octave_index(const subject& s) {
    const auto frets = s.setup.fret_x.size();
    if (frets == 0) { return std::nullopt; }
    return std::min(frets, static_cast<std::size_t>(s.instrument.board.scale.steps)) - 1;
}
/// Index of the last crest a straightedge is laid on: the joint's fret.
std::optional<std::size_t> straightedge_end(const subject& s) {
    const auto last = std::min(s.setup.fret_x.size(), static_cast<std::size_t>(s.instrument.neck.joint_fret));
    if (last < 3) { return std::nullopt; }
    return last - 1;
}
std::optional<tl::relief> relief_under(const subject& s, std::size_t string) {
    const auto last = straightedge_end(s);
    if (!last) { return std::nullopt; }
    std::vector<tl::crest> crests;
    for (std::size_t n = 0; n <= *last; ++n) { crests.push_back({s.setup.fret_x[n], s.setup.strings[string].crest_z[n]}); }
    return tl::relief_between<double>(crests, 0, *last);
}

void draw_whole(canvas& c, const box& b, const states& s, measures m) {
    const auto [lines, numbers] = panel(c, b);
    extent x, z;
    s.each([&](const subject& of, const pen&, bool) {
        const whole_profile p = profile_of(of);
        for (const auto* points :
             {&p.board, &p.underside, &p.back, &p.head, &p.posts, &p.soundboard, &p.bridge, &p.tailpiece}) {
            for (const place& q : *points) { x.take(q.x), z.take(q.y); }
        }
        for (const auto& string : p.strings) {
            for (const place& q : string) { x.take(q.x), z.take(q.y); }
        }
    });
    const view v = fit({lines.left, lines.top + 5, lines.width, lines.height - 5}, x, z);
    c.text({b.left + 2, b.top + 4.2}, "Whole instrument, strings at pitch: " + factor_text(v), {.size = 2.9, .bold = true});
    s.each([&](const subject& of, const pen& p, bool) {
        const whole_profile w = profile_of(of);
        const pen thin{p.width * 0.6, p.shade, p.dash, p.gap};
        c.path(v.of(w.board), p);
        c.path(v.of(w.underside), thin);
        c.path(v.of(w.back), p);
        c.path(v.of(w.head), p);
        c.path(v.of(w.soundboard), p);
        c.path(v.of(w.bridge), p);
        c.path(v.of(w.tailpiece), {p.width * 2, p.shade, p.dash, p.gap});
        for (const auto& string : w.strings) { c.path(v.of(string), thin); }
        for (const place& post : w.posts) { c.circle(v.of(post), 0.8, {p.width, p.shade}); }
        if (w.tailpiece.empty()) {
            c.circle(v.of(w.anchor), 0.8, {p.width, p.shade});
        } else {
            c.circle(v.of(w.tailpiece.front()), 0.9, {p.width, p.shade});
        }
    });

    const subject& latest = s.latest();
    const whole_profile w = profile_of(latest);
    struct named {
        std::string name;
        place at;
    };
    std::vector<named> parts{{"posts", w.posts.back()}, {"nut", w.strings.front()[1]}};
    parts.push_back({"joint", w.joint});
    parts.push_back({"saddle", w.strings.front()[2]});
    parts.push_back(
        w.tailpiece.empty()
            ? named{"pins", w.anchor}
            : named{"tailpiece", {(w.tailpiece[0].x + w.tailpiece[1].x) / 2, (w.tailpiece[0].y + w.tailpiece[1].y) / 2}});
    std::stable_sort(parts.begin(), parts.end(),
                     [](const named& one, const named& other) { return one.at.x < other.at.x; });
    std::vector<double> wanted;
    for (const auto& part : parts) { wanted.push_back(std::clamp(v.of(part.at).x, lines.left + 6, lines.right() - 6)); }
    const auto at = spread_apart(wanted, 17);
    for (std::size_t k = 0; k < parts.size(); ++k) {
        c.text({at[k], lines.top + 1}, parts[k].name, {.size = 2.5, .side = align::middle});
        c.line({at[k], lines.top + 1.8}, v.of(parts[k].at), {.width = 0.12, .shade = ink::grey});
    }
    const place plane = v.of({(w.joint.x + w.soundboard.back().x) / 2, w.soundboard.front().y});
    c.text({plane.x - 20, plane.y + 3.4}, "soundboard's plane", {.size = 2.3, .side = align::middle, .backed = true});

    auto rows = empty_table(s);
    const std::string to =
        straightedge_end(latest) ? "relief, frets 1-" + std::to_string(*straightedge_end(latest) + 1) : "relief";
    add_height(rows, s, m, to,
               [](const subject& of) { return of.setup.relief ? std::optional(of.setup.relief->gap) : std::nullopt; });
    add_height(rows, s, m, "nut rises under load", [](const subject& of) { return std::optional(of.setup.nut_rise); });
    add_force(rows, s, m, "strings pull together", [](const subject& of) { return of.setup.total_tension; });
    add_force(rows, s, m, "press on the saddle", [](const subject& of) { return of.setup.down_force; });
    draw_table(c, {numbers.left, numbers.top}, numbers.width, number_column, rows);
}

void draw_string(canvas& c, const box& b, const states& s, measures m, bool last) {
    const auto [lines, numbers] = panel(c, b);
    const auto which = [&](const subject& of) { return last ? of.setup.strings.size() - 1 : 0; };
    extent x, z;
    s.each([&](const subject& of, const pen&, bool) {
        const string_profile p = profile_under(of, which(of));
        for (const auto* points : {&p.board, &p.crests}) {
            for (const place& q : *points) { x.take(q.x), z.take(q.y); }
        }
        for (const place& q : {p.nut, p.saddle}) { x.take(q.x), z.take(q.y); }
    });
    x.take(x.least - 0.01 * (x.most - x.least));
    const view v = fit({lines.left, lines.top + 1, lines.width, lines.height - 4}, x, z);
    const subject& latest = s.latest();
    c.text({b.left + 2, b.top + 4.2},
           "String " + string_label(latest, which(latest)) + " over its frets, " + (last ? "treble" : "bass") +
               " side: " + factor_text(v),
           {.size = 2.9, .bold = true});

    s.each([&](const subject& of, const pen& p, bool hollow) {
        const string_profile w = profile_under(of, which(of));
        const pen thin{p.width * 0.6, p.shade, p.dash, p.gap}, stout{p.width * 2.2, p.shade};
        c.path(v.of(w.board), thin);
        for (std::size_t n = 0; n < w.crests.size(); ++n) {
            c.line(v.of(w.feet[n]), v.of(w.crests[n]), {p.width * (hollow ? 1 : 1.6), p.shade});
            if (hollow) { c.circle(v.of(w.crests[n]), 0.45, {0.15, p.shade}); }
        }
        c.line(v.of(w.nut), v.of({w.nut.x, w.board.front().y}), stout);
        c.line(v.of(w.saddle), {v.of(w.saddle).x, lines.bottom() - 2}, stout);
        c.line(v.of(w.nut), v.of(w.saddle), p);
    });

    const string_profile w = profile_under(latest, which(latest));
    const double axis = lines.bottom() - 1;
    double free_from = -INFINITY;
    for (std::size_t n = 0; n < w.crests.size(); ++n) {
        const double at = v.of(w.crests[n]).x;
        const std::string number = std::to_string(n + 1);
        const double half = c.text_width(number, {.size = 2.4}) / 2;
        c.line({at, axis}, {at, axis + 1.2}, {.width = 0.15});
        if (at - half < free_from) { continue; }
        c.text({at, axis + 4}, number, {.size = 2.4, .side = align::middle});
        free_from = at + half + 0.8;
    }
    c.line({v.of(w.nut).x, axis}, {v.of(w.saddle).x, axis}, {.width = 0.15});
    c.text({v.of(w.nut).x, axis + 4}, "nut", {.size = 2.4, .side = align::right});
    c.text({v.of(w.saddle).x, axis + 4}, "saddle", {.size = 2.4, .side = align::right});

    auto rows = empty_table(s);
    const auto octave = octave_index(latest);
    const auto height_at = [&](std::size_t n) {
        return [&which, n](const subject& of) {
            const auto& heights = of.setup.strings[which(of)].heights;
            return n < heights.size() ? std::optional(heights[n]) : std::nullopt;
        };
    };
    const auto over = [&](std::size_t n) {
        const double along = (w.crests[n].x - w.nut.x) / (w.saddle.x - w.nut.x);
        return v.of({w.crests[n].x, w.nut.y + along * (w.saddle.y - w.nut.y)});
    };
    if (octave) {
        dimension(c, v.of(w.crests[0]), over(0), "A", true);
        add_height(rows, s, m, "A  action, fret 1", height_at(0));
        if (*octave > 0) {
            dimension(c, v.of(w.crests[*octave]), over(*octave), "B", true);
            add_height(rows, s, m, "B  action, fret " + std::to_string(*octave + 1), height_at(*octave));
        }
    }
    if (const auto end = straightedge_end(latest)) {
        c.line(v.of(w.crests[0]), v.of(w.crests[*end]), {.width = 0.15, .dash = 0.4, .gap = 0.6});
        const auto r = *relief_under(latest, which(latest));
        const place& low = w.crests[r.index];
        const double along = (low.x - w.crests[0].x) / (w.crests[*end].x - w.crests[0].x);
        dimension(c, v.of(low), v.of({low.x, w.crests[0].y + along * (w.crests[*end].y - w.crests[0].y)}), "C", true);
        add_height(rows, s, m, "C  relief here, fret " + std::to_string(r.index + 1), [&](const subject& of) {
            const auto relief = relief_under(of, which(of));
            return relief ? std::optional(relief->gap) : std::nullopt;
        });
    }
    add_height(rows, s, m, "saddle over soundboard", [&](const subject& of) {
        return std::optional(of.setup.strings[which(of)].line.saddle_z + of.instrument.saddle.board_line);
    });
    std::vector<std::string> bend{"break angle at the saddle, deg"};
    s.each([&](const subject& of, const pen&, bool) {
        bend.push_back(tl::fixed_text(of.setup.strings[which(of)].at_saddle.break_angle, deg, 1));
    });
    rows.push_back(bend);
    draw_table(c, {numbers.left, numbers.top}, numbers.width, number_column, rows);
}

} // namespace

sheets side_view(const heading& h, const subject& found, const subject* planned) {
    const box sheet = landscape(h.paper);
    const auto kept = std::make_shared<std::pair<subject, std::optional<subject>>>(found, planned ? std::optional(*planned)
                                                                                                  : std::nullopt);
    return {"side_view",
            {{sheet, [=](canvas& c) {
                  const states s{kept->first, kept->second ? &*kept->second : nullptr};
                  const box room = draw_frame(
                      c, h, sheet, "Side view. Heights are stretched against lengths, by the factor said over each part.");
                  double x = room.left;
                  const double legend = room.top + 2.6;
                  s.each([&](const subject&, const pen& p, bool dashed) {
                      c.line({x, legend - 1}, {x + 14, legend - 1}, p);
                      const std::string words = dashed      ? "as found (dashed, grey; crests ringed)"
                                                : s.planned ? "planned (unbroken, black)"
                                                            : "as found";
                      c.text({x + 16, legend}, words, {.size = 2.6});
                      x += 20 + c.text_width(words, {.size = 2.6});
                  });
                  c.line({x, legend - 1}, {x + 10, legend - 1}, {.width = 0.15, .dash = 0.4, .gap = 0.6});
                  c.text({x + 12, legend}, "straightedge on fret 1 and the joint's fret", {.size = 2.6});
                  const bool two = s.latest().setup.strings.size() > 1;
                  const double top = legend + 2, height = room.bottom() - top, whole = two ? 0.34 * height : 0.45 * height;
                  draw_whole(c, {room.left, top, room.width, whole - 2}, s, h.measures);
                  const double each = (height - whole) / (two ? 2 : 1);
                  draw_string(c, {room.left, top + whole, room.width, each - (two ? 2 : 0)}, s, h.measures, false);
                  if (two) { draw_string(c, {room.left, top + whole + each, room.width, each}, s, h.measures, true); }
              }}}};
}

} // namespace drawing
