// Statics of a string over a support against printed examples.

#include <tautline/supports/break_angle.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("OpenStax College Physics 4.5, \"What Is the Tension in a Tightrope?\": 5.0 deg a side under 70.0 kg is 3900 N") {
    // A walker is a support seen from above: the wire's force on the foot carries the weight.
    const double rise = std::tan(5.0 * deg / rad);
    for (const double span : {1.0, 4.0}) { // where the walker stands does not matter while both angles are 5 degrees
        const point left{.x = -1 * metre, .z = rise * metre}, foot{}, right{.x = span * metre, .z = span * rise * metre};
        const auto load = support_load(left, foot, right, 1000 * N);
        CHECK(near::within(load.break_angle, 10.0 * deg, 1e-9 * deg));
        const auto wire = 1000 * N * (70.0 * 9.80 * N / N / (-load.down() / N));
        CHECK(near::within(wire, 3900 * N, 50 * N));  // as printed, two figures
        CHECK(near::within(wire, 3935 * N, 0.5 * N)); // the same, not rounded
        CHECK(near::relative(support_force_size(wire, 10.0 * deg), 686 * N, 1e-9));
    }
}

TEST_CASE("OpenStax College Physics 4.7, \"Different Tensions at Different Angles\": 15.0 kg on wires at 30 and 45 deg") {
    // Tensions differ on the two sides, as with friction in a slot; directions carry the balance.
    const point knot{};
    const auto left =
        direction_between<double>(knot, {.x = -std::cos(30 * deg / rad) * metre, .z = std::sin(30 * deg / rad) * metre});
    const auto right =
        direction_between<double>(knot, {.x = std::cos(45 * deg / rad) * metre, .z = std::sin(45 * deg / rad) * metre});
    const double weight = 15.0 * 9.80;
    const double t1 = weight / (left.z - right.z * left.x / right.x), t2 = -t1 * left.x / right.x;
    CHECK(near::within(t1, 108, 0.5));
    CHECK(near::within(t2, 132, 0.5));
    CHECK(near::within(t2 / t1, 1.225, 0.0005));
}
