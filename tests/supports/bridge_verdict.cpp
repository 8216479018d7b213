#include <tautline/supports/bridge_verdict.hpp>

#include <cmath>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

// An invented bridge on a level top, 20 mm high, its feet from `front` to `back`.
floating_bridge feet_between(double front, double back, double rubs_at_feet = 0.3, double rubs_at_saddle = 0.2) {
    return {.front_edge = {.x = front * mm, .z = -8 * mm},
            .back_edge = {.x = back * mm, .z = -8 * mm},
            .bass_foot = -30 * mm,
            .treble_foot = 30 * mm,
            .saddle = {0, rubs_at_saddle},
            .foot = {rubs_at_feet, 0.9}};
}
std::vector<bridge_string> over_saddle(double tail_z, double slot_z = 1) {
    return {{.slot = {.x = 0 * mm, .z = slot_z * mm},
             .saddle = {.x = 600 * mm, .z = 12 * mm},
             .anchor = {.x = 720 * mm, .z = tail_z * mm},
             .tension = 80 * N}};
}

} // namespace

TEST_CASE("verdict: a string that bends alike on both sides presses straight down below the saddle") {
    // 12 mm of fall over 600 mm before, 2.4 mm over 120 mm behind: the same slope.
    const auto v = verdict_of(feet_between(594, 608, 0.3, 0), over_saddle(9.6, 0));
    CHECK(near::within(v.resultant.x, 600 * mm, 1e-9 * mm));
    CHECK(v.resultant.z == -8 * mm);
    CHECK(near::within(v.foremost.x, v.rearmost.x, 1e-9 * mm)); // nothing rubs at the saddle
    CHECK(v.stands());
}

TEST_CASE("verdict: it tips where the resultant passes an edge, slides where its slope is more than friction allows") {
    // By hand: forces of both sides with the tension behind e^(mu theta) times or by that, the line of the resultant
    // brought down 20 mm.
    const double before = std::atan2(11, 600), behind = std::atan2(42, 120), theta = before + behind;
    const auto at = [&](double mu) {
        const double t = std::exp(mu * theta), fx = -std::cos(before) + t * std::cos(behind),
                     down = std::sin(before) + t * std::sin(behind);
        return std::pair(600 + 20 * fx / down, fx / down);
    };
    const double nearest = at(-0.2).first, middle = at(0).first, farthest = at(0.2).first;
    const double toward_nut = -at(-0.2).second, toward_tail = at(0.2).second; // slopes
    REQUIRE(toward_nut > toward_tail);
    const auto strings = over_saddle(-30);
    const auto wide = verdict_of(feet_between(nearest - 1, farthest + 1, toward_nut + 0.01), strings);
    CHECK(near::within(wide.resultant.x, middle * mm, 1e-9 * mm));
    CHECK(near::within(wide.foremost.x, nearest * mm, 1e-9 * mm));
    CHECK(near::within(wide.rearmost.x, farthest * mm, 1e-9 * mm));
    CHECK(wide.stands());
    CHECK(near::within(resultant_on_top(feet_between(590, 610), wide.states.even).z, -8 * mm, 1e-12 * mm));

    const auto short_ahead = verdict_of(feet_between(nearest + 0.01, farthest + 1, 0.9), strings);
    CHECK(short_ahead.tips_toward_nut);
    CHECK_FALSE(short_ahead.tips_toward_tail);
    CHECK_FALSE(short_ahead.slides());
    CHECK_FALSE(short_ahead.stands());
    const auto short_behind = verdict_of(feet_between(nearest - 1, farthest - 0.01, 0.9), strings);
    CHECK(short_behind.tips_toward_tail);
    CHECK_FALSE(short_behind.tips_toward_nut);
    CHECK(short_behind.tips());

    const auto slippery = verdict_of(feet_between(nearest - 1, farthest + 1, toward_nut - 0.01), strings);
    CHECK(slippery.slides_toward_nut);
    CHECK(slippery.slides_toward_tail == (toward_tail > toward_nut - 0.01));
    CHECK_FALSE(slippery.tips());
    const auto icy = verdict_of(feet_between(nearest - 1, farthest + 1, 0), strings);
    CHECK(icy.slides_toward_nut);
    CHECK(icy.slides_toward_tail == (toward_tail > 0));
    CHECK_FALSE(icy.stands());
}

TEST_CASE("verdict: strings that lift it off hold nothing, and nothing else is said of it") {
    const auto v = verdict_of(feet_between(594, 608), over_saddle(60));
    CHECK(v.lifts);
    CHECK_FALSE(v.tips());
    CHECK_FALSE(v.slides());
    CHECK_FALSE(v.stands());
    CHECK_THROWS_WITH((void)resultant_on_top(feet_between(594, 608), v.states.even),
                      doctest::Contains("it must be more than 0 N."));
}

TEST_CASE("verdict: on a top that slopes the resultant lies on the top, on the line of the force") {
    auto bridge = feet_between(594, 608);
    bridge.back_edge.z = -9.4 * mm; // a slope of 1 in 10
    const auto strings = over_saddle(-30);
    const auto v = verdict_of(bridge, strings);
    const auto f = support_load(strings[0].slot, strings[0].saddle, strings[0].anchor, 80 * N).on_support;
    CHECK(near::within(v.resultant.z, -8 * mm - 0.1 * (v.resultant.x - 594 * mm), 1e-9 * mm));
    CHECK(near::within(600 * mm + (v.resultant.z - 12 * mm) * ratio(f.x, f.z), v.resultant.x, 1e-9 * mm));
    CHECK(v.foremost.x < v.resultant.x);
    CHECK(v.resultant.x < v.rearmost.x);
}

TEST_CASE("verdict: a dual carries the derivative of the place, bad input is named") {
    const auto place = [](auto tail) {
        using R = real_of_t<decltype(tail)>;
        std::vector<basic_bridge_string<R>> s{over<R>(over_saddle(-30)[0])};
        s[0].anchor.z = tail;
        return verdict_of(over<R>(feet_between(594, 608)), s).foremost.x.value();
    };
    using D = dual<double, 1>;
    const double h = 1e-6, by_difference = (place((-0.03 + h) * metre) - place((-0.03 - h) * metre)) / (2 * h);
    CHECK(near::relative(place(length<D>::from_value(D::variable(-0.03, 0))).partial[0], by_difference, 1e-6));
    CHECK_THROWS_WITH((void)verdict_of(feet_between(594, 608), {}), "strings must hold at least one string.");
    CHECK_THROWS_AS((void)verdict_of(feet_between(608, 594), over_saddle(-30)), invalid_input);
}
