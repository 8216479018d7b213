#include <tautline/neck/beam.hpp>
#include <tautline/neck/bending.hpp>
#include <tautline/neck/bow_problem.hpp>
#include <tautline/neck/calibration.hpp>
#include <tautline/neck/fret_slots.hpp>
#include <tautline/neck/insert.hpp>
#include <tautline/neck/moisture.hpp>
#include <tautline/neck/neck.hpp>
#include <tautline/neck/neck_by_rigidity.hpp>
#include <tautline/neck/relief.hpp>
#include <tautline/neck/relief_case.hpp>
#include <tautline/neck/rod_setting.hpp>
#include <tautline/neck/section.hpp>
#include <tautline/neck/station.hpp>
#include <tautline/neck/truss_rod.hpp>
#include <tautline/neck/wanted.hpp>
#include <tautline/neck/wood.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("neck: descriptions leave no member out") {
    CHECK(described::gaps<basic_beam_point>() == "");
    CHECK(described::gaps<basic_beam_step>() == "");
    CHECK(described::gaps<basic_beam_break>() == "");
    CHECK(described::gaps<basic_neck_beam>() == "");
    CHECK(described::gaps<basic_bending>() == "");
    CHECK(described::gaps<basic_rigidity_mark>() == "");
    CHECK(described::gaps<basic_neck_by_rigidity>() == "");
    CHECK(described::gaps<basic_string_pull>() == "");
    CHECK(described::gaps<basic_fret_slots>() == "");
    CHECK(described::gaps<basic_insert>() == "");
    CHECK(described::gaps<basic_moving_board>() == "");
    CHECK(described::gaps<basic_neck>() == "");
    CHECK(described::gaps<basic_permanent_bow_mark>() == "");
    CHECK(described::gaps<basic_crest>() == "");
    CHECK(described::gaps<basic_relief>() == "");
    CHECK(described::gaps<basic_relief_case>() == "");
    CHECK(described::gaps<basic_rod_screw>() == "");
    CHECK(described::gaps<basic_profile_point>() == "");
    CHECK(described::gaps<basic_neck_station>() == "");
    CHECK(described::gaps<basic_truss_rod>() == "");
}

TEST_CASE("neck: what each member may be, told a second time") {
    CHECK(described::ranges<basic_string_pull>() == "pull: at least 0 N and at most 5000 N\n"
                                                    "z_nut: at least -50 mm and at most 200 mm\n"
                                                    "z_saddle: at least -200 mm and at most 500 mm\n"
                                                    "x_nut: at least -100 mm and at most 1500 mm\n"
                                                    "x_saddle: at least 1 mm and at most 4000 mm");
    CHECK(described::ranges<basic_fret_slots>() == "interference: at least -1 mm and at most 1 mm\n"
                                                   "share: at least 0 and at most 1\n"
                                                   "tang_depth: at least 0.01 mm and at most 10 mm\n"
                                                   "bearing: at least 0 and at most 1\n"
                                                   "shear_ratio: at least 1 and at most 100\n"
                                                   "places: at least 0.1 mm and at most 3000 mm");
    CHECK(described::ranges<basic_insert>() == "x_from: at least -300 mm and at most 2000 mm\n"
                                               "x_to: at least -300 mm and at most 2000 mm\n"
                                               "y: at least -200 mm and at most 200 mm\n"
                                               "top: at least -100 mm and at most 0 mm\n"
                                               "width: at least 0.01 mm and at most 100 mm\n"
                                               "height: at least 0 mm and at most 100 mm\n"
                                               "wall: at least 0 mm and at most 50 mm\n"
                                               "modulus: at least 0 MPa and at most 1000000 MPa");
    CHECK(described::ranges<basic_moving_board>() == "width: at least 1 mm and at most 400 mm\n"
                                                     "thickness: at least 0.1 mm and at most 30 mm\n"
                                                     "across: at least 0 and at most 0.01\n"
                                                     "down: at least 0 and at most 0.01");
    CHECK(described::ranges<basic_neck>() == "board_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                             "back_modulus: at least 10 MPa and at most 1000000 MPa\n"
                                             "pure_bending_factor: at least 0.5 and at most 2\n"
                                             "joint: at least 1 mm and at most 3000 mm\n"
                                             "joint_stiffness: at least 1 N m/rad and at most 1000000000 N m/rad\n"
                                             "board_strain: at least -0.01 and at most 0.01\n"
                                             "creep_factor: at least 1 and at most 10");
    CHECK(described::ranges<basic_rigidity_mark>() == "x: at least -300 mm and at most 3000 mm\n"
                                                      "rigidity: at least 0.001 N m^2 and at most 1000000 N m^2\n"
                                                      "neutral_axis: at least -100 mm and at most 0 mm\n"
                                                      "axial_rigidity: at least 1 N and at most 10000000000 N");
    CHECK(described::ranges<basic_neck_by_rigidity>() ==
          "joint: at least 1 mm and at most 3000 mm\n"
          "joint_stiffness: at least 1 N m/rad and at most 1000000000 N m/rad\n"
          "creep_factor: at least 1 and at most 10");
    CHECK(described::ranges<basic_permanent_bow_mark>() == "x: at least -300 mm and at most 3000 mm\n"
                                                           "z: at least -50 mm and at most 50 mm");
    CHECK(described::ranges<basic_crest>() == "x: at least -5000 mm and at most 5000 mm\n"
                                              "z: at least -5000 mm and at most 5000 mm");
    CHECK(described::ranges<basic_rod_screw>() == "diameter: at least 0.1 mm and at most 20 mm\n"
                                                  "modulus: at least 100 MPa and at most 1000000 MPa\n"
                                                  "lead: at least 0.01 mm and at most 5 mm\n"
                                                  "anchor_give: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_profile_point>() == "y: at least -200 mm and at most 200 mm\n"
                                                      "depth: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_neck_station>() == "x: at least -300 mm and at most 3000 mm\n"
                                                     "half_width: at least 0.5 mm and at most 200 mm\n"
                                                     "board_thickness: at least 0.05 mm and at most 30 mm\n"
                                                     "board_arc: at least 0 1/m and at most 100 1/m\n"
                                                     "back_depth: at least 0.1 mm and at most 100 mm\n"
                                                     "back_exponent: at least 1 and at most 20");
    CHECK(described::ranges<basic_truss_rod>() == "x_from: at least -200 mm and at most 2000 mm\n"
                                                  "x_to: at least 0 mm and at most 2000 mm\n"
                                                  "z_ends: at least -60 mm and at most 0 mm\n"
                                                  "dip: at least -20 mm and at most 20 mm\n"
                                                  "separation: at least 0 mm and at most 30 mm");
}

TEST_CASE("neck: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_neck_beam>() == "creep_factor: 1");
    CHECK(described::defaults<basic_neck>() == "board_modulus: not a number\n"
                                               "back_modulus: not a number\n"
                                               "pure_bending_factor: 1.1\n"
                                               "joint: not a number\n"
                                               "creep_factor: 1");
    CHECK(described::defaults<basic_rigidity_mark>() == "x: not a number\n"
                                                        "rigidity: not a number\n"
                                                        "neutral_axis: not a number");
    CHECK(described::defaults<basic_neck_by_rigidity>() == "joint: not a number\n"
                                                           "creep_factor: 1");
    CHECK(described::defaults<basic_neck_station>() == "x: not a number\n"
                                                       "half_width: not a number\n"
                                                       "board_thickness: not a number\n"
                                                       "back_depth: not a number\n"
                                                       "back_exponent: 2");
    CHECK(described::defaults<basic_beam_point>() == "");
    CHECK(described::defaults<basic_beam_step>() == "");
    CHECK(described::defaults<basic_beam_break>() == "");
    CHECK(described::defaults<basic_string_pull>() == "pull: not a number\n"
                                                      "z_nut: not a number\n"
                                                      "z_saddle: not a number\n"
                                                      "x_saddle: not a number");
    CHECK(described::defaults<basic_fret_slots>() == "interference: not a number\n"
                                                     "tang_depth: not a number\n"
                                                     "bearing: 1\n"
                                                     "shear_ratio: 16");
    CHECK(described::defaults<basic_insert>() == "x_from: not a number\n"
                                                 "x_to: not a number\n"
                                                 "top: not a number\n"
                                                 "width: not a number\n"
                                                 "modulus: not a number");
    CHECK(described::defaults<basic_moving_board>() == "width: not a number\n"
                                                       "thickness: not a number\n"
                                                       "across: not a number\n"
                                                       "down: not a number");
    CHECK(described::defaults<basic_permanent_bow_mark>() == "x: not a number\n"
                                                             "z: not a number");
    CHECK(described::defaults<basic_crest>() == "x: not a number\n"
                                                "z: not a number");
    CHECK(described::defaults<basic_relief>() == "");
    CHECK(described::defaults<basic_relief_case>() == "");
    CHECK(described::defaults<basic_rod_screw>() == "diameter: not a number\n"
                                                    "modulus: not a number\n"
                                                    "lead: not a number");
    CHECK(described::defaults<basic_profile_point>() == "y: not a number\n"
                                                        "depth: not a number");
    CHECK(described::defaults<basic_truss_rod>() == "x_from: not a number\n"
                                                    "x_to: not a number\n"
                                                    "z_ends: not a number\n"
                                                    "dip: not a number");
}

TEST_CASE("neck: what is worked out is nothing before it is filled") {
    CHECK_FALSE(basic_calibration<double>().reachable);
    CHECK(basic_calibration<double>().unique);
    CHECK(basic_calibration<double>().factor == 1);
    CHECK_FALSE(basic_heaviest<double>{}.limited);
    CHECK(basic_rod_answer<double>{}.reachable());
    CHECK(wood_figure{}.value == 0);
    // A back that fills the rectangle around it.
    CHECK(basic_back_shape<double>{}.area == 1);
    CHECK(basic_back_shape<double>{}.first == 1);
    CHECK(basic_back_shape<double>{}.second == 1);
}
