#pragma once
/// @file
/// A ready-made instrument with any number of strings and frets for the benchmarks.

#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

namespace bench {

using namespace tautline;
using namespace tautline::units;

/// The ready-made flat-top with as many strings and frets, a tailpiece instead of its pins, and no rod.
inline instrument make_instrument(int strings, int frets) {
    instrument i = ready_made::flat_top().instrument;
    i.board.board_length = 560 * mm; // for many frets
    i.board.scale.frets = frets;
    i.neck.rod.reset();
    i.neck.rod_pull.reset();
    i.nut.spacing.courses = std::vector<int>(static_cast<std::size_t>(strings), 1);
    i.nut.slot_heights = {1.5 * mm};
    i.saddle.spacing.courses = i.nut.spacing.courses;
    i.posts.assign(static_cast<std::size_t>(strings), {.along = 60 * mm, .across = 0 * mm, .height = 8 * mm});
    i.saddle.height_bass = 16 * mm;
    i.saddle.height_treble = 15 * mm;
    i.saddle.board_line = 8 * mm;
    i.pins.reset();
    i.tailpiece = ready_made::octave_mandolin().instrument.tailpiece;
    return i;
}
/// As many of its first strings.
inline stringing make_stringing(int strings) {
    const auto o = ready_made::flat_top();
    return string_up(std::vector(static_cast<std::size_t>(strings), o.strings.back()), o.a4);
}

/// All that an instrument may have: a soundboard that gives, a bridge on feet, a rod, a set.
inline instrument with_everything(instrument i) {
    i.feet = bridge_feet{
        .ahead = 5 * mm, .behind = 12 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 0 * mm,
                              .saddle_height = 12 * mm};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 330 * mm, .z_ends = -13 * mm, .dip = 3 * mm};
    i.neck.rod_pull = 200 * N;
    i.neck.set = {{.x = 0 * mm, .z = 0.1 * mm}, {.x = 180 * mm, .z = -0.1 * mm}, {.x = 357 * mm, .z = 0 * mm}};
    return i;
}

} // namespace bench
