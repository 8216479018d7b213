#pragma once
/// @file
/// Strokes, fills and letters in millimetres of paper, the same for every kind of file.

#include <functional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "paper.hpp"

namespace drawing {

/// Shades of grey; a drawing never tells anything by colour alone.
enum class ink { black, grey, pale, white };

/// A stroke.
struct pen {
    double width = 0.25; ///< mm
    ink shade = ink::black;
    double dash = 0; ///< mm drawn, and left out in turn; 0 is an unbroken stroke
    double gap = 0;
};

/// The part of a text that lies at its place.
enum class align { left, middle, right };

/// How letters look.
struct lettering {
    double size = 2.7; ///< mm
    align side = align::left;
    bool bold = false;
    bool upward = false; ///< read from below, along the paper's left edge
    bool backed = false; ///< on a white ground, so that lines under it do not cross it
    ink shade = ink::black;
};

/// The box of letters whose base line starts, is centred or ends at a place. Its height is that of the tallest and lowest
/// letters of a common sans face.
[[nodiscard]] box text_box(place at, double width, const lettering& l);

class back_end;

/// The surface to draw on. Places that are not finite are left out.
class canvas {
public:
    explicit canvas(back_end& b) : drawn_by_(&b) {}

    void line(place from, place to, const pen& p = {});
    void path(std::span<const place> points, const pen& p = {}, bool closed = false);
    void fill(std::span<const place> points, ink shade);
    void rectangle(const box& b, const pen& p = {});
    void fill(const box& b, ink shade);
    /// Slanting lines `spacing` mm apart, and the other way too if `crossed`.
    void hatch(const box& b, double spacing, bool crossed, const pen& p = {});
    void circle(place middle, double radius, const pen& p = {});
    void dot(place middle, double radius, ink shade = ink::black);
    /// One line of letters whose base line starts, is centred or ends at a place.
    void text(place at, std::string_view letters, const lettering& l = {});
    /// How wide letters are, mm.
    [[nodiscard]] double text_width(std::string_view letters, const lettering& l = {});
    /// The letters, cut with an ellipsis if they are wider than `most` mm.
    [[nodiscard]] std::string fitted(std::string_view letters, double most, const lettering& l = {});
    /// The lettering, made smaller if the letters are wider than `most` mm, but at least half as large.
    [[nodiscard]] lettering smaller(std::string_view letters, double most, lettering l = {});
    /// Draws within a window only, `origin` becoming (0, 0).
    void within(const box& window, place origin, const std::function<void(canvas&)>& draw);
    /// The same, without letters that the window would cut.
    void within_uncut(const box& window, place origin, const std::function<void(canvas&)>& draw);

private:
    back_end* drawn_by_;
};

/// A page and what is on it.
struct page {
    box sheet{};
    std::function<void(canvas&)> draw{};
};

/// Drawing failed for want of memory or a fault of the graphics library.
class cannot_draw : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// The page on a ground of its own, for a screen.
[[nodiscard]] page on_white(const page& p);

/// Whether PDF and PNG can be made. Without cairo they cannot.
[[nodiscard]] bool makes_pdf_and_png();
/// The message when PDF or PNG is asked for and cannot be made.
inline constexpr const char* no_pdf_or_png = "PDF and PNG are left out: this program was built without cairo";
/// The pages as one PDF file, in true size.
/// @throws cannot_draw
[[nodiscard]] std::string pdf_of(std::span<const page> pages, const std::string& title);
/// One page as an SVG file, in true size.
[[nodiscard]] std::string svg_of(const page& p);
/// One page as a PNG file.
/// @throws cannot_draw
[[nodiscard]] std::string png_of(const page& p, double dots_per_inch);

} // namespace drawing
