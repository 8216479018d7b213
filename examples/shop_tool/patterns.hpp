#pragma once
/// @file
/// What an instrument starts as before it is measured: its kind of bridge, its strings and frets, and plausible numbers.
/// All invented.

#include <span>
#include <string_view>

#include <tautline/doubt/tolerance.hpp>
#include <tautline/strings/wire_materials.hpp>

namespace shop {

using namespace tautline;
using namespace tautline::units;

/// A fretted neck of glued-on board, as both patterns have it.
inline instrument neck_and_board(length<> scale_length, int frets, int joint, length<> width_at_nut,
                                 length<> width_at_end) {
    instrument i;
    i.board = {.width_at_nut = width_at_nut,
               .width_at_end = width_at_end,
               .board_length = scale_length * 0.71,
               .thickness = 6 * mm,
               .surface = cylinder(305 * mm),
               .scale = {.scale_length = scale_length, .frets = frets}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = joint;
    i.neck.board_modulus = 14 * GPa;
    i.neck.back_modulus = 10.5 * GPa;
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    return i;
}
inline void add_posts(instrument& i, int count) {
    for (int k = 0; k < count; ++k) {
        const bool bass = 2 * k < count;
        const int place = bass ? k : count - 1 - k;
        i.posts.push_back(
            {.along = (45 + 30 * place) * mm, .across = (bass ? -1 : 1) * (15 + place) * mm, .height = 8 * mm});
    }
}

/// Six strings, pinned bridge, a truss rod.
inline strung_instrument flat_top() {
    strung_instrument s;
    s.instrument = neck_and_board(645 * mm, 20, 14, 44 * mm, 56 * mm);
    instrument& i = s.instrument;
    i.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 370 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
    i.neck.rod_pull = 600 * N;
    i.nut = {.spacing = {.spread = 37 * mm}, .slot_heights = std::vector<field<length<>>>(6, 1.5 * mm)};
    add_posts(i, 6);
    i.saddle.spacing = {.spread = 54 * mm};
    i.saddle.height_bass = 12.5 * mm;
    i.saddle.height_treble = 12 * mm;
    i.saddle.radius = 305 * mm;
    i.saddle.setback_bass = 4.5 * mm;
    i.saddle.setback_treble = 2 * mm;
    i.saddle.board_line = 8.5 * mm;
    i.pins =
        pins{.distance = 20 * mm, .height = 7 * mm, .spread = 54 * mm, .top_thickness = 2.8 * mm, .saddle_exposed = 4 * mm};
    const auto wound = [&](double gauge, double core, const char* note) {
        s.strung.strings.push_back({wound_string({.gauge = gauge * thou,
                                                  .core = core * thou,
                                                  .core_material = music_wire(),
                                                  .wrap_material = phosphor_bronze()}),
                                    parse_note(note)});
    };
    wound(53, 18, "E2");
    wound(42, 17, "A2");
    wound(32, 15, "D3");
    wound(24, 13, "G3");
    s.strung.strings.push_back({plain_string(music_wire(), 16 * thou), parse_note("B3")});
    s.strung.strings.push_back({plain_string(music_wire(), 12 * thou), parse_note("E4")});
    return s;
}

/// Four pairs of strings over a floating bridge to a tailpiece.
inline strung_instrument mandolin() {
    strung_instrument s;
    s.instrument = neck_and_board(350 * mm, 20, 12, 29 * mm, 39 * mm);
    instrument& i = s.instrument;
    i.nut = {.spacing = {.spread = 23 * mm, .courses = {2, 2, 2, 2}, .course_gap = 2.2 * mm},
             .slot_heights = std::vector<field<length<>>>(8, 1.4 * mm)};
    add_posts(i, 8);
    i.saddle.spacing = {.spread = 41 * mm, .courses = {2, 2, 2, 2}, .course_gap = 2.6 * mm};
    i.saddle.height_bass = 17.5 * mm;
    i.saddle.height_treble = 17 * mm;
    i.saddle.radius = 305 * mm;
    i.saddle.setback_bass = 3 * mm;
    i.saddle.setback_treble = 1.2 * mm;
    i.saddle.board_line = 14 * mm;
    i.tailpiece = tailpiece{.hinge_distance = 165 * mm, .hinge_height = -8 * mm, .reach = 90 * mm, .spread = 42 * mm};
    const auto pair = [&](const music_string& one, const char* note) {
        for (int k = 0; k < 2; ++k) { s.strung.strings.push_back({one, parse_note(note)}); }
    };
    pair(wound_string(
             {.gauge = 38 * thou, .core = 16 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()}),
         "G3");
    pair(wound_string(
             {.gauge = 24 * thou, .core = 14 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()}),
         "D4");
    pair(plain_string(music_wire(), 15 * thou), "A4");
    pair(plain_string(music_wire(), 10.5 * thou), "E5");
    return s;
}

struct pattern {
    std::string_view name;
    strung_instrument (*make)();
};
/// Every pattern by its name.
inline std::span<const pattern> patterns() {
    static constexpr pattern all[] = {{"flat_top", flat_top}, {"mandolin", mandolin}};
    return all;
}
/// The pattern of a name, or nothing.
inline const pattern* find_pattern(std::string_view name) {
    for (const pattern& p : patterns()) {
        if (p.name == name) { return &p; }
    }
    return nullptr;
}

} // namespace shop
