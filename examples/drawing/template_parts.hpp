#pragma once
/// @file
/// The parts of the templates, each in true size.

#include "tiles.hpp"

namespace drawing {

/// The board from above: outline, nut and frets with their distances, a rule on the centre line, dots.
[[nodiscard]] true_size fret_template(const subject& s, measures m);

/// Gauges for the arcs of board and saddle, each with a hollow and a round edge. An arc that both states share is drawn
/// once. A flat part has no gauge: a straightedge checks it.
[[nodiscard]] std::vector<true_size> arc_gauges(const subject& found, const subject* planned, measures m);

/// The places of the saddles on the body from above, for fanned frets and for single saddles; then their numbers.
[[nodiscard]] std::vector<true_size> bridge_templates(const subject& s, measures m);

/// Sections of the neck from the body's side, drawn if its back was traced or something is let into it: at the nut, at
/// every traced place, midway along every bar, tube and channel, and at the joint.
[[nodiscard]] std::vector<true_size> neck_sections(const subject& s, measures m);

/// Numbers in rows under heads, `column` millimetres wide but the first; several tables where there are many rows.
void add_tables(std::vector<true_size>& out, const std::string& name, const std::vector<std::string>& heads,
                const std::vector<std::vector<std::string>>& rows, double column);

/// The nut from the body's side with its slots, and the saddle with its string places; each followed by its numbers.
[[nodiscard]] std::vector<true_size> slot_templates(const subject& s, measures m);

/// The same for a page with words and numbers beside them.
[[nodiscard]] std::vector<true_size> slot_pictures(const subject& s);

} // namespace drawing
