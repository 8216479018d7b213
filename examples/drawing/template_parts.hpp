#pragma once
/// @file
/// What is on the templates, each in true size.

#include "tiles.hpp"

namespace drawing {

/// The board from above: outline, nut and frets with their distances, a rule on the centre line, dots.
[[nodiscard]] true_size fret_template(const subject& s, measures m);

/// Gauges for the arcs of board and saddle, each with a hollow and a round edge; arcs alike in both states are drawn once,
/// and what is flat needs a straightedge and no gauge.
[[nodiscard]] std::vector<true_size> arc_gauges(const subject& found, const subject* planned, measures m);

/// The nut from the body's side with its slots, and the saddle with its string places; each followed by its numbers.
[[nodiscard]] std::vector<true_size> slot_templates(const subject& s, measures m);

} // namespace drawing
