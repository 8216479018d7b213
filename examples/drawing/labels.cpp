#include "labels.hpp"

#include <algorithm>
#include <cmath>

#include "spread.hpp"

namespace drawing {

namespace {

constexpr double tick = 1.2, led = 2.1, gap = 0.6; // mm
constexpr double line_step = 1.45;                 // sizes

/// Whether a segment has a part within a box (Liang and Barsky, 1984: the span of its parameter that all four edges leave).
bool crosses(place from, place to, const box& b) {
    double first = 0, last = 1;
    const auto cut = [&](double start, double run, double least, double most) {
        if (run == 0) { return start > least && start < most; }
        const double a = (least - start) / run, z = (most - start) / run;
        first = std::max(first, std::min(a, z));
        last = std::min(last, std::max(a, z));
        return true;
    };
    return cut(from.x, to.x - from.x, b.left, b.right()) && cut(from.y, to.y - from.y, b.top, b.bottom()) && first < last;
}

} // namespace

void write_labels(canvas& c, const place_labels& l) {
    if (l.x.empty()) { return; }
    lettering how{.size = l.size, .side = align::middle};
    const auto widest = [&] {
        double wide = 0;
        for (const std::string& w : l.words) { wide = std::max(wide, c.text_width(w, how)); }
        return wide;
    };
    const double room = (l.most - l.least) / static_cast<double>(l.x.size()) - gap;
    if (widest() > room) { how.size *= std::max(0.1, room / widest()); }
    const double half = widest() / 2;
    const auto at = spread_within(l.x, 2 * half + gap, l.least + half, l.most - half);
    const pen thin{.width = 0.15};
    for (std::size_t i = 0; i < l.x.size(); ++i) {
        c.line({l.x[i], l.y}, {l.x[i], l.y + tick}, thin);
        if (std::abs(at[i] - l.x[i]) > 0.05) { c.line({l.x[i], l.y + tick}, {at[i], l.y + led}, {.width = 0.1}); }
        c.text({at[i], l.y + led + 0.2 + 0.76 * how.size}, l.words[i], how);
    }
}

std::vector<std::string> lines_within(canvas& c, const std::string& words, double most, const lettering& l) {
    std::vector<std::string> lines;
    std::string line;
    for (std::size_t at = 0; at < words.size();) {
        const std::size_t end = std::min(words.find(' ', at), words.size());
        const std::string word = words.substr(at, end - at);
        if (!line.empty() && c.text_width(line + " " + word, l) > most) {
            lines.push_back(line);
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
        at = end + 1;
    }
    if (!line.empty()) { lines.push_back(line); }
    return lines;
}
double lines_height(const std::string& words, double most, const lettering& l) {
    double high = 0;
    (void)note({},
               [&](canvas& c) { high = line_step * l.size * static_cast<double>(lines_within(c, words, most, l).size()); });
    return high;
}
void write_lines(canvas& c, place first, const std::string& words, double most, const lettering& l) {
    for (const std::string& line : lines_within(c, words, most, l)) {
        c.text(first, line, l);
        first.y += line_step * l.size;
    }
}

bool passes_through(const noted_shape& s, const box& b) {
    for (std::size_t i = 0; i + (s.closed ? 0 : 1) < s.points.size(); ++i) {
        if (crosses(s.points[i], s.points[(i + 1) % s.points.size()], b)) { return true; }
    }
    return false;
}
bool is_free(const box& b, const noted_marks& marks) {
    return std::none_of(marks.texts.begin(), marks.texts.end(),
                        [&](const noted_text& t) { return overlap_by(t.around, b); }) &&
           std::none_of(marks.shapes.begin(), marks.shapes.end(),
                        [&](const noted_shape& s) { return passes_through(s, b); });
}
std::size_t first_free(const std::vector<box>& boxes, const noted_marks& marks) {
    const auto at = std::find_if(boxes.begin(), boxes.end(), [&](const box& b) { return is_free(b, marks); });
    return at == boxes.end() ? 0 : static_cast<std::size_t>(at - boxes.begin());
}

} // namespace drawing
