#pragma once
/// @file
/// Ready-made instruments to start from. Each is of a usual kind and has a set of strings that suits it. All figures are
/// invented and plausible together; nobody measured them. Replace them by your own. Included by name only.

#include <span>
#include <string_view>

#include "ready_made_bent.hpp"
#include "ready_made_parts.hpp"

namespace tautline::ready_made {

/// Six steel strings over a pinned bridge on a flat top; a truss rod.
[[nodiscard]] inline ordered_instrument flat_top() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 44 * mm,
               .width_at_end = 56 * mm,
               .board_length = 458 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(305 * mm),
               .scale = {.scale_length = 645 * mm, .frets = 20}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 14;
    i.neck.board_modulus = 14 * GPa;
    i.neck.back_modulus = 10.5 * GPa;
    i.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 370 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
    i.neck.rod_pull = 600 * N;
    i.nut = {.spacing = {.spread = 37 * mm}, .slot_heights = std::vector<field<length<>>>(6, 1.5 * mm)};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    i.posts = on_both_sides(6, 45 * mm, 30 * mm, 15 * mm, 1 * mm, 8 * mm);
    i.saddle.spacing = {.spread = 54 * mm};
    i.saddle.height_bass = 12.5 * mm;
    i.saddle.height_treble = 12 * mm;
    i.saddle.radius = 305 * mm;
    i.saddle.setback_bass = 4.5 * mm;
    i.saddle.setback_treble = 2 * mm;
    i.saddle.board_line = 8.5 * mm;
    i.pins =
        pins{.distance = 20 * mm, .height = 7 * mm, .spread = 54 * mm, .top_thickness = 2.8 * mm, .saddle_exposed = 4 * mm};
    o.strings = {wound("E2", 53 * thou, 18 * thou, "phosphor bronze"),
                 wound("A2", 42 * thou, 17 * thou, "phosphor bronze"),
                 wound("D3", 32 * thou, 15 * thou, "phosphor bronze"),
                 wound("G3", 24 * thou, 13 * thou, "phosphor bronze"),
                 plain("B3", 16 * thou),
                 plain("E4", 12 * thou)};
    return o;
}

/// Four pairs of strings over a floating bridge to a tailpiece that hangs.
[[nodiscard]] inline ordered_instrument octave_mandolin() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
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
    i.posts = on_both_sides(8, 40 * mm, 20 * mm, 20 * mm, 0 * mm, 8 * mm);
    i.saddle.spacing = {.spread = 52 * mm, .courses = {2, 2, 2, 2}, .course_gap = 3 * mm};
    i.saddle.height_bass = 17.2 * mm;
    i.saddle.height_treble = 16.4 * mm;
    i.saddle.radius = 205 * mm;
    i.saddle.setback_bass = 3 * mm;
    i.saddle.setback_treble = 1 * mm;
    i.saddle.board_line = 12.5 * mm;
    i.tailpiece = tailpiece{.hinge_distance = 180 * mm, .hinge_height = -10 * mm, .reach = 100 * mm, .spread = 50 * mm};
    o.strings =
        in_pairs({wound("G2", 39 * thou, 18 * thou, "phosphor bronze"),
                  wound("D3", 26 * thou, 14 * thou, "phosphor bronze"), plain("A3", 16 * thou), plain("E4", 11 * thou)});
    return o;
}

/// Four long strings over one straight saddle on a solid body; a truss rod, a head without pitch, posts in one row.
[[nodiscard]] inline ordered_instrument solid_body_bass() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 41 * mm,
               .width_at_end = 61 * mm,
               .board_length = 602 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(300 * mm),
               .scale = {.scale_length = 862 * mm, .frets = 20}};
    i.frets.wire = {.crown_height = 1.1 * mm, .crown_width = 2.4 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21.5 * mm;
    i.neck.depth_at_joint = 24.5 * mm;
    i.neck.joint_fret = 16;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 12.5 * GPa;
    i.neck.rod = truss_rod{.x_from = -12 * mm, .x_to = 505 * mm, .z_ends = -14 * mm, .dip = 2 * mm};
    i.neck.rod_pull = 1200 * N;
    i.nut = {.spacing = {.spread = 31 * mm, .courses = {1, 1, 1, 1}},
             .slot_heights = {1.75 * mm, 1.7 * mm, 1.65 * mm, 1.6 * mm}};
    i.headstock = {.pitch = 0 * deg, .face_start = 8 * mm, .face_drop = 11 * mm};
    for (int k = 0; k < 4; ++k) {
        i.posts.push_back({.along = (55 + 38 * k) * mm, .across = (-17 + 11 * k) * mm, .height = 5 * mm});
    }
    i.saddle.spacing = {.spread = 57 * mm, .courses = {1, 1, 1, 1}};
    i.saddle.height_bass = 11.5 * mm;
    i.saddle.height_treble = 10.9 * mm;
    i.saddle.radius = 300 * mm;
    i.saddle.setback_bass = 8 * mm;
    i.saddle.setback_treble = 3 * mm;
    i.saddle.board_line = 7.5 * mm;
    i.body_bridge = body_bridge{.distance = 36 * mm, .height = 3 * mm, .spread = 57 * mm};
    o.strings = {
        wound("E1", 104 * thou, 32 * thou, "nickel-plated steel"), wound("A1", 83 * thou, 28 * thou, "nickel-plated steel"),
        wound("D2", 64 * thou, 24 * thou, "nickel-plated steel"), wound("G2", 46 * thou, 19 * thou, "nickel-plated steel")};
    return o;
}

/// Six nylon strings to a tie block on a flat top; a flat board, a straight saddle, no rod.
[[nodiscard]] inline ordered_instrument nylon_strung() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 52 * mm,
               .width_at_end = 62 * mm,
               .board_length = 452 * mm,
               .thickness = 6 * mm,
               .surface = {},
               .scale = {.scale_length = 648 * mm, .frets = 19}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.0 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 22 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 12;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 9.5 * GPa;
    i.nut = {.spacing = {.spread = 43 * mm},
             .slot_heights = {1.8 * mm, 1.75 * mm, 1.7 * mm, 1.65 * mm, 1.6 * mm, 1.6 * mm}};
    i.headstock = {.pitch = 15 * deg, .face_start = 6 * mm, .face_drop = 4 * mm};
    i.posts = on_both_sides(6, 45 * mm, 35 * mm, 17 * mm, 0 * mm, 5 * mm);
    i.saddle.spacing = {.spread = 58 * mm};
    i.saddle.height_bass = 11.5 * mm;
    i.saddle.height_treble = 10.5 * mm;
    i.saddle.setback_bass = 2 * mm;
    i.saddle.setback_treble = 1.5 * mm;
    i.saddle.board_line = 4 * mm;
    i.pins =
        pins{.distance = 11 * mm, .height = 6 * mm, .spread = 58 * mm, .top_thickness = 2.4 * mm, .saddle_exposed = 4 * mm};
    const auto basses = [](const char* note, const length<>& gauge, const length<>& core) {
        auto s = wound(note, gauge, core, "silver");
        s.material = "nylon";
        return s;
    };
    const auto trebles = [](const char* note, const length<>& gauge) {
        auto s = plain(note, gauge);
        s.material = "nylon";
        return s;
    };
    o.strings = {basses("E2", 43 * thou, 29 * thou), basses("A2", 35 * thou, 25 * thou), basses("D3", 29 * thou, 23 * thou),
                 trebles("G3", 40 * thou),           trebles("B3", 32.5 * thou),         trebles("E4", 28 * thou)};
    return o;
}

/// Five pairs of strings over a floating bridge to a tailpiece that hangs, on an arched top. Its neck has come forward a
/// little, and its action is somewhat high.
[[nodiscard]] inline ordered_instrument ten_string_cittern() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    const std::vector<int> pairs{2, 2, 2, 2, 2};
    i.board = {.width_at_nut = 40 * mm,
               .width_at_end = 52 * mm,
               .board_length = 366 * mm,
               .thickness = 5.8 * mm,
               .surface = cylinder(350 * mm),
               .scale = {.scale_length = 524 * mm, .frets = 19}};
    i.frets.wire = {.crown_height = 0.95 * mm, .crown_width = 1.8 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.frets.wear = {0.06 * mm, 0.07 * mm, 0.06 * mm, 0.05 * mm, 0.05 * mm, 0.03 * mm, 0.03 * mm};
    i.neck.depth_at_nut = 23 * mm;
    i.neck.depth_at_joint = 26 * mm;
    i.neck.joint_fret = 12;
    i.neck.board_modulus = 14.5 * GPa;
    i.neck.back_modulus = 10.5 * GPa;
    i.neck.set = {{.x = 0 * mm, .z = 0 * mm},
                  {.x = 65 * mm, .z = -0.07 * mm},
                  {.x = 131 * mm, .z = -0.11 * mm},
                  {.x = 196 * mm, .z = -0.08 * mm},
                  {.x = 262 * mm, .z = 0 * mm}};
    i.nut.spacing = {.spread = 33 * mm, .courses = pairs, .course_gap = 2.3 * mm};
    i.nut.slot_heights = {1.6 * mm, 1.6 * mm,  1.55 * mm, 1.55 * mm, 1.5 * mm,
                          1.5 * mm, 1.45 * mm, 1.45 * mm, 1.4 * mm,  1.4 * mm};
    i.headstock = {.pitch = 13 * deg, .face_start = 5 * mm, .face_drop = 3.5 * mm};
    i.posts = on_both_sides(10, 42 * mm, 24 * mm, 17 * mm, 1 * mm, 8 * mm);
    i.saddle.spacing = {.spread = 58 * mm, .courses = pairs, .course_gap = 3 * mm};
    i.saddle.height_bass = 20.3 * mm;
    i.saddle.height_treble = 19.4 * mm;
    i.saddle.radius = 350 * mm;
    i.saddle.setback_bass = 7 * mm;
    i.saddle.setback_treble = 4 * mm;
    i.saddle.board_line = 14.6 * mm;
    i.tailpiece = tailpiece{.hinge_distance = 165 * mm, .hinge_height = -16 * mm, .reach = 88 * mm, .spread = 54 * mm};
    i.feet =
        bridge_feet{.ahead = 6 * mm, .behind = 9 * mm, .top_slope = 0 * deg, .bass_foot = -36 * mm, .treble_foot = 36 * mm};
    i.soundboard = soundboard{.sink_stiffness = 560 * N_per_mm};
    o.strings = in_pairs({wound("D2", 56 * thou, 18 * thou, "phosphor bronze"),
                          wound("A2", 38 * thou, 16 * thou, "phosphor bronze"),
                          wound("D3", 28 * thou, 13 * thou, "phosphor bronze"),
                          wound("A3", 20 * thou, 10 * thou, "phosphor bronze"), plain("D4", 14 * thou)});
    return o;
}

/// A ready-made instrument with its name.
struct named {
    std::string_view name{};                ///< as files and programs write it: "flat_top"
    ordered_instrument (*make)() = nullptr; ///< makes the instrument
};

/// Every ready-made instrument by its name.
[[nodiscard]] inline std::span<const named> all() {
    static constexpr named list[] = {{"flat_top", flat_top},
                                     {"octave_mandolin", octave_mandolin},
                                     {"solid_body_bass", solid_body_bass},
                                     {"nylon_strung", nylon_strung},
                                     {"ten_string_cittern", ten_string_cittern},
                                     {"slotted_nylon", slotted_nylon},
                                     {"zero_fret_guitar", zero_fret_guitar},
                                     {"five_string_banjo", five_string_banjo},
                                     {"fanned_bass", fanned_bass}};
    return list;
}
/// The ready-made instrument of that name; null where there is none.
[[nodiscard]] inline const named* find_instrument(std::string_view name) {
    for (const named& one : all()) {
        if (one.name == name) { return &one; }
    }
    return nullptr;
}

} // namespace tautline::ready_made
