#include <tautline/instrument/instrument.hpp>
#include <tautline/instrument/ordered_instrument.hpp>
#include <tautline/instrument/ordered_string.hpp>
#include <tautline/instrument/parts.hpp>
#include <tautline/instrument/stringing.hpp>
#include <tautline/instrument/strung_instrument.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("instrument: descriptions leave no member out") {
    CHECK(described::gaps<basic_instrument>() == "");
    CHECK(described::gaps<basic_tuned_string>() == "");
    CHECK(described::gaps<basic_stringing>() == "");
    CHECK(described::gaps<basic_nut>() == "");
    CHECK(described::gaps<basic_saddle>() == "");
    CHECK(described::gaps<basic_single_saddle>() == "");
    CHECK(described::gaps<basic_neck_measures>() == "");
    CHECK(described::gaps<basic_neck_slots>() == "");
    CHECK(described::gaps<basic_traced_back>() == "");
    CHECK(described::gaps<basic_tailpiece>() == "");
    CHECK(described::gaps<basic_pins>() == "");
    CHECK(described::gaps<basic_pressing_bar>() == "");
    CHECK(described::gaps<basic_tie_block>() == "");
    CHECK(described::gaps<basic_short_string>() == "");
    CHECK(described::gaps<basic_bridge_feet>() == "");
    CHECK(described::gaps<basic_playing>() == "");
    CHECK(described::gaps<basic_body_bridge>() == "");
    CHECK(described::gaps<basic_strung_instrument>() == "");
    CHECK(described::gaps<basic_ordered_string>() == "");
    CHECK(described::gaps<basic_ordered_instrument>() == "");
}

TEST_CASE("instrument: what each member may be, told a second time") {
    CHECK(described::ranges<basic_nut>() == "slot_heights: at least -2 mm and at most 20 mm");
    CHECK(described::ranges<basic_saddle>() == "pieces: at least 1 and at most 12\n"
                                               "height_bass: at least 0.1 mm and at most 200 mm\n"
                                               "height_treble: at least 0.1 mm and at most 200 mm\n"
                                               "radius: at least 1 mm and at most 1000000000 mm\n"
                                               "slot_offsets: at least -5 mm and at most 5 mm\n"
                                               "setback_bass: at least -50 mm and at most 50 mm\n"
                                               "setback_treble: at least -50 mm and at most 50 mm\n"
                                               "board_line: at least -50 mm and at most 150 mm");
    CHECK(described::ranges<basic_neck_measures>() == "depth_at_nut: at least 1 mm and at most 100 mm\n"
                                                      "depth_at_joint: at least 1 mm and at most 100 mm\n"
                                                      "back_exponent: at least 1 and at most 20\n"
                                                      "joint_fret: at least 1 and at most 240\n"
                                                      "board_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                                      "back_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                                      "pure_bending_factor: at least 0.5 and at most 2\n"
                                                      "joint_stiffness: at least 1 N m/rad and at most 1000000000 N m/rad\n"
                                                      "rod_pull: at least -100000 N and at most 100000 N\n"
                                                      "board_strain: at least -0.01 and at most 0.01\n"
                                                      "creep_factor: at least 1 and at most 10");
    CHECK(described::ranges<basic_neck_slots>() == "depth: at least 0.01 mm and at most 10 mm\n"
                                                   "bearing: at least 0 and at most 1\n"
                                                   "interference: at least -1 mm and at most 1 mm\n"
                                                   "wedging: at least 0 and at most 1\n"
                                                   "shear_ratio: at least 1 and at most 100");
    CHECK(described::ranges<basic_traced_back>() == "x: at least 0 mm and at most 2000 mm");
    CHECK(described::ranges<basic_tailpiece>() == "hinge_distance: at least 0.1 mm and at most 1000 mm\n"
                                                  "hinge_height: at least -150 mm and at most 150 mm\n"
                                                  "reach: at least 0.1 mm and at most 1000 mm\n"
                                                  "spread: at least 0 mm and at most 300 mm\n"
                                                  "pressed_height: at least -150 mm and at most 150 mm");
    CHECK(described::ranges<basic_pressing_bar>() == "distance: at least 0.1 mm and at most 500 mm\n"
                                                     "height: at least -50 mm and at most 150 mm");
    CHECK(described::ranges<basic_tie_block>() == "distance: at least 0.1 mm and at most 100 mm\n"
                                                  "hole_height: at least -20 mm and at most 50 mm\n"
                                                  "hole_diameter: at least 0.1 mm and at most 10 mm\n"
                                                  "spread: at least 0 mm and at most 300 mm\n"
                                                  "top_thickness: at least 0 mm and at most 20 mm\n"
                                                  "saddle_exposed: at least 0 mm and at most 30 mm\n"
                                                  "loop_lift: at least 0 mm and at most 10 mm\n"
                                                  "top_slope: at least -30 deg and at most 30 deg");
    CHECK(described::ranges<basic_short_string>() == "fret: at least 1 and at most 240\n"
                                                     "across: at least -200 mm and at most 200 mm");
    CHECK(described::ranges<basic_pins>() == "distance: at least 0.1 mm and at most 300 mm\n"
                                             "height: at least -50 mm and at most 150 mm\n"
                                             "spread: at least 0 mm and at most 300 mm\n"
                                             "top_thickness: at least 0 mm and at most 20 mm\n"
                                             "saddle_exposed: at least 0 mm and at most 30 mm\n"
                                             "top_slope: at least -30 deg and at most 30 deg");
    CHECK(described::ranges<basic_bridge_feet>() == "ahead: at least -50 mm and at most 100 mm\n"
                                                    "behind: at least -50 mm and at most 100 mm\n"
                                                    "top_slope: at least -30 deg and at most 30 deg\n"
                                                    "bass_foot: at least -150 mm and at most 150 mm\n"
                                                    "treble_foot: at least -150 mm and at most 150 mm");
    CHECK(described::ranges<basic_single_saddle>() == "height: at least 0.1 mm and at most 200 mm\n"
                                                      "setback: at least -50 mm and at most 50 mm\n"
                                                      "lowest: at least 0.1 mm and at most 200 mm\n"
                                                      "highest: at least 0.1 mm and at most 200 mm\n"
                                                      "least_setback: at least -50 mm and at most 50 mm\n"
                                                      "most_setback: at least -50 mm and at most 50 mm");
    CHECK(described::ranges<basic_playing>() == "pluck_from_saddle: at least 0.1 mm and at most 1000 mm\n"
                                                "nut_end: at least 0 and at most 1\n"
                                                "fret_end: at least 0 and at most 1\n"
                                                "saddle_end: at least 0 and at most 1");
}

TEST_CASE("instrument: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_nut>() == "friction: {least: 0.2\n"
                                              "most: 0.65}");
    CHECK(described::defaults<basic_saddle>() == "height_bass: not a number\n"
                                                 "height_treble: not a number\n"
                                                 "setback_bass: not a number\n"
                                                 "setback_treble: not a number\n"
                                                 "board_line: not a number\n"
                                                 "friction: {least: 0.2\n"
                                                 "most: 0.65}");
    CHECK(described::defaults<basic_single_saddle>() == "height: not a number\n"
                                                        "setback: not a number");
    CHECK(described::defaults<basic_neck_measures>() == "depth_at_nut: not a number\n"
                                                        "depth_at_joint: not a number\n"
                                                        "back_exponent: 2\n"
                                                        "joint_fret: -1000000000\n"
                                                        "board_modulus: not a number\n"
                                                        "board_method: 5\n" // not told
                                                        "back_modulus: not a number\n"
                                                        "back_method: 5\n"
                                                        "pure_bending_factor: 1.1\n"
                                                        "creep_factor: 1");
    CHECK(described::defaults<basic_neck_slots>() == "depth: not a number\n"
                                                     "bearing: 1\n"
                                                     "shear_ratio: 16");
    CHECK(described::defaults<basic_traced_back>() == "x: not a number");
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
}
