#include <tautline/doubt/sweep.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>
#include <tautline/job/compare.hpp>
#include <tautline/job/explanation.hpp>
#include <tautline/job/plan.hpp>
#include <tautline/setup/finding.hpp>
#include <tautline/work/after_work.hpp>
#include <tautline/work/do_work.hpp>
#include <tautline/work/reset.hpp>

#include <doctest/doctest.h>

#include <limits>

#include "demo.hpp"

// What each function of setup refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;

namespace {
const double inf = std::numeric_limits<double>::infinity();
strung_instrument on() { return {demo::four_course(), demo::unison_pairs()}; }
/// The demo after a change.
template <class Change>
strung_instrument but(Change&& change) {
    auto s = on();
    change(s.instrument, s.strung);
    return s;
}
strung_instrument on_pins() {
    return but([](instrument& i, stringing&) {
        i.tailpiece.reset();
        i.pins = pins{
            .distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    });
}
strung_instrument without_frets(int left = 0) {
    return but([&](instrument& i, stringing&) {
        i.board.scale.frets = left;
        i.frets.wear.clear();
        i.neck.joint_fret = left > 0 ? left : 12;
    });
}
template <class Change>
void solved_after(Change&& change) {
    const auto s = but(std::forward<Change>(change));
    (void)solve(s);
}
const std::vector<std::string> tension_asked{"strings[0].tension"};
} // namespace

TEST_CASE("setup's door: what fits together in an instrument") {
    using I = instrument;
    using S = stringing;
    CHECK_THROWS_WITH(solved_after([](I& i, S&) {
                          i.saddle.spacing.courses = {2, 2, 2};
                      }),
                      "saddle.spacing must have as many strings as the nut.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.posts.pop_back(); }),
                      "posts must be one for each of the 8 strings, but there are 7.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.tailpiece.reset(); }),
                      "tailpiece must be given, or pins, or body_bridge: the strings end on one of them.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.pins = on_pins().instrument.pins; }),
                      "tailpiece must not be given together with pins.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) {
                          i = on_pins().instrument;
                          i.soundboard = soundboard{.sink_stiffness = 1e5 * N_per_m};
                      }),
                      "soundboard.turn_stiffness must be given: the strings turn a bridge that holds them.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) {
                          i.board.scale.frets = 60;
                          i.board.board_length = 600 * mm;
                          i.frets.wear.clear();
                          i.saddle.setback_bass = -45 * mm;
                      }),
                      "board.scale.frets must end before the saddle.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.neck.joint_fret = 20; }),
                      "neck.joint_fret must be one of the board's 19 frets.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.neck.depth_at_nut = i.board.thickness; }),
                      "neck.depth_at_nut must be more than the thickness of the board there.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.neck.depth_at_joint = i.board.thickness; }),
                      "neck.depth_at_joint must be more than the thickness of the board there.");
    CHECK_THROWS_WITH(solved_after([](I&, S& s) { s.strings.clear(); }), "strings must hold at least one string.");
    CHECK_THROWS_WITH(solved_after([](I&, S& s) { s.strings.pop_back(); }),
                      "strings must be 8, as the nut has, but there are 7.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.nut.slot_heights.pop_back(); }),
                      "nut.slot_heights must be one for all strings or one for each of the 8, but there are 7.");
    CHECK_NOTHROW(solved_after([](I& i, S&) { i.nut.slot_heights.resize(1); }));
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.saddle.radius = 26 * mm; }),
                      "saddle.radius must be more than half the spread of the strings.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) {
                          i.saddle.radius = 28 * mm;
                          i.saddle.spacing.offset = 2 * mm;
                      }),
                      "saddle.radius must be more than half the spread of the strings.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) {
                          i.saddle.radius = 28 * mm;
                          i.saddle.spacing.offset = -2 * mm;
                      }),
                      "saddle.radius must be more than half the spread of the strings.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.saddle.board_line = i.saddle.height_treble; }),
                      "saddle.board_line must pass below the saddle: the strings would lie under the board.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.neck.rod_pull = 1 * N; }),
                      "neck.rod_pull must be 0 where there is no rod.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.tailpiece->reach = i.tailpiece->hinge_distance; }),
                      "tailpiece.reach must be less than hinge_distance: the bridge would stand beyond the tailpiece.");
    CHECK_THROWS_WITH(
        solved_after([](I& i, S&) {
            i.feet = bridge_feet{
                .ahead = 5 * mm, .behind = -5 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
        }),
        "feet.behind must leave the feet some length along the strings.");
    CHECK_THROWS_WITH(
        solved_after([](I& i, S&) {
            i.feet = bridge_feet{
                .ahead = 5 * mm, .behind = 5 * mm, .top_slope = 0 * deg, .bass_foot = 30 * mm, .treble_foot = 30 * mm};
        }),
        "feet.treble_foot must be on the treble side of the bass foot.");
    CHECK_THROWS_WITH(solved_after([](I& i, S&) { i.soundboard = soundboard{.sink_stiffness = 5000 * N_per_m}; }),
                      "soundboard.sink_stiffness must be more: the strings' load grows with the sinking faster than this "
                      "soundboard resists.");
    CHECK_THROWS_WITH(
        solved_after([](I&, S& s) {
            s.strings[3].string.layers.clear();
            s.strings[3].string.bare = bare_ends{.at_nut = 300 * mm, .at_saddle = 300 * mm};
        }),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH(solved_after([](I&, S& s) { s.strings[3].pitch = note{-100000}; }),
                      "pitch is 0 Hz; it must be more than 0 Hz.");
}

TEST_CASE("setup's door: wishes that an instrument cannot have") {
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.relief = 5.1 * mm}),
                      "wanted.relief is 5.1 mm; it must be at least -5 mm and at most 5 mm.");
    CHECK_THROWS_WITH((void)make_plan(strung_instrument{}, wishes{}),
                      doctest::Contains("board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH(
        (void)make_plan(strung_instrument{}, wishes{}),
        doctest::Contains("neck.joint_fret is not given, or not a number; it must be at least 1 and at most 240."));
    CHECK_THROWS_WITH((void)make_plan(without_frets(), wishes{.first_fret_bass = 0.4 * mm}),
                      "wanted.first_fret_bass must be left out on a board without frets.");
    CHECK_THROWS_WITH((void)make_plan(without_frets(), wishes{.first_fret_treble = 0.4 * mm}),
                      "wanted.first_fret_treble must be left out on a board without frets.");
    CHECK_THROWS_WITH((void)make_plan(without_frets(1), wishes{.action_bass = 2 * mm}),
                      "wanted.action_bass must be left out on a board with fewer than two frets.");
    CHECK_THROWS_WITH((void)make_plan(without_frets(1), wishes{.action_treble = 2 * mm}),
                      "wanted.action_treble must be left out on a board with fewer than two frets.");
    CHECK_THROWS_WITH((void)make_plan(without_frets(1), wishes{.reset = reset_wish{}}),
                      "wanted.reset must be left out on a board with fewer than two frets.");
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.action_bass = 2 * mm, .action_fret = 20}),
                      "wanted.action_fret must be one of the board's 19 frets.");
    CHECK_NOTHROW((void)make_plan(on(), wishes{.action_bass = 2 * mm, .action_fret = 19}));
    CHECK_THROWS_WITH((void)make_plan(on_pins(), wishes{.down_force = 100 * N}),
                      "wanted.down_force must be left out where no tailpiece hangs.");
    CHECK_THROWS_WITH(
        (void)make_plan(on(), wishes{.saddle_break = 20 * deg}),
        "wanted.saddle_break must be left out where there are no pins: a break is wished for to place their holes.");
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.hinge_lowest = 20 * mm, .hinge_highest = 20 * mm}),
                      "wanted.hinge_lowest must be less than hinge_highest.");
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.lowest_saddle = 18 * mm, .highest_saddle = 18 * mm}),
                      "wanted.lowest_saddle must be less than highest_saddle.");
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.reset = reset_wish{.least_turn = 1 * deg, .most_turn = 0.5 * deg}}),
                      "wanted.reset.least_turn must not be more than most_turn.");
    CHECK(validate(reset_wish{.least_turn = 1 * deg, .most_turn = 1 * deg}).empty());
}

TEST_CASE("setup's door: a reset") {
    CHECK_THROWS_WITH((void)after_reset(strung_instrument{}, {}),
                      doctest::Contains("board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)after_reset(on(), {.turn = 0 * deg, .edge_depth = 101 * mm}),
                      "reset.edge_depth is 101 mm; it must be at least 0 mm and at most 100 mm.");
    CHECK_THROWS_WITH((void)after_reset(on(), {.turn = 3 * deg}),
                      "saddle.board_line must pass below the saddle: the strings would lie under the board.");
    CHECK_THROWS_WITH((void)object_after_reset(instrument{}, {}, flat_object{}),
                      doctest::Contains("instrument.board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)object_after_reset(on().instrument, {.turn = 0 * deg, .leave = 21 * mm}, flat_object{}),
                      "reset.leave is 21 mm; it must be at least 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)object_after_reset(on().instrument, {.turn = 0 * deg},
                                               flat_object{.x = inf * mm, .z = 3 * mm, .extent = 20 * mm}),
                      "object.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)turn_of_board_line(instrument{}, 10 * mm, 12 * mm),
                      doctest::Contains("instrument.board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)turn_of_board_line(on().instrument, -51 * mm, 12 * mm),
                      "from is -51 mm; it must be at least -50 mm and at most 150 mm.");
    CHECK_THROWS_WITH((void)turn_of_board_line(on().instrument, 151 * mm, 12 * mm),
                      "from is 151 mm; it must be at least -50 mm and at most 150 mm.");
    CHECK_THROWS_WITH((void)turn_of_board_line(on().instrument, 12 * mm, -51 * mm),
                      "to is -51 mm; it must be at least -50 mm and at most 150 mm.");
    CHECK_THROWS_WITH((void)turn_of_board_line(on().instrument, 12 * mm, 151 * mm),
                      "to is 151 mm; it must be at least -50 mm and at most 150 mm.");
}

TEST_CASE("setup's door: bench work") {
    const auto off = least_removal(on().instrument.board, cylinder(400 * mm), 0.1 * mm);
    auto elsewhere = off, gone = off;
    elsewhere.board_length = 399 * mm;
    gone.board_length = 0 * mm;
    const std::vector<basic_profile_mark<double>> slack_top{{.x = 100 * mm, .z = 0.1 * mm}};
    CHECK_THROWS_WITH((void)do_work(on(), {.binding_thickness = 31 * mm}, {}),
                      "details.binding_thickness is 31 mm; it must be at least 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)do_work(without_frets(2), {}, {.levelling = fret_levelling{.held = neck_held::slack}}),
                      "work.levelling must be left out where fewer than three frets are to be levelled.");
    CHECK_NOTHROW((void)do_work(without_frets(3), {}, {.levelling = fret_levelling{.held = neck_held::slack}}));
    CHECK_THROWS_WITH((void)after_sanding(strung_instrument{}, off),
                      doctest::Contains("board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)after_sanding(on(), elsewhere), "removal.board_length must be that of the board.");
    CHECK_THROWS_WITH((void)after_sanding(on(), off, slack_top),
                      "slack_top must be left out where the board is sanded along its old line: its set stays in it.");
    CHECK_THROWS_WITH((void)height_after_sanding(gone, 100 * mm, 0 * mm),
                      "removal.board_length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)height_after_sanding(off, inf * mm, 0 * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)height_after_sanding(off, 100 * mm, inf * mm), "z is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)after_refret(on(), fret_wire{.crown_height = -1 * mm, .crown_width = 1 * mm}),
                      doctest::Contains("frets.wire.crown_height is -1 mm"));
    const std::vector<length<>> few(18, 0 * mm), negative(19, -0.1 * mm), whole(19, 0.9 * mm);
    CHECK_THROWS_WITH((void)after_levelling<double>(on(), few), "cuts must be one for each fret.");
    CHECK_THROWS_WITH((void)after_levelling<double>(on(), negative),
                      doctest::Contains("cuts[0] is -0.1 mm; it must be at least 0 mm."));
    CHECK_THROWS_WITH((void)after_levelling<double>(on(), whole), doctest::Contains("frets.wear[0]"));
}

TEST_CASE("setup's door: sweeps, doubts and budgets") {
    const std::vector<knob> none{{"saddle.height_bass", {}}}, stranger{{"saddle.hat", {18 * mm}}},
        wrong_kind{{"saddle.height_bass", {18 * N}}};
    const std::vector<std::string> path{"saddle.height_bass"}, unknown{"no.such"}, one{"a"};
    const std::vector<std::vector<any_quantity>> two_values{{18 * mm, 18 * mm}};
    CHECK_THROWS_WITH((void)sweep_grid(on(), none, tension_asked), "saddle.height_bass must be given at least one value.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), stranger, tension_asked),
                      "saddle.hat must be the path of a number of the instrument or its strings.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), wrong_kind, tension_asked),
                      "saddle.height_bass must be moved by a length, as it is one.");
    CHECK_THROWS_WITH((void)sweep_grid(on(), {}, unknown), "no.such must be the path of a number of a solved setup.");
    CHECK_THROWS_WITH((void)sweep_rows(on(), path, two_values, tension_asked),
                      "rows[0] must have one value for each path.");
    const auto sampled = [&](double standard) {
        return sweep_sample(on(), std::vector<doubt>{{"height", standard * metre, {{"saddle.height_bass"}}}}, 1, 7,
                            tension_asked);
    };
    CHECK_THROWS_WITH((void)sampled(-1), "uncertainty of height is -1; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)sampled(1.1e12),
                      "uncertainty of height is 1100000000000; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", -1, {{"saddle.height_bass"}}}}),
                      "uncertainty of height is -1; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", 1.1e12, {{"saddle.height_bass"}}}}),
                      "uncertainty of height is 1100000000000; it must be at least 0 and at most 1000000000000.");
    CHECK_THROWS_WITH((void)propagate(on(), std::vector<doubt>{{"height", 1 * mm, {{"saddle.hat"}}}}),
                      "saddle.hat must be the path of a number of the instrument or its strings.");
    const std::vector<length<>> parts{1 * mm, 1 * mm}, three{1 * mm, 1 * mm, 1 * mm};
    const auto together = [&](std::vector<correlation> c) { return combined_uncertainty<unit::length>(parts, c); };
    CHECK_THROWS_WITH((void)together({{0, 2, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{2, 0, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{1, 1, 0.5}}), "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)together({{0, 1, -1.01}}),
                      "correlation.coefficient is -1.01; it must be at least -1 and at most 1.");
    CHECK_THROWS_WITH((void)(covariance<unit::length, unit::length>(parts, three)),
                      "contributions must be given for the same inputs in both results.");
    CHECK_THROWS_WITH((void)(covariance<unit::length, unit::length>(parts, parts, std::vector<correlation>{{0, 2, 0.5}})),
                      "correlation must name two different inputs of the list.");
    CHECK_THROWS_WITH((void)budget<unit::length>(one, parts), "inputs must be as many as contributions.");
    CHECK_THROWS_WITH((void)explain(on(), "strings[8].tension"),
                      "strings[8].tension must be the path of a number of the result.");
    CHECK_THROWS_WITH((void)any_quantity(80 * N).as<length<>>(),
                      "the number is force; it must be read as what it is, not as length.");
}
