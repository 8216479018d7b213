#include <tautline/neck/beam.hpp>
#include <tautline/neck/bow.hpp>
#include <tautline/neck/calibration.hpp>
#include <tautline/neck/fret_slots.hpp>
#include <tautline/neck/loaded_frets.hpp>
#include <tautline/neck/moisture.hpp>
#include <tautline/neck/relief.hpp>
#include <tautline/neck/rod_setting.hpp>
#include <tautline/neck/second_order.hpp>
#include <tautline/neck/section.hpp>
#include <tautline/neck/station.hpp>
#include <tautline/neck/wanted.hpp>
#include <tautline/neck/wood.hpp>

#include <doctest/doctest.h>

#include <limits>
#include <vector>

#include "demo_neck.hpp"

// What each function of neck refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;

namespace {
const double inf = std::numeric_limits<double>::infinity();
const auto plain = make_beam(demo::plain_neck());
const auto with_rod = make_beam(demo::neck_with_rod());
const auto pulls = demo::strings();
const std::vector<string_pull> second_wrong{pulls[0],
                                            {.pull = -1 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm}};
relief_case of_no_span() {
    auto c = demo::relief_from_first_to_joint();
    c.last = c.first;
    return c;
}
const auto measured = demo::relief_from_first_to_joint();
const auto backward = of_no_span();
/// More than a steel bar of this neck's length stands.
std::vector<string_pull> too_much() {
    auto s = demo::strings();
    for (auto& one : s) { one.pull = 5000 * N; }
    return s;
}
} // namespace

TEST_CASE("neck's door: beam and bow") {
    CHECK_THROWS_WITH(
        (void)section_at(neck(), 100 * mm),
        doctest::Contains(
            "neck.board_modulus is not given, or not a number; it must be at least 10 MPa and at most 1000000 MPa."));
    CHECK_THROWS_WITH((void)section_at(demo::plain_neck(), inf * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)section_at(demo::plain_neck(), -1 * mm),
                      "x must lie between the neck's first and last station.");
    CHECK_THROWS_WITH((void)section_at(demo::plain_neck(), 361 * mm),
                      "x must lie between the neck's first and last station.");
    CHECK_NOTHROW((void)section_at(demo::plain_neck(), 0 * mm));
    CHECK_NOTHROW((void)section_at(demo::plain_neck(), 360 * mm));
    CHECK_THROWS_WITH(
        (void)make_beam(neck()),
        doctest::Contains(
            "neck.board_modulus is not given, or not a number; it must be at least 10 MPa and at most 1000000 MPa."));
    CHECK_THROWS_WITH((void)make_beam(demo::plain_neck(), 1), "stations must be between 2 and 100000.");
    CHECK_THROWS_WITH((void)make_beam(demo::plain_neck(), 100001), "stations must be between 2 and 100000.");
    CHECK_NOTHROW((void)make_beam(demo::plain_neck(), 2));
    CHECK_THROWS_WITH((void)bend(neck_beam{}, pulls), "beam must be made from a neck first.");
    CHECK_THROWS_WITH((void)bend(plain, second_wrong),
                      "strings[1].pull is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH((void)bend(with_rod, pulls, 100001 * N),
                      "rod_pull is 100001 N; it must be at least -100000 N and at most 100000 N.");
    CHECK_THROWS_WITH((void)bend(with_rod, pulls, -1 * N), "rod_pull is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)bend(plain, pulls, 1 * N), "rod_pull must be 0 on a neck without a truss rod.");
    CHECK_THROWS_WITH((void)deflection_at(bow{}, 100 * mm), "bow must be the bow of a beam.");
    CHECK_THROWS_WITH((void)deflection_at(bend(plain, pulls), inf * mm), "x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)second_order_growth(neck_beam{}, pulls), "beam must be made from a neck first.");
    CHECK_THROWS_WITH((void)second_order_growth(plain, second_wrong),
                      "strings[1].pull is -1 N; it must be at least 0 N and at most 5000 N.");
    CHECK_THROWS_WITH((void)bend(plain, too_much()), doctest::Contains("in all, but starts to buckle at"));
    CHECK_THROWS_WITH((void)second_order_growth(plain, too_much()), doctest::Contains("in all, but starts to buckle at"));
    CHECK_THROWS_WITH((void)kernel::nut_rise<double>(plain, too_much(), 0 * N),
                      doctest::Contains("in all, but starts to buckle at"));
}

TEST_CASE("neck's door: calibration") {
    const auto n = demo::neck_with_rod();
    auto without_strings = measured;
    without_strings.strings.clear();
    CHECK_THROWS_WITH((void)calibrate_moduli(n, backward, 0.2 * mm, 0.01 * mm),
                      "case.last must be one of the crests, after the first one.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, without_strings, 0.2 * mm, 0.01 * mm),
                      "case.strings must be those that change the relief.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 0 * mm, 0.01 * mm),
                      "change is 0 mm; it must be more than 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 51 * mm, 0.01 * mm),
                      "change is 51 mm; it must be more than 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 0.2 * mm, -0.01 * mm),
                      "uncertainty is -0.01 mm; it must be at least 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 0.2 * mm, 51 * mm),
                      "uncertainty is 51 mm; it must be at least 0 mm and at most 50 mm.");
    CHECK_THROWS_WITH(
        (void)calibrate_moduli(neck(), measured, 0.2 * mm, 0.01 * mm),
        doctest::Contains(
            "neck.board_modulus is not given, or not a number; it must be at least 10 MPa and at most 1000000 MPa."));
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 0.2 * mm, 0.01 * mm, -1 * N),
                      "rod_pull is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)calibrate_moduli(n, measured, 0.2 * mm, 0.01 * mm, 0 * N, 1),
                      "stations must be between 2 and 100000.");
}

TEST_CASE("neck's door: tangs, crests and relief") {
    const auto whole = section_from(rectangle_sums(10.0 * GPa, 40.0 * mm, 0.0 * mm, -20.0 * mm));
    const auto layer = rectangle_sums(10.0 * GPa, 40.0 * mm, 0.0 * mm, -2.0 * mm);
    CHECK_THROWS_WITH((void)strain_curvature(section{}, layer, 1e-4),
                      "whole.bending_rigidity is 0 N m^2; it must be more than 0 N m^2.");
    CHECK_THROWS_WITH((void)strain_curvature(whole, layer, 0.11),
                      "strain is 0.11; it must be at least -0.1 and at most 0.1.");
    CHECK_THROWS_WITH((void)strain_curvature(whole, layer, -0.11),
                      "strain is -0.11; it must be at least -0.1 and at most 0.1.");
    const auto crests = [](double last, double first_height = 1) {
        return std::vector<crest>{
            {.x = 10 * mm, .z = first_height * mm}, {.x = 20 * mm, .z = 1 * mm}, {.x = last * mm, .z = 1 * mm}};
    };
    const auto three = crests(30), doubled = crests(20), high = crests(30, inf), far = crests(inf);
    auto unmeasured = three;
    unmeasured[1].z = crest().z;
    CHECK_THROWS_WITH((void)fall_away<double>(three, 1, 1), "joint must be a crest after the first one.");
    CHECK_THROWS_WITH((void)fall_away<double>(three, 0, 3), "joint must be a crest after the first one.");
    CHECK_NOTHROW((void)fall_away<double>(three, 0, 2));
    for (const std::size_t i : {0u, 1u, 2u}) {
        auto one_unmeasured = three;
        one_unmeasured[i].z = crest().z;
        CHECK_THROWS_WITH((void)fall_away<double>(one_unmeasured, 0, 1),
                          "crest.z is not a number; it must be a finite number.");
    }
    CHECK_THROWS_WITH((void)relief_between<double>(three, 1, 1), "last must be a crest after the first one.");
    CHECK_THROWS_WITH((void)relief_between<double>(three, 0, 3), "last must be one of the crests given.");
    CHECK_THROWS_WITH((void)relief_between<double>(doubled, 0, 2),
                      "crest.x must be further from the nut than the crest before it.");
    CHECK_THROWS_WITH((void)relief_between<double>(high, 0, 2), "crest.z is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)relief_between<double>(far, 0, 2), "crest.x is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)relief_between<double>(unmeasured, 0, 2),
                      "crest.z is not a number; it must be a finite number.");
    CHECK_THROWS_WITH((void)where_to_level(inf * mm, 0.1 * mm),
                      "relief_from_load is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)where_to_level(0.2 * mm, 0.0 * mm), "limit is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)relief_under(plain, backward), "case.last must be one of the crests, after the first one.");
    CHECK_THROWS_WITH((void)relief_under(neck_beam{}, measured), "beam must be made from a neck first.");
}

TEST_CASE("neck's door: moisture") {
    const climate room{.temperature = 20.0 * celsius, .humidity = 45 * percent_rh};
    const moving_board board{.width = 50 * mm, .thickness = 6 * mm, .across = 0.003, .down = 0.002, .fretted_in = room};
    const climate frost{.temperature = -1.3 * celsius, .humidity = 45 * percent_rh},
        oven{.temperature = 60.1 * celsius, .humidity = 45 * percent_rh};
    CHECK_THROWS_WITH((void)equilibrium_moisture(frost),
                      "climate.temperature in deg C is -1.3; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_WITH((void)equilibrium_moisture(oven),
                      "climate.temperature in deg C is 60.1; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_WITH((void)movement(0.0 * mm, 0.003, 8.0 * percent_mc, 10.0 * percent_mc),
                      "measure is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)movement(50.0 * mm, -0.001, 8.0 * percent_mc, 10.0 * percent_mc),
                      "movement coefficient is -0.001; it must be at least 0 and at most 0.01.");
    CHECK_THROWS_WITH((void)movement(50.0 * mm, 0.0101, 8.0 * percent_mc, 10.0 * percent_mc),
                      "movement coefficient is 0.0101; it must be at least 0 and at most 0.01.");
    CHECK_THROWS_WITH((void)movement(50.0 * mm, 0.003, 25.1 * percent_mc, 10.0 * percent_mc),
                      "moisture content before is 25.1; it must be at least 0 and at most 25.");
    CHECK_THROWS_WITH((void)movement(50.0 * mm, 0.003, 8.0 * percent_mc, 25.1 * percent_mc),
                      "moisture content after is 25.1; it must be at least 0 and at most 25.");
    CHECK_THROWS_WITH(
        (void)board_in(
            moving_board{.width = 401 * mm, .thickness = 6 * mm, .across = 0.003, .down = 0.002, .fretted_in = room}, room),
        "board.width is 401 mm; it must be at least 1 mm and at most 400 mm.");
    CHECK_THROWS_WITH(
        (void)board_in(
            moving_board{.width = 50 * mm, .thickness = 6 * mm, .across = 0.003, .down = 0.002, .fretted_in = oven}, room),
        "board.fretted_in.temperature in deg C is 60.1; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_WITH((void)board_in(moving_board{.width = 50 * mm, .thickness = 6 * mm, .fretted_in = room}, room),
                      "board.across is not given, or not a number; it must be at least 0 and at most 0.01.\n"
                      "board.down is not given, or not a number; it must be at least 0 and at most 0.01.");
    CHECK_THROWS_WITH((void)board_in(board, oven),
                      "climate.temperature in deg C is 60.1; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_WITH((void)board_strain(0.0011, 0.0001, 8.0 * percent_mc, 10.0 * percent_mc),
                      "board's movement along the grain is 0.0011; it must be at least -0.001 and at most 0.001.");
    CHECK_THROWS_WITH((void)board_strain(-0.0011, 0.0001, 8.0 * percent_mc, 10.0 * percent_mc),
                      "board's movement along the grain is -0.0011; it must be at least -0.001 and at most 0.001.");
    CHECK_THROWS_WITH((void)board_strain(0.0001, 0.0011, 8.0 * percent_mc, 10.0 * percent_mc),
                      "back's movement along the grain is 0.0011; it must be at least -0.001 and at most 0.001.");
    CHECK_THROWS_WITH((void)board_strain(0.0001, -0.0011, 8.0 * percent_mc, 10.0 * percent_mc),
                      "back's movement along the grain is -0.0011; it must be at least -0.001 and at most 0.001.");
    CHECK_THROWS_WITH((void)board_strain(0.0001, 0.0001, -0.1 * percent_mc, 10.0 * percent_mc),
                      "moisture content before is -0.1; it must be at least 0 and at most 25.");
    CHECK_THROWS_WITH((void)board_strain(0.0001, 0.0001, 8.0 * percent_mc, -0.1 * percent_mc),
                      "moisture content after is -0.1; it must be at least 0 and at most 25.");
}

TEST_CASE("neck's door: rod") {
    const rod_screw screw{.diameter = 4.8 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
    CHECK_THROWS_WITH((void)torque_coefficient<double>(static_cast<thread_state>(9)),
                      "thread_state must be one of those listed.");
    CHECK_THROWS_WITH((void)rod_pull_from_torque(-1 * N_m, 0.2, 4.8 * mm), "torque is -1 N m; it must be at least 0 N m.");
    CHECK_THROWS_WITH((void)rod_pull_from_torque(1 * N_m, 0.0, 4.8 * mm),
                      "torque coefficient is 0; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)rod_pull_from_torque(1 * N_m, 1.05, 4.8 * mm),
                      "torque coefficient is 1.05; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)rod_pull_from_torque(1 * N_m, 0.2, 0.0 * mm),
                      "thread diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)torque_pull_uncertainty(-1 * N), "pull is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)torque_for_rod_pull(-1 * N, 0.2, 4.8 * mm), "pull is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)torque_for_rod_pull(100 * N, 0.0, 4.8 * mm),
                      "torque coefficient is 0; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)torque_for_rod_pull(100 * N, 1.05, 4.8 * mm),
                      "torque coefficient is 1.05; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)torque_for_rod_pull(100 * N, 0.2, 0.0 * mm),
                      "thread diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)rod_stress(inf * N, 4.8 * mm), "pull is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)rod_stress(100 * N, 0.0 * mm), "diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)rod_stress_share(100 * N, 4.8 * mm, 0.0 * MPa),
                      "strength is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)rod_stress_share(100 * N, 0.0 * mm, 400 * MPa), "diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)rod_turns(plain, screw, 100 * N), "beam.rod must be there to be turned.");
    CHECK_THROWS_WITH(
        (void)rod_turns(with_rod, rod_screw(), 100 * N),
        doctest::Contains("screw.diameter is not given, or not a number; it must be at least 0.1 mm and at most 20 mm."));
    CHECK_THROWS_WITH((void)rod_turns(with_rod, screw, inf * N), "pull is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)rod_pull_from_turns(plain, screw, 0.5), "beam.rod must be there to be turned.");
    CHECK_THROWS_WITH(
        (void)rod_pull_from_turns(with_rod, rod_screw(), 0.5),
        doctest::Contains("screw.diameter is not given, or not a number; it must be at least 0.1 mm and at most 20 mm."));
    CHECK_THROWS_WITH((void)rod_pull_from_turns(with_rod, screw, 101),
                      "turns is 101; it must be at least -100 and at most 100.");
    CHECK_THROWS_WITH((void)rod_pull_from_turns(with_rod, screw, -101),
                      "turns is -101; it must be at least -100 and at most 100.");
}

TEST_CASE("neck's door: sections") {
    const back_shape half{0.8, 0.7, 0.6};
    CHECK_THROWS_WITH((void)rectangle_sums(0.0 * GPa, 40.0 * mm, 0.0 * mm, -20.0 * mm),
                      "modulus is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)rectangle_sums(10.0 * GPa, 0.0 * mm, 0.0 * mm, -20.0 * mm),
                      "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)rectangle_sums(10.0 * GPa, 40.0 * mm, inf * mm, -20.0 * mm),
                      "top is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)rectangle_sums(10.0 * GPa, 40.0 * mm, 0.0 * mm, 0.0 * mm),
                      "height of the strip is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)board_sums(0.0 * GPa, 20.0 * mm, 6.0 * mm, 3.0 * per_metre),
                      "modulus is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)board_sums(10.0 * GPa, 0.0 * mm, 6.0 * mm, 3.0 * per_metre),
                      "half_width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)board_sums(10.0 * GPa, 20.0 * mm, 0.0 * mm, 3.0 * per_metre),
                      "thickness is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)board_sums(10.0 * GPa, 20.0 * mm, 6.0 * mm, -3.0 * per_metre),
                      "arc is -3 1/m; it must be at least 0 1/m.");
    CHECK_THROWS_WITH((void)board_sums(10.0 * GPa, 20.0 * mm, 20.0 * mm, 48.0 * per_metre),
                      "half_width over radius is 0.96; it must be at least 0 and at most 0.95.");
    CHECK_THROWS_WITH((void)board_sums(10.0 * GPa, 20.0 * mm, 0.5 * mm, 3.0 * per_metre),
                      "thickness at the edge is -0.100541 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)superellipse_shape(0.9), "exponent is 0.9; it must be at least 1 and at most 20.");
    CHECK_THROWS_WITH((void)superellipse_shape(20.1), "exponent is 20.1; it must be at least 1 and at most 20.");
    CHECK_THROWS_WITH((void)back_sums<double>(0 * GPa, 20 * mm, 15 * mm, -6 * mm, half),
                      "modulus is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)back_sums<double>(10 * GPa, 0 * mm, 15 * mm, -6 * mm, half),
                      "half_width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)back_sums<double>(10 * GPa, 20 * mm, 0 * mm, -6 * mm, half),
                      "depth is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)back_sums<double>(10 * GPa, 20 * mm, 15 * mm, inf * mm, half),
                      "top is infinite; it must be a finite number.");
    CHECK_THROWS_WITH((void)section_from(section_sums{}),
                      "axial rigidity of the section is 0 N; it must be more than 0 N.");
    const std::vector<profile_point> two{{.y = -10 * mm, .depth = 5 * mm}, {.y = 10 * mm, .depth = 5 * mm}},
        deep{{.y = -10 * mm, .depth = 0 * mm}, {.y = 0 * mm, .depth = 101 * mm}, {.y = 10 * mm, .depth = 0 * mm}};
    CHECK_THROWS_WITH((void)profile_shape<double>(two, 10 * mm, 5 * mm), "profile must have at least three points.");
    CHECK_THROWS_WITH((void)profile_shape<double>(deep, 10 * mm, 5 * mm),
                      "profile[1].depth is 101 mm; it must be at least 0 mm and at most 100 mm.");
}

TEST_CASE("neck's door: what a relief asks for") {
    CHECK_THROWS_WITH((void)rod_pull_for_relief(with_rod, backward, 0.2 * mm, 1000 * N),
                      "case.last must be one of the crests, after the first one.");
    CHECK_THROWS_WITH((void)rod_pull_for_relief(with_rod, measured, 51 * mm, 1000 * N),
                      "wanted is 51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)rod_pull_for_relief(with_rod, measured, -51 * mm, 1000 * N),
                      "wanted is -51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)rod_pull_for_relief(with_rod, measured, 0.2 * mm, 0 * N),
                      "most_pull is 0 N; it must be more than 0 N and at most 100000 N.");
    CHECK_THROWS_WITH((void)rod_pull_for_relief(with_rod, measured, 0.2 * mm, 100001 * N),
                      "most_pull is 100001 N; it must be more than 0 N and at most 100000 N.");
    CHECK_THROWS_WITH((void)rod_pull_for_relief(plain, measured, 0.2 * mm, 1000 * N), "beam.rod must be there to be set.");
    auto without_strings = measured;
    without_strings.strings.clear();
    CHECK_THROWS_WITH((void)heaviest_strings(plain, backward, 0.2 * mm),
                      "case.last must be one of the crests, after the first one.");
    CHECK_THROWS_WITH((void)heaviest_strings(plain, measured, 51 * mm),
                      "limit is 51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)heaviest_strings(plain, measured, -51 * mm),
                      "limit is -51 mm; it must be at least -50 mm and at most 50 mm.");
    CHECK_THROWS_WITH((void)heaviest_strings(plain, without_strings, 0.2 * mm), "case.strings must be those to be scaled.");
    CHECK_THROWS_WITH((void)heaviest_strings(plain, measured, 0.2 * mm, 1 * N),
                      "rod_pull must be 0 on a neck without a truss rod.");
}

TEST_CASE("neck's door: wood") {
    CHECK_THROWS_WITH((void)movement_from_shrinkage(-0.1, 30.0),
                      "shrinkage is -0.1; it must be at least 0 and at most 30.");
    CHECK_THROWS_WITH((void)movement_from_shrinkage(30.1, 30.0),
                      "shrinkage is 30.1; it must be at least 0 and at most 30.");
    CHECK_THROWS_WITH((void)movement_from_shrinkage(8.0, 14.9),
                      "fibre saturation is 14.9; it must be at least 15 and at most 35.");
    CHECK_THROWS_WITH((void)movement_from_shrinkage(8.0, 35.1),
                      "fibre saturation is 35.1; it must be at least 15 and at most 35.");
    CHECK_THROWS_WITH((void)modulus_at(0.0 * GPa, 8.0 * GPa, 8.0 * percent_mc),
                      "modulus at 12 % is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)modulus_at(10.0 * GPa, 0.0 * GPa, 8.0 * percent_mc),
                      "green modulus is 0 MPa; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)modulus_at(10.0 * GPa, 8.0 * GPa, -1.0 * percent_mc),
                      "moisture content is -1 % MC; it must be at least 0 % MC and at most 300 % MC.");
    CHECK_THROWS_WITH((void)modulus_from_bending_test(0.0 * mm, 10.0 * N, 1.0 * mm, 50.0 * mm, 3.0 * mm),
                      "span is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400.0 * mm, 0.0 * N, 1.0 * mm, 50.0 * mm, 3.0 * mm),
                      "load is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400.0 * mm, 10.0 * N, 0.0 * mm, 50.0 * mm, 3.0 * mm),
                      "deflection is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400.0 * mm, 10.0 * N, 1.0 * mm, 0.0 * mm, 3.0 * mm),
                      "width is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_bending_test(400.0 * mm, 10.0 * N, 1.0 * mm, 50.0 * mm, 0.0 * mm),
                      "thickness is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_tap_tone(0.0 * Hz, 400.0 * mm, 3.0 * mm, 500.0 * kg_per_m3),
                      "tone is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)modulus_from_tap_tone(100.0 * Hz, 0.0 * mm, 3.0 * mm, 500.0 * kg_per_m3),
                      "strip_length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_tap_tone(100.0 * Hz, 400.0 * mm, 0.0 * mm, 500.0 * kg_per_m3),
                      "thickness is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_from_tap_tone(100.0 * Hz, 400.0 * mm, 3.0 * mm, 0.0 * kg_per_m3),
                      "strip_density is 0 kg/m^3; it must be more than 0 kg/m^3.");
}

TEST_CASE("neck's door: what fits together in a neck") {
    const auto wrong = [](const auto& change) {
        auto n = demo::everything();
        change(n);
        require_valid(n, "neck");
    };
    using N = neck;
    CHECK_NOTHROW(wrong([](N&) {}));
    CHECK_THROWS_WITH(wrong([](N& n) { n.stations.resize(1); }),
                      "neck.stations must be at least two sections, one at the nut and one at the joint.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.stations[1].x = n.stations[0].x; }),
                      "neck.stations[1].x must be further from the nut than the station before it.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.stations[0].x = 1 * mm; }),
                      "neck.stations[0].x must be at the nut (0) or before it.");
    CHECK_NOTHROW(wrong([](N& n) { n.stations[0].x = -1 * mm; }));
    CHECK_THROWS_WITH(wrong([](N& n) { n.joint = 361 * mm; }), "neck.joint must not lie past the last station.");
    CHECK_NOTHROW(wrong([](N& n) { n.joint = 360 * mm; }));
    CHECK_THROWS_WITH(wrong([](N& n) { n.set[2].x = n.set[1].x; }),
                      "neck.set[2].x must be further from the nut than the mark before it.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.joint = 35 * mm; }), "neck.joint must not be nearer than the first fret.");
    CHECK_NOTHROW(wrong([](N& n) { n.joint = n.slots->places.front(); }));
    CHECK_THROWS_WITH(wrong([](N& n) { n.slots->tang_depth = 6 * mm; }),
                      "neck.slots.tang_depth must be less than the board's thickness.");
    CHECK_NOTHROW(wrong([](N& n) { n.slots->tang_depth = 5.9 * mm; }));
    CHECK_THROWS_WITH(wrong([](N& n) { n.stations[2].board_thickness = 1.9 * mm; }),
                      doctest::Contains("neck.slots.tang_depth must be less than the board's thickness."));
    CHECK_THROWS_WITH(wrong([](N& n) { n.slots->places[1] = n.slots->places[0]; }),
                      "neck.slots.places[1] must be further from the nut than the fret before it.");
    // At its ends the rod lies 13.5 mm deep, midway 14.5 mm: the neck is 21 mm thick at the nut.
    CHECK_THROWS_WITH(wrong([](N& n) { n.rod->z_ends = -21.5 * mm; }),
                      "neck.rod.z_ends must keep the whole rod inside the neck.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.rod->dip = -14 * mm; }),
                      "neck.rod.z_ends must keep the whole rod inside the neck.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.rod->dip = 9 * mm; }), "neck.rod.z_ends must keep the whole rod inside the neck.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.rod->x_to = n.rod->x_from; }),
                      "neck.rod.x_to must be further from the nut than x_from.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].y = 4 * mm; }), "neck.inserts[1] must not overlap inserts[0].");
    CHECK_NOTHROW(wrong([](N& n) { n.inserts[1].y = 4.5 * mm; })); // side by side
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].x_to = n.inserts[1].x_from; }),
                      "neck.inserts[1].x_to must be further from the nut than x_from.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].height = 0 * mm; }),
                      doctest::Contains("neck.inserts[1].height must be more than 0 mm."));
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].wall = 1.5 * mm; }),
                      "neck.inserts[1].wall must be less than half the width and half the height.");
    CHECK_THROWS_WITH(wrong([](N& n) {
                          n.inserts[1].height = 2 * mm;
                          n.inserts[1].wall = 1 * mm;
                      }),
                      "neck.inserts[1].wall must be less than half the width and half the height.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].profile = insert_profile::round; }),
                      "neck.inserts[1].height must be left out of a round one, which has its width.");
    CHECK_THROWS_WITH(wrong([](N& n) {
                          n.inserts[1].profile = insert_profile::round;
                          n.inserts[1].height = 0 * mm;
                          n.inserts[1].wall = 1.5 * mm;
                      }),
                      "neck.inserts[1].wall must be less than half the diameter.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].modulus = 0 * GPa; }), "neck.inserts[1].wall must be 0 mm for a void.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].y = 23 * mm; }),
                      "neck.inserts[1] must not come out of the neck's back.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].y = -23 * mm; }),
                      "neck.inserts[1] must not stick out of the neck's side.");
    CHECK_THROWS_WITH(wrong([](N& n) {
                          n.inserts[1].y = 15 * mm;
                          n.inserts[1].top = -0.1 * mm;
                      }),
                      "neck.inserts[1] must not stick out of the board's top.");
    CHECK_THROWS_WITH(wrong([](N& n) { n.inserts[1].height = 16 * mm; }),
                      "neck.inserts[1] must not come out of the neck's back.");
}

TEST_CASE("neck's door: what fits together in a case of relief and a string's pull") {
    const auto wrong = [](const auto& change) {
        auto c = demo::relief_from_first_to_joint();
        change(c);
        require_valid(c, "case");
    };
    using C = relief_case;
    CHECK_THROWS_WITH(wrong([](C& c) { c.last = 20; }), "case.last must be one of the crests, after the first one.");
    CHECK_NOTHROW(wrong([](C& c) { c.last = 19; }));
    CHECK_THROWS_WITH(wrong([](C& c) { c.first = 12; }),
                      "case.last must leave at least one crest between the two that carry the straightedge.");
    CHECK_NOTHROW(wrong([](C& c) { c.first = 11; }));
    CHECK_THROWS_WITH(wrong([](C& c) { c.crests[1].x = c.crests[0].x; }),
                      "case.crests[1].x must be further from the nut than the crest before it.");
    CHECK_THROWS_WITH(wrong([](C& c) {
                          c.strings[2].x_nut = 100 * mm;
                          c.strings[2].x_saddle = 100 * mm;
                      }),
                      "case.strings[2].x_saddle must be further than the nut.");
}
