#include <tautline/action/object_clearance.hpp>

#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
string_line at(double y_nut, double y_saddle, double saddle_z) {
    return {.nut_x = 0 * mm,
            .nut_z = 2 * mm,
            .saddle_x = 600 * mm,
            .saddle_z = saddle_z * mm,
            .nut_y = y_nut * mm,
            .saddle_y = y_saddle * mm};
}
const flat_object pickup{.x = 500 * mm, .z = 3 * mm, .extent = 20 * mm, .along = 0 * deg, .across = 0 * deg};
} // namespace

TEST_CASE("clearance is the string less the object's top, at both edges") {
    const auto c = object_clearance(pickup, at(0, 0, 14));
    CHECK(near::within(c.front, (2 + 12 * 490.0 / 600 - 3) * mm, 1e-12 * mm));
    CHECK(near::within(c.back, (2 + 12 * 510.0 / 600 - 3) * mm, 1e-12 * mm));
    CHECK(c.least() == c.front);
    auto tilted = pickup;
    tilted.across = 3 * deg;
    tilted.along = 2 * deg;
    const auto t = object_clearance(tilted, at(10, 22, 14));
    CHECK(near::within(t.front,
                       c.front + 10 * std::tan(2 * deg / rad) * mm - (10 + 12 * 490.0 / 600) * std::tan(3 * deg / rad) * mm,
                       1e-12 * mm));
    CHECK(t.least() == t.back);
}

TEST_CASE("pressed at the last fret the string comes nearer") {
    const auto open = at(-10, -20, 14);
    const auto pressed = pressed_line(open, 420 * mm, 1 * mm);
    CHECK(object_clearance(pickup, pressed).least() < object_clearance(pickup, open).least());
    CHECK(near::within(object_clearance(pickup, pressed).front, (1 + 13 * 70.0 / 180 - 3) * mm, 1e-12 * mm));
    CHECK(near::within(kernel::string_y(pressed, 500 * mm), kernel::string_y(open, 500 * mm), 1e-12 * mm));
}

TEST_CASE("tilted as told, every string of a plane set clears both edges alike") {
    // Strings in one plane: rising toward the bridge, higher on the bass side.
    std::vector<string_line> strings;
    for (int i = 0; i < 4; ++i) {
        const double y = -18 + 12 * i;
        strings.push_back(at(0.6 * y, y, 14 - 0.05 * y));
        strings.back().nut_z = (2 - 0.05 * 0.6 * y) * mm;
    }
    const auto tilt = parallel_tilt<double>(pickup, strings);
    CHECK(near::within(tilt.along, atan2(12 * mm, 600 * mm), 1e-6 * deg));
    CHECK(near::within(tilt.across, atan2(-0.05 * mm, 1 * mm), 1e-6 * deg));
    auto set = pickup;
    set.along = set.along + tilt.along_change;
    set.across = set.across + tilt.across_change;
    const auto first = object_clearance(set, strings[0]);
    for (const auto& s : strings) {
        CHECK(near::within(object_clearance(set, s).front, first.front, 1e-6 * mm));
        CHECK(near::within(object_clearance(set, s).back, first.front, 1e-6 * mm));
    }
    const auto again = parallel_tilt<double>(set, strings);
    CHECK(near::within(again.along_change, 0 * deg, 1e-6 * deg));
    CHECK(near::within(again.across_change, 0 * deg, 1e-6 * deg));
}

TEST_CASE("one string says nothing across") {
    auto leaning = pickup;
    leaning.across = 2 * deg;
    const auto tilt = parallel_tilt<double>(leaning, std::vector<string_line>{at(5, 9, 14)});
    CHECK(near::within(tilt.across_change, 0 * deg, 1e-9 * deg));
    CHECK(tilt.along > 0.5 * deg);
}

TEST_CASE("a dual carries the derivative") {
    using D = dual<double, 1>;
    auto s = over<D>(at(0, 0, 14));
    s.saddle_z = length<D>::from_value(D::variable(0.014, 0));
    CHECK(near::relative(object_clearance(over<D>(pickup), s).back.value().partial[0], 510.0 / 600, 1e-12));
    const auto tilt = parallel_tilt<D>(over<D>(pickup), std::vector<basic_string_line<D>>{s});
    CHECK(near::relative(tilt.along.value().partial[0], 1 / (1 + 0.02 * 0.02) / 0.6, 1e-9));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_AS((void)parallel_tilt<double>(pickup, {}), invalid_input);
    auto steep = pickup;
    steep.along = 60 * deg;
    CHECK_THROWS_WITH((void)object_clearance(steep, at(0, 0, 14)),
                      "object.along is 60 deg; it must be at least -45 deg and at most 45 deg.");
}

TEST_CASE("object and lines are looked at, for a clearance and for a tilt") {
    const string_line none{.nut_x = 10 * mm, .nut_z = 0 * mm, .saddle_x = 10 * mm, .saddle_z = 0 * mm};
    CHECK_THROWS_WITH((void)object_clearance(pickup, none), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)parallel_tilt<double>(pickup, std::vector<string_line>{at(0, 0, 14), none}),
                      "strings[1].saddle_x must be beyond the nut.");
    auto steep = pickup;
    steep.along = 60 * deg;
    CHECK_THROWS_WITH((void)parallel_tilt<double>(steep, std::vector<string_line>{at(0, 0, 14)}),
                      "object.along is 60 deg; it must be at least -45 deg and at most 45 deg.");
}
