#include <tautline/supports/floating_bridge.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

// An invented bridge on a level top 20 mm below the saddle.
floating_bridge level_bridge() {
    return {.front_edge = {.x = 594 * mm, .z = -8 * mm},
            .back_edge = {.x = 608 * mm, .z = -8 * mm},
            .bass_foot = -30 * mm,
            .treble_foot = 30 * mm,
            .saddle = {0.1, 0.2},
            .foot = {0.3, 0.5}};
}
bridge_string string_at(double y, double t, double tail_z = -30) {
    return {.slot = {.x = 0 * mm, .y = 0.7 * y * mm, .z = 1 * mm},
            .saddle = {.x = 600 * mm, .y = y * mm, .z = 12 * mm},
            .anchor = {.x = 720 * mm, .y = y * mm, .z = tail_z * mm},
            .tension = t * N};
}
using strings = std::vector<bridge_string>;

} // namespace

TEST_CASE("one string in the middle: half on each foot, the resultant where the force line meets the top") {
    const strings one{string_at(0, 80)};
    const auto s = bridge_summary(level_bridge(), one);
    const auto load = support_load(one[0].slot, one[0].saddle, one[0].anchor, 80 * N);
    CHECK(near::relative(s.even.down, load.down(), 1e-12));
    CHECK(near::relative(s.even.push, load.on_support.x, 1e-12));
    CHECK(near::relative(s.even.bass_load, 0.5 * load.down(), 1e-12));
    // x_s + H F_x / D
    CHECK(near::within(s.even.front_margin, 6 * mm + 20 * mm * ratio(load.on_support.x, load.down()), 1e-9 * mm));
    CHECK(near::within(s.even.front_margin + s.even.back_margin, 14 * mm, 1e-9 * mm));
    CHECK(near::relative(s.even.friction_needed, std::abs(load.on_support.x / load.down()), 1e-12));
}

TEST_CASE("the best lean is on the bisector of the string's two sides") {
    for (const double tail : {-10.0, -30.0, -60.0}) {
        const strings one{string_at(0, 80, tail)};
        const auto stand = bridge_summary(level_bridge(), one).even;
        const auto u1 = direction_between<double>(one[0].saddle, one[0].slot);
        const auto u2 = direction_between<double>(one[0].saddle, one[0].anchor);
        const auto bisector = angle<double>::from_value(std::atan2(-(u1.x + u2.x), -(u1.z + u2.z)));
        CHECK(near::within(stand.best_lean, bisector, 1e-9 * deg));
        CHECK(stand.best_lean > 0 * deg); // more break behind than before: it leans back
    }
}

TEST_CASE("friction at the saddle shifts the resultant: slack behind pulls toward the nut, tight behind toward the tail") {
    const strings two{string_at(-10, 80), string_at(12, 60)};
    const auto s = bridge_summary(level_bridge(), two);
    CHECK(s.tail_slack.push < s.even.push);
    CHECK(s.even.push < s.tail_tight.push);
    CHECK(s.tail_slack.front_margin < s.even.front_margin);
    CHECK(s.even.front_margin < s.tail_tight.front_margin);
    CHECK(s.tip_margin() <= s.tail_slack.front_margin);
    CHECK(s.tip_margin() <= s.tail_tight.back_margin);
    CHECK(s.friction_needed() >= s.tail_slack.friction_needed);
    auto slippery = level_bridge();
    slippery.saddle = {0, 0};
    CHECK(near::relative(bridge_summary(slippery, two).tail_slack.down, s.even.down, 1e-12));
    CHECK(near::within(bridge_summary(slippery, two).tail_tight.push, s.even.push, 1e-12 * N));
}

TEST_CASE("the heavier side bears more") {
    const auto s = bridge_summary(level_bridge(), strings{string_at(-15, 90), string_at(15, 60)});
    CHECK(s.even.bass_load > s.even.treble_load);
    CHECK(near::relative(s.even.bass_load + s.even.treble_load, s.even.down, 1e-12));
}

TEST_CASE("property: mirrored across, the feet change places") {
    std::mt19937 random(51);
    std::uniform_real_distribution<double> y(-25, 25), t(20, 120);
    for (int i = 0; i < 50; ++i) {
        strings here, there;
        for (int k = 0; k < 1 + i % 6; ++k) {
            here.push_back(string_at(y(random), t(random)));
            auto m = here.back();
            m.slot.y = -m.slot.y;
            m.saddle.y = -m.saddle.y;
            m.anchor.y = -m.anchor.y;
            there.push_back(m);
        }
        const auto a = bridge_summary(level_bridge(), here).even, b = bridge_summary(level_bridge(), there).even;
        CHECK(near::within(a.bass_load, b.treble_load, 1e-9 * N));
        CHECK(near::within(a.front_margin, b.front_margin, 1e-9 * mm));
    }
}

TEST_CASE("property: on a sloping top only the frame turns") {
    // The whole of bridge, strings and tailpiece turned about the across axis through the front edge stands the same.
    const auto turned = [](point p, double a) {
        const auto dx = p.x - 594 * mm, dz = p.z + 8 * mm;
        p.x = 594 * mm + std::cos(a) * dx - std::sin(a) * dz;
        p.z = -8 * mm + std::sin(a) * dx + std::cos(a) * dz;
        return p;
    };
    const strings flat{string_at(-10, 80), string_at(12, 60)};
    const auto level = bridge_summary(level_bridge(), flat);
    for (const double a : {-0.15, -0.05, 0.1}) {
        auto bridge = level_bridge();
        bridge.back_edge = {.x = 594 * mm + 14 * std::cos(a) * mm, .z = -8 * mm + 14 * std::sin(a) * mm};
        strings sloping = flat;
        for (auto& s : sloping) { s = {turned(s.slot, a), turned(s.saddle, a), turned(s.anchor, a), s.tension}; }
        const auto s = bridge_summary(bridge, sloping);
        CHECK(near::relative(s.even.down, level.even.down, 1e-9));
        CHECK(near::relative(s.even.push, level.even.push, 1e-9));
        CHECK(near::within(s.tail_slack.front_margin, level.tail_slack.front_margin, 1e-9 * mm));
        CHECK(near::within(s.even.best_lean, level.even.best_lean, 1e-9 * deg));
        CHECK(near::relative(s.even.treble_load, level.even.treble_load, 1e-9));
    }
}

TEST_CASE("strings that lift a bridge off hold nothing") {
    const strings lifting{string_at(0, 80, 60)};
    const auto s = bridge_summary(level_bridge(), lifting);
    CHECK(s.even.down < 0 * N);
    CHECK_FALSE(feet_hold(level_bridge(), s));
    auto smooth = level_bridge();
    smooth.saddle = {0.05, 0.1};
    CHECK(feet_hold(smooth, bridge_summary(smooth, strings{string_at(0, 80)})));
    auto icy = smooth;
    icy.foot = {0.01, 0.5};
    CHECK_FALSE(feet_hold(icy, bridge_summary(icy, strings{string_at(0, 80)})));
}

TEST_CASE("a dual carries the derivative with respect to the saddle's height") {
    const auto margin = [](auto z) {
        using R = real_of_t<decltype(z)>;
        std::vector<basic_bridge_string<R>> s{over<R>(string_at(-10, 80)), over<R>(string_at(12, 60))};
        for (auto& one : s) { one.saddle.z = z; }
        return bridge_summary(over<R>(level_bridge()), s).tail_slack.front_margin.value();
    };
    using D = dual<double, 1>;
    const double h = 1e-6, by_difference = (margin((0.012 + h) * metre) - margin((0.012 - h) * metre)) / (2 * h);
    CHECK(near::relative(margin(length<D>::from_value(D::variable(0.012, 0))).partial[0], by_difference, 1e-6));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_AS((void)bridge_summary(level_bridge(), {}), invalid_input);
    auto beyond = string_at(0, 80);
    beyond.anchor.x = 590 * mm;
    CHECK_THROWS_WITH((void)bridge_summary(level_bridge(), strings{beyond}),
                      "strings[0].anchor.x must be beyond the saddle: the bridge stands beyond the tailpiece.");
    auto sunk = string_at(0, 80);
    sunk.saddle.z = -8 * mm;
    CHECK_THROWS_WITH((void)bridge_summary(level_bridge(), strings{string_at(0, 80), sunk}),
                      "strings[1].saddle.z must be above the top that the feet stand on.");
    auto swapped = level_bridge();
    swapped.bass_foot = 40 * mm;
    CHECK_THROWS_AS((void)bridge_summary(swapped, strings{string_at(0, 80)}), invalid_input);
    auto thin = level_bridge();
    thin.back_edge.x = 594 * mm;
    CHECK_THROWS_AS((void)bridge_summary(thin, strings{string_at(0, 80)}), invalid_input);
    auto rough = level_bridge();
    rough.saddle.least = -0.2;
    CHECK_THROWS_AS((void)bridge_summary(rough, strings{string_at(0, 80)}), invalid_input);
}
