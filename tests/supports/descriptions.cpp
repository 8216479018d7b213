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

#include "described.hpp"

using namespace tautline;

TEST_CASE("supports: descriptions leave no member out") {
    CHECK(described::gaps<basic_point>() == "");
    CHECK(described::gaps<basic_support_force>() == "");
    CHECK(described::gaps<basic_support_load>() == "");
    CHECK(described::gaps<basic_bridge_string>() == "");
    CHECK(described::gaps<basic_bridge_adjusters>() == "");
    CHECK(described::gaps<basic_adjuster_moves>() == "");
    CHECK(described::gaps<basic_side_point>() == "");
    CHECK(described::gaps<basic_floating_bridge>() == "");
    CHECK(described::gaps<basic_bridge_stand>() == "");
    CHECK(described::gaps<basic_bridge_summary>() == "");
    CHECK(described::gaps<basic_friction>() == "");
    CHECK(described::gaps<basic_interval_range>() == "");
    CHECK(described::gaps<basic_headstock>() == "");
    CHECK(described::gaps<basic_tuner_post>() == "");
    CHECK(described::gaps<basic_pinned_bridge>() == "");
    CHECK(described::gaps<basic_pinned_load>() == "");
    CHECK(described::gaps<basic_hinged_tailpiece>() == "");
    CHECK(described::gaps<basic_tail_string>() == "");
    CHECK(described::gaps<basic_rigid_tailpiece>() == "");
    CHECK(described::gaps<basic_soundboard>() == "");
    CHECK(described::gaps<basic_top_give>() == "");
}

TEST_CASE("supports: what each member may be, told a second time") {
    CHECK(described::ranges<basic_point>() == "x: a finite number\n"
                                              "y: a finite number\n"
                                              "z: a finite number");
    CHECK(described::ranges<basic_bridge_string>() == "tension: at least 0 N");
    CHECK(described::ranges<basic_bridge_adjusters>() == "bass: a finite number\n"
                                                         "treble: a finite number\n"
                                                         "thread_pitch: more than 0 mm and at most 5 mm");
    CHECK(described::ranges<basic_side_point>() == "x: a finite number\n"
                                                   "z: a finite number");
    CHECK(described::ranges<basic_floating_bridge>() == "bass_foot: a finite number\n"
                                                        "treble_foot: a finite number");
    CHECK(described::ranges<basic_friction>() == "least: at least 0 and at most 2\n"
                                                 "most: at least 0 and at most 2");
    CHECK(described::ranges<basic_headstock>() == "pitch: at least -30 deg and at most 60 deg\n"
                                                  "face_start: at least 0 mm and at most 100 mm\n"
                                                  "face_drop: at least -50 mm and at most 50 mm");
    CHECK(described::ranges<basic_tuner_post>() == "along: more than 0 mm and at most 600 mm\n"
                                                   "across: at least -200 mm and at most 200 mm\n"
                                                   "height: at least 0 mm and at most 50 mm");
    CHECK(described::ranges<basic_pinned_bridge>() == "top_middle: a finite number\n"
                                                      "saddle_exposed: at least 0 mm and at most 30 mm");
    CHECK(described::ranges<basic_hinged_tailpiece>() == "hinge_x: a finite number\n"
                                                         "hinge_z: a finite number\n"
                                                         "reach: more than 0 mm");
    CHECK(described::ranges<basic_tail_string>() == "across: a finite number\n"
                                                    "tension: at least 0 N");
    CHECK(described::ranges<basic_rigid_tailpiece>() == "x: a finite number\n"
                                                        "z: a finite number");
    CHECK(described::ranges<basic_soundboard>() == "sink_stiffness: more than 0 N/mm\n"
                                                   "turn_stiffness: more than 0 N m/rad\n"
                                                   "saddle_ahead: at least -100 mm and at most 100 mm\n"
                                                   "saddle_height: at least 0 mm and at most 100 mm");
}

TEST_CASE("supports: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_point>() == "");
    CHECK(described::defaults<basic_support_force>() == "");
    CHECK(described::defaults<basic_support_load>() == "");
    CHECK(described::defaults<basic_bridge_string>() == "");
    CHECK(described::defaults<basic_bridge_adjusters>() == "");
    CHECK(described::defaults<basic_adjuster_moves>() == "");
    CHECK(described::defaults<basic_side_point>() == "");
    CHECK(described::defaults<basic_floating_bridge>() == "");
    CHECK(described::defaults<basic_bridge_stand>() == "");
    CHECK(described::defaults<basic_bridge_summary>() == "");
    CHECK(described::defaults<basic_friction>() == "");
    CHECK(described::defaults<basic_interval_range>() == "");
    CHECK(described::defaults<basic_headstock>() == "");
    CHECK(described::defaults<basic_tuner_post>() == "");
    CHECK(described::defaults<basic_pinned_bridge>() == "");
    CHECK(described::defaults<basic_pinned_load>() == "");
    CHECK(described::defaults<basic_hinged_tailpiece>() == "");
    CHECK(described::defaults<basic_tail_string>() == "");
    CHECK(described::defaults<basic_rigid_tailpiece>() == "");
    CHECK(described::defaults<basic_soundboard>() == "");
    CHECK(described::defaults<basic_top_give>() == "");
}

TEST_CASE("supports: what is worked out is nothing before it is filled") {
    CHECK_FALSE(basic_anchor_plan<double>{}.reachable);
}
