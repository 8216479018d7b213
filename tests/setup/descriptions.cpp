#include <tautline/doubt/stated_doubts.hpp>
#include <tautline/doubt/sweep.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>
#include <tautline/instrument/instrument.hpp>
#include <tautline/instrument/ordered_instrument.hpp>
#include <tautline/instrument/parts.hpp>
#include <tautline/job/compare.hpp>
#include <tautline/job/explanation.hpp>
#include <tautline/job/setup_plan.hpp>
#include <tautline/job/steps.hpp>
#include <tautline/job/wishes.hpp>
#include <tautline/setup/setup.hpp>
#include <tautline/setup/under_strings.hpp>
#include <tautline/work/bench_work.hpp>
#include <tautline/work/reset.hpp>
#include <tautline/work/work_done.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("setup: descriptions leave no member out") {
    CHECK(described::gaps<basic_board_details>() == "");
    CHECK(described::gaps<basic_sanding>() == "");
    CHECK(described::gaps<basic_fret_levelling>() == "");
    CHECK(described::gaps<basic_bench_work>() == "");
    CHECK(described::gaps<basic_instrument>() == "");
    CHECK(described::gaps<basic_tuned_string>() == "");
    CHECK(described::gaps<basic_stringing>() == "");
    CHECK(described::gaps<basic_nut>() == "");
    CHECK(described::gaps<basic_saddle>() == "");
    CHECK(described::gaps<basic_neck_measures>() == "");
    CHECK(described::gaps<basic_tailpiece>() == "");
    CHECK(described::gaps<basic_pins>() == "");
    CHECK(described::gaps<basic_bridge_feet>() == "");
    CHECK(described::gaps<basic_playing>() == "");
    CHECK(described::gaps<basic_reset_plan>() == "");
    CHECK(described::gaps<basic_pin_range>() == "");
    // A plan's instruments, setups, shortfalls and remarks are no numbers of its own; nor is a string's construction a
    // result of a setup.
    CHECK(described::gaps<basic_setup_plan>() ==
          "after its begin, after reset, after reset_instead, after its begin, after reset, after reset_instead");
    CHECK(described::gaps<basic_reset>() == "");
    CHECK(described::gaps<basic_string_setup>() == "");
    CHECK(described::gaps<basic_setup>() == "after straight_saddle, after straight_saddle");
    CHECK(described::gaps<basic_reset_wish>() == "");
    CHECK(described::gaps<basic_wishes>() == "");
    CHECK(described::gaps<basic_work_numbers>() == "");
    CHECK(described::gaps<basic_body_bridge>() == "");
    CHECK(described::gaps<basic_strung_instrument>() == "");
    CHECK(described::gaps<basic_ordered_string>() == "");
    CHECK(described::gaps<basic_ordered_instrument>() == "");
    CHECK(described::gaps<basic_named_object>() == "");
    CHECK(described::gaps<basic_object_seat>() == "");
    CHECK(described::gaps<basic_correlated_readings>() == "");
}

TEST_CASE("setup: what each member may be, told a second time") {
    CHECK(described::ranges<basic_board_details>() == "binding_height: at least 0.1 mm and at most 30 mm\n"
                                                      "binding_thickness: at least 0 mm and at most 30 mm\n"
                                                      "inlay_thickness: at least 0.01 mm and at most 30 mm");
    CHECK(described::ranges<basic_sanding>() == "radius: at least 1 mm and at most 1000000000 mm\n"
                                                "radius_at_end: at least 1 mm and at most 1000000000 mm\n"
                                                "cone_length: at least 1 mm and at most 3000 mm\n"
                                                "hollow: at least 0 mm and at most 3 mm\n"
                                                "allowance: at least 0 mm and at most 10 mm\n"
                                                "slot_clearance: at least 0 mm and at most 30 mm\n"
                                                "least_edge: at least 0 mm and at most 30 mm\n"
                                                "least_binding: at least 0 mm and at most 30 mm\n"
                                                "least_inlay: at least 0 mm and at most 30 mm");
    CHECK(described::ranges<basic_fret_levelling>() == "hollow: at least 0 mm and at most 3 mm\n"
                                                       "least_crown: at least 0 mm and at most 10 mm");
    CHECK(described::ranges<basic_nut>() == "slot_heights: at least -2 mm and at most 20 mm");
    CHECK(described::ranges<basic_saddle>() == "height_bass: at least 0.1 mm and at most 200 mm\n"
                                               "height_treble: at least 0.1 mm and at most 200 mm\n"
                                               "radius: at least 1 mm and at most 1000000000 mm\n"
                                               "setback_bass: at least -50 mm and at most 50 mm\n"
                                               "setback_treble: at least -50 mm and at most 50 mm\n"
                                               "board_line: at least -50 mm and at most 150 mm");
    CHECK(described::ranges<basic_neck_measures>() == "depth_at_nut: at least 1 mm and at most 100 mm\n"
                                                      "depth_at_joint: at least 1 mm and at most 100 mm\n"
                                                      "back_exponent: at least 1 and at most 20\n"
                                                      "joint_fret: at least 1 and at most 240\n"
                                                      "board_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                                      "back_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                                      "joint_stiffness: at least 1 N m/rad and at most 1000000000 N m/rad\n"
                                                      "rod_pull: at least -100000 N and at most 100000 N\n"
                                                      "creep_factor: at least 1 and at most 10");
    CHECK(described::ranges<basic_tailpiece>() == "hinge_distance: at least 0.1 mm and at most 1000 mm\n"
                                                  "hinge_height: at least -150 mm and at most 150 mm\n"
                                                  "reach: at least 0.1 mm and at most 1000 mm\n"
                                                  "spread: at least 0 mm and at most 300 mm");
    CHECK(described::ranges<basic_pins>() == "distance: at least 0.1 mm and at most 300 mm\n"
                                             "height: at least -50 mm and at most 150 mm\n"
                                             "spread: at least 0 mm and at most 300 mm\n"
                                             "top_thickness: at least 0 mm and at most 20 mm\n"
                                             "saddle_exposed: at least 0 mm and at most 30 mm");
    CHECK(described::ranges<basic_bridge_feet>() == "ahead: at least -50 mm and at most 100 mm\n"
                                                    "behind: at least -50 mm and at most 100 mm\n"
                                                    "top_slope: at least -30 deg and at most 30 deg\n"
                                                    "bass_foot: at least -150 mm and at most 150 mm\n"
                                                    "treble_foot: at least -150 mm and at most 150 mm");
    CHECK(described::ranges<basic_playing>() == "pluck_from_saddle: at least 0.1 mm and at most 1000 mm\n"
                                                "nut_end: at least 0 and at most 1\n"
                                                "fret_end: at least 0 and at most 1\n"
                                                "saddle_end: at least 0 and at most 1");
    CHECK(described::ranges<basic_reset>() == "turn: at least -3.4 deg and at most 3.4 deg\n"
                                              "leave: at least 0 mm and at most 20 mm\n"
                                              "edge_depth: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_reset_wish>() == "saddle_height: at least 0.1 mm and at most 200 mm\n"
                                                   "heel_depth: more than 0 mm and at most 300 mm\n"
                                                   "pocket_length: more than 0 mm and at most 300 mm\n"
                                                   "leave: at least 0 mm and at most 20 mm\n"
                                                   "least_turn: at least -3.4 deg and at most 3.4 deg\n"
                                                   "most_turn: at least -3.4 deg and at most 3.4 deg\n"
                                                   "edge_depth: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_wishes>() == "relief: at least -5 mm and at most 5 mm\n"
                                               "first_fret_bass: more than 0 mm and at most 30 mm\n"
                                               "first_fret_treble: more than 0 mm and at most 30 mm\n"
                                               "action_bass: more than 0 mm and at most 30 mm\n"
                                               "action_treble: more than 0 mm and at most 30 mm\n"
                                               "action_fret: at least 2 and at most 240\n"
                                               "down_force: at least 0.1 N and at most 5000 N\n"
                                               "saddle_break: at least 0.1 deg and at most 90 deg\n"
                                               "most_rod_pull: at least 0.1 N and at most 100000 N\n"
                                               "lowest_slot: at least -2 mm and at most 20 mm\n"
                                               "lowest_saddle: at least 0.1 mm and at most 200 mm\n"
                                               "highest_saddle: at least 0.1 mm and at most 200 mm\n"
                                               "hinge_lowest: at least -150 mm and at most 150 mm\n"
                                               "hinge_highest: at least -150 mm and at most 150 mm");
}

TEST_CASE("setup: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_sanding>() == "slot_clearance: 0.3 mm\n"
                                                  "least_edge: 2 mm");
    CHECK(described::defaults<basic_fret_levelling>() == "least_crown: 0.5 mm");
    CHECK(described::defaults<basic_nut>() == "friction: {least: 0.2\n"
                                              "most: 0.65}");
    CHECK(described::defaults<basic_saddle>() == "height_bass: not a number\n"
                                                 "height_treble: not a number\n"
                                                 "setback_bass: not a number\n"
                                                 "setback_treble: not a number\n"
                                                 "board_line: not a number\n"
                                                 "friction: {least: 0.2\n"
                                                 "most: 0.65}");
    CHECK(described::defaults<basic_neck_measures>() == "depth_at_nut: not a number\n"
                                                        "depth_at_joint: not a number\n"
                                                        "back_exponent: 2\n"
                                                        "joint_fret: -1000000000\n"
                                                        "board_modulus: not a number\n"
                                                        "back_modulus: not a number\n"
                                                        "creep_factor: 1");
    CHECK(described::defaults<basic_bridge_feet>() == "ahead: not a number\n"
                                                      "behind: not a number\n"
                                                      "top_slope: not a number\n"
                                                      "bass_foot: not a number\n"
                                                      "treble_foot: not a number\n"
                                                      "friction: {least: 0.3\n"
                                                      "most: 0.5}");
    CHECK(described::defaults<basic_playing>() == "pluck_from_saddle: 100 mm\n"
                                                  "nut_end: 0.5\n"
                                                  "fret_end: 0.5\n"
                                                  "saddle_end: 0.5");
    CHECK(described::defaults<basic_reset_wish>() == "least_turn: -3.4 deg\n"
                                                     "most_turn: 3.4 deg");
    CHECK(described::defaults<basic_wishes>() == "most_rod_pull: 3000 N\n"
                                                 "hinge_lowest: -40 mm\n"
                                                 "hinge_highest: 20 mm");
    CHECK(described::defaults<basic_board_details>() == "");
    CHECK(described::defaults<basic_bench_work>() == "");
    CHECK(described::defaults<basic_instrument>() == "");
    CHECK(described::defaults<basic_tuned_string>() == "");
    CHECK(described::defaults<basic_stringing>() == "");
    CHECK(described::defaults<basic_tailpiece>() == "hinge_distance: not a number\n"
                                                    "hinge_height: not a number\n"
                                                    "reach: not a number\n"
                                                    "spread: not a number");
    CHECK(described::defaults<basic_pins>() == "distance: not a number\n"
                                               "height: not a number\n"
                                               "spread: not a number\n"
                                               "top_thickness: not a number\n"
                                               "saddle_exposed: not a number");
    CHECK(described::defaults<basic_reset_plan>() == "");
    CHECK(described::defaults<basic_pin_range>() == "");
    CHECK(described::defaults<basic_setup_plan>() == "");
    CHECK(described::defaults<basic_reset>() == "turn: not a number");
    CHECK(described::defaults<basic_string_setup>() == "");
    CHECK(described::defaults<basic_setup>() == "");
    CHECK(described::defaults<basic_work_numbers>() == "");
}

TEST_CASE("setup: what is worked out is nothing before it is filled") {
    CHECK(!uncertain_result{}.value.has_value());
    CHECK(!doubt{}.standard.has_value());
    CHECK(moved_leaf{}.factor == 1);
    CHECK(result_meaning{}.step == 0);
    CHECK(result_meaning{}.share == 0);
    const setup_change change{};
    CHECK(!change.found.has_value());
    CHECK(!change.planned.has_value());
    CHECK(change.weight == 0);
    CHECK(!explanation{}.value.has_value());
    CHECK(!moving_input{}.value.has_value());
    CHECK(!moving_input{}.effect.has_value());
    CHECK_FALSE(step_line{}.is_change);
    CHECK(sweep_settings{}.threads == 0);
    CHECK(sweep_problem{}.row == 0);
    CHECK(sweep_table{}.rows == 0);
    CHECK(correlation{}.first == 0);
    CHECK(correlation{}.second == 0);
    CHECK(correlation{}.coefficient == 0);
    CHECK(budget_line<double>{}.share == 0);
    CHECK(any_quantity{}.si() == 0);
    CHECK(basic_levelling_way<double>{}.too_low == 0);
    CHECK(basic_setup<double>().octave_fret == 0);
    CHECK(basic_setup_plan<double>().action_fret == 0);
    CHECK_FALSE(basic_setup_plan<double>().saddle_at_limit);
}
