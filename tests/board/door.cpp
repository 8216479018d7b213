#include <tautline/board/board.hpp>
#include <tautline/board/centre_line.hpp>
#include <tautline/board/fan.hpp>
#include <tautline/board/found_radius.hpp>
#include <tautline/board/found_scale.hpp>
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
                 .scale = {.scale_length = 640 * mm, .frets = 20}};
const string_path path{.y_at_nut = -15 * mm, .y_at_saddle = -25 * mm, .x_at_saddle = 640 * mm},
    no_path{.x_at_saddle = 0 * mm};
} // namespace

TEST_CASE("board's door: places on a board") {
    CHECK_THROWS_WITH((void)thickness_at(flat, -1 * mm), "x is -1 mm; it must be at least 0 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)thickness_at(flat, 471 * mm), "x must lie on the board.");
    CHECK_THROWS_WITH((void)thickness_at(flat, 3001 * mm), "x is 3001 mm; it must be at least 0 mm and at most 3000 mm.");
    CHECK_NOTHROW((void)thickness_at(flat, 470 * mm));
    board no_length;
    no_length.board_length = 0 * mm;
    CHECK_THROWS_WITH((void)half_width_at(no_length, 1 * mm), "board.board_length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)y_at(no_path, 1 * mm), "saddle beyond the nut is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)path_slope(no_path), "saddle beyond the nut is 0 mm; it must be more than 0 mm.");
    const basic_centre_line<double> line{};
    CHECK_THROWS_WITH((void)centre_at(line, inf * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)off_centre(line, 1 * mm, inf * mm), "y is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)off_centre(line, 1 * mm, 1 * mm, -1 * mm), "place error is -1 mm; it must be at least 0 mm.");
}

TEST_CASE("board's door: scale, fan and spacing") {
    const scale s{.scale_length = 640 * mm, .frets = 20};
    scale no_length_given;
    no_length_given.frets = 20;
    CHECK_THROWS_WITH((void)equal_step_position(0.0 * mm, 1), "scale length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)equal_step_position(640 * mm, -1), "fret is -1; it must be 0 or more.");
    CHECK_THROWS_WITH((void)equal_step_position(640 * mm, 1, 0), "steps is 0; it must be 1 or more.");
    CHECK_NOTHROW((void)equal_step_position(640 * mm, 0, 1));
    CHECK_THROWS_WITH((void)position_of_interval(0 * mm, 700 * cents), "scale length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)position_of_interval(640 * mm, -1 * cents),
                      "interval is -1 cents; it must be at least 0 cents and at most 12000 cents.");
    CHECK_THROWS_WITH((void)equal_step_divisor(0), "steps is 0; it must be 1 or more.");
    CHECK_THROWS_WITH((void)fret_position(scale{.scale_length = 0 * mm, .frets = 20}, 1),
                      "scale.scale_length is 0 mm; it must be at least 10 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)fret_position(no_length_given, 1),
                      "scale.scale_length is not given, or not a number; it must be at least 10 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)fret_position(s, -1), "fret is -1; it must be one of the board's frets, 0 (the nut) to 20.");
    CHECK_THROWS_WITH((void)fret_position(s, 21), "fret is 21; it must be one of the board's frets, 0 (the nut) to 20.");
    CHECK_THROWS_WITH((void)fret_position(scale{.scale_length = 640 * mm, .frets = 2, .measured_places = {36 * mm}}, 1),
                      "scale.measured_places must be one for each of the 2 frets, but there are 1.");
    CHECK_THROWS_WITH((void)fret_positions(no_length_given),
                      "scale.scale_length is not given, or not a number; it must be at least 10 mm and at most 3000 mm.");
    CHECK_THROWS_WITH((void)fret_positions(scale{.scale_length = 640 * mm}),
                      "scale.frets is not given, or not a number; it must be at least 0 and at most 240.");
    CHECK_THROWS_WITH((void)octave_length(scale{.scale_length = 640 * mm, .frets = 11}),
                      "scale.frets must reach the octave of the open string.");
    CHECK_THROWS_WITH((void)fret_error(s, 12, 320 * mm), "saddle beyond the fret is 0 mm; it must be more than 0 mm.");
    fan f{.bass_scale = 660 * mm,
          .treble_scale = 640 * mm,
          .square_fret = 7,
          .frets = 20,
          .y_bass_at_nut = -18 * mm,
          .y_treble_at_nut = 18 * mm,
          .y_bass_at_saddle = -26 * mm,
          .y_treble_at_saddle = 26 * mm};
    CHECK_THROWS_WITH((void)fret_line(f, -1), "fret is -1; it must be one of the board's frets, 0 (the nut) to 20.");
    CHECK_THROWS_WITH((void)fret_line(f, f.frets + 1),
                      "fret is 21; it must be one of the board's frets, 0 (the nut) to 20.");
    f.square_fret = 20.5;
    CHECK_THROWS_WITH((void)fret_line(f, 12), "fan.square_fret must be on the board: 0, the nut, to 20, the last fret.");
    f.square_fret = 7;
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
                      "spacing.spread is 36 mm; it must leave room between the courses: the strings in them fill 36 mm.");
    CHECK_THROWS_WITH((void)string_places(spacing{.spread = 36 * mm, .courses = {}}),
                      "spacing.courses must name at least one course.");
    CHECK_THROWS_WITH((void)spread_from_margins(0.0 * mm, 3 * mm, 3 * mm), "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, -1 * mm, 3 * mm),
                      "bass margin is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, 3 * mm, -1 * mm),
                      "treble margin is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)spread_from_margins(43 * mm, 40 * mm, 4 * mm),
                      "width less the two margins is -1 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)offset_from_margins(-1 * mm, 3 * mm), "bass margin is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)offset_from_margins(3 * mm, NAN * mm),
                      "treble margin is not a number; it must be at least 0 mm.");
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
                      "radius of the surface at x is -200 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)arc_curvature(cone(200.0 * mm, 400.0 * mm, 100.0 * mm), -100 * mm),
                      "radius of the surface at x is 0 mm; it must be more than 0 mm.");
    surface lone{.radius = 300 * mm, .radius_at_end = 400 * mm};
    CHECK_THROWS_WITH((void)arc_curvature(lone, 100 * mm),
                      "surface.cone_length must be given for a cone: both or neither.");
    for (const auto& none : {0 * mm, -400 * mm}) {
        lone.cone_length = none;
        CHECK_THROWS_WITH((void)surface_height(lone, 100 * mm, 20 * mm), doctest::Contains("surface.cone_length is "));
    }
    CHECK_THROWS_WITH((void)surface_height(surface{.radius = -300 * mm}, 100 * mm, 20 * mm),
                      "surface.radius is -300 mm; it must be at least 1 mm and at most 1000000000 mm.");
    CHECK_THROWS_WITH((void)arc_curvature(surface{}, NAN * mm), doctest::Contains("x is not a number"));
    static_assert(arc_curvature(surface{.radius = 250 * mm}, 0 * mm) == 4 * per_metre);
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
    CHECK_THROWS_WITH((void)fret_pieces(board(), {}),
                      doctest::Contains("board.width_at_nut is not given, or not a number; it must be at least 1 mm"));
    CHECK_THROWS_WITH((void)fret_pieces(flat, {.waste = -1 * mm}),
                      "piece_rule.waste is -1 mm; it must be at least 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)slot_depth(slot{.depth = 2 * mm, .width = 0.5 * mm}, flat.surface, 100 * mm, 0 * mm, inf * mm),
                      "removed is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)needed_slot_depth(wire, -0.1 * mm), "clearance is -0.1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)tang_fit(fret_wire(), 0.5 * mm),
                      doctest::Contains("wire.crown_height is not given, or not a number; it must be at least 0.05 mm"));
    auto bare = wire;
    bare.tang_depth.reset();
    bare.tang_thickness.reset();
    CHECK_THROWS_WITH((void)needed_slot_depth(bare, 0.1 * mm), "wire.tang_depth must be given: the slot is to take it.");
    CHECK_THROWS_WITH((void)tang_fit(bare, 0.5 * mm), "wire.tang_thickness must be given: the slot is to hold it.");
    CHECK_THROWS_WITH((void)tang_fit(wire, 0 * mm), "slot width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)crown_left(f, -1), "fret is -1; it must be 0 or more.");
    CHECK_THROWS_WITH(
        (void)refret_change(flat.scale, f, frets(), 12, 640 * mm),
        doctest::Contains("fresh.wire.crown_height is not given, or not a number; it must be at least 0.05 mm"));
    CHECK_THROWS_WITH((void)refret_change(flat.scale, f, f, 0, 640 * mm),
                      "action_fret is 0; it must be one of the board's frets, 1 to 20.");
    CHECK_THROWS_WITH((void)refret_change(flat.scale, f, f, 21, 640 * mm),
                      "action_fret is 21; it must be one of the board's frets, 1 to 20.");
    CHECK_THROWS_WITH((void)markers(board()),
                      doctest::Contains("board.width_at_nut is not given, or not a number; it must be at least 1 mm"));
}

TEST_CASE("board's door: wood taken off") {
    const std::vector<basic_profile_mark<double>> twice{{.x = 100 * mm, .z = 0 * mm}, {.x = 100 * mm, .z = 0 * mm}},
        far{{.x = inf * mm, .z = 0 * mm}}, high{{.x = 100 * mm, .z = 10.1 * mm}}, low{{.x = 100 * mm, .z = -10.1 * mm}};
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), -0.1 * mm),
                      "allowance is -0.1 mm; it must be at least 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 10.1 * mm),
                      "allowance is 10.1 mm; it must be at least 0 mm and at most 10 mm.");
    CHECK_THROWS_WITH(
        (void)least_removal(flat, cylinder(20.0 * mm)),
        doctest::Contains(
            "board with the wanted surface.surface.radius must be at least half the width of the board at the nut."));
    CHECK_THROWS_WITH((void)least_removal(flat, flat_surface(), 0 * mm, far),
                      "shape[0].x is infinite; it must be at least -300 mm and at most 3000 mm.");
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

namespace {
/// Whether a model, changed, is taken; refused otherwise with all that is wrong.
template <class Model, class Change>
void taken(Model model, Change&& change) {
    change(model);
    require_valid(model, "it");
}
} // namespace

TEST_CASE("board's door: what fits together in a board, a scale, a row of strings") {
    auto arched = flat;
    arched.surface = cylinder(30.0 * mm);
    using B = board;
    CHECK_THROWS_WITH(taken(arched,
                            [](B& b) {
                                b.thickness = 20 * mm;
                                b.surface = cylinder(21.4 * mm);
                                b.width_at_end = 42 * mm;
                            }),
                      "it.surface.radius must be at least half the width of the board at the nut.");
    CHECK_NOTHROW(taken(arched, [](B& b) {
        b.thickness = 22 * mm;
        b.surface = cylinder(21.5 * mm);
        b.width_at_end = 42 * mm;
    }));
    CHECK_THROWS_WITH(taken(flat,
                            [](B& b) {
                                b.board_length = 400 * mm;
                                b.scale.frets = 18;
                            }),
                      "it.board_length must reach the last fret.");
    CHECK_NOTHROW(taken(flat, [](B& b) {
        b.board_length = 320 * mm;
        b.scale.frets = 12;
    }));
    const scale s{.scale_length = 640 * mm, .frets = 2, .measured_places = {36 * mm, 70 * mm}};
    CHECK_THROWS_WITH(taken(s, [](scale& n) { n.frets = 3; }),
                      "it.measured_places must be one for each of the 3 frets, but there are 2.");
    CHECK_THROWS_WITH(taken(s, [](scale& n) { n.measured_places[1] = n.measured_places[0]; }),
                      "it.measured_places[1] must be further from the nut than the place of the fret before it.");
    CHECK_THROWS_WITH(taken(s, [](scale& n) { n.measured_places[1] = 640 * mm; }),
                      "it.measured_places[1] must be less than the scale length.");
    const spacing pairs{.spread = 30 * mm, .courses = {2, 2}, .course_gap = 2 * mm};
    CHECK_THROWS_WITH(taken(pairs, [](spacing& n) { n.spread = 0 * mm; }), "it.spread must be more than 0 mm.");
    CHECK_THROWS_WITH(taken(pairs, [](spacing& n) { n.course_gap = 0 * mm; }),
                      "it.course_gap must be more than 0 mm where a course has more than one string.");
    CHECK_NOTHROW(taken(pairs, [](spacing& n) {
        n.course_gap = 0 * mm;
        n.courses = {1, 1};
    }));
    CHECK_NOTHROW(taken(pairs, [](spacing& n) {
        n.spread = 0 * mm;
        n.courses = {2};
    }));
    CHECK_THROWS_WITH(taken(pairs,
                            [](spacing& n) {
                                n.courses = {2, 0};
                            }),
                      "it.courses[1] is 0; it must be at least 1 and at most 12.");
    const surface cone_like{.radius = 250 * mm, .radius_at_end = 300 * mm, .cone_length = 470 * mm};
    CHECK_NOTHROW(taken(cone_like, [](surface&) {}));
    CHECK_THROWS_WITH(taken(cone_like, [](surface& n) { n.radius.reset(); }),
                      "it.radius must be given too where a radius at the end is.");
    CHECK_THROWS_WITH(taken(cone_like, [](surface& n) { n.radius_at_end.reset(); }),
                      "it.radius_at_end must be given for a cone: both or neither.");
    CHECK_THROWS_WITH(taken(cone_like, [](surface& n) { n.cone_length.reset(); }),
                      "it.cone_length must be given for a cone: both or neither.");
    const string_path p{.y_at_nut = -15 * mm, .y_at_saddle = -25 * mm, .x_at_nut = 5 * mm, .x_at_saddle = 640 * mm};
    CHECK_THROWS_WITH(taken(p, [](string_path& n) { n.x_at_saddle = 5 * mm; }), "it.x_at_saddle must lie beyond the nut.");
}

TEST_CASE("board's door: what fits together in a fan and in readings") {
    const fan f{.bass_scale = 660 * mm,
                .treble_scale = 640 * mm,
                .square_fret = 7,
                .frets = 20,
                .y_bass_at_nut = -18 * mm,
                .y_treble_at_nut = 18 * mm,
                .y_bass_at_saddle = -26 * mm,
                .y_treble_at_saddle = 26 * mm};
    CHECK_THROWS_WITH(taken(f, [](fan& n) { n.y_treble_at_nut = n.y_bass_at_nut; }),
                      "it.y_treble_at_nut must lie on the treble side of the bass string.");
    CHECK_THROWS_WITH(taken(f, [](fan& n) { n.y_treble_at_saddle = n.y_bass_at_saddle; }),
                      "it.y_treble_at_saddle must lie on the treble side of the bass string.");
    auto slanted = f;
    slanted.y_bass_at_saddle = -36 * mm;
    slanted.y_treble_at_saddle = 36 * mm;
    CHECK_THROWS_WITH(taken(slanted, [](fan& n) { n.bass_scale = 18 * mm; }),
                      "it.bass_scale must be more than the string runs sideways.");
    CHECK_NOTHROW(taken(slanted, [](fan& n) { n.bass_scale = 18.1 * mm; }));
    CHECK_THROWS_WITH(taken(slanted, [](fan& n) { n.treble_scale = 18 * mm; }),
                      "it.treble_scale must be more than the string runs sideways.");
    CHECK_NOTHROW(taken(slanted, [](fan& n) { n.treble_scale = 18.1 * mm; }));
    const edge_readings edges{.readings = {{.x = 0 * mm, .bass_edge = 10 * mm, .treble_edge = 53 * mm},
                                           {.x = 400 * mm, .bass_edge = 4 * mm, .treble_edge = 59 * mm}}};
    CHECK_THROWS_WITH(taken(edges, [](edge_readings& n) { n.readings.pop_back(); }),
                      "it.readings must hold at least two places.");
    CHECK_THROWS_WITH(taken(edges, [](edge_readings& n) { n.readings[1].x = 0 * mm; }),
                      "it.readings[1].x must be further from the nut than the place before it.");
    CHECK_THROWS_WITH(taken(edges, [](edge_readings& n) { n.readings[1].treble_edge = 4 * mm; }),
                      "it.readings[1].treble_edge must lie on the treble side of the bass edge.");
    const fret_readings measured{.readings = {{.fret = 1, .distance = 36 * mm},
                                              {.fret = 1, .distance = 36 * mm},
                                              {.fret = 5, .distance = 160 * mm}}};
    CHECK_NOTHROW(taken(measured, [](fret_readings&) {}));
    CHECK_THROWS_WITH(taken(measured, [](fret_readings& n) { n.readings.pop_back(); }),
                      "it.readings must hold at least two different frets.");
    CHECK_THROWS_WITH(taken(measured, [](fret_readings& n) { n.readings[1].fret = 6; }),
                      doctest::Contains("it.readings[1].distance must be more than that of the lower fret before it."));
    CHECK_THROWS_WITH(taken(measured, [](fret_readings& n) { n.readings[2].distance = 36 * mm; }),
                      "it.readings[2].distance must be more than that of the lower fret before it.");
}

TEST_CASE("board's door: what fits together in wire and its levelling") {
    const frets f{.wire = {.crown_height = 1 * mm,
                           .crown_width = 2 * mm,
                           .tang_depth = 1.5 * mm,
                           .tang_thickness = 0.5 * mm,
                           .stud_width = 0.8 * mm},
                  .wear = {0.1 * mm, 0.1 * mm}};
    CHECK_THROWS_WITH(taken(f, [](frets& n) { n.wire.stud_width = 0.49 * mm; }),
                      "it.wire.stud_width must be at least the thickness of the tang.");
    CHECK_NOTHROW(taken(f, [](frets& n) { n.wire.stud_width = 0.5 * mm; }));
    CHECK_THROWS_WITH(taken(f,
                            [](frets& n) {
                                n.wire.tang_thickness = 2 * mm;
                                n.wire.stud_width.reset();
                            }),
                      "it.wire.tang_thickness must be less than the width of the crown.");
    CHECK_THROWS_WITH(taken(f, [](frets& n) { n.wear[1] = 1 * mm; }),
                      "it.wear[1] must be less than the height of the crown.");
    const levelling job{
        .scale = {.scale_length = 640 * mm, .frets = 20},
        .lines = {{.path = path, .crests = {{.fret = 1, .height = 0 * mm}, {.fret = 20, .height = 0 * mm}}}},
        .crown = 1 * mm};
    using L = levelling;
    CHECK_NOTHROW(taken(job, [](L&) {}));
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.lines.clear(); }), "it.lines must hold at least one line of crests.");
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.fall_away_from = 20; }),
                      "it.fall_away_from must be lower than the last fret.");
    CHECK_NOTHROW(taken(job, [](L& n) { n.fall_away_from = 19; }));
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.relief_to = 21; }),
                      "it.relief_to must be one of the board's frets, higher than where the relief begins.");
    CHECK_NOTHROW(taken(job, [](L& n) { n.relief_to = 20; }));
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.relief_from = 20; }),
                      "it.relief_to must be one of the board's frets, higher than where the relief begins.");
    CHECK_NOTHROW(taken(job, [](L& n) { n.relief_from = 19; }));
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.lines[0].crests[1].fret = 21; }),
                      "it.lines[0].crests[1].fret must be one of the board's frets.");
    CHECK_THROWS_WITH(
        taken(job, [](L& n) { n.lines[0].crests[1].fret = 1; }),
        "it.lines[0].crests[1].fret must be higher than the fret before it: give the heights in the order of the frets.");
    CHECK_THROWS_WITH(taken(job, [](L& n) { n.lines[0].crests.pop_back(); }),
                      "it.lines[0].crests must hold at least two frets.");
}

TEST_CASE("board's door: what fits together in a new radius") {
    const reradius job{
        .board = flat,
        .wanted = cylinder(300.0 * mm),
        .paths = {path},
        .slot = {.depth = 2 * mm, .width = 0.5 * mm},
        .wire = {.crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.5 * mm}};
    using J = reradius;
    CHECK_NOTHROW(taken(job, [](J&) {}));
    CHECK_THROWS_WITH(taken(job,
                            [](J& n) {
                                n.wanted = cylinder(20.0 * mm);
                                n.board.thickness = 30 * mm;
                            }),
                      doctest::Contains("it.wanted.radius must be at least half the width of the board at the nut."));
    CHECK_THROWS_WITH(
        taken(job, [](J& n) { n.wanted = cylinder(35.0 * mm); }),
        doctest::Contains("it.thickness under the wanted surface must be more than the arc falls at the edge at the nut."));
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.slot.depth = 6 * mm; }),
                      "it.slot.depth must be less than the thickness of the board.");
    CHECK_NOTHROW(taken(job, [](J& n) { n.slot.depth = 5.9 * mm; }));
    CHECK_THROWS_WITH(taken(job,
                            [](J& n) {
                                n.board.thickness_at_end = 4 * mm;
                                n.slot.depth = 4 * mm;
                            }),
                      "it.slot.depth must be less than the thickness of the board.");
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.binding_height = 6.1 * mm; }),
                      "it.binding_height must be at most the thickness of the board.");
    CHECK_NOTHROW(taken(job, [](J& n) { n.binding_height = 6 * mm; }));
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.binding_thickness = 21.5 * mm; }),
                      "it.binding_thickness must be less than half the width of the board.");
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.chosen_at_nut = 1 * mm; }),
                      "it.chosen_at_end must be given too: both or neither.");
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.chosen_at_end = 1 * mm; }),
                      "it.chosen_at_nut must be given too: both or neither.");
    CHECK_THROWS_WITH(taken(job,
                            [](J& n) {
                                n.shape = {{.x = 100 * mm, .z = 0 * mm}, {.x = 100 * mm, .z = 0 * mm}};
                            }),
                      "it.shape[1].x must be further from the nut than the mark before it.");
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.wire.tang_depth.reset(); }),
                      "it.wire.tang_depth must be given: the slots are to take it.");
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.action_fret = 21; }), "it.action_fret must be one of the board's frets.");
    CHECK_NOTHROW(taken(job, [](J& n) { n.action_fret = 20; }));
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.paths[0].y_at_nut = -21.6 * mm; }),
                      "it.paths[0] must run over the board from nut to end.");
    CHECK_NOTHROW(taken(job, [](J& n) { n.paths[0].y_at_nut = -21.5 * mm; }));
    CHECK_THROWS_WITH(taken(job, [](J& n) { n.paths[0].y_at_saddle = -35 * mm; }),
                      "it.paths[0] must run over the board from nut to end.");
}
