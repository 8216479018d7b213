#include <tautline/supports/break_angle.hpp>
#include <tautline/supports/bridge.hpp>
#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/floating_bridge.hpp>
#include <tautline/supports/friction.hpp>
#include <tautline/supports/nut.hpp>
#include <tautline/supports/pinned_bridge.hpp>
#include <tautline/supports/tailpiece.hpp>
#include <tautline/supports/tailpiece_plan.hpp>
#include <tautline/supports/top.hpp>

#include <doctest/doctest.h>

#include <limits>
#include <vector>

// What each function of supports refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;

namespace {
const double inf = std::numeric_limits<double>::infinity();
const point nowhere{.x = inf * mm};
const point nut_slot{.z = 2 * mm}, on_saddle{.x = 640 * mm, .z = 12 * mm}, at_tail{.x = 760 * mm, .z = 0 * mm};
const friction rubbing{.least = 0.1, .most = 0.3}, wrong{.least = 0.3, .most = 0.1};
const bridge_string one{.slot = nut_slot, .saddle = on_saddle, .anchor = at_tail, .tension = 80 * N};
const bridge_string slack{.slot = nut_slot, .saddle = on_saddle, .anchor = at_tail, .tension = -1 * N};
const hinged_tailpiece short_tail{.hinge_x = 760 * mm, .hinge_z = -20 * mm, .reach = 0 * mm};
const std::vector<bridge_string> good{one}, none, second_wrong{one, slack};
} // namespace

TEST_CASE("supports' door: break angles") {
    CHECK_THROWS_AS((void)distance_between(nowhere, on_saddle), invalid_input);
    CHECK_THROWS_AS((void)distance_between(on_saddle, nowhere), invalid_input);
    CHECK_THROWS_WITH((void)direction_between(nowhere, on_saddle),
                      "from.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)direction_between(nut_slot, nowhere),
                      "to.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)direction_between(nut_slot, nut_slot),
                      "distance between the two points is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)support_force_size(-1 * N, 10 * deg), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)support_force_size(80 * N, -1 * deg),
                      "break_angle is -1 deg; it must be at least 0 deg and at most 180 deg.");
    CHECK_THROWS_WITH((void)support_force_size(80 * N, 181 * deg),
                      "break_angle is 181 deg; it must be at least 0 deg and at most 180 deg.");
    CHECK_THROWS_WITH((void)support_load(nut_slot, on_saddle, at_tail, -1 * N, 80 * N),
                      "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)support_load(nut_slot, on_saddle, at_tail, 80 * N, -2 * N),
                      "tension is -2 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)support_load(nowhere, on_saddle, at_tail, 80 * N, 80 * N),
                      "before.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)support_load(nut_slot, nowhere, at_tail, 80 * N, 80 * N),
                      "support.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)support_load(nut_slot, on_saddle, nowhere, 80 * N, 80 * N),
                      "after.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)support_load(on_saddle, on_saddle, at_tail, 80 * N, 80 * N),
                      "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)support_load(nut_slot, on_saddle, on_saddle, 80 * N, 80 * N),
                      "afterlength is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)saddle_load(nut_slot, on_saddle, at_tail, -1 * N), "tension is -1 N; it must be at least 0 N.");
}

TEST_CASE("supports' door: bridge and its adjusters") {
    const bridge_adjusters a{.bass = -37 * mm, .treble = 37 * mm, .thread_pitch = 0.7 * mm};
    CHECK_THROWS_WITH(
        (void)adjuster_moves(bridge_adjusters{-37 * mm, 37 * mm, 5.1 * mm}, -25 * mm, 0 * mm, 25 * mm, 0 * mm),
        "adjusters.thread_pitch is 5.1 mm; it must be at least 0.05 mm and at most 5 mm.");
    CHECK_THROWS_WITH((void)adjuster_moves(bridge_adjusters{37 * mm, 37 * mm, 0.7 * mm}, -25 * mm, 0 * mm, 25 * mm, 0 * mm),
                      "adjusters.treble must be on the treble side of the bass adjuster.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -inf * mm, 0 * mm, 25 * mm, 0 * mm),
                      "bass_string is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -25 * mm, 0 * mm, inf * mm, 0 * mm),
                      "treble_string is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -25 * mm, 51 * mm, 25 * mm, 0 * mm),
                      "bass_lift is 51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -25 * mm, -51 * mm, 25 * mm, 0 * mm),
                      "bass_lift is -51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -25 * mm, 0 * mm, 25 * mm, 51 * mm),
                      "treble_lift is 51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, -25 * mm, 0 * mm, 25 * mm, -51 * mm),
                      "treble_lift is -51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)adjuster_moves(a, 25 * mm, 0 * mm, 25 * mm, 0 * mm),
                      "treble_string must be on the treble side of the bass string.");
}

TEST_CASE("supports' door: floating bridge") {
    floating_bridge b{.front_edge = {.x = 630 * mm, .z = -8 * mm},
                      .back_edge = {.x = 650 * mm, .z = -8 * mm},
                      .bass_foot = -37 * mm,
                      .treble_foot = 37 * mm,
                      .saddle = rubbing,
                      .foot = rubbing};
    CHECK_THROWS_WITH((void)bridge_summary(b, none), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)bridge_summary(b, second_wrong),
                      "strings[1].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    const std::vector<bridge_string> sunk{
        one, {.slot = nut_slot, .saddle = {.x = 640 * mm, .z = -8 * mm}, .anchor = at_tail, .tension = 80 * N}};
    CHECK_THROWS_WITH((void)bridge_summary(b, sunk), "strings[1].saddle.z must be above the top that the feet stand on.");
    b.treble_foot = b.bass_foot;
    CHECK_THROWS_WITH((void)bridge_summary(b, good), "bridge.treble_foot must be on the treble side of the bass foot.");
    b.treble_foot = 37 * mm;
    b.back_edge.x = b.front_edge.x;
    CHECK_THROWS_WITH((void)bridge_summary(b, good), "bridge.back_edge must be farther from the nut than the front edge.");
}

TEST_CASE("supports' door: friction") {
    CHECK_THROWS_WITH((void)capstan_ratio(-0.01, 10.0 * deg), "mu is -0.01; it must be at least 0 and at most 2.");
    CHECK_THROWS_WITH((void)capstan_ratio(2.01, 10.0 * deg), "mu is 2.01; it must be at least 0 and at most 2.");
    CHECK_THROWS_WITH((void)capstan_ratio(0.2, -1.0 * deg), "wrap_angle is -1 deg; it must be at least 0 deg.");
    CHECK_THROWS_WITH((void)tension_beyond(wrong, 80 * N, 10 * deg),
                      "friction.most must be at least as large as the least coefficient.");
    CHECK_THROWS_WITH((void)tension_beyond(rubbing, -1 * N, 10 * deg), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)tension_beyond(rubbing, 80 * N, -1 * deg), "wrap_angle is -1 deg; it must be at least 0 deg.");
    CHECK_THROWS_WITH((void)tuning_dead_band(wrong, 10 * deg),
                      "friction.most must be at least as large as the least coefficient.");
    CHECK_THROWS_WITH((void)tuning_dead_band(rubbing, -1 * deg), "wrap_angle is -1 deg; it must be at least 0 deg.");
    // Friction of one known size is no mistake.
    CHECK_NOTHROW((void)tuning_dead_band(friction{.least = 0.2, .most = 0.2}, 10 * deg));
}

TEST_CASE("supports' door: headstock") {
    const headstock head{.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 1 * mm};
    const tuner_post post{.along = 60 * mm, .across = -20 * mm, .height = 8 * mm};
    CHECK_THROWS_WITH((void)post_point(headstock{.pitch = 61 * deg, .face_start = 5 * mm, .face_drop = 1 * mm}, post),
                      "headstock.pitch is 61 deg; it must be at least -30 deg and at most 60 deg.");
    CHECK_THROWS_WITH((void)post_point(head, tuner_post{.along = 60 * mm, .across = -20 * mm, .height = 51 * mm}),
                      "post.height is 51 mm; it must be at least -40 mm and at most 50 mm.");
}

TEST_CASE("supports' door: pinned bridge") {
    const pinned_bridge b{.top_middle = -2 * mm, .saddle_exposed = 3 * mm};
    CHECK_THROWS_WITH((void)pinned_load(pinned_bridge{.top_middle = -2 * mm, .saddle_exposed = 31 * mm}, good),
                      "bridge.saddle_exposed is 31 mm; it must be at least 0 mm and at most 30 mm.");
    CHECK_THROWS_WITH((void)pinned_load(b, none), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)pinned_load(b, second_wrong),
                      "strings[1].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH((void)pinned_load(pinned_bridge{.top_middle = 12 * mm, .saddle_exposed = 3 * mm}, good),
                      "strings[0].saddle.z must be above the top: the saddle would be inside it.");
    CHECK_THROWS_WITH((void)pin_distance(0.0 * mm, 1 * deg, 30 * deg), "drop is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pin_distance(8 * mm, 46 * deg, 30 * deg),
                      "fall is 46 deg; it must be at least -45 deg and at most 45 deg.");
    CHECK_THROWS_WITH((void)pin_distance(8 * mm, -46 * deg, 30 * deg),
                      "fall is -46 deg; it must be at least -45 deg and at most 45 deg.");
    CHECK_THROWS_WITH((void)pin_distance(8 * mm, 1 * deg, -1 * deg),
                      "wanted is -1 deg; it must be at least 0 deg and at most 180 deg.");
    CHECK_THROWS_WITH((void)pin_distance(8 * mm, 1 * deg, 181 * deg),
                      "wanted is 181 deg; it must be at least 0 deg and at most 180 deg.");
}

TEST_CASE("supports' door: hinged tailpiece") {
    const hinged_tailpiece tail{.hinge_x = 760 * mm, .hinge_z = -20 * mm, .reach = 90 * mm};
    const tail_string s{.saddle = on_saddle, .across = 0 * mm, .tension = 80 * N};
    const std::vector<tail_string> strings{s}, nobody,
        backward{s, {.saddle = on_saddle, .across = 0 * mm, .tension = -1 * N}},
        untuned{{.saddle = on_saddle, .across = 0 * mm, .tension = 0 * N}},
        beside_it{s, {.saddle = {.x = 670 * mm}, .across = 0 * mm, .tension = 80 * N}};
    CHECK_THROWS_WITH((void)tailpiece_rise(short_tail, strings),
                      "tailpiece.reach is 0 mm; it must be at least 0.1 mm and at most 1000 mm.");
    CHECK_THROWS_WITH((void)tailpiece_rise(tail, nobody), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)tailpiece_rise(tail, backward),
                      "strings[1].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH((void)tailpiece_rise(tail, untuned), "strings' total tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)tailpiece_rise(tail, beside_it),
                      "tailpiece.reach must be less than the distance from the hinge to the saddle: the bridge stands "
                      "beyond the tailpiece.");
    CHECK_THROWS_WITH((void)tailpiece_point(short_tail, 5 * deg, 0 * mm),
                      "tailpiece.reach is 0 mm; it must be at least 0.1 mm and at most 1000 mm.");
    CHECK_THROWS_WITH((void)tailpiece_point(tail, 91 * deg, 0 * mm),
                      "rise is 91 deg; it must be at least -90 deg and at most 90 deg.");
    CHECK_THROWS_WITH((void)tailpiece_point(tail, -91 * deg, 0 * mm),
                      "rise is -91 deg; it must be at least -90 deg and at most 90 deg.");
    CHECK_THROWS_WITH((void)tailpiece_point(tail, 5 * deg, inf * mm), "across is infinite; it must be a finite number.");
}

TEST_CASE("supports' door: where a tailpiece is to hang") {
    const std::vector<point> slots{nut_slot}, two_slots{nut_slot, nut_slot}, lost{nowhere}, no_slots;
    const std::vector<tail_string> strings{{.saddle = on_saddle, .across = 0 * mm, .tension = 80 * N}}, nobody,
        untuned{{.saddle = on_saddle, .across = 0 * mm, .tension = 0 * N}},
        backward{{.saddle = on_saddle, .across = 0 * mm, .tension = -1 * N}},
        beyond{{.saddle = {.x = 660 * mm}, .across = 0 * mm, .tension = 80 * N}};
    rigid_tailpiece tail, lost_tail;
    tail.x = 660 * mm;
    lost_tail.x = inf * mm;
    hinged_tailpiece hinged;
    hinged.hinge_x = 750 * mm;
    hinged.reach = 90 * mm;
    const auto plan = [&](const auto& at, const auto& held, auto low, auto high) {
        return [&, low, high] { (void)anchor_for_down_force(tail, at, held, 60 * N, low * mm, high * mm); };
    };
    // The height that is looked for need not be given.
    CHECK_NOTHROW(plan(slots, strings, -20.0, 20.0)());
    CHECK_THROWS_WITH(plan(no_slots, nobody, -20.0, 20.0)(),
                      "slots and strings must have one entry for each string, and at least one.");
    CHECK_THROWS_WITH(plan(two_slots, strings, -20.0, 20.0)(),
                      "slots and strings must have one entry for each string, and at least one.");
    CHECK_THROWS_WITH(plan(slots, backward, -20.0, 20.0)(),
                      "strings[0].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH(plan(lost, strings, -20.0, 20.0)(),
                      "slots[0].x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH(plan(slots, beyond, -20.0, 20.0)(),
                      "strings[0].saddle.x must be before the tailpiece: the bridge stands beyond it.");
    CHECK_THROWS_WITH(plan(slots, untuned, -20.0, 20.0)(), "strings[0].tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH(plan(slots, strings, -inf, 20.0)(), "lowest is infinite; it must be a finite number.");
    CHECK_THROWS_WITH(plan(slots, strings, -20.0, inf)(), "highest is infinite; it must be a finite number.");
    CHECK_THROWS_WITH(plan(slots, strings, 20.0, 20.0)(), "highest must be above the lowest height.");
    CHECK_THROWS_WITH((void)anchor_for_down_force(tail, slots, strings, inf * N, -20 * mm, 20 * mm),
                      "wanted is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)anchor_for_break(tail, slots, strings, -91 * deg, -20 * mm, 20 * mm),
                      "wanted is -91 deg; it must be at least -90 deg and at most 180 deg.");
    CHECK_THROWS_WITH((void)anchor_for_break(tail, slots, strings, 181 * deg, -20 * mm, 20 * mm),
                      "wanted is 181 deg; it must be at least -90 deg and at most 180 deg.");
    CHECK_THROWS_WITH((void)anchor_for_break(tail, slots, strings, 10 * deg, 20 * mm, 20 * mm),
                      "highest must be above the lowest height.");
    CHECK_THROWS_WITH((void)anchor_for_down_force(lost_tail, slots, strings, 60 * N, -20 * mm, 20 * mm),
                      "tailpiece.x is infinite; it must be at least -5000 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)anchor_for_down_force(short_tail, slots, strings, 60 * N, -20 * mm, 20 * mm),
                      "tailpiece.reach is 0 mm; it must be at least 0.1 mm and at most 1000 mm.");
    // The bar of a hinged one hangs before its hinge by its reach.
    CHECK_THROWS_WITH((void)anchor_for_down_force(hinged, slots, beyond, 60 * N, -20 * mm, 20 * mm),
                      "strings[0].saddle.x must be before the tailpiece: the bridge stands beyond it.");
    CHECK_THROWS_WITH((void)down_force_limit(nut_slot, on_saddle, -1 * N), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)down_force_limit(nut_slot, nut_slot, 80 * N),
                      "distance between the two points is 0 mm; it must be more than 0 mm.");
}

TEST_CASE("supports' door: top") {
    const soundboard top{.sink_stiffness = 1e5 * N_per_m, .saddle_ahead = 5 * mm, .saddle_height = 20 * mm};
    CHECK_THROWS_WITH(
        (void)top_give(soundboard(), 80 * N, 0 * N_m),
        "top.sink_stiffness is not given, or not a number; it must be at least 0.1 N/mm and at most 1000000000000 N/mm.");
    auto turning = top;
    turning.turn_stiffness = 1000 * N_m_per_rad;
    CHECK_NOTHROW((void)top_give(turning, 80 * N, 0 * N_m));
    turning.saddle_ahead.reset();
    CHECK_THROWS_WITH((void)top_give(turning, 80 * N, 0 * N_m),
                      "top.saddle_ahead must be given where the bridge turns: what a turn does to the saddle hangs on it.");
    turning = top;
    turning.turn_stiffness = 1000 * N_m_per_rad;
    turning.saddle_height.reset();
    CHECK_THROWS_WITH(
        (void)top_give(turning, 80 * N, 0 * N_m),
        "top.saddle_height must be given where the bridge turns: what a turn does to the saddle hangs on it.");
    CHECK_THROWS_WITH((void)top_give(top, inf * N, 0 * N_m), "down is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)top_give(top, 80 * N, inf * N_m), "turning is infinite; it must be a finite number.");
    CHECK_THROWS_WITH(
        (void)held_load(soundboard(), good),
        "top.sink_stiffness is not given, or not a number; it must be at least 0.1 N/mm and at most 1000000000000 N/mm.");
    CHECK_THROWS_WITH((void)held_load(top, none), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)held_load(top, second_wrong),
                      "strings[1].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH(
        (void)settle_on_top(soundboard(), [](const auto&) { return basic_top_load<double>{}; }),
        "top.sink_stiffness is not given, or not a number; it must be at least 0.1 N/mm and at most 1000000000000 N/mm.");
    CHECK_THROWS_WITH((void)measured_stiffness(0.0 * N, 1 * mm), "load is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)measured_stiffness(10 * N, 0.0 * mm), "give is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)section_load(none, 300.0 * mm, 0 * mm), "strings must hold at least one string.");
    CHECK_THROWS_WITH((void)section_load(good, 300.0 * mm, inf * mm), "z is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)section_load(second_wrong, 300.0 * mm, 0 * mm),
                      "strings[1].tension is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH((void)section_load(good, -1.0 * mm, 0 * mm), "x must lie between the nut and where the strings end.");
    CHECK_THROWS_WITH((void)section_load(good, 761.0 * mm, 0 * mm),
                      "x must lie between the nut and where the strings end.");
    CHECK_NOTHROW((void)section_load(good, 0.0 * mm, 0 * mm));
    CHECK_NOTHROW((void)section_load(good, 760.0 * mm, 0 * mm));
}
