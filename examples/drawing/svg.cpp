#include "svg.hpp"

#include <array>
#include <cmath>
#include <cstdio>

#include "back_end.hpp"
#include "letter_widths.hpp"
#include "text.hpp"

namespace drawing {

namespace {

/// A number of mm to a thousandth, without trailing zeros.
std::string number(double v) {
    std::array<char, 320> buffer{}; // the largest double and its decimals
    (void)std::snprintf(buffer.data(), buffer.size(), "%.3f", v);
    std::string text(buffer.data());
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') { text.pop_back(); }
    return text == "-0" ? "0" : text;
}
std::string pair(place p) { return number(p.x) + " " + number(p.y); }
std::string attribute(const char* name, const std::string& value) { return std::string(" ") + name + "=\"" + value + "\""; }

/// The inks in their order.
std::size_t index_of(ink i) { return i == ink::black ? 0 : i == ink::grey ? 1 : i == ink::pale ? 2 : 3; }
constexpr std::array<const char*, 4> fixed_inks{"#000", "#737373", "#bfbfbf", "#fff"};

bool alike(const pen& a, const pen& b) {
    return a.width == b.width && a.shade == b.shade && a.dash == b.dash && a.gap == b.gap;
}

/// Writes a drawing. Consecutive strokes of one pen become one path.
class svg_back_end final : public back_end {
public:
    svg_back_end(inks of, const box& sheet) : inks_(of), at_(sheet) {}

    void stroke(std::span<const place> points, const pen& p, bool closed) override {
        if (!seen(points, p.width)) { return; }
        begin(p);
        path_ += trace(points, closed);
    }
    void fill(std::span<const place> points, ink shade) override {
        if (!seen(points, 0)) { return; }
        end_path();
        out_ += "<path" + filled(shade) + attribute("d", trace(points, true)) + "/>\n";
    }
    void circle(place middle, double radius, const pen& p) override {
        if (!seen({&middle, 1}, radius + p.width)) { return; }
        end_path();
        out_ += "<circle" + round(middle, radius) + stroked(p) + "/>\n";
    }
    void dot(place middle, double radius, ink shade) override {
        if (!seen({&middle, 1}, radius)) { return; }
        end_path();
        out_ += "<circle" + round(middle, radius) + filled(shade) + "/>\n";
    }
    void letters(place start, const std::string& shown, const lettering& l) override {
        const box around = at_.on_page(text_box(start, width(shown, l), {.size = l.size, .upward = l.upward}));
        if (shown.empty() || !meet(around, at_.seen())) { return; }
        end_path();
        const std::string wide = number(width(shown, l));
        out_ += "<text" + attribute("x", number(start.x)) + attribute("y", number(start.y)) + filled(l.shade) +
                attribute("font-size", number(l.size)) + (l.bold ? attribute("font-weight", "bold") : "") +
                (shown.find("  ") != std::string::npos ? attribute("xml:space", "preserve") : "") +
                // The width is the computed one, whatever face the reader has.
                attribute("textLength", wide) + attribute("lengthAdjust", "spacingAndGlyphs") +
                (l.upward ? attribute("transform", "rotate(-90 " + pair(start) + ")") : "") + ">" + markup_text(shown) +
                "</text>\n";
    }
    double width(const std::string& shown, const lettering& l) override { return l.size * line_width(shown, l.bold); }
    void enter(const box& window, place origin) override {
        end_path();
        at_.enter(window, origin);
        out_ += "<svg" + attribute("x", number(window.left)) + attribute("y", number(window.top)) +
                attribute("width", number(window.width)) + attribute("height", number(window.height)) +
                attribute("viewBox", pair({window.left - origin.x, window.top - origin.y}) + " " + number(window.width) +
                                         " " + number(window.height)) +
                ">\n";
    }
    void leave() override {
        end_path();
        at_.leave();
        out_ += "</svg>\n";
    }
    /// Everything written so far.
    std::string take() {
        end_path();
        return std::move(out_);
    }

private:
    static bool meet(const box& a, const box& b) {
        return a.left <= b.right() && b.left <= a.right() && a.top <= b.bottom() && b.top <= a.bottom();
    }
    /// Whether a part may lie in the window. Other things need not be in the file.
    [[nodiscard]] bool seen(std::span<const place> points, double spare) const {
        place least{INFINITY, INFINITY}, most{-INFINITY, -INFINITY};
        for (const place& p : points) {
            least = {std::min(least.x, p.x), std::min(least.y, p.y)};
            most = {std::max(most.x, p.x), std::max(most.y, p.y)};
        }
        return meet(
            at_.on_page(box{least.x - spare, least.y - spare, most.x - least.x + 2 * spare, most.y - least.y + 2 * spare}),
            at_.seen());
    }
    static std::string trace(std::span<const place> points, bool closed) {
        std::string d;
        for (std::size_t i = 0; i < points.size(); ++i) { d += (i == 0 ? "M" : "L") + pair(points[i]); }
        return d + (closed ? "Z" : "");
    }
    static std::string round(place middle, double radius) {
        return attribute("cx", number(middle.x)) + attribute("cy", number(middle.y)) + attribute("r", number(radius));
    }
    [[nodiscard]] std::string filled(ink i) const {
        return inks_ == inks::fixed ? attribute("fill", fixed_inks[index_of(i)])
                                    : attribute("class", "f" + std::to_string(index_of(i)));
    }
    [[nodiscard]] std::string stroked(const pen& p) const {
        return (inks_ == inks::fixed ? attribute("stroke", fixed_inks[index_of(p.shade)])
                                     : attribute("class", "s" + std::to_string(index_of(p.shade)))) +
               attribute("stroke-width", number(p.width)) +
               (p.dash > 0 ? attribute("stroke-dasharray", pair({p.dash, p.gap})) : "");
    }
    void begin(const pen& p) {
        if (!path_.empty() && alike(p, pen_)) { return; }
        end_path();
        pen_ = p;
    }
    void end_path() {
        if (!path_.empty()) { out_ += "<path" + stroked(pen_) + attribute("d", path_) + "/>\n"; }
        path_.clear();
    }

    inks inks_;
    windows at_;
    pen pen_{};
    std::string path_{}; ///< strokes of `pen_` that are not written yet
    std::string out_{};
};

std::string drawn(const page& p, inks of) {
    svg_back_end drawn_by(of, p.sheet);
    canvas c(drawn_by);
    p.draw(c);
    return drawn_by.take();
}
/// What all of it has in common.
std::string common() {
    return attribute("fill", "none") + attribute("stroke-linejoin", "round") + attribute("font-family", letter_faces);
}

} // namespace

std::string svg_classes(const std::string& black, const std::string& grey, const std::string& pale,
                        const std::string& white) {
    std::string style;
    std::size_t k = 0;
    for (const std::string* colour : {&black, &grey, &pale, &white}) {
        const std::string n = std::to_string(k++);
        style += ".s" + n + "{stroke:" + *colour + "}.f" + n + "{fill:" + *colour + "}";
    }
    return style;
}

std::string svg_element(const page& p, const std::string& told) {
    const box& b = p.sheet;
    return "<svg role=\"img\"" + attribute("aria-label", markup_text(told)) +
           attribute("viewBox", pair({b.left, b.top}) + " " + number(b.width) + " " + number(b.height)) +
           attribute("style", "--wide:" + number(b.width) + "mm") + common() + ">\n" + drawn(p, inks::of_page) + "</svg>\n";
}

std::string svg_of(const page& p) {
    const box& b = p.sheet;
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"" +
           attribute("width", number(b.width) + "mm") + attribute("height", number(b.height) + "mm") +
           attribute("viewBox", pair({b.left, b.top}) + " " + number(b.width) + " " + number(b.height)) + common() + ">\n" +
           drawn(on_white(p), inks::fixed) + "</svg>\n";
}

std::string markup_text(std::string_view text, std::size_t most) {
    std::string out;
    for (const char c : printable(text, most)) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        case '\'':
            out += "&#39;";
            break;
        default:
            out += c;
        }
    }
    return out;
}

} // namespace drawing
