#include <algorithm>

#include <tautline/instrument/fret_lines.hpp>

#include "labels.hpp"
#include "spread.hpp"
#include "template_parts.hpp"
#include "view.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

constexpr std::size_t rows_on_a_table = 24;

/// A string's saddle from above, mm: along from the nut's middle, across as drawn, and the place its setback counts from.
struct saddle_point {
    std::string label{};
    double x = 0, y = 0, line = 0;
};

/// Draws the saddles, the line their setbacks count from and the centre line. The nut is at the left.
true_size bridge_plan(std::vector<saddle_point> points, const std::string& words) {
    std::sort(points.begin(), points.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
    extent x, y;
    std::vector<double> wanted;
    for (const saddle_point& p : points) {
        x.take(p.x), x.take(p.line), y.take(p.y);
        wanted.push_back(p.y);
    }
    x.take((points.front().line + points.back().line) / 2);
    const auto labels = spread_apart(wanted, 3.2);
    const double high = std::min({y.least, labels.front(), 0.0}) - 8, low = std::max({y.most, labels.back(), 0.0}) + 6;
    const double left = x.least - 12, right = x.most + 8;
    const double width = std::max(right - left + 20, 140.0);
    const lettering small{.size = 2.4};
    const std::string all_words = words +
                                  " Dashed across: where setbacks are told from, before compensation. Dashed along: "
                                  "the centre line.";
    return {"Bridge from above", width, low - high + 1 + lines_height(all_words, width - 8, small), [=](canvas& c) {
                const auto on = [&](double along, double across) { return place{6 + along - left, across - high}; };
                c.line(on(left, 0), on(right, 0), {.width = 0.12, .dash = 1.5, .gap = 0.8});
                const saddle_point &first = points.front(), &last = points.back();
                c.line(on(first.line, first.y), on(last.line, last.y), {.width = 0.2, .dash = 2, .gap = 1});
                for (std::size_t i = 0; i < points.size(); ++i) {
                    const saddle_point& p = points[i];
                    c.line(on(p.x - 2, p.y), on(p.x + 2, p.y), {.width = 0.12});
                    c.line(on(p.x, p.y - 2), on(p.x, p.y + 2), {.width = 0.12});
                    c.circle(on(p.x, p.y), 0.8, {.width = 0.12});
                    c.line(on(p.x + 2.4, p.y), on(right + 1.4, labels[i]), {.width = 0.1});
                    c.text({on(right + 2, labels[i]).x, on(right, labels[i]).y + 0.8}, p.label, {.size = 2});
                }
                write_lines(c, {4, low - high + 3.5}, all_words, width - 8, small);
            }};
}

} // namespace

/// Numbers in rows, as several tables when there are many strings.
void add_tables(std::vector<true_size>& out, const std::string& name, const std::vector<std::string>& heads,
                const std::vector<std::vector<std::string>>& rows, double column) {
    for (std::size_t first = 0; first < rows.size(); first += rows_on_a_table) {
        const std::size_t end = std::min(rows.size(), first + rows_on_a_table);
        const double width = 20 + column * static_cast<double>(heads.size() - 1);
        const std::vector<std::vector<std::string>> part(rows.begin() + static_cast<std::ptrdiff_t>(first),
                                                         rows.begin() + static_cast<std::ptrdiff_t>(end));
        out.push_back({name, width, 6.5 + 4.2 * static_cast<double>(part.size()),
                       [=](canvas& c) {
                           double y = 4;
                           const auto write = [&](const std::vector<std::string>& row, bool bold) {
                               for (std::size_t i = 0; i < row.size(); ++i) {
                                   const lettering l{
                                       .size = 2.5, .side = i == 0 ? align::left : align::right, .bold = bold};
                                   const double most = i == 0 ? 18 : column - 3;
                                   const lettering small = c.smaller(row[i], most, l);
                                   c.text({i == 0 ? 4 : 20 + column * static_cast<double>(i), y},
                                          c.fitted(row[i], most, small), small);
                               }
                               y += 4.2;
                           };
                           write(heads, true);
                           for (const auto& row : part) { write(row, false); }
                       },
                       "", true});
    }
}

std::vector<true_size> bridge_templates(const subject& s, measures m) {
    std::vector<true_size> out;
    const tl::instrument& i = s.instrument;
    if (!i.board.scale.fan && i.saddle.single.empty()) { return out; }
    const double up = s.left_handed ? 1 : -1; // the bass lies below on a right-handed instrument whose nut is at the left
    std::vector<saddle_point> points;
    std::vector<std::vector<std::string>> rows;
    for (std::size_t k = 0; k < s.setup.strings.size(); ++k) {
        const tl::string_setup& of = s.setup.strings[k];
        // Places are those with slack strings; at pitch, a soundboard that gives takes the saddle forward.
        const tl::length<double> x = of.line.saddle_x + (s.setup.top ? s.setup.top->forward : tl::length<double>()),
                                 line = tl::saddle_line_at(i, of.y_at_saddle);
        points.push_back({s.setup.names.number(k), x / mm, up * (of.y_at_saddle / mm), line / mm});
        rows.push_back(
            {string_label(s, k), written_place(x - line, m), written_place(x, m), written_place(of.y_at_saddle, m)});
    }
    out.push_back(bridge_plan(points, std::string("From above, the nut to the left, ") +
                                          (s.left_handed ? "bass above" : "bass below") +
                                          ", strings slack. Rings: where each string lies on its saddle."));
    add_tables(out, "Bridge from above, strings slack: along the centre line; across, - is toward the bass",
               {"string", "setback", "from nut's middle", "from centre line"}, rows, m == measures::both ? 41 : 27);
    return out;
}

} // namespace drawing
