#pragma once
/// @file
/// Invented instruments for the tests of the drawings, solved.

#include <drawing.hpp>

namespace drawn {

/// Four courses, floating bridge, tailpiece.
drawing::subject four_course();
/// The same with lower slots and saddle, a flatter board and new frets.
drawing::subject four_course_planned();
/// The four courses over the frets of a diatonic board, as measured: its octave is fret 7.
drawing::subject diatonic();
/// A long neck with a pinned bridge: `strings` of them on a scale of `scale_mm`, `frets` frets.
drawing::subject pinned(int strings, double scale_mm, int frets);
/// A bass of two scales on single saddles; or its frets told by their places along both edges.
drawing::subject fanned(bool by_places = false);
/// The ready-made bass, its bridge on a solid body.
drawing::subject solid_body();
/// The four courses with slots cut so deep that strings lie on frets.
drawing::subject touching();

} // namespace drawn
