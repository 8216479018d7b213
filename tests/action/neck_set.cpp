#include <tautline/action/neck_set.hpp>

#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

namespace {
const neck_joint joint{.x = 340 * mm, .z = -6 * mm, .heel_depth = 90 * mm, .pocket_length = 70 * mm, .saddle_x = 690 * mm};
lengths places() {
    lengths x;
    for (int n = 1; n <= 14; ++n) { x.push_back(690 * (1 - std::exp2(-n / 12.0)) * mm); }
    return x;
}
lengths on_line(double at_nut, double slope) {
    lengths z;
    for (const auto& x : places()) { z.push_back(at_nut * mm + slope * x); }
    return z;
}
} // namespace

TEST_CASE("crests in a line give the line") {
    const auto line = sighted_line<double>(places(), on_line(1.2, -0.01));
    CHECK(near::within(line.at_nut, 1.2 * mm, 1e-9 * mm));
    CHECK(near::within(line.slope, -0.01, 1e-9));
    CHECK(near::within(line.at(690 * mm), -5.7 * mm, 1e-9 * mm));
}

TEST_CASE("the neck turned as told points where it should") {
    for (const double slope : {-0.02, 0.0, 0.01}) {
        for (const double wanted : {-3.0, 0.0, 5.0}) {
            const auto x = places(), z = on_line(1, slope);
            const auto set = neck_set(joint, sighted_line<double>(x, z), wanted * mm);
            // Turn every crest about the edge: the head goes back for a positive turn.
            lengths tx, tz;
            const double c = std::cos(set.turn / rad), s = std::sin(set.turn / rad);
            for (std::size_t i = 0; i < x.size(); ++i) {
                const auto dx = x[i] - joint.x, dz = z[i] - joint.z;
                tx.push_back(joint.x + c * dx - s * dz);
                tz.push_back(joint.z + s * dx + c * dz);
            }
            CHECK(near::within(sighted_line<double>(tx, tz).at(joint.saddle_x), wanted * mm, 1e-9 * mm));
            CHECK(near::within(set.points_at, 1 * mm + slope * 690 * mm, 1e-9 * mm));
            CHECK(near::within(set.heel_cut, std::tan(set.turn / rad) * 90 * mm, 1e-12 * mm));
            CHECK(near::within(set.shim, std::tan(set.turn / rad) * 70 * mm, 1e-12 * mm));
            CHECK((set.turn > 0 * deg) == (wanted * mm > set.points_at));
        }
    }
}

TEST_CASE("small turns: the cut is the heel's depth times the rise over the reach") {
    const auto set = neck_set(joint, sighted_line<double>(places(), on_line(1, 0)), 4.5 * mm);
    CHECK(near::relative(set.heel_cut, 3.5 / 350 * 90 * mm, 0.01));
}

TEST_CASE("pointing as planned gives the action that was wanted") {
    const auto wanted = points_for_action(joint, 9 * mm, 0.5 * mm, 2.4 * mm, 345 * mm);
    // The string over a line of frets from nut (0.5 above) to saddle.
    const auto at_saddle = 9 * mm - wanted;
    CHECK(near::within(0.5 * mm + 345.0 / 690 * (at_saddle - 0.5 * mm), 2.4 * mm, 1e-12 * mm));
}

TEST_CASE("a dual carries the derivative") {
    using D = dual<double, 1>;
    const auto turn = [](auto at_saddle) {
        using R = real_of_t<decltype(at_saddle)>;
        return neck_set(over<R>(joint), basic_sighted_line<R>{over<R>(1 * mm), number<R>(0.002L)}, at_saddle).turn.value();
    };
    const double h = 1e-6;
    CHECK(near::relative(turn(length<D>::from_value(D::variable(0.004, 0))).partial[0],
                         (turn((0.004 + h) * metre) - turn((0.004 - h) * metre)) / (2 * h), 1e-7));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_AS((void)sighted_line<double>(lengths{1 * mm}, lengths(1)), invalid_input);
    CHECK_THROWS_AS((void)sighted_line<double>(lengths{2 * mm, 1 * mm}, lengths(2)), invalid_input);
    CHECK_THROWS_WITH((void)sighted_line<double>(lengths{1 * mm, std::nan("") * mm}, lengths(2)),
                      "crest_x[1] is not a number; it must be a finite number.");
    CHECK_THROWS_WITH((void)sighted_line<double>(lengths{1 * mm, 2 * mm}, lengths{std::nan("") * mm, 0 * mm}),
                      "crest_z[0] is not a number; it must be a finite number.");
    auto beyond = joint;
    beyond.saddle_x = 300 * mm;
    CHECK_THROWS_WITH((void)neck_set<double>(beyond, {}, 0 * mm), "joint.saddle_x must be beyond the joint.");
    CHECK_THROWS_AS((void)neck_set<double>(joint, {}, 900 * mm), invalid_input);
    CHECK_THROWS_AS((void)points_for_action(joint, 9 * mm, 0.5 * mm, 0 * mm, 345 * mm), invalid_input);
}

TEST_CASE("whatever a set is asked for is looked at") {
    const auto nan = std::nan("") * mm;
    auto beyond = joint;
    beyond.saddle_x = 300 * mm;
    CHECK_THROWS_WITH((void)points_for_action(beyond, 9 * mm, 0.5 * mm, 2 * mm, 345 * mm),
                      "joint.saddle_x must be beyond the joint.");
    CHECK_THROWS_WITH((void)points_for_action(joint, nan, 0.5 * mm, 2 * mm, 345 * mm),
                      "saddle_top is not a number; it must be a finite number.");
    CHECK_THROWS_WITH((void)points_for_action(joint, 9 * mm, nan, 2 * mm, 345 * mm),
                      "over_nut is not a number; it must be a finite number.");
    CHECK_THROWS_WITH((void)points_for_action(joint, 9 * mm, 0.5 * mm, 2 * mm, 0 * mm),
                      "at_x is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)neck_set<double>(joint, {}, nan),
                      "wanted_at_saddle is not a number; it must be a finite number.");
}
