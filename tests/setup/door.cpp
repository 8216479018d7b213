#include <tautline/setup/finding.hpp>
#include <tautline/setup/solve.hpp>

#include <doctest/doctest.h>

#include "../setup/changed_demo.hpp"

// What each function of setup refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;
using namespace demo;

namespace {
template <class Change>
void solved_after(Change&& change) {
    const auto s = but(std::forward<Change>(change));
    (void)solve(s);
}
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
                      "tailpiece must be given, or pins, or a tie_block, or body_bridge: the strings end on one of them.");
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
