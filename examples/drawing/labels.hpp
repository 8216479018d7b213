#pragma once
/// @file
/// Labels that all find room. They are set smaller, moved apart and led to their places, or set where nothing else lies.

#include <string>
#include <vector>

#include "noted.hpp"

namespace drawing {

/// Labels for places along a level line. Every label is written.
struct place_labels {
    double y = 0;            ///< the line's
    double least = 0;        ///< labels begin no further left
    double most = 0;         ///< and end no further right
    double size = 2.3;       ///< of the letters where there is room
    std::vector<double> x{}; ///< of the places, ascending
    std::vector<std::string> words{};
};
/// Writes the labels below the line, each led from its place. They become smaller when there is too little room.
void write_labels(canvas& c, const place_labels& l);

/// The words as lines of at most `most` mm. A single word that is wider has a line of its own.
[[nodiscard]] std::vector<std::string> lines_within(canvas& c, const std::string& words, double most, const lettering& l);
/// The height of these lines, one below the other, mm.
[[nodiscard]] double lines_height(const std::string& words, double most, const lettering& l);
/// Writes the lines, the first on a base line.
void write_lines(canvas& c, place first, const std::string& words, double most, const lettering& l);

/// Whether a box is free: nothing noted lies in it, neither letters nor a stroke.
[[nodiscard]] bool is_free(const box& b, const noted_marks& marks);
/// The first free one of some boxes; the first box when none is free.
[[nodiscard]] std::size_t first_free(const std::vector<box>& boxes, const noted_marks& marks);
/// Whether a stroke, or the edge of a filled shape, passes through a box.
[[nodiscard]] bool passes_through(const noted_shape& s, const box& b);

} // namespace drawing
