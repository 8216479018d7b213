#include <tautline/job/explanation.hpp>
#include <tautline/job/plan.hpp>

#include <doctest/doctest.h>

#include "../setup/changed_demo.hpp"

// What each function of job refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using namespace demo;

TEST_CASE("job's door: wishes that an instrument cannot have") {
    CHECK_THROWS_WITH((void)make_plan(on(), wishes{.relief = 5.1 * mm}),
                      "wanted.relief is 5.1 mm; it must be at least -5 mm and at most 5 mm.");
    CHECK_THROWS_WITH((void)make_plan(strung_instrument(), wishes{}),
                      doctest::Contains("board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH(
        (void)make_plan(strung_instrument(), wishes{}),
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

TEST_CASE("job's door: explanations") {
    CHECK_THROWS_WITH((void)explain(on(), "strings[8].tension"),
                      "strings[8].tension must be the path of a number of the result.");
}
