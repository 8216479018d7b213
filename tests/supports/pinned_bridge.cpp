#include <tautline/supports/pinned_bridge.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
bridge_string pinned(double saddle_z, double pin_x, double t) {
    return {.slot = {.x = 0 * mm, .y = 0 * mm, .z = 1 * mm},
            .saddle = {.x = 690 * mm, .y = 0 * mm, .z = saddle_z * mm},
            .anchor = {.x = pin_x * mm, .y = 0 * mm, .z = 4 * mm},
            .tension = t * N};
}
const pinned_bridge bridge{.top_middle = -5 * mm, .saddle_exposed = 3 * mm};
} // namespace

TEST_CASE("level strings turn the bridge by tension times height, wherever the pins are") {
    for (const double pin : {696.0, 705.0}) {
        std::vector<bridge_string> two{pinned(1, pin, 80), pinned(1, pin, 70)};
        two[0].anchor.z = two[1].anchor.z = -4 * mm;
        const auto load = pinned_load(bridge, two);
        CHECK(near::relative(load.turning, 0.150 * 6 * N_m, 1e-12));
        CHECK(near::relative(load.shear, 150 * N, 1e-12));
        CHECK(near::within(load.down, 0 * N, 1e-9 * N));
    }
}

TEST_CASE("property: the bridge as a whole bears what the speaking sides pull, the saddle its own share") {
    std::mt19937 random(81);
    std::uniform_real_distribution<double> z(6, 14), pin(694, 710), t(40, 110);
    for (int i = 0; i < 50; ++i) {
        std::vector<bridge_string> strings;
        force<double> pull{}, lift{}, on_saddle{};
        for (int k = 0; k < 1 + i % 6; ++k) {
            strings.push_back(pinned(z(random), pin(random), t(random)));
            const auto& s = strings.back();
            const auto u = direction_between<double>(s.saddle, s.slot);
            pull += -u.x * s.tension;
            lift += u.z * s.tension;
            on_saddle += support_load(s.slot, s.saddle, s.anchor, s.tension).down();
        }
        const auto load = pinned_load(bridge, strings);
        CHECK(near::relative(load.shear, pull, 1e-12));
        CHECK(near::relative(load.down, -lift, 1e-9));
        CHECK(near::relative(load.saddle_down, on_saddle, 1e-12));
        CHECK(load.saddle_push > 0 * N);
        CHECK(near::relative(load.saddle_tipping, 3 * mm * load.saddle_push, 1e-12));
        CHECK(near::within(load.saddle_lean, atan2(load.saddle_push, load.saddle_down), 1e-9 * deg));
    }
}

TEST_CASE("the pin's distance for a wanted break gives that break") {
    for (const double wanted : {20.0, 30.0, 45.0}) {
        auto s = pinned(10, 700, 80);
        const auto fall = atan2(9 * mm, 690 * mm);
        const auto d = pin_distance(6 * mm, fall, wanted * deg);
        REQUIRE(d);
        s.anchor.x = s.saddle.x + *d;
        CHECK(near::within(support_load(s.slot, s.saddle, s.anchor, s.tension).break_angle, wanted * deg, 1e-9 * deg));
    }
    CHECK_FALSE(pin_distance(6 * mm, 2 * deg, 1 * deg));
    CHECK_FALSE(pin_distance(6 * mm, 2 * deg, 95 * deg));
}

TEST_CASE("a dual carries the derivative") {
    using D = dual<double, 1>;
    std::vector<basic_bridge_string<D>> one{over<D>(pinned(10, 700, 80))};
    one[0].saddle.z = length<D>::from_value(D::variable(0.010, 0));
    const auto at = [](double z) {
        return pinned_load(bridge, std::vector<bridge_string>{pinned(z * 1e3, 700, 80)}).turning.value();
    };
    const double h = 1e-6;
    CHECK(near::relative(pinned_load(over<D>(bridge), one).turning.value().partial[0],
                         (at(0.010 + h) - at(0.010 - h)) / (2 * h), 1e-6));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)pinned_load(bridge, std::vector<bridge_string>{pinned(-6, 700, 80)}),
                      "strings[0].saddle.z must be above the top: the saddle would be inside it.");
    CHECK_THROWS_AS((void)pinned_load(bridge, {}), invalid_input);
    CHECK_THROWS_AS((void)pin_distance(0 * mm, 1 * deg, 20 * deg), invalid_input);
}
