#pragma once
/// @file
/// Paper, and places on it. Millimetres of paper are plain numbers, so that nobody mistakes them for lengths of an
/// instrument. x runs to the right and y down, from the upper left corner.

namespace drawing {

/// A place on paper, mm.
struct place {
    double x = 0;
    double y = 0;
};

/// An upright rectangle on paper, mm.
struct box {
    double left = 0;
    double top = 0;
    double width = 0;
    double height = 0;

    [[nodiscard]] constexpr double right() const { return left + width; }
    [[nodiscard]] constexpr double bottom() const { return top + height; }
    [[nodiscard]] constexpr double middle() const { return left + width / 2; }
};

/// Paper sizes of common printers: ISO 216 and ANSI/ASME Y14.1.
enum class paper { a4, letter };

/// A whole sheet in landscape.
[[nodiscard]] constexpr box landscape(paper p) { return p == paper::a4 ? box{0, 0, 297, 210} : box{0, 0, 279.4, 215.9}; }

} // namespace drawing
