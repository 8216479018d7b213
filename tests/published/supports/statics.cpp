// Statics of a string over a support against printed examples.

#include <tautline/supports/break_angle.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("OpenStax College Physics 4.5, \"What Is the Tension in a Tightrope?\": 5.0 deg a side under 70.0 kg is 3900 N" *
          published::seen) {
    // A walker is a support seen from above: the wire's force on the foot carries the weight.
    const double rise = std::tan(5.0 * deg / rad);
    for (const double span : {1.0, 4.0}) { // where the walker stands does not matter while both angles are 5 degrees
        const point left{.x = -1 * metre, .z = rise * metre}, foot{}, right{.x = span * metre, .z = span * rise * metre};
        const auto load = support_load(left, foot, right, 1000 * N);
        CHECK(published::within("break angle", load.break_angle, 10.0 * deg, 1e-9 * deg));
        const auto wire = 1000 * N * (70.0 * 9.80 * N / N / (-load.down() / N));
        CHECK(published::within("wire's tension, as printed", wire, 3900 * N, 50 * N));   // as printed, two figures
        CHECK(published::within("wire's tension, not rounded", wire, 3935 * N, 0.5 * N)); // the same, not rounded
        CHECK(published::relative("force on the support from tension and break angle", support_force_size(wire, 10.0 * deg),
                                  686 * N, 1e-9));
    }
}

TEST_CASE("OpenStax College Physics 4.7, \"Different Tensions at Different Angles\": 15.0 kg, 30 and 45 deg: 108 N, 132 N" *
          published::seen) {
    // The knot bears the weight and nothing sideways: exactly, with the tensions that statics gives.
    const auto rising = [](double side, angle<double> a) {
        return point{.x = side * std::cos(a / rad) * metre, .z = std::abs(side) * std::sin(a / rad) * metre};
    };
    const auto weight = 15.0 * 9.80 * N;
    const auto exact = [&](double t1, double t2) {
        return support_load(rising(-1, 30 * deg), point{}, rising(2, 45 * deg), t1 * N, t2 * N).on_support;
    };
    const double t1 = 147.0 / (std::sin(30 * deg / rad) + std::cos(30 * deg / rad)), t2 = 1.224745 * t1;
    CHECK(published::within("sideways, exact tensions", exact(t1, t2).x, 0 * N, 1e-4 * N));
    CHECK(published::within("weight borne, exact tensions", exact(t1, t2).z, weight, 1e-3 * N));
    // As printed, to three figures.
    CHECK(published::within("sideways, printed tensions", exact(108, 132).x, 0 * N, 0.5 * N));
    CHECK(published::within("weight borne, printed tensions", exact(108, 132).z, weight, 0.6 * N));
    CHECK(published::within("across, printed tensions", exact(108, 132).y, 0 * N, 1e-12 * N));
}

TEST_CASE("Violin family: strings at 158 degrees over the bridge press with 2 T cos 79 (common practice, no source)" *
          published::practice) {
    // An invented tuning that pulls 220 N in all; the two sides fall 13 and 9 degrees.
    const double nut_side = 13 * deg / rad, tail_side = 9 * deg / rad;
    const auto load = support_load(point{.x = -std::cos(nut_side) * metre, .z = -std::sin(nut_side) * metre}, point{},
                                   point{.x = std::cos(tail_side) * metre, .z = -std::sin(tail_side) * metre}, 220 * N);
    CHECK(published::within("angle between the sides", 180 * deg - load.break_angle, 158 * deg, 1e-9 * deg));
    CHECK(
        published::relative("force on the bridge", load.on_support.size(), 2 * 220 * std::cos(79 * deg / rad) * N, 1e-12));
    CHECK(published::relative("down-force on the bridge", load.down(), 84 * N, 0.01));
}
