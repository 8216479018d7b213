#include <tautline/action/clearance.hpp>
#include <tautline/action/coupling.hpp>
#include <tautline/action/height.hpp>
#include <tautline/action/height_plan.hpp>
#include <tautline/action/intonation.hpp>
#include <tautline/action/neck_reset.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/action/pluck.hpp>
#include <tautline/action/sounding_string.hpp>
#include <tautline/action/straight_saddle.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("action: descriptions leave no member out") {
    CHECK(described::gaps<basic_least_clearance>() == "");
    CHECK(described::gaps<basic_string_line>() == "");
    CHECK(described::gaps<basic_height_wish>() == "");
    CHECK(described::gaps<basic_finger_press>() == "");
    CHECK(described::gaps<basic_pressed_note>() == "");
    CHECK(described::gaps<basic_neck_joint>() == "");
    CHECK(described::gaps<basic_reset_case>() == "");
    CHECK(described::gaps<basic_flat_object>() == "");
    CHECK(described::gaps<basic_clean_pluck>() == "");
    CHECK(described::gaps<basic_sounding_string>() == "");
    CHECK(described::gaps<basic_straight_saddle>() == "");
}

TEST_CASE("action: what each member may be, told a second time") {
    CHECK(described::ranges<basic_string_line>() == "nut_x: at least -5000 mm and at most 5000 mm\n"
                                                    "nut_z: at least -5000 mm and at most 5000 mm\n"
                                                    "saddle_x: at least -5000 mm and at most 5000 mm\n"
                                                    "saddle_z: at least -5000 mm and at most 5000 mm\n"
                                                    "nut_y: at least -5000 mm and at most 5000 mm\n"
                                                    "saddle_y: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_height_wish>() == "x: at least -5000 mm and at most 5000 mm\n"
                                                    "crest: at least -5000 mm and at most 5000 mm\n"
                                                    "wanted: at least 0.001 mm and at most 30 mm");
    CHECK(described::ranges<basic_finger_press>() == "behind: at least 0 mm and at most 50 mm\n"
                                                     "depth: at least 0 mm and at most 10 mm");
    CHECK(described::ranges<basic_neck_joint>() == "x: at least 1 mm and at most 3000 mm\n"
                                                   "z: at least -300 mm and at most 300 mm\n"
                                                   "leave: at least 0 mm and at most 20 mm");
    CHECK(described::ranges<basic_reset_case>() == "fret_x: at least -5000 mm and at most 5000 mm\n"
                                                   "crest_z: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_flat_object>() == "x: at least -5000 mm and at most 5000 mm\n"
                                                    "z: at least -5000 mm and at most 5000 mm\n"
                                                    "extent: at least 0 mm and at most 500 mm\n"
                                                    "along: at least -45 deg and at most 45 deg\n"
                                                    "across: at least -45 deg and at most 45 deg");
    CHECK(described::ranges<basic_sounding_string>() == "mass_per_length: at least 0.001 g/m and at most 1000 g/m\n"
                                                        "open_pitch: at least 1 Hz and at most 20000 Hz\n"
                                                        "axial_stiffness: at least 0.000001 N and at most 100000000 N\n"
                                                        "bending_stiffness: at least 0 N m^2 and at most 100 N m^2\n"
                                                        "nut_end: at least 0 and at most 1\n"
                                                        "fret_end: at least 0 and at most 1\n"
                                                        "saddle_end: at least 0 and at most 1\n"
                                                        "shared_afterlength: at least 0 mm and at most 5000 mm");
}

TEST_CASE("action: what each member is unless told otherwise, told a second time") {
    // What must be given is "not a number" until then: outside every range.
    CHECK(described::defaults<basic_finger_press>() == "behind: 10 mm\n"
                                                       "depth: 0.1 mm");
    CHECK(described::defaults<basic_sounding_string>() == "mass_per_length: not a number\n"
                                                          "open_pitch: not a number\n"
                                                          "axial_stiffness: not a number\n"
                                                          "bending_stiffness: not a number\n"
                                                          "nut_end: 0.5\n"
                                                          "fret_end: 0.5\n"
                                                          "saddle_end: 0.5");
    CHECK(described::defaults<basic_least_clearance>() == "");
    CHECK(described::defaults<basic_string_line>() == "nut_z: not a number\n"
                                                      "saddle_x: not a number\n"
                                                      "saddle_z: not a number");
    CHECK(described::defaults<basic_height_wish>() == "x: not a number\n"
                                                      "crest: not a number\n"
                                                      "wanted: not a number");
    CHECK(described::defaults<basic_pressed_note>() == "");
    CHECK(described::defaults<basic_neck_joint>() == "x: not a number\n"
                                                     "z: not a number");
    CHECK(described::defaults<basic_reset_case>() == "fret_x: not a number\n"
                                                     "crest_z: not a number");
    CHECK(described::defaults<basic_flat_object>() == "x: not a number\n"
                                                      "z: not a number\n"
                                                      "extent: not a number");
    CHECK(described::defaults<basic_clean_pluck>() == "");
    CHECK(described::defaults<basic_straight_saddle>() == "");
}

TEST_CASE("action: what is worked out is nothing before it is filled") {
    CHECK_FALSE(basic_reset_turn<double>{}.reachable);
    CHECK(tuning_passes_result{}.passes == 0);
    CHECK_FALSE(tuning_passes_result{}.settled);
    CHECK(meant_steps{}.per_octave == 12);
}
