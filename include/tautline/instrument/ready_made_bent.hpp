#pragma once
/// @file
/// Ready-made instruments whose strings do not run straight from a post over nut and saddle: slotted heads, tie blocks,
/// guides, short strings, fanned frets. All figures are invented and plausible together; nobody measured them.
/// Included by name only, and by ready_made.hpp.

#include "ready_made_parts.hpp"

namespace tautline::ready_made {

/// Six nylon strings from the rollers of a slotted head to a tie block on a flat top; a flat board, no rod.
[[nodiscard]] inline ordered_instrument slotted_nylon() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 51 * mm,
               .width_at_end = 61 * mm,
               .board_length = 448 * mm,
               .thickness = 6.2 * mm,
               .surface = {},
               .scale = {.scale_length = 641 * mm, .frets = 19}};
    i.frets.wire = {.crown_height = 1.0 * mm, .crown_width = 2.1 * mm, .tang_depth = 1.6 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21.5 * mm;
    i.neck.depth_at_joint = 24 * mm;
    i.neck.joint_fret = 12;
    i.neck.board_modulus = 16 * GPa;
    i.neck.back_modulus = 9 * GPa;
    i.nut = {.spacing = {.spread = 42.5 * mm},
             .slot_heights = {1.85 * mm, 1.8 * mm, 1.75 * mm, 1.7 * mm, 1.65 * mm, 1.65 * mm}};
    i.headstock = {.pitch = 14 * deg, .face_start = 6 * mm, .face_drop = 4 * mm, .slot_start = field<length<>>(17 * mm)};
    i.posts = on_both_sides(6, 46 * mm, 35 * mm, 16 * mm, 0 * mm, 0 * mm);
    for (auto& post : i.posts) {
        post.height = -9 * mm;
        post.roller = 10 * mm;
    }
    i.saddle.spacing = {.spread = 58.5 * mm};
    i.saddle.height_bass = 11.8 * mm;
    i.saddle.height_treble = 10.6 * mm;
    i.saddle.setback_bass = 2 * mm;
    i.saddle.setback_treble = 1.5 * mm;
    i.saddle.board_line = 4 * mm;
    i.tie_block = tie_block{.distance = 13 * mm,
                            .hole_height = 4.5 * mm,
                            .hole_diameter = 1.8 * mm,
                            .spread = 58.5 * mm,
                            .top_thickness = 2.3 * mm,
                            .saddle_exposed = 3.5 * mm,
                            .loop_lift = 0.8 * mm};
    const auto nylon = [](ordered_string s) {
        s.material = "nylon";
        return s;
    };
    o.strings = {nylon(wound("E2", 44 * thou, 29 * thou, "silver")),
                 nylon(wound("A2", 36 * thou, 25 * thou, "silver")),
                 nylon(wound("D3", 30 * thou, 23 * thou, "silver")),
                 nylon(plain("G3", 40.5 * thou)),
                 nylon(plain("B3", 33 * thou)),
                 nylon(plain("E4", 28 * thou))};
    return o;
}

/// Six steel strings on a solid body whose neck has a zero fret. The head lies flat; guides hold the strings down before
/// their posts.
[[nodiscard]] inline ordered_instrument zero_fret_guitar() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 42 * mm,
               .width_at_end = 55 * mm,
               .board_length = 462 * mm,
               .thickness = 5.5 * mm,
               .surface = cylinder(280 * mm),
               .scale = {.scale_length = 632 * mm, .frets = 22, .zero_fret = true}};
    i.frets.wire = {.crown_height = 1.05 * mm, .crown_width = 2.2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 20.5 * mm;
    i.neck.depth_at_joint = 23 * mm;
    i.neck.joint_fret = 17;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 11.5 * GPa;
    i.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 400 * mm, .z_ends = -13 * mm, .dip = 1.5 * mm};
    i.neck.rod_pull = 700 * N;
    // Behind a zero fret the nut only spaces the strings. Its slots lie below the fret's crown.
    i.nut = {.spacing = {.spread = 35 * mm}, .slot_heights = std::vector<field<length<>>>(6, 0.6 * mm)};
    i.headstock = {.pitch = 0 * deg, .face_start = 7 * mm, .face_drop = 11.5 * mm};
    for (int k = 0; k < 6; ++k) {
        i.posts.push_back({.along = (45 + 24 * k) * mm, .across = (-17 + 6.5 * k) * mm, .height = 6 * mm});
    }
    // The four strings that run furthest on the head pass under bars, two strings under each.
    for (std::size_t k = 2; k < 6; ++k) {
        i.posts[k].guide = string_guide{.along = (k < 4 ? 62 : 48) * mm, .height = 4.5 * mm};
    }
    i.saddle.spacing = {.spread = 52 * mm};
    i.saddle.height_bass = 12.4 * mm;
    i.saddle.height_treble = 11.9 * mm;
    i.saddle.radius = 280 * mm;
    i.saddle.setback_bass = 4 * mm;
    i.saddle.setback_treble = 1.5 * mm;
    i.saddle.board_line = 8.6 * mm;
    i.body_bridge = body_bridge{.distance = 24 * mm, .height = 4 * mm, .spread = 52 * mm};
    const char* wrap = "nickel-plated steel";
    o.strings = {wound("E2", 46 * thou, 18 * thou, wrap),
                 wound("A2", 36 * thou, 16 * thou, wrap),
                 wound("D3", 26 * thou, 14 * thou, wrap),
                 plain("G3", 17 * thou),
                 plain("B3", 13 * thou),
                 plain("E4", 10 * thou)};
    return o;
}

/// Four long strings and a short fifth one whose nut stands at the fifth fret. They run over a floating bridge on a skin
/// head to a tailpiece that a screw presses down.
[[nodiscard]] inline ordered_instrument five_string_banjo() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    i.board = {.width_at_nut = 32 * mm,
               .width_at_end = 47 * mm,
               .board_length = 490 * mm,
               .thickness = 5 * mm,
               .surface = {},
               .scale = {.scale_length = 668 * mm, .frets = 22}};
    i.frets.wire = {.crown_height = 0.9 * mm, .crown_width = 1.6 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 21 * mm;
    i.neck.depth_at_joint = 26 * mm;
    i.neck.joint_fret = 20;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 11 * GPa;
    i.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 440 * mm, .z_ends = -12 * mm, .dip = 0 * mm};
    i.neck.rod_pull = 100 * N;
    // The nut carries the four long strings.
    i.nut = {.spacing = {.spread = 24 * mm, .courses = {1, 1, 1, 1}, .offset = 0.5 * mm},
             .slot_heights = {2 * mm, 1.3 * mm, 1.3 * mm, 1.3 * mm, 1.3 * mm}};
    i.headstock = {.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 3 * mm};
    i.short_strings = {{.fret = 5, .across = -15.8 * mm}};
    i.posts = on_both_sides(4, 40 * mm, 40 * mm, 17 * mm, 3 * mm, 8 * mm);
    i.posts.insert(i.posts.begin(), {.along = 18 * mm, .across = -21 * mm, .height = -0.5 * mm});
    i.saddle.spacing = {.spread = 42 * mm, .courses = std::vector<int>(5, 1)};
    i.saddle.height_bass = 16.6 * mm;
    i.saddle.height_treble = 16.4 * mm;
    i.saddle.setback_bass = 2 * mm;
    i.saddle.setback_treble = 1.5 * mm;
    i.saddle.board_line = 12 * mm;
    i.tailpiece = tailpiece{.hinge_distance = 145 * mm,
                            .hinge_height = 2 * mm,
                            .reach = 70 * mm,
                            .spread = 34 * mm,
                            .pressed_height = field<length<>>(5 * mm)};
    i.feet =
        bridge_feet{.ahead = 5 * mm, .behind = 5 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
    o.strings = {plain("G4", 10 * thou), wound("D3", 20 * thou, 11 * thou, "nickel-plated steel"), plain("G3", 13 * thou),
                 plain("B3", 11 * thou), plain("D4", 10 * thou)};
    return o;
}

/// Five long strings on a solid body; frets fanned out by two scales, a saddle for each string, a truss rod.
[[nodiscard]] inline ordered_instrument fanned_bass() {
    using namespace detail;
    ordered_instrument o;
    instrument& i = o.instrument;
    auto two = scale();
    two.fan = two_scales{.bass_scale = 894 * mm, .treble_scale = 848 * mm, .square_fret = 8};
    two.frets = 22;
    i.board = {.width_at_nut = 48 * mm,
               .width_at_end = 72 * mm,
               .board_length = 640 * mm,
               .thickness = 6 * mm,
               .surface = cylinder(400 * mm),
               .scale = two};
    i.frets.wire = {.crown_height = 1.1 * mm, .crown_width = 2.4 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    i.neck.depth_at_nut = 22 * mm;
    i.neck.depth_at_joint = 25 * mm;
    i.neck.joint_fret = 17;
    i.neck.board_modulus = 15 * GPa;
    i.neck.back_modulus = 13 * GPa;
    i.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 520 * mm, .z_ends = -14 * mm, .dip = 2 * mm};
    i.neck.rod_pull = 1400 * N;
    const std::vector<int> singles(5, 1);
    i.nut = {.spacing = {.spread = 38 * mm, .courses = singles},
             .slot_heights = {1.8 * mm, 1.75 * mm, 1.7 * mm, 1.65 * mm, 1.6 * mm}};
    i.headstock = {.pitch = 8 * deg, .face_start = 12 * mm, .face_drop = 8 * mm};
    for (int k = 0; k < 5; ++k) {
        i.posts.push_back({.along = (52 + 36 * k) * mm, .across = (-24 + 10.5 * k) * mm, .height = 5 * mm});
    }
    std::vector<single_saddle> saddles;
    saddles.reserve(5);
    for (int k = 0; k < 5; ++k) {
        saddles.push_back({.height = (12.3 - 0.15 * k) * mm,
                           .setback = (9.5 - 1.5 * k) * mm,
                           .lowest = field<length<>>(9 * mm),
                           .highest = field<length<>>(16 * mm),
                           .least_setback = field<length<>>(-2 * mm),
                           .most_setback = field<length<>>(16 * mm)});
    }
    i.saddle = single_saddles<double>({.spread = 72 * mm, .courses = singles}, std::move(saddles), 7.5 * mm);
    i.body_bridge = body_bridge{.distance = 34 * mm, .height = 4 * mm, .spread = 72 * mm};
    const char* wrap = "nickel-plated steel";
    o.strings = {wound("B0", 128 * thou, 36 * thou, wrap), wound("E1", 102 * thou, 32 * thou, wrap),
                 wound("A1", 82 * thou, 28 * thou, wrap), wound("D2", 63 * thou, 24 * thou, wrap),
                 wound("G2", 45 * thou, 19 * thou, wrap)};
    return o;
}

} // namespace tautline::ready_made
