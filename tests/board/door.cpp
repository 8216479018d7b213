#include <tautline/board/board.hpp>
#include <tautline/board/centre_line.hpp>
#include <tautline/board/fan.hpp>
#include <tautline/board/found_radius.hpp>
#include <tautline/board/fret_pieces.hpp>
#include <tautline/board/fret_slot.hpp>
#include <tautline/board/fret_wire.hpp>
#include <tautline/board/levelling_plan.hpp>
#include <tautline/board/markers.hpp>
#include <tautline/board/refret.hpp>
#include <tautline/board/removal.hpp>
#include <tautline/board/reradius.hpp>
#include <tautline/board/scale.hpp>
#include <tautline/board/spacing.hpp>
#include <tautline/board/straightness.hpp>
#include <tautline/board/string_path.hpp>
#include <tautline/board/surface.hpp>

#include <doctest/doctest.h>

#include <limits>
#include <vector>

// What functions of board refuse, and the sentence they say: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {
const double inf = std::numeric_limits<double>::infinity();
const board flat{.width_at_nut = 43 * mm,
                 .width_at_end = 57 * mm,
                 .board_length = 470 * mm,
                 .thickness = 6 * mm,
                 .scale = {.scale_length = 640 * mm}};
const string_path path{.y_at_nut = -15 * mm, .y_at_saddle = -25 * mm, .x_at_saddle = 640 * mm}, no_path{};
} // namespace

TEST_CASE("board's door: places on a board") {
    CHECK_THROWS_WITH((void)thickness_at(flat, -1 * mm), "x is -1 mm; it must be at least 0 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)thickness_at(flat, 471 * mm), "x must lie on the board.");
    CHECK_THROWS_WITH((void)thickness_at(flat, 3001 * mm), "x is 3001 mm; it must be at least 0 mm and at most 3000 mm.");
    CHECK_NOTHROW((void)thickness_at(flat, 470 * mm));
    CHECK_THROWS_WITH((void)half_width_at(board{}, 1 * mm), "board.board_length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)y_at(no_path, 1 * mm), "saddle beyond the nut is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)path_slope(no_path), "saddle beyond the nut is 0 mm; it must be more than 0 mm.");
    const basic_centre_line<double> line{};
    CHECK_THROWS_WITH((void)centre_at(line, inf * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)off_centre(line, 1 * mm, inf * mm), "y is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)off_centre(line, 1 * mm, 1 * mm, -1 * mm), "place error is -1 mm; it must be at least 0 mm.");
}

TEST_CASE("board's door: scale, fan and spacing") {
    const scale s{.scale_length = 640 * mm, .frets = 20};
    CHECK_THROWS_WITH((void)equal_step_position(0.0 * mm, 1), "scale length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)equal_step_position(640 * mm, -1), "fret must be 0 or more.");
    CHECK_THROWS_WITH((void)equal_step_position(640 * mm, 1, 0), "steps must be 1 or more.");
    CHECK_NOTHROW((void)equal_step_position(640 * mm, 0, 1));
    CHECK_THROWS_WITH((void)equal_step_divisor(0), "steps must be 1 or more.");
    CHECK_THROWS_WITH((void)fret_position(scale{.frets = 20}, 1), "scale.scale_length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)fret_position(s, -1), "fret must be one of the board's frets, 0 (the nut) to the last.");
    CHECK_THROWS_WITH((void)fret_position(s, 21), "fret must be one of the board's frets, 0 (the nut) to the last.");
    CHECK_THROWS_WITH((void)fret_position(scale{.scale_length = 640 * mm, .frets = 2, .measured_places = {36 * mm}}, 1),
                      "scale.measured_places must be one for each fret.");
    CHECK_THROWS_WITH((void)fret_positions(scale{}),
                      "scale.scale_length is 0 mm; it must be more than 0 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)octave_length(scale{.scale_length = 640 * mm, .frets = 11}),
                      "scale.frets must reach the octave of the open string.");
    CHECK_THROWS_WITH((void)fret_error(s, 12, 320 * mm), "saddle beyond the fret is 0 mm; it must be more than 0 mm.");
    fan f{.bass_scale = 660 * mm,
          .treble_scale = 640 * mm,
          .y_bass_at_nut = -18 * mm,
          .y_treble_at_nut = 18 * mm,
          .y_bass_at_saddle = -26 * mm,
          .y_treble_at_saddle = 26 * mm};
    CHECK_THROWS_WITH((void)fret_line(f, -1), "fret must be one of the board's frets, 0 (the nut) to the last.");
    CHECK_THROWS_WITH((void)fret_line(f, f.frets + 1), "fret must be one of the board's frets, 0 (the nut) to the last.");
    const basic_fret_line<double> no_line{};
    CHECK_THROWS_WITH((void)x_at(no_line, 1 * mm), "width of the fret line is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)fret_angle(no_line), "width of the fret line is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)fret_ends(no_line, flat), "width of the fret line is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)crossing(no_line, path), "width of the fret line is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)crossing(fret_line(f, 1), no_path),
                      "saddle beyond the nut is 0 mm; it must be more than 0 mm.");
    const spacing gaps{.spread = 36 * mm, .rule = spacing_rule::equal_gaps, .courses = {1, 1, 1}};
    CHECK_THROWS_WITH((void)string_places(gaps, {1 * mm, 1 * mm}),
                      "gauges must be one for each string when the gaps are to be equal.");
    CHECK_THROWS_WITH((void)string_places(gaps, {1 * mm, 0 * mm, 1 * mm}), "gauge is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)string_places(gaps, {12 * mm, 24 * mm, 12 * mm}),
                      "room between courses is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)string_places(spacing{.spread = 36 * mm, .courses = {}}),
                      "spacing.courses must name at least one course.");
    CHECK_THROWS_WITH((void)spread_from_margins(0.0 * mm, 3 * mm, 3 * mm), "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, -1 * mm, 3 * mm),
                      "bass margin is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, 3 * mm, -1 * mm),
                      "treble margin is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, 40 * mm, 4 * mm),
                      "width less the two margins is -1 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)slot_widths(lengths{1 * mm}, -1 * mm), "clearance is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)slot_widths(lengths{0 * mm}, 0.1 * mm), "gauge is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)walls_between(lengths{0 * mm, 7 * mm}, lengths{1 * mm}),
                      "slot widths must be one for each place.");
}

TEST_CASE("board's door: arcs") {
    CHECK_THROWS_WITH((void)cylinder(0.0 * mm), "radius is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone(0.0 * mm, 300 * mm, 470 * mm), "radius at nut is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone(250 * mm, 0.0 * mm, 470 * mm), "radius at end is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone(250 * mm, 300 * mm, 0.0 * mm), "cone length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)arc_curvature(cone(200.0 * mm, 400.0 * mm, 100.0 * mm), -200 * mm),
                      "radius of the surface at x (1/curvature) is -5 1/m; it must be at least 0 1/m.");
    CHECK_THROWS_WITH((void)surface_height(cylinder(250.0 * mm), 0 * mm, 251 * mm),
                      "distance off centre over the radius is 1.004; it must be at least -1 and at most 1.");
    CHECK_THROWS_WITH((void)sagitta(0.0 * mm, 40 * mm), "radius is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)sagitta(250 * mm, -1 * mm), "width is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)sagitta(20 * mm, 41 * mm),
                      "half the width over the radius is 1.025; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)radius_from_sagitta(1 * mm, 0.0 * mm), "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)radius_from_sagitta(0.0 * mm, 40 * mm), "sagitta is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)radius_from_sagitta(20.2 * mm, 40 * mm),
                      "sagitta over half the width is 1.01; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)find_radius(1 * mm, 0.0 * mm, 0.1 * mm), "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)find_radius(1 * mm, 40 * mm, -0.1 * mm), "reading error is -0.1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)find_radius(20.2 * mm, 40 * mm, 0.1 * mm),
                      "sagitta over half the width is 1.01; it must be at least -1 and at most 1.");
    CHECK_THROWS_WITH((void)arc_length(0.0 * mm, 40 * mm), "radius is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)arc_length(250 * mm, -1 * mm), "width is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)arc_length(20 * mm, 41 * mm),
                      "half the width over the radius is 1.025; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)prebend_radius(1.0 / (300 * mm), 0.0 * mm, 1 * mm),
                      "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)prebend_radius(1.0 / (300 * mm), 50 * mm, -1 * mm), "lead is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)prebend_radius(1.0 / (20 * mm), 41 * mm, 1 * mm),
                      "half the width over the radius is 1.025; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)prebend_radius(0 * per_metre, 41 * mm, 0.0 * mm),
                      "sagitta of the wire is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)hump_under(cylinder(250.0 * mm), path, 100 * mm, 100 * mm),
                      "distance between the two places is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone_for_spread(250 * mm, 0.0 * mm, 50 * mm, 640 * mm, 470 * mm),
                      "spread at the nut is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone_for_spread(250 * mm, 36 * mm, 0.0 * mm, 640 * mm, 470 * mm),
                      "spread at the saddle is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)cone_for_spread(250 * mm, 36 * mm, 50 * mm, 0.0 * mm, 470 * mm),
                      "nut to saddle is 0 mm; it must be more than 0 mm.");
}

TEST_CASE("board's door: frets and their slots") {
    const fret_wire wire{.crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm};
    const frets f{.wire = wire};
    CHECK_THROWS_WITH((void)fret_pieces(board{}, {}), doctest::Contains("board.width_at_nut is 0 mm"));
    CHECK_THROWS_WITH((void)fret_pieces(flat, {.waste = -1 * mm}),
                      "piece_rule.waste is -1 mm; it must be at least 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)slot_depth(slot{.depth = 2 * mm, .width = 0.5 * mm}, flat.surface, 100 * mm, 0 * mm, inf * mm),
                      "removed is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)needed_slot_depth(wire, -0.1 * mm), "clearance is -0.1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)tang_fit(fret_wire{}, 0.5 * mm), doctest::Contains("wire.crown_height is 0 mm"));
    CHECK_THROWS_WITH((void)tang_fit(wire, 0 * mm), "slot width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)crown_left(f, -1), "fret must be 0 or more.");
    CHECK_THROWS_WITH((void)refret_change(flat.scale, f, frets{}, 12, 640 * mm),
                      doctest::Contains("fresh.wire.crown_height is 0 mm"));
    CHECK_THROWS_WITH((void)refret_change(flat.scale, f, f, 0, 640 * mm), "action_fret must be one of the board's frets.");
    CHECK_THROWS_WITH((void)refret_change(flat.scale, f, f, 21, 640 * mm), "action_fret must be one of the board's frets.");
    CHECK_THROWS_WITH((void)markers(board{}), doctest::Contains("board.width_at_nut is 0 mm"));
}

TEST_CASE("board's door: wood taken off") {
    const std::vector<basic_profile_mark<double>> twice{{.x = 100 * mm}, {.x = 100 * mm}}, far{{.x = inf * mm}},
        high{{.x = 100 * mm, .z = 10.1 * mm}}, low{{.x = 100 * mm, .z = -10.1 * mm}};
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), -0.1 * mm),
                      "allowance is -0.1 mm; it must be at least 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 10.1 * mm),
                      "allowance is 10.1 mm; it must be at least 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH(
        (void)least_removal(flat, cylinder(20.0 * mm)),
        doctest::Contains(
            "board with the wanted surface.surface.radius must be at least half the width of the board at the nut."));
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 0 * mm, far),
                      "shape[0].x is infinite; it must be at least -300 mm and at most 2000 mm.");
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 0 * mm, high),
                      "shape[0].z is 10.1 mm; it must be at least -10 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 0 * mm, low),
                      "shape[0].z is -10.1 mm; it must be at least -10 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 0 * mm, twice),
                      "shape[1].x must be further from the nut than the mark before it.");
    CHECK_THROWS_WITH((void)saddle_drop_keeping_action(1 * mm, 0 * mm, 0.0 * mm, 640 * mm),
                      "place of the action is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)saddle_drop_keeping_action(1 * mm, 0 * mm, 320 * mm, 0.0 * mm),
                      "nut to saddle is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)saddle_drop_keeping_action(1 * mm, 0 * mm, 660 * mm, 640 * mm),
                      "place of the action over nut to saddle is 1.03125; it must be at least 0 and at most 1.");
}
