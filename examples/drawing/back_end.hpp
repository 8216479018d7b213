#pragma once
/// @file
/// What a canvas draws with: one for each kind of file, and one that only notes what is drawn.

#include <span>
#include <string>

#include "canvas.hpp"

namespace drawing {

/// Draws what a canvas asks for. Places are finite, in mm; letters are fit for paper.
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
    /// Whether letters that take a box are drawn at all.
    [[nodiscard]] virtual bool takes(const box& /*letters*/) const { return true; }
    /// One line of letters whose base line starts at a place.
    virtual void letters(place start, const std::string& shown, const lettering& l) = 0;
    /// How wide they are, mm.
    virtual double width(const std::string& shown, const lettering& l) = 0;
    /// From now on within a window only, `origin` being (0, 0), until `leave`.
    virtual void enter(const box& window, place origin) = 0;
    virtual void leave() = 0;
};

} // namespace drawing
