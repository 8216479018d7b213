// The beam against handbook beams and columns.

#include <tautline/neck/second_order.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A straight neck of one wood, square below: EI grows with its width alone and the neutral axis stays.
neck slab(double length_mm, double width_at_nut, double width_at_joint) {
    const auto station = [](double x, double w) {
        return neck_station{
            .x = x * mm, .half_width = w / 2 * mm, .board_thickness = 5 * mm, .back_depth = 10 * mm, .back_exponent = 3};
    };
    return {.stations = {station(0, width_at_nut), station(length_mm, width_at_joint)},
            .board_modulus = 10 * GPa,
            .back_modulus = 10 * GPa,
            .pure_bending_factor = 1,
            .joint = length_mm * mm};
}
/// A pull too small for the second order to matter.
constexpr auto feather = 1e-6 * N;

/// A couple at the nut: a line parallel to the neutral axis, `lever` above it.
string_pull couple(const neck_beam& beam, tautline::length<> lever) {
    const auto z = beam.points[0].neutral_axis + lever;
    return {.pull = feather, .z_nut = z, .z_saddle = z, .x_saddle = 1 * metre};
}
/// A load across at the nut, pulling it up: a line through the neutral axis there that rises by `slope`.
string_pull across(const neck_beam& beam, double slope) {
    const auto z = beam.points[0].neutral_axis;
    return {.pull = feather, .z_nut = z, .z_saddle = z + slope * (1 * metre), .x_saddle = 1 * metre};
}

} // namespace

TEST_CASE(
    "cantilever with an end moment: M L^2/(2EI) and M L/(EI), at x from the wall M x^2/(2EI) (Hibbeler, beam deflections)" *
    published::seen) {
    for (const double long_mm : {200.0, 400.0}) {
        const auto beam = make_beam(slab(long_mm, 40, 40), 17);
        const auto ei = beam.points[0].bending_rigidity;
        for (const double lever : {20.0, -7.0}) {
            const auto bowed = bend(beam, std::vector{couple(beam, lever * mm)});
            const auto m = feather * (lever * mm);
            const auto l = long_mm * mm;
            CHECK(published::relative("rise of the free end", bowed.nut_rise(), m * l * l / (2.0 * ei), 1e-6));
            CHECK(published::relative("slope of the free end", bowed.slope.front(), -(m * l / ei).value(), 1e-6));
            const auto at = 0.3 * l; // from the wall
            CHECK(published::relative("deflection between", deflection_at(bowed, l - at), m * at * at / (2.0 * ei), 1e-6));
        }
    }
}

TEST_CASE("cantilever with a load across its tip: P L^3/(3EI) and P L^2/(2EI) (Hibbeler, beam deflections)" *
          published::seen) {
    for (const double slope : {0.1, 0.25}) {
        const auto beam = make_beam(slab(300, 40, 40), 17);
        const auto ei = beam.points[0].bending_rigidity;
        const auto l = 300 * mm;
        const auto bowed = bend(beam, std::vector{across(beam, slope)});
        CHECK(
            published::relative("rise of the free end", bowed.nut_rise(), slope * feather * l * l * l / (3.0 * ei), 1e-6));
        CHECK(published::relative("slope of the free end", bowed.slope.front(),
                                  -(slope * feather * l * l / (2.0 * ei)).value(), 1e-6));
    }
}

TEST_CASE(
    "Megson, Structural and Stress Analysis, example 13.14: I0 (1 + x/L), load at the tip, W L^3 (ln 2 - 1/2)/(E I0)" *
    published::seen) {
    const auto beam = make_beam(slab(300, 25, 50), 65);
    const auto ei = beam.points[0].bending_rigidity;
    const auto l = 300 * mm;
    const auto bowed = bend(beam, std::vector{across(beam, 0.2)});
    const double shape = bowed.nut_rise() / (0.2 * feather * l * l * l / ei);
    CHECK(published::relative("shape number by integration", shape, std::log(2) - 0.5, 1e-5));
    CHECK(published::within("shape number, as printed", shape, 0.19, 0.005)); // as printed
}

TEST_CASE("companion of Megson's example with an end moment, by the same integration: M L^2 (1 - ln 2)/(E I0)" *
          published::own_computation) {
    const auto beam = make_beam(slab(300, 25, 50), 65);
    const auto ei = beam.points[0].bending_rigidity;
    const auto l = 300 * mm;
    const auto bowed = bend(beam, std::vector{couple(beam, 15 * mm)});
    CHECK(published::relative("rise of the free end", bowed.nut_rise(),
                              feather * (15 * mm) * l * l * (1 - std::log(2)) / ei, 1e-5));
}

TEST_CASE("secant formula, e (sec(L sqrt(P/EI)) - 1), for a load that keeps its direction (EduRev, Eccentrically Loaded "
          "Columns, eq. 23.8)" *
          published::seen) {
    // The column of the formula's half length is a cantilever. Strings to a saddle far away nearly keep their direction;
    // the rest falls with the distance and is taken out by two distances.
    const auto beam = make_beam(slab(100, 12, 12), 129);
    const auto ei = beam.points[0].bending_rigidity;
    const auto e = 3 * mm, l = 100 * mm;
    for (const double u : {0.4, 0.9, 1.2}) { // u = L sqrt(P/EI), Euler's load at pi/2
        const auto p = u * u * ei / (l * l);
        const auto rise = [&](tautline::length<> saddle) {
            const auto z = beam.points[0].neutral_axis + e;
            const string_pull one{.pull = p / 100.0, .z_nut = z, .z_saddle = z, .x_saddle = saddle};
            return bend(beam, std::vector(100, one)).nut_rise();
        };
        const auto far = 2.0 * rise(4000 * mm) - rise(2000 * mm);
        CHECK(published::relative("rise of the free end", far, e * (1 / std::cos(u) - 1), u < 1 ? 2e-3 : 2e-2));
    }
}

TEST_CASE(
    "Timoshenko and Gere: an eccentric end load that keeps its direction bows a cantilever 2 (sec u - 1)/u^2 times as "
    "far as M L^2/(2EI), u = L sqrt(P/EI)" *
    published::from_memory) {
    const auto beam = make_beam(slab(300, 40, 40), 129);
    const auto ei = beam.points[0].bending_rigidity;
    const auto l = 300 * mm;
    for (const double u : {0.3, 0.6, 1.0, 1.3}) {
        const auto pull = u * u * ei / (l * l);
        // The line is parallel to the axis and rises as a whole with the nut.
        kernel::bow_problem<double> problem{beam, {}, 0 * N, {}};
        problem.strings.pull = problem.strings.nut_share = pull;
        problem.strings.at_zero = pull * (beam.points[0].neutral_axis + 4 * mm);
        const double growth = ratio(kernel::solve_bow(problem).parts.nut_rise, kernel::first_order_rise(problem));
        CHECK(published::relative("growth of the rise", growth, 2 * (1 / std::cos(u) - 1) / (u * u), 1e-6));
    }
}

TEST_CASE("Euler's loads: through the clamped end pi^2 EI/L^2, one that keeps its direction a quarter; between, Timoshenko "
          "and Gere's condition" *
          published::from_memory) {
    const auto critical = [](tautline::length<> saddle) {
        const auto beam = make_beam(slab(100, 12, 12), 129);
        const auto ei = beam.points[0].bending_rigidity;
        const auto unit_load = ei / ((100 * mm) * (100 * mm));
        const string_pull one{.pull = unit_load / 8.0, .z_nut = 0 * mm, .z_saddle = 0 * mm, .x_saddle = saddle};
        kernel::bow_problem<double> problem{beam, kernel::gather<double>(std::vector(8 * 40, one)), 0 * N, {}};
        return 40 * kernel::buckling_share(problem); // L^2 P/EI
    };
    const double pi = std::numbers::pi;
    CHECK(published::relative("critical load, through the clamped end, over EI/L^2", critical(100 * mm), pi * pi, 1e-5));
    // Between, Timoshenko and Gere's condition for a load through a fixed point: tan(kL) = -k(S - L), solved by halving.
    for (const double s : {2.0, 5.0, 20.0, 40.0}) {
        double low = pi / 2 + 1e-9, high = pi;
        for (int i = 0; i < 60; ++i) {
            const double k = (low + high) / 2;
            (std::tan(k) < -k * (s - 1) ? low : high) = k;
        }
        CHECK(published::relative("critical load, through a fixed point, over EI/L^2", critical(s * 100 * mm), low * low,
                                  1e-5));
    }
    CHECK(published::relative("critical load, through a far point, over EI/L^2", critical(4000 * mm), pi * pi / 4, 0.06));
}

TEST_CASE("Timoshenko and Gere: the bow under an end load grows by about 1/(1 - P/Pcr)" * published::from_memory) {
    const auto beam = make_beam(slab(300, 40, 40), 65);
    const auto ei = beam.points[0].bending_rigidity;
    const auto z = beam.points[0].neutral_axis + 10 * mm;
    const auto critical = std::numbers::pi * std::numbers::pi / 4 * ei / ((300 * mm) * (300 * mm));
    const auto rise = [&](double share) {
        const string_pull one{.pull = share * critical / 10.0, .z_nut = z, .z_saddle = z, .x_saddle = 4000 * mm};
        return bend(beam, std::vector(10, one)).nut_rise() / share;
    };
    CHECK(published::relative("growth at 0.3 of the critical load", rise(0.3) / rise(1e-6), 1.4286, 0.05));
}
