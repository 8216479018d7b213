#pragma once
/// @file
/// A board seen from above, in millimetres of the instrument: x from the nut, y across, bass side negative (up on paper).

#include "subject.hpp"

namespace drawing {

/// A straight line on the board, the nut or a fret, from its bass to its treble edge.
struct cross_line {
    place bass{}, treble{};
};

/// The fan that is drawn: the subject's own, or that of an instrument of two scales.
[[nodiscard]] std::optional<tl::fan> fan_shown(const subject& s);

/// Nut (first) and frets across the whole board, slanted where the subject has a fan.
[[nodiscard]] std::vector<cross_line> fret_lines(const subject& s);

/// Corners of the board: nut bass, end bass, end treble, nut treble.
[[nodiscard]] std::vector<place> board_outline(const subject& s);

/// Middles of the dots on the face; on a fan half way between its frets.
struct dots {
    std::vector<place> face{};
    std::vector<place> side{}; ///< on the bass edge
};
[[nodiscard]] dots marker_places(const subject& s);

} // namespace drawing
