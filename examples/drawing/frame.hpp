#pragma once
/// @file
/// What the one-page drawings share: the frame of title and caution, and their strokes.

#include "subject.hpp"

namespace drawing {

/// Paper kept free all around: what common printers do not reach.
inline constexpr double margin = 10;

/// How the two states are told apart: by stroke and words.
inline constexpr pen planned_pen{.width = 0.4};
inline constexpr pen found_pen{.width = 0.25, .shade = ink::grey, .dash = 1.6, .gap = 0.9};

/// Title, a line below it, the caution at the foot. What is left for the drawing is returned.
box draw_frame(canvas& c, const heading& h, const box& sheet, const std::string& below_title);

} // namespace drawing
