#include <tautline/supports/tailpiece.hpp>

#include <numbers>
#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
tail_string at(double z, double y, double across, double t) {
    return {.saddle = {.x = 640 * mm, .y = y * mm, .z = z * mm}, .across = across * mm, .tension = t * N};
}
} // namespace

TEST_CASE("under one string a hinged tailpiece lies on the pull") {
    const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -30 * mm, .reach = 90 * mm};
    const std::vector<tail_string> one{at(15, 0, 0, 80)};
    const auto rise = tailpiece_rise(tail, one);
    CHECK(near::within(rise, atan2(45 * mm, 200 * mm), 1e-9 * deg));
    const point p = tailpiece_point(tail, rise, 0 * mm);
    const auto u = direction_between<double>(one[0].saddle, p);
    const auto v = direction_between<double>(p, {.x = 840 * mm, .y = 0 * mm, .z = -30 * mm});
    CHECK(near::within(kernel::break_angle(v, {-u.x, -u.y, -u.z}), 0 * deg, 1e-5 * deg)); // one line
}

TEST_CASE("property: the strings have no moment about the hinge") {
    std::mt19937 random(21);
    std::uniform_real_distribution<double> height(5, 30), side(-40, 40), pull(10, 150), reach(30, 150);
    for (int i = 0; i < 100; ++i) {
        const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -25 * mm, .reach = reach(random) * mm};
        std::vector<tail_string> strings;
        for (int k = 0; k < 1 + i % 8; ++k) {
            strings.push_back(at(height(random), side(random), side(random), pull(random)));
        }
        const auto rise = tailpiece_rise(tail, strings);
        moment<double> about_hinge{};
        for (const auto& s : strings) {
            const point p = tailpiece_point(tail, rise, s.across);
            const auto u = direction_between<double>(p, s.saddle);
            about_hinge += (p.z - tail.hinge_z) * (u.x * s.tension) - (p.x - tail.hinge_x) * (u.z * s.tension);
        }
        CHECK(near::within(about_hinge, 0 * N_m, 1e-10 * N_m));
    }
}

TEST_CASE("a hundred strings, and a string without tension, are no trouble") {
    const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -25 * mm, .reach = 100 * mm};
    std::vector<tail_string> strings(100, at(12, 0, 0, 50));
    CHECK(near::within(tailpiece_rise(tail, strings), atan2(37 * mm, 200 * mm), 1e-9 * deg));
    strings.push_back(at(40, 0, 0, 0));
    CHECK(near::within(tailpiece_rise(tail, strings), atan2(37 * mm, 200 * mm), 1e-9 * deg));
}

TEST_CASE("a tailpiece that hangs needs no press; pressed, the press does the work that its strings lengthen by") {
    std::mt19937 random(22);
    std::uniform_real_distribution<double> height(5, 30), side(-40, 40), pull(10, 150), reach(30, 150), turn(-20, 20);
    for (int i = 0; i < 100; ++i) {
        const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -25 * mm, .reach = reach(random) * mm};
        std::vector<tail_string> strings;
        for (int k = 0; k < 1 + i % 6; ++k) {
            strings.push_back(at(height(random), side(random), side(random), pull(random)));
        }
        const auto hangs = tailpiece_rise(tail, strings);
        CHECK(near::within(tailpiece_press(tail, hangs, strings), 0 * N, 1e-9 * N));
        CHECK(tailpiece_press(tail, hangs - 3 * deg, strings) > 0 * N);
        const double stands = turn(random), step = 1e-3;
        // Tension times length, over the way of the bar's end.
        const auto stretched = [&](double degrees_up) {
            double work = 0;
            for (const auto& s : strings) {
                const point p = tailpiece_point(tail, degrees_up * deg, s.across);
                work += (s.tension / N) * (distance_between(p, s.saddle) / metre);
            }
            return work;
        };
        const double way = (tail.reach / metre) * 2 * step * std::numbers::pi / 180;
        const double by_work = -(stretched(stands + step) - stretched(stands - step)) / way;
        CHECK(near::within(tailpiece_press(tail, stands * deg, strings), by_work * N, 1e-5 * N));
    }
}

TEST_CASE("a dual carries the derivative through the search") {
    const auto rise = [](auto height) {
        using R = real_of_t<decltype(height)>;
        std::vector<basic_tail_string<R>> s{over<R>(at(12, -10, -12, 80)), over<R>(at(10, 12, 11, 60))};
        s[0].saddle.z = height;
        const auto tail = over<R>(hinged_tailpiece{.hinge_x = 800 * mm, .hinge_z = -20 * mm, .reach = 90 * mm});
        return tailpiece_rise(tail, s).value();
    };
    using D = dual<double, 1>;
    const double h = 1e-6;
    const double by_difference = (rise((0.012 + h) * metre) - rise((0.012 - h) * metre)) / (2 * h);
    CHECK(near::relative(rise(length<D>::from_value(D::variable(0.012, 0))).partial[0], by_difference, 1e-6));
    CHECK(near::relative(static_cast<double>(rise(12.0f * mm)), rise(12 * mm), 1e-5));
}

TEST_CASE("bad input is named") {
    const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -25 * mm, .reach = 100 * mm};
    CHECK_THROWS_AS((void)tailpiece_rise(tail, {}), invalid_input);
    CHECK_THROWS_WITH((void)tailpiece_rise<double>({.hinge_x = 700 * mm, .hinge_z = 0 * mm, .reach = 100 * mm},
                                                   std::vector<tail_string>{at(12, 0, 0, 50)}),
                      "tailpiece.reach must be less than the distance from the hinge to the saddle: the bridge stands "
                      "beyond the tailpiece.");
    CHECK_THROWS_AS((void)tailpiece_rise(tail, std::vector<tail_string>{at(12, 0, 0, -50)}), invalid_input);
    CHECK_THROWS_AS((void)tailpiece_rise(tail, std::vector<tail_string>{at(12, 0, 0, 0)}), invalid_input);
}
