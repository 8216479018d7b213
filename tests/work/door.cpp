#include <tautline/work/after_work.hpp>
#include <tautline/work/do_work.hpp>
#include <tautline/work/reset.hpp>

#include <doctest/doctest.h>

#include <limits>

#include "../setup/changed_demo.hpp"

// What each function of work refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using namespace demo;

namespace {
const double inf = std::numeric_limits<double>::infinity();
} // namespace

TEST_CASE("work's door: a reset") {
    CHECK_THROWS_WITH((void)after_reset(strung_instrument(), {.turn = 0 * deg}),
                      doctest::Contains("board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)after_reset(on(), {.turn = 0 * deg, .edge_depth = 101 * mm}),
                      "reset.edge_depth is 101 mm; it must be at least 0 mm and at most 100 mm.");
    CHECK_THROWS_WITH((void)after_reset(on(), {.turn = 3 * deg}),
                      "saddle.board_line must pass below the saddle: the strings would lie under the board.");
    CHECK_THROWS_WITH((void)object_after_reset(instrument(), {.turn = 0 * deg}, flat_object()),
                      doctest::Contains("instrument.board.width_at_nut is not given, or not a number;"));
    CHECK_THROWS_WITH((void)object_after_reset(on().instrument, {.turn = 0 * deg, .leave = 21 * mm}, flat_object()),
                      "reset.leave is 21 mm; it must be at least 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)object_after_reset(on().instrument, {.turn = 0 * deg},
                                               flat_object{.x = inf * mm, .z = 3 * mm, .extent = 20 * mm}),
                      "object.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)turn_of_board_line(instrument(), 10 * mm, 12 * mm),
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

TEST_CASE("work's door: bench work") {
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
    CHECK_THROWS_WITH((void)after_sanding(strung_instrument(), off),
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
