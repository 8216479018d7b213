#pragma once
/// @file
/// Labels that all find room: set smaller, moved apart and led to their places, or set where nothing else lies.

#include <string>
#include <vector>

#include "noted.hpp"

namespace drawing {

/// What stands under (or over) places along a level line: each label is written.
struct place_labels {
    double y = 0;            ///< of the line
    double least = 0;        ///< where labels may begin
    double most = 0;         ///< and end
    double size = 2.3;       ///< of the letters where there is room
    std::vector<double> x{}; ///< of the places, ascending
    std::vector<std::string> words{};
};
/// Writes them below the line, each led from its place; smaller where they need more room than there is.
void write_labels(canvas& c, const place_labels& l);

/// The words as lines none of which is wider than `most` mm, but for a single word that is.
[[nodiscard]] std::vector<std::string> lines_within(canvas& c, const std::string& words, double most, const lettering& l);
/// How high they are one below the other, mm.
[[nodiscard]] double lines_height(const std::string& words, double most, const lettering& l);
/// Writes them so from a base line on.
void write_lines(canvas& c, place first, const std::string& words, double most, const lettering& l);

/// Whether nothing that was noted lies in a box: no letters, no stroke through it.
[[nodiscard]] bool is_free(const box& b, const noted_marks& marks);
/// The first of some boxes that is free, or the first of all.
[[nodiscard]] std::size_t first_free(const std::vector<box>& boxes, const noted_marks& marks);
/// Whether a stroke, or the edge of what is filled, passes through a box.
[[nodiscard]] bool passes_through(const noted_shape& s, const box& b);

} // namespace drawing
