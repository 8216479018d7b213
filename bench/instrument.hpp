#pragma once
/// @file
/// An invented instrument of any number of strings and frets for the benchmarks.

#include <tautline/setup/solve.hpp>
#include <tautline/strings/wire_materials.hpp>

namespace bench {

using namespace tautline;
using namespace tautline::units;

inline instrument make_instrument(int strings, int frets) {
    instrument i;
    i.board = {.width_at_nut = 46 * mm,
               .width_at_end = 58 * mm,
               .board_length = 560 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(305 * mm),
               .scale = {.scale_length = 645 * mm, .frets = frets}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 14;
    i.neck.board_modulus = 14 * GPa;
    i.neck.back_modulus = 11 * GPa;
    i.nut.spacing = {.spread = 38 * mm, .courses = std::vector<int>(static_cast<std::size_t>(strings), 1)};
    i.nut.slot_heights = {1.5 * mm};
    i.saddle.spacing = {.spread = 54 * mm, .courses = i.nut.spacing.courses};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    i.posts.assign(static_cast<std::size_t>(strings), {.along = 60 * mm, .across = 0 * mm, .height = 8 * mm});
    i.saddle.height_bass = 16 * mm;
    i.saddle.height_treble = 15 * mm;
    i.saddle.radius = 305 * mm;
    i.saddle.setback_bass = 3 * mm;
    i.saddle.setback_treble = 1 * mm;
    i.saddle.board_line = 8 * mm;
    i.tailpiece =
        basic_tailpiece<double>{.hinge_distance = 200 * mm, .hinge_height = -10 * mm, .reach = 110 * mm, .spread = 50 * mm};
    return i;
}
inline stringing make_stringing(int strings) {
    stringing s;
    for (int k = 0; k < strings; ++k) { s.strings.push_back({plain_string(music_wire(), 12 * thou), parse_note("E4")}); }
    return s;
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
