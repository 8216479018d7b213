#pragma once
// What the two files of this program share: an invented instrument, and what the other file answers about it.
#include <tautline/tautline.hpp>

inline tautline::instrument small_guitar() {
    using namespace tautline;
    using namespace tautline::units;
    instrument i;
    i.board = {.width_at_nut = 43 * mm,
               .width_at_end = 55 * mm,
               .board_length = 440 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(300 * mm),
               .scale = {.scale_length = 610 * mm, .frets = 19}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 12;
    i.neck.board_modulus = 14 * GPa;
    i.neck.back_modulus = 11 * GPa;
    i.nut = {.spacing = {.spread = 36 * mm, .courses = {1, 1}}, .slot_heights = {1.4 * mm}};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    i.posts = {{.along = 40 * mm, .across = -18 * mm, .height = 8 * mm},
               {.along = 40 * mm, .across = 18 * mm, .height = 8 * mm}};
    i.saddle = {.spacing = {.spread = 54 * mm, .courses = {1, 1}},
                .height_bass = 12 * mm,
                .height_treble = 11.5 * mm,
                .setback_bass = 3 * mm,
                .setback_treble = 2 * mm,
                .board_line = 9 * mm};
    i.pins =
        pins{.distance = 20 * mm, .height = 6 * mm, .spread = 54 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    return i;
}
inline tautline::stringing two_strings() {
    using namespace tautline;
    using namespace tautline::units;
    return {.strings = {{wound_string({.gauge = 34 * thou,
                                       .core = 16 * thou,
                                       .core_material = music_wire(),
                                       .wrap_material = phosphor_bronze()}),
                         parse_note("A2")},
                        {plain_string(music_wire(), 12 * thou), parse_note("E4")}}};
}

tautline::setup solved_in_the_other_file();
void solve_nonsense_in_the_other_file();
const void* where_the_other_file_sees_the_version();
