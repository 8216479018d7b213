// The pictures of docs/glossary.md: a ready-made octave mandolin, solved, heights stretched; its places bear the numbers of
// the document.
#include <tautline/instrument/ready_made.hpp>
#include <tautline/tautline.hpp>

#include "pictures.hpp"
#include "view.hpp"

namespace pictures {

namespace {

using namespace tautline;
using namespace tautline::units;
using drawing::canvas, drawing::ink, drawing::place;

void from_the_side(canvas& c) {
    const auto on = string_up(ready_made::octave_mandolin());
    const auto& i = on.instrument;
    const double scale = i.board.scale.scale_length / mm, board_end = i.board.board_length / mm;
    const double joint = equal_step_position(i.board.scale.scale_length, i.neck.joint_fret) / mm;
    const double line_at_saddle = i.saddle.board_line / mm, slot = i.nut.slot_heights[0] / mm;
    const double saddle = i.saddle.height_bass / mm, setback = i.saddle.setback_bass / mm;
    const double hinge_x = scale + i.tailpiece->hinge_distance / mm, hinge_z = i.tailpiece->hinge_height / mm;
    const double reach = i.tailpiece->reach / mm;
    // Heights over the soundboard; the board's line rises to `line_at_saddle` there.
    const auto board_z = [&](double x) { return line_at_saddle * x / scale + 2; };
    const drawing::view v{.x0 = -70, .left = 6, .scale = 178.0 / (hinge_x + 80), .z0 = 0, .bottom = 66, .stretch = 2.6};
    const auto at = [&](double x, double z) { return v.of(place{x, z}); };

    // Head, neck, board, body.
    const double head_end = -62, pitch = std::tan(i.headstock.pitch / rad);
    c.path(std::vector{at(0, board_z(0) - 6), at(head_end, board_z(0) - 6 + head_end * pitch),
                       at(head_end, board_z(0) - 16 + head_end * pitch), at(0, board_z(0) - 24)},
           {.width = 0.35});
    c.path(std::vector{at(0, board_z(0) - 24), at(joint - 30, board_z(0) - 26), at(joint, -22)}, {.width = 0.35});
    c.path(std::vector{at(0, board_z(0)), at(board_end, board_z(board_end)), at(board_end, board_z(board_end) - 5.5),
                       at(0, board_z(0) - 5.5)},
           {.width = 0.4}, true);
    c.path(std::vector{at(joint, board_z(joint) - 5.5), at(joint, -30), at(hinge_x, -30), at(hinge_x, 0)}, {.width = 0.35});
    c.line(at(joint, 0), at(hinge_x, 0), {.width = 0.35});
    // Frets, and the straight line of the board carried on to the saddle.
    for (int fret = 1; fret <= i.board.scale.frets; ++fret) {
        const double x = equal_step_position(i.board.scale.scale_length, fret) / mm;
        c.line(at(x, board_z(x)), at(x, board_z(x) + 1.6), {.width = 0.8});
    }
    c.line(at(board_end, board_z(board_end)), at(scale + 8, board_z(scale + 8)),
           {.width = 0.25, .shade = ink::grey, .dash = 1.6, .gap = 1});
    // Nut, bridge with its saddle, tailpiece.
    c.fill(std::vector{at(-5, board_z(0) - 4), at(-5, board_z(0) + slot + 1), at(0, board_z(0) + slot + 1),
                       at(0, board_z(0) - 4)},
           ink::pale);
    const double bridge = scale + setback;
    c.fill(std::vector{at(bridge - 9, 0), at(bridge - 2.5, saddle - 1), at(bridge, saddle), at(bridge + 2.5, saddle - 1),
                       at(bridge + 9, 0)},
           ink::pale);
    const double hang = 10; // deg, how it hangs here
    const place loop{hinge_x - reach * std::cos(hang * deg / rad), hinge_z + 10 + reach * std::sin(hang * deg / rad) * 0.5};
    c.path(std::vector{at(hinge_x, 0), at(hinge_x, hinge_z + 14), at(loop.x, loop.y)}, {.width = 0.7});
    // The string, from its post.
    const double post = -44;
    c.path(std::vector{at(post, board_z(0) - 6 + post * pitch + 7), at(-1, board_z(0) + slot), at(bridge, saddle),
                       at(loop.x, loop.y)},
           {.width = 0.45});
    c.line(at(post, board_z(0) - 6 + post * pitch), at(post, board_z(0) - 6 + post * pitch + 10), {.width = 1.4});

    const double f12 = equal_step_position(i.board.scale.scale_length, 12) / mm;
    mark(c, "1", {8, 20}, at(post, board_z(0) - 6 + post * pitch + 9));
    mark(c, "2", {24, 12}, at(-2.5, board_z(0) + slot + 1));
    mark(c, "3", {44, 12}, at(equal_step_position(i.board.scale.scale_length, 3) / mm, board_z(100) + 1.6));
    mark(c, "4", {66, 12}, at(f12 / 2 + 20, board_z(f12 / 2) + 2.6));
    const double z12 = board_z(f12);
    mark(c, "5", {88, 12}, at(f12, z12 + 3.5));
    mark(c, "6", {112, 12}, at(board_end + 80, board_z(board_end + 80)));
    mark(c, "7", {134, 10}, at(bridge, saddle));
    // The break angle: the string as it would run on, and as it runs.
    const double rise = (saddle - board_z(0) - slot) / bridge;
    c.line(at(bridge, saddle), at(bridge + 60, saddle + 60 * rise),
           {.width = 0.25, .shade = ink::grey, .dash = 1.6, .gap = 1});
    mark(c, "8", {152, 12}, at(bridge + 42, saddle + 42 * rise - 3.5));
    mark(c, "9", {170, 18}, at((loop.x + bridge) / 2 + 6, (saddle + loop.y) / 2));
    mark(c, "10", {178, 34}, at(hinge_x - reach / 2, (hinge_z + 14 + loop.y) / 2));
    mark(c, "11", {60, 88}, at(f12 / 2, board_z(f12 / 2) - 15));
    mark(c, "12", {84, 88}, at(joint, -12));
    mark(c, "13", {120, 88}, at(scale - 60, 0));
    mark(c, "14", {140, 88}, at(bridge - 6, 0));
    mark(c, "15", {22, 88}, at(head_end + 25, board_z(0) - 12 + (head_end + 25) * pitch));
    mark(c, "16", {40, 88}, at(90, board_z(90) - 3));
}

void from_above(canvas& c) {
    const auto on = string_up(ready_made::octave_mandolin());
    const auto& i = on.instrument;
    const double scale = i.board.scale.scale_length / mm, board_end = i.board.board_length / mm;
    const double half_nut = i.board.width_at_nut / mm / 2, half_end = i.board.width_at_end / mm / 2;
    const drawing::view v{.x0 = -20, .left = 10, .scale = 165.0 / (scale + 40), .z0 = -30, .bottom = 64, .stretch = 2.4};
    const auto at = [&](double x, double y) { return v.of(place{x, y}); };
    c.path(std::vector{at(0, -half_nut), at(board_end, -half_end), at(board_end, half_end), at(0, half_nut)},
           {.width = 0.4}, true);
    const auto half_at = [&](double x) { return half_nut + (half_end - half_nut) * x / board_end; };
    for (int fret = 1; fret <= i.board.scale.frets; ++fret) {
        const double x = equal_step_position(i.board.scale.scale_length, fret) / mm;
        c.line(at(x, -half_at(x)), at(x, half_at(x)), {.width = 0.3});
    }
    c.line(at(-20, 0), at(scale + 20, 0), {.width = 0.25, .shade = ink::grey, .dash = 3, .gap = 1});
    // Courses: pairs of strings from nut to saddle, the bass below.
    const double spread_nut = i.nut.spacing.spread / mm / 2, spread_saddle = i.saddle.spacing.spread / mm / 2;
    const double back_bass = i.saddle.setback_bass / mm * 4, back_treble = i.saddle.setback_treble / mm * 4; // drawn larger
    for (int course = 0; course < 4; ++course) {
        for (const double beside : {-1.0, 1.0}) {
            const double share = course / 3.0 * 2 - 1, nut_y = share * spread_nut + beside * 1.0,
                         saddle_y = share * spread_saddle + beside * 1.4;
            const double setback = back_bass + (back_treble - back_bass) * course / 3.0;
            c.line(at(0, nut_y), at(scale + setback, saddle_y), {.width = 0.3});
        }
    }
    c.line(at(0, -half_nut), at(0, half_nut), {.width = 1.2});
    c.line(at(scale, -spread_saddle - 5), at(scale, spread_saddle + 5),
           {.width = 0.25, .shade = ink::grey, .dash = 1.6, .gap = 1});
    c.line(at(scale + back_bass, -spread_saddle - 4), at(scale + back_treble, spread_saddle + 4), {.width = 1.2});
    // Scale length.
    const double under = -38;
    arrow(c, at(scale / 2, under), at(0, under), {.width = 0.3});
    arrow(c, at(scale / 2, under), at(scale, under), {.width = 0.3});

    mark(c, "17", {60, 90}, at(scale * 0.3, under));
    mark(c, "18", {16, 8}, at(5, spread_nut));
    mark(c, "19", {178, 12}, at(scale + back_treble / 2, spread_saddle + 3));
    mark(c, "20", {40, 8}, at(110, 0));
    mark(c, "22", {110, 8}, at(board_end - 8, spread_nut + 6));
    mark(c, "23", {140, 8}, at(scale - 60, spread_saddle * 0.9));
    mark(c, "24", {150, 90}, at(scale - 50, -spread_saddle * 0.86));
    mark(c, "21", {82, 8}, at(equal_step_position(i.board.scale.scale_length, 12) / mm, half_at(280) - 1));
}

} // namespace

std::vector<picture> of_an_instrument() {
    return {{"glossary_side", white_page(188, 96, from_the_side)}, {"glossary_above", white_page(188, 96, from_above)}};
}

} // namespace pictures
