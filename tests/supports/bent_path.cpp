#include <tautline/supports/bent_path.hpp>

#include <cmath>
#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
point spot_at(double x, double y, double z) { return {.x = x * mm, .y = y * mm, .z = z * mm}; }
double path_mm(const point& a, const point& b, const point& c) {
    return (distance_between(a, b) + distance_between(b, c)) / mm;
}
} // namespace

TEST_CASE("a bar that does not reach the string leaves it straight; one that does has it at its height") {
    const point from = spot_at(0, 0, 10), to = spot_at(40, 8, 2);
    const point free = crossing_of_bar(from, to, 10 * mm, 9 * mm);
    CHECK(near::within(free.z, 8 * mm, 1e-12 * mm));
    CHECK(near::within(free.y, 2 * mm, 1e-12 * mm));
    const auto nothing = support_load(from, free, to, 100 * N);
    CHECK(near::within(nothing.on_support.size(), 0 * N, 1e-9 * N));
    CHECK(near::within(crossing_of_bar(from, to, 10 * mm, 5 * mm).z, 5 * mm, 1e-12 * mm));
    // An edge is the other way round.
    CHECK(near::within(crossing_of_bar(from, to, 10 * mm, 9 * mm, bar_side::over).z, 9 * mm, 1e-12 * mm));
    CHECK(near::within(crossing_of_bar(from, to, 10 * mm, 5 * mm, bar_side::over).z, 8 * mm, 1e-12 * mm));
}

TEST_CASE("property: the string takes the shortest way under the bar, and the bar bears nothing along itself") {
    std::mt19937 random(61);
    std::uniform_real_distribution<double> across(-30, 30), height(4, 20), low(-10, 1);
    for (int i = 0; i < 200; ++i) {
        const point from = spot_at(600, across(random), height(random)), to = spot_at(660, across(random), height(random));
        const double z = low(random);
        const point at = crossing_of_bar(from, to, 625 * mm, z * mm);
        const double own = path_mm(from, at, to);
        for (const double aside : {-0.5, 0.5}) { CHECK(own < path_mm(from, spot_at(625, at.y / mm + aside, z), to)); }
        const auto load = support_load(from, at, to, 80 * N);
        CHECK(near::within(load.on_support.y, 0 * N, 1e-9 * N));
        CHECK(load.on_support.z > 0 * N); // it lifts the bar
    }
}

TEST_CASE("property: a bar's force is what its height costs in length: virtual work") {
    std::mt19937 random(62);
    std::uniform_real_distribution<double> across(-20, 20), height(5, 15), low(-8, 2);
    for (int i = 0; i < 100; ++i) {
        const point from = spot_at(0, across(random), height(random)), to = spot_at(-70, across(random), height(random));
        const double z = low(random), step = 1e-3;
        const auto length_at = [&](double h) { return path_mm(from, crossing_of_bar(from, to, -22 * mm, h * mm), to); };
        const double pull = 65, slope = (length_at(z + step) - length_at(z - step)) / (2 * step);
        const auto load = support_load(from, crossing_of_bar(from, to, -22 * mm, z * mm), to, pull * N);
        CHECK(near::within(load.on_support.z, -pull * slope * N, 1e-5 * N));
    }
}

TEST_CASE("a string comes in over a roller by its tangent") {
    // Level, to a roller whose top is level with it: straight on to over the axis.
    const point level = roller_point(spot_at(0, 0, 5), spot_at(-50, 3, 0), 5 * mm);
    CHECK(near::within(level.x, -50 * mm, 1e-9 * mm));
    CHECK(near::within(level.z, 5 * mm, 1e-9 * mm));
    CHECK(near::within(level.y, 3 * mm, 1e-12 * mm));
    // A roller as thin as nothing is its axis.
    const point thin = roller_point(spot_at(0, 0, 5), spot_at(-50, 3, -12), 0 * mm);
    CHECK(near::within(thin.x, -50 * mm, 1e-9 * mm));
    CHECK(near::within(thin.z, -12 * mm, 1e-9 * mm));
    std::mt19937 random(63);
    std::uniform_real_distribution<double> drop(-25, 5), along(-120, -20), radius(1, 8);
    for (int i = 0; i < 200; ++i) {
        const point from = spot_at(0, 0, 0), axis = spot_at(along(random), 0, drop(random));
        const double r = radius(random);
        for (const bool from_behind : {false, true}) { // either way along
            point start = from;
            if (from_behind) { start.x = 2.0 * axis.x; }
            const point at = roller_point(start, axis, r * mm);
            CHECK(near::within(distance_between(at, axis), r * mm, 1e-9 * mm));
            // Square to the radius, and on the upper side of the line to the axis.
            const auto square = (at.x - axis.x) * (at.x - start.x) + (at.z - axis.z) * (at.z - start.z);
            CHECK(near::within(square, 0 * mm * mm, 1e-9 * mm * mm));
            CHECK(at.z > kernel::height_between<double>(start, axis, at.x));
        }
    }
}

TEST_CASE("a dual carries the derivative through bar and roller") {
    const auto bar = [](auto z) {
        using R = real_of_t<decltype(z)>;
        return length<R>(kernel::crossing_of_bar<R>(over<R>(spot_at(0, 0, 9)), over<R>(spot_at(60, 9, 3)),
                                                    length<R>::from_value(R(0.02)), z, bar_side::under)
                             .y);
    };
    const auto roller = [](auto r) {
        using R = real_of_t<decltype(r)>;
        return length<R>(kernel::roller_point<R>(over<R>(spot_at(0, 0, 2)), over<R>(spot_at(-60, 0, -9)), r).z);
    };
    using D = dual<double, 1>;
    const auto slopes_agree = [](auto&& f, double at) {
        const double h = 1e-6;
        const double by_difference = (f((at + h) * metre) - f((at - h) * metre)).value() / (2 * h);
        const D by_dual = f(length<D>::from_value(D::variable(at, 0))).value();
        CHECK(std::abs(by_difference) > 1e-3);
        CHECK(near::relative(by_dual.partial[0], by_difference, 1e-6));
    };
    slopes_agree(bar, 0.002);
    slopes_agree(roller, 0.004);
}

TEST_CASE("bad input is named") {
    const point a = spot_at(0, 0, 5), b = spot_at(40, 0, 2);
    CHECK_THROWS_WITH_AS((void)crossing_of_bar(a, b, 40 * mm, 1 * mm),
                         "x must lie between the two points: the string would turn back at the bar.", invalid_input);
    CHECK_THROWS_AS((void)roller_point(a, b, -1 * mm), invalid_input);
    CHECK_THROWS_WITH_AS((void)roller_point(a, spot_at(0, 0, 0), 5 * mm),
                         "radius must be less than the distance to where the string comes from.", invalid_input);
}
