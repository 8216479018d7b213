#pragma once
/// @file
/// Back ends of a canvas: one for each kind of file, and one that only notes what is drawn.

#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "canvas.hpp"

namespace drawing {

/// Draws for a canvas. Places are finite and in mm; letters are fit for paper.
class back_end {
public:
    back_end() = default;
    back_end(const back_end&) = delete;
    back_end& operator=(const back_end&) = delete;
    back_end(back_end&&) = delete;
    back_end& operator=(back_end&&) = delete;
    virtual ~back_end() = default;

    virtual void stroke(std::span<const place> points, const pen& p, bool closed) = 0;
    virtual void fill(std::span<const place> points, ink shade) = 0;
    virtual void circle(place middle, double radius, const pen& p) = 0;
    virtual void dot(place middle, double radius, ink shade) = 0;
    /// Whether letters in a box are drawn at all.
    [[nodiscard]] virtual bool takes(const box& /*letters*/) const { return true; }
    /// One line of letters whose base line starts at a place.
    virtual void letters(place start, const std::string& shown, const lettering& l) = 0;
    /// The width of letters, mm.
    virtual double width(const std::string& shown, const lettering& l) = 0;
    /// Draws only within a window, with `origin` as (0, 0), until `leave`.
    virtual void enter(const box& window, place origin) = 0;
    virtual void leave() = 0;
};

/// The open windows, one within the other: the visible part, and the place of (0, 0) on the page.
class windows {
public:
    explicit windows(const box& sheet) : entered_{{sheet, {}}} {}

    [[nodiscard]] const box& seen() const { return entered_.back().seen; }
    [[nodiscard]] place on_page(place p) const { return {p.x + entered_.back().shift.x, p.y + entered_.back().shift.y}; }
    [[nodiscard]] box on_page(box b) const {
        const place corner = on_page(place{b.left, b.top});
        return {corner.x, corner.y, b.width, b.height};
    }
    void enter(const box& window, place origin) {
        const box w = on_page(window);
        const box& s = seen();
        const double left = std::max(s.left, w.left), top = std::max(s.top, w.top);
        entered_.push_back({{left, top, std::max(0.0, std::min(s.right(), w.right()) - left),
                             std::max(0.0, std::min(s.bottom(), w.bottom()) - top)},
                            on_page(origin)});
    }
    void leave() { entered_.pop_back(); }

private:
    struct frame {
        box seen{};
        place shift{};
    };
    std::vector<frame> entered_;
};

} // namespace drawing
