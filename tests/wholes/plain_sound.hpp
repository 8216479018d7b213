#pragma once
/// @file
/// How a fretted string sounds, once more: lengths of the taut path by a hull of all points at once, the stiff string by
/// the exact phase of its boundary layers instead of an expansion.
///
/// A string whose end turns against a spring of `q sqrt(EI T)`, `q = k/(1 - k)`, has the phase
/// `psi = atan( k x / ((1 - k)(1 + 2 x^2) + k sqrt(1 + x^2)) )`, `x = a e`, `e = sqrt(EI/T)/L`, and `a = pi + psi_1 +
/// psi_2`, `f = a sqrt(1 + x^2)/pi` times the limp string's pitch: derived from the beam with tension; it is the eigenvalue
/// of the finite beam to 1e-6 cents for e below 0.03. k = 1 is clamped, 1/2 an edge over which a massless string runs on, 0
/// hinged.

#include <optional>
#include <vector>

#include "plain_geometry.hpp"

namespace wholes {

/// A string as it sounds, SI.
struct plain_string_sound {
    double mass = 0;      ///< per length, at pitch
    double pitch = 0;     ///< of the open string
    double stretches = 0; ///< EA
    double bends = 0;     ///< EI
    double nut = 0.5, fret = 0.5, saddle = 0.5;
    double behind = 0, depth = 0; ///< finger
    int steps = 12;
};
/// Underside of the open string.
struct plain_line {
    double nut_z = 0, saddle_x = 0, saddle_z = 0, nut_y = 0, saddle_y = 0;
};
struct plain_note {
    double pitch = 0, cents = 0, tension = 0, stretch = 0, speaking = 0;
    double share = 0; ///< e = sqrt(EI/T)/L of the sounding part
};

/// Lowest partial of a stiff string.
[[nodiscard]] double stiff_pitch(double tension, double mass, double length, double bends, double end_1, double end_2);

/// Tension at which the open string sounds its pitch.
[[nodiscard]] double open_tension(const plain_string_sound& s, double length);

/// Pressed at fret `n` (from 1), which is for that step of the octave, over crests of this string.
[[nodiscard]] plain_note pressed(const plain_string_sound& s, const plain_line& line, const std::vector<double>& crest_x,
                                 const std::vector<double>& crest_z, std::size_t n, int step);

/// How much further back the saddle makes fret n true, its height held; nothing when no place within reach does.
[[nodiscard]] std::optional<double> setback(const plain_string_sound& s, const plain_line& line,
                                            const std::vector<double>& crest_x, const std::vector<double>& crest_z,
                                            std::size_t n, int step);

} // namespace wholes
