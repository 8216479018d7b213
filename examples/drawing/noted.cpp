#include "noted.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "back_end.hpp"
#include "letter_widths.hpp"

namespace drawing {

namespace {

class noting final : public back_end {
public:
    explicit noting(const box& sheet) : at_(sheet) {}

    void stroke(std::span<const place> points, const pen& p, bool closed) override { add(points, p, closed, false); }
    void fill(std::span<const place> points, ink shade) override { add(points, {.width = 0, .shade = shade}, true, true); }
    void circle(place middle, double radius, const pen& p) override { add(edge(middle, radius), p, true, false); }
    void dot(place middle, double radius, ink shade) override {
        add(edge(middle, radius), {.width = 0, .shade = shade}, true, true);
    }
    void letters(place start, const std::string& shown, const lettering& l) override {
        const lettering from_start{.size = l.size, .bold = l.bold, .upward = l.upward};
        const box around = at_.on_page(text_box(start, width(shown, l), from_start));
        marks.texts.push_back({shown, around, at_.seen(), l.backed, order_++});
    }
    double width(const std::string& shown, const lettering& l) override { return l.size * line_width(shown, l.bold); }
    void enter(const box& window, place origin) override { at_.enter(window, origin); }
    void leave() override { at_.leave(); }

    noted_marks marks{};

private:
    static std::vector<place> edge(place middle, double radius) {
        std::vector<place> points;
        constexpr int corners = 24;
        for (int k = 0; k < corners; ++k) {
            const double turn = 2 * std::numbers::pi * k / corners;
            points.push_back({middle.x + radius * std::cos(turn), middle.y + radius * std::sin(turn)});
        }
        return points;
    }
    void add(std::span<const place> points, const pen& p, bool closed, bool filled) {
        noted_shape s{{}, at_.seen(), p, closed, filled, order_++};
        for (const place& q : points) { s.points.push_back(at_.on_page(q)); }
        marks.shapes.push_back(std::move(s));
    }

    windows at_;
    std::size_t order_ = 0;
};

} // namespace

noted_marks note(const box& sheet, const std::function<void(canvas&)>& draw) {
    noting noted(sheet);
    canvas c(noted);
    draw(c);
    return std::move(noted.marks);
}

} // namespace drawing
