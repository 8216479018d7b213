#include <tautline/neck/beam.hpp>
#include <tautline/neck/bow_problem.hpp>
#include <tautline/neck/calibration.hpp>
#include <tautline/neck/fret_slots.hpp>
#include <tautline/neck/insert.hpp>
#include <tautline/neck/moisture.hpp>
#include <tautline/neck/neck.hpp>
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
    CHECK(described::gaps<basic_string_pull>() == "");
    CHECK(described::gaps<basic_fret_slots>() == "");
    CHECK(described::gaps<basic_insert>() == "");
    CHECK(described::gaps<basic_moving_board>() == "");
    CHECK(described::gaps<basic_neck>() == "");
    CHECK(described::gaps<basic_set_mark>() == "");
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
                                                    "x_nut: at least -100 mm and at most 300 mm\n"
                                                    "x_saddle: more than 0 mm and at most 4000 mm");
    CHECK(described::ranges<basic_fret_slots>() == "interference: at least -1 mm and at most 1 mm\n"
                                                   "share: at least 0 and at most 1\n"
                                                   "tang_depth: more than 0 mm and at most 10 mm\n"
                                                   "places: more than 0 mm");
    CHECK(described::ranges<basic_insert>() == "x_from: at least -300 mm and at most 2000 mm\n"
                                               "x_to: at least -300 mm and at most 2000 mm\n"
                                               "y: at least -200 mm and at most 200 mm\n"
                                               "top: at least -100 mm and at most 0 mm\n"
                                               "width: more than 0 mm and at most 100 mm\n"
                                               "height: at least 0 mm and at most 100 mm\n"
                                               "wall: at least 0 mm and at most 50 mm\n"
                                               "modulus: at least 0 MPa and at most 1e+06 MPa");
    CHECK(described::ranges<basic_moving_board>() == "width: more than 0 mm and at most 400 mm\n"
                                                     "thickness: more than 0 mm and at most 30 mm\n"
                                                     "across: at least 0 and at most 0.01\n"
                                                     "down: at least 0 and at most 0.01");
    CHECK(described::ranges<basic_neck>() == "board_modulus: more than 0 MPa and at most 1e+06 MPa\n"
                                             "back_modulus: more than 0 MPa and at most 1e+06 MPa\n"
                                             "pure_bending_factor: at least 0.5 and at most 2\n"
                                             "joint: more than 0 mm and at most 2000 mm\n"
                                             "joint_stiffness: more than 0 N m/rad and at most 1e+09 N m/rad\n"
                                             "board_strain: at least -0.01 and at most 0.01\n"
                                             "creep_factor: at least 1 and at most 10");
    CHECK(described::ranges<basic_set_mark>() == "x: at least -300 mm and at most 2000 mm\n"
                                                 "z: at least -50 mm and at most 50 mm");
    CHECK(described::ranges<basic_crest>() == "x: a finite number\n"
                                              "z: a finite number");
    CHECK(described::ranges<basic_rod_screw>() == "diameter: more than 0 mm and at most 20 mm\n"
                                                  "modulus: more than 0 MPa and at most 1e+06 MPa\n"
                                                  "lead: more than 0 mm and at most 5 mm\n"
                                                  "anchor_give: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_profile_point>() == "y: at least -200 mm and at most 200 mm\n"
                                                      "depth: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_neck_station>() == "x: at least -300 mm and at most 2000 mm\n"
                                                     "half_width: more than 0 mm and at most 200 mm\n"
                                                     "board_thickness: more than 0 mm and at most 30 mm\n"
                                                     "board_arc: at least 0 1/m and at most 100 1/m\n"
                                                     "back_depth: more than 0 mm and at most 100 mm\n"
                                                     "back_exponent: at least 1 and at most 20");
    CHECK(described::ranges<basic_truss_rod>() == "x_from: at least -200 mm and at most 2000 mm\n"
                                                  "x_to: at least 0 mm and at most 2000 mm\n"
                                                  "z_ends: at least -60 mm and at most 0 mm\n"
                                                  "dip: at least -20 mm and at most 20 mm\n"
                                                  "separation: at least 0 mm and at most 30 mm");
}

TEST_CASE("neck: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_neck_beam>() == "creep_factor: 1");
    CHECK(described::defaults<basic_neck>() == "pure_bending_factor: 1.1\n"
                                               "creep_factor: 1");
    CHECK(described::defaults<basic_neck_station>() == "back_exponent: 2");
    CHECK(described::defaults<basic_beam_point>() == "");
    CHECK(described::defaults<basic_beam_step>() == "");
    CHECK(described::defaults<basic_beam_break>() == "");
    CHECK(described::defaults<basic_string_pull>() == "");
    CHECK(described::defaults<basic_fret_slots>() == "");
    CHECK(described::defaults<basic_insert>() == "");
    CHECK(described::defaults<basic_moving_board>() == "");
    CHECK(described::defaults<basic_set_mark>() == "");
    CHECK(described::defaults<basic_crest>() == "");
    CHECK(described::defaults<basic_relief>() == "");
    CHECK(described::defaults<basic_relief_case>() == "");
    CHECK(described::defaults<basic_rod_screw>() == "");
    CHECK(described::defaults<basic_profile_point>() == "");
    CHECK(described::defaults<basic_truss_rod>() == "");
}

TEST_CASE("neck: what is worked out is nothing before it is filled") {
    CHECK_FALSE(basic_calibration<double>{}.reachable);
    CHECK(basic_calibration<double>{}.unique);
    CHECK(basic_calibration<double>{}.factor == 1);
    CHECK_FALSE(basic_heaviest<double>{}.limited);
    CHECK(basic_rod_answer<double>{}.reachable());
    CHECK(wood_figure{}.value == 0);
    // A back that fills the rectangle around it.
    CHECK(basic_back_shape<double>{}.area == 1);
    CHECK(basic_back_shape<double>{}.first == 1);
    CHECK(basic_back_shape<double>{}.second == 1);
}
