#pragma once
/// @file
/// What the one-page drawings share: title, caution and strokes.

#include "subject.hpp"

namespace drawing {

/// The margin on all sides, which common printers cannot print on.
inline constexpr double margin = 10;

/// The strokes of the two states. Words tell them apart as well.
inline constexpr pen planned_pen{.width = 0.4};
inline constexpr pen found_pen{.width = 0.25, .shade = ink::grey, .dash = 1.6, .gap = 0.9};

/// Draws the title, a line below it, and the caution at the foot. Returns the room that is left.
box draw_frame(canvas& c, const heading& h, const box& sheet, const std::string& below_title);

} // namespace drawing
