#include <tautline/supports/break_angle.hpp>
#include <tautline/supports/bridge.hpp>
#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/bridge_verdict.hpp>
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
    CHECK(described::gaps<basic_bridge_footing>() == "");
    CHECK(described::gaps<basic_bridge_summary>() == "");
    CHECK(described::gaps<basic_bridge_verdict>() == "");
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
    CHECK(described::ranges<basic_point>() == "x: at least -5000 mm and at most 5000 mm\n"
                                              "y: at least -5000 mm and at most 5000 mm\n"
                                              "z: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_bridge_string>() == "tension: at least 0 N and at most 5000 N");
    CHECK(described::ranges<basic_bridge_adjusters>() == "bass: at least -5000 mm and at most 5000 mm\n"
                                                         "treble: at least -5000 mm and at most 5000 mm\n"
                                                         "thread_pitch: at least 0.05 mm and at most 5 mm");
    CHECK(described::ranges<basic_side_point>() == "x: at least -5000 mm and at most 5000 mm\n"
                                                   "z: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_floating_bridge>() == "bass_foot: at least -5000 mm and at most 5000 mm\n"
                                                        "treble_foot: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_friction>() == "least: at least 0 and at most 2\n"
                                                 "most: at least 0 and at most 2");
    CHECK(described::ranges<basic_headstock>() == "pitch: at least -30 deg and at most 60 deg\n"
                                                  "face_start: at least 0 mm and at most 100 mm\n"
                                                  "face_drop: at least -50 mm and at most 50 mm\n"
                                                  "slot_start: at least 0.1 mm and at most 300 mm");
    CHECK(described::ranges<basic_tuner_post>() == "along: at least 0.1 mm and at most 600 mm\n"
                                                   "across: at least -200 mm and at most 200 mm\n"
                                                   "height: at least -40 mm and at most 50 mm\n"
                                                   "roller: at least 0.1 mm and at most 40 mm");
    CHECK(described::ranges<basic_string_guide>() == "along: at least 0.1 mm and at most 600 mm\n"
                                                     "height: at least -20 mm and at most 50 mm\n"
                                                     "across: at least -200 mm and at most 200 mm");
    CHECK(described::ranges<basic_pinned_bridge>() == "top_middle: at least -5000 mm and at most 5000 mm\n"
                                                      "saddle_exposed: at least 0 mm and at most 30 mm\n"
                                                      "top_slope: at least -30 deg and at most 30 deg");
    CHECK(described::ranges<basic_hinged_tailpiece>() == "hinge_x: at least -5000 mm and at most 5000 mm\n"
                                                         "hinge_z: at least -5000 mm and at most 5000 mm\n"
                                                         "reach: at least 0.1 mm and at most 1000 mm");
    CHECK(described::ranges<basic_tail_string>() == "across: at least -5000 mm and at most 5000 mm\n"
                                                    "tension: at least 0 N and at most 5000 N");
    CHECK(described::ranges<basic_rigid_tailpiece>() == "x: at least -5000 mm and at most 5000 mm\n"
                                                        "z: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_soundboard>() ==
          "sink_stiffness: at least 0.1 N/mm and at most 1000000000000 N/mm\n"
          "turn_stiffness: at least 0.1 N m/rad and at most 1000000000000000 N m/rad\n"
          "saddle_ahead: at least -100 mm and at most 100 mm\n"
          "saddle_height: at least 0 mm and at most 100 mm");
}

TEST_CASE("supports: what each member is unless told otherwise, told a second time") {
    // What must be given is "not a number" until then: outside every range.
    CHECK(described::defaults<basic_point>() == "");
    CHECK(described::defaults<basic_support_force>() == "");
    CHECK(described::defaults<basic_support_load>() == "");
    CHECK(described::defaults<basic_bridge_string>() == "tension: not a number");
    CHECK(described::defaults<basic_bridge_adjusters>() == "bass: not a number\n"
                                                           "treble: not a number\n"
                                                           "thread_pitch: not a number");
    CHECK(described::defaults<basic_adjuster_moves>() == "");
    CHECK(described::defaults<basic_side_point>() == "x: not a number\n"
                                                     "z: not a number");
    CHECK(described::defaults<basic_floating_bridge>() == "bass_foot: not a number\n"
                                                          "treble_foot: not a number");
    CHECK(described::defaults<basic_bridge_footing>() == "");
    CHECK(described::defaults<basic_bridge_summary>() == "");
    CHECK(described::defaults<basic_friction>() == "least: not a number\n"
                                                   "most: not a number");
    CHECK(described::defaults<basic_interval_range>() == "");
    CHECK(described::defaults<basic_headstock>() == "pitch: not a number\n"
                                                    "face_start: not a number\n"
                                                    "face_drop: not a number");
    CHECK(described::defaults<basic_tuner_post>() == "along: not a number\n"
                                                     "across: not a number\n"
                                                     "height: not a number");
    CHECK(described::defaults<basic_pinned_bridge>() == "top_middle: not a number\n"
                                                        "saddle_exposed: not a number");
    CHECK(described::defaults<basic_pinned_load>() == "");
    CHECK(described::defaults<basic_hinged_tailpiece>() == "hinge_x: not a number\n"
                                                           "hinge_z: not a number\n"
                                                           "reach: not a number");
    CHECK(described::defaults<basic_tail_string>() == "across: not a number\n"
                                                      "tension: not a number");
    CHECK(described::defaults<basic_rigid_tailpiece>() == "x: not a number\n"
                                                          "z: not a number");
    CHECK(described::defaults<basic_soundboard>() == "sink_stiffness: not a number");
    CHECK(described::defaults<basic_top_give>() == "");
}

TEST_CASE("supports: what is worked out is nothing before it is filled") {
    CHECK_FALSE(basic_anchor_plan<double>{}.reachable);
}
