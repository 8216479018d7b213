#include <algorithm>
#include <array>
#include <cmath>

#include "back_end.hpp"
#include "text.hpp"

namespace drawing {

namespace {

/// What is drawn of a text.
constexpr std::size_t longest_line = 1000;
/// How far the tallest letters stand over the base line and the lowest below it, shares of the size.
constexpr double over_line = 0.76, below_line = 0.24;

bool finite(place p) { return std::isfinite(p.x) && std::isfinite(p.y); }
std::vector<place> finite_ones(std::span<const place> points) {
    std::vector<place> kept;
    std::copy_if(points.begin(), points.end(), std::back_inserter(kept), finite);
    return kept;
}
std::array<place, 4> corners_of(const box& b) {
    return {{{b.left, b.top}, {b.right(), b.top}, {b.right(), b.bottom()}, {b.left, b.bottom()}}};
}
/// From a text's place back along its line to where its letters start.
double back_to_start(double width, align side) {
    return side == align::left ? 0 : side == align::right ? width : width / 2;
}
place start_of(place at, double width, const lettering& l) {
    const double back = back_to_start(width, l.side);
    return l.upward ? place{at.x, at.y + back} : place{at.x - back, at.y};
}
/// A box that reaches so far from the start along the line, over it and below it.
box along_line(place start, const lettering& l, double before, double behind, double over, double below) {
    return l.upward ? box{start.x - over, start.y - behind, over + below, before + behind}
                    : box{start.x - before, start.y - over, before + behind, over + below};
}

} // namespace

box text_box(place at, double width, const lettering& l) {
    return along_line(start_of(at, width, l), l, 0, width, over_line * l.size, below_line * l.size);
}

void canvas::line(place from, place to, const pen& p) {
    const place ends[] = {from, to};
    if (finite(from) && finite(to)) { drawn_by_->stroke(ends, p, false); }
}
void canvas::path(std::span<const place> points, const pen& p, bool closed) {
    const auto kept = finite_ones(points);
    if (!kept.empty()) { drawn_by_->stroke(kept, p, closed); }
}
void canvas::fill(std::span<const place> points, ink shade) {
    const auto kept = finite_ones(points);
    if (!kept.empty()) { drawn_by_->fill(kept, shade); }
}
void canvas::rectangle(const box& b, const pen& p) { path(corners_of(b), p, true); }
void canvas::fill(const box& b, ink shade) { fill(corners_of(b), shade); }
void canvas::hatch(const box& b, double spacing, bool crossed, const pen& p) {
    for (double x = b.left - b.height; x < b.right(); x += spacing) {
        // From the lower edge at x to the upper one at x + height: what of it lies between left and right.
        const double from = std::max(x, b.left) - x, to = std::min(x + b.height, b.right()) - x;
        if (to <= from) { continue; }
        line({x + from, b.bottom() - from}, {x + to, b.bottom() - to}, p);
        if (crossed) { line({x + from, b.top + from}, {x + to, b.top + to}, p); }
    }
}
void canvas::circle(place middle, double radius, const pen& p) {
    if (finite(middle)) { drawn_by_->circle(middle, radius, p); }
}
void canvas::dot(place middle, double radius, ink shade) {
    if (finite(middle)) { drawn_by_->dot(middle, radius, shade); }
}

void canvas::text(place at, std::string_view letters, const lettering& l) {
    if (!finite(at)) { return; }
    const std::string shown = printable(letters, longest_line);
    const double width = drawn_by_->width(shown, l);
    const place start = start_of(at, width, l);
    if (!drawn_by_->takes(text_box(at, width, l))) { return; }
    if (l.backed) { fill(along_line(start, l, 0.3, width + 0.3, 0.82 * l.size, below_line * l.size), ink::white); }
    drawn_by_->letters(start, shown, l);
}
double canvas::text_width(std::string_view letters, const lettering& l) {
    return drawn_by_->width(printable(letters, longest_line), l);
}
std::string canvas::fitted(std::string_view letters, double most, const lettering& l) {
    const std::string whole = printable(letters, longest_line);
    if (text_width(whole, l) <= most) { return whole; }
    std::size_t fits = 0, too_many = character_count(whole);
    while (too_many - fits > 1) {
        const std::size_t half = (fits + too_many) / 2;
        (text_width(first_characters(whole, half) + "\xE2\x80\xA6", l) <= most ? fits : too_many) = half;
    }
    return first_characters(whole, fits) + "\xE2\x80\xA6";
}
lettering canvas::smaller(std::string_view letters, double most, lettering l) {
    const double wide = text_width(letters, l);
    if (wide > most) { l.size *= std::max(0.5, most / wide); }
    return l;
}
void canvas::within(const box& window, place origin, const std::function<void(canvas&)>& draw) {
    drawn_by_->enter(window, origin);
    draw(*this);
    drawn_by_->leave();
}

namespace {

/// Has another draw, but no letters that a window would cut.
class uncut final : public back_end {
public:
    uncut(back_end& by, const box& window) : by_(by), window_(window), at_(window) {}

    void stroke(std::span<const place> points, const pen& p, bool closed) override { by_.stroke(points, p, closed); }
    void fill(std::span<const place> points, ink shade) override { by_.fill(points, shade); }
    void circle(place middle, double radius, const pen& p) override { by_.circle(middle, radius, p); }
    void dot(place middle, double radius, ink shade) override { by_.dot(middle, radius, shade); }
    [[nodiscard]] bool takes(const box& letters) const override {
        const box b = at_.on_page(letters);
        return by_.takes(letters) && b.left >= window_.left && b.right() <= window_.right() && b.top >= window_.top &&
               b.bottom() <= window_.bottom();
    }
    void letters(place start, const std::string& shown, const lettering& l) override { by_.letters(start, shown, l); }
    double width(const std::string& shown, const lettering& l) override { return by_.width(shown, l); }
    void enter(const box& window, place origin) override {
        at_.enter(window, origin);
        by_.enter(window, origin);
    }
    void leave() override {
        at_.leave();
        by_.leave();
    }

private:
    back_end& by_;
    box window_;
    windows at_;
};

} // namespace

void canvas::within_uncut(const box& window, place origin, const std::function<void(canvas&)>& draw) {
    uncut drawn_by(*drawn_by_, window);
    canvas(drawn_by).within(window, origin, draw);
}

page on_white(const page& p) {
    return {p.sheet, [&p](canvas& c) {
                c.fill(p.sheet, ink::white);
                p.draw(c);
            }};
}

} // namespace drawing
