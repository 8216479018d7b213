#pragma once
/// @file
/// An invented instrument for the tests of setup/: four courses, floating bridge, tailpiece.

#include <map>
#include <string>

#include <tautline/core/leaves.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/strings/wire_materials.hpp>

namespace demo {

using namespace tautline;
using namespace tautline::units;

inline instrument four_course() {
    instrument i;
    i.board = {.width_at_nut = 32 * mm,
               .width_at_end = 42 * mm,
               .board_length = 400 * mm,
               .thickness = 5.5 * mm,
               .surface = cylinder(205 * mm),
               .scale = {.scale_length = 560 * mm, .frets = 19}};
    i.frets.wire = {.crown_height = 0.9 * mm, .crown_width = 1.6 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.frets.wear = std::vector<field<length<>>>(19, 0.05 * mm);
    i.neck.depth_at_nut = 22 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 12;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 10 * GPa;
    i.nut = {.spacing = {.spread = 26 * mm, .courses = {2, 2, 2, 2}, .course_gap = 2.2 * mm},
             .slot_heights = std::vector<field<length<>>>(8, 1.3 * mm)};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    for (int k = 0; k < 8; ++k) {
        i.posts.push_back(
            {.along = (k < 4 ? 40 + 20 * k : 180 - 20 * k) * mm, .across = (k < 4 ? -20 : 20) * mm, .height = 8 * mm});
    }
    i.saddle.spacing = {.spread = 52 * mm, .courses = {2, 2, 2, 2}, .course_gap = 3 * mm};
    i.saddle.height_bass = 18.5 * mm;
    i.saddle.height_treble = 18 * mm;
    i.saddle.radius = 205 * mm;
    i.saddle.setback_bass = 3 * mm;
    i.saddle.setback_treble = 1 * mm;
    i.saddle.board_line = 12.5 * mm;
    i.tailpiece =
        basic_tailpiece<double>{.hinge_distance = 180 * mm, .hinge_height = -10 * mm, .reach = 100 * mm, .spread = 50 * mm};
    return i;
}

inline stringing unison_pairs() {
    stringing s;
    const auto pair = [&](const music_string& one, const char* note) {
        for (int k = 0; k < 2; ++k) { s.strings.push_back({one, parse_note(note)}); }
    };
    const auto wound = [](double gauge, double core) {
        return wound_string({.gauge = gauge * thou,
                             .core = core * thou,
                             .core_material = music_wire(),
                             .wrap_material = phosphor_bronze()});
    };
    pair(wound(39, 18), "G2");
    pair(wound(26, 14), "D3");
    pair(plain_string(music_wire(), 16 * thou), "A3");
    pair(plain_string(music_wire(), 11 * thou), "E4");
    return s;
}

/// Every number of a solved setup by its path.
template <class R>
std::map<std::string, double> leaves_of(const basic_setup<R>& s) {
    std::map<std::string, double> v;
    for_each_leaf(s, [&](std::string_view path, const auto& x) {
        v[std::string(path)] = static_cast<double>(value_of(number_of(x)));
    });
    return v;
}

} // namespace demo
