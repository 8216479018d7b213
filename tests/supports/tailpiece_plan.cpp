#include <tautline/supports/tailpiece_plan.hpp>

#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
struct arrangement {
    std::vector<point> slots{};
    std::vector<tail_string> strings{};
    arrangement() {
        for (int i = 0; i < 4; ++i) {
            const double y = -15 + 10 * i;
            slots.push_back({.x = 0 * mm, .y = 0.6 * y * mm, .z = 1.5 * mm});
            strings.push_back({.saddle = {.x = 560 * mm, .y = y * mm, .z = (14 - 0.005 * y * y) * mm},
                               .across = 0.9 * y * mm,
                               .tension = (90 - 12 * i) * N});
        }
    }
};
const hinged_tailpiece hinged{.hinge_x = 760 * mm, .hinge_z = 0 * mm, .reach = 90 * mm};
const rigid_tailpiece rigid{.x = 660 * mm, .z = 0 * mm};
} // namespace

TEST_CASE("a wanted down-force comes back from the planned height, hinged and rigid") {
    const arrangement a;
    for (const double wanted : {40.0, 60.0, 80.0}) {
        const auto plan = anchor_for_down_force(hinged, a.slots, a.strings, wanted * N, -60 * mm, 10 * mm);
        REQUIRE(plan.reachable);
        auto there = hinged;
        there.hinge_z = plan.height;
        std::vector<basic_support_load<double>> loads(4);
        (void)saddle_loads(there, a.slots, a.strings, loads);
        CHECK(near::within(total_force<double>(loads).down(), wanted * N, 1e-9 * N));
        const auto fixed = anchor_for_down_force(rigid, a.slots, a.strings, wanted * N, -60 * mm, 10 * mm);
        REQUIRE(fixed.reachable);
        force<double> sum{};
        for (std::size_t i = 0; i < 4; ++i) {
            sum += saddle_load(a.slots[i], a.strings[i].saddle,
                               {.x = 660 * mm, .y = a.strings[i].across, .z = fixed.height}, a.strings[i].tension)
                       .down();
        }
        CHECK(near::within(sum, wanted * N, 1e-9 * N));
        CHECK(fixed.height > plan.height); // the bar is nearer than the hinge: it need not be as low
    }
}

TEST_CASE("from any height near or far the same hanger is found, and the same end of the range where there is none") {
    const arrangement a;
    kernel::anchor_room<double, hinged_tailpiece> room; // used again
    const length<> lowest = -60 * mm, highest = 10 * mm;
    for (const double wanted : {5.0, 40.0, 60.0, 80.0, 500.0}) {
        const auto plain = anchor_for_down_force(hinged, a.slots, a.strings, wanted * N, lowest, highest);
        CHECK(plain.reachable == (wanted > 10 && wanted < 400));
        for (const double from : {-2000.0, -60.0, -30.0, -10.0, 0.0, 10.0, 300.0}) {
            CAPTURE(wanted);
            CAPTURE(from);
            const length<> near_it = from * mm;
            const auto plan = kernel::anchor_for_down_force<hinged_tailpiece, double>(
                hinged, a.slots, a.strings, force<>(wanted * N), lowest, highest, room, &near_it);
            CHECK(plan.reachable == plain.reachable);
            CHECK(near::within(plan.height, plain.height, 1e-12 * mm));
            CHECK(near::within(plan.down, plain.down, 1e-10 * N));
        }
    }
}

TEST_CASE("a wanted break comes back, and more break wants a lower anchor") {
    const arrangement a;
    const auto small = anchor_for_break(hinged, a.slots, a.strings, 8 * deg, -60 * mm, 20 * mm);
    const auto large = anchor_for_break(hinged, a.slots, a.strings, 14 * deg, -60 * mm, 20 * mm);
    REQUIRE(small.reachable);
    REQUIRE(large.reachable);
    CHECK(near::within(small.mean_break, 8 * deg, 1e-8 * deg));
    CHECK(near::within(large.mean_break, 14 * deg, 1e-8 * deg));
    CHECK(large.height < small.height);
}

TEST_CASE("out of reach comes back as such with the nearest") {
    const arrangement a;
    const auto more = anchor_for_down_force(hinged, a.slots, a.strings, 300 * N, -60 * mm, 10 * mm);
    CHECK_FALSE(more.reachable);
    CHECK(more.height == -60 * mm);
    CHECK(more.down < 300 * N);
    const auto less = anchor_for_down_force(hinged, a.slots, a.strings, 1 * N, -60 * mm, 0 * mm);
    CHECK_FALSE(less.reachable);
    CHECK(less.height == 0 * mm);
}

TEST_CASE("no anchor presses harder than T (1 + sin alpha)") {
    const point slot{.x = 0 * mm, .z = 2 * mm}, saddle{.x = 600 * mm, .z = 40 * mm};
    const auto limit = down_force_limit(slot, saddle, 70 * N);
    CHECK(near::relative(limit, 70 * (1 + 38 / std::hypot(600, 38)) * N, 1e-12));
    for (int z = -3000; z <= 0; z += 250) {
        CHECK(support_load(slot, saddle, {.x = 601 * mm, .z = z * mm}, 70 * N).down() < limit);
    }
}

TEST_CASE("a dual carries the derivative through both searches") {
    const auto height = [](auto t) {
        using R = real_of_t<decltype(t)>;
        const arrangement a;
        std::vector<basic_point<R>> slots;
        std::vector<basic_tail_string<R>> strings;
        for (std::size_t i = 0; i < 4; ++i) {
            slots.push_back(over<R>(a.slots[i]));
            strings.push_back(over<R>(a.strings[i]));
        }
        strings[0].tension = t;
        return anchor_for_down_force(over<R>(hinged), slots, strings, over<R>(60 * N), over<R>(-60 * mm), over<R>(10 * mm))
            .height.value();
    };
    using D = dual<double, 1>;
    const double h = 1e-3, by_difference = (height((90 + h) * N) - height((90 - h) * N)) / (2 * h);
    CHECK(near::relative(height(force<D>::from_value(D::variable(90, 0))).partial[0], by_difference, 1e-5));
}

TEST_CASE("bad input is named") {
    const arrangement a;
    auto beyond = hinged;
    beyond.hinge_x = 640 * mm;
    CHECK_THROWS_WITH((void)anchor_for_down_force(beyond, a.slots, a.strings, 50 * N, -60 * mm, 0 * mm),
                      "strings[0].saddle.x must be before the tailpiece: the bridge stands beyond it.");
    CHECK_THROWS_AS((void)anchor_for_down_force(hinged, a.slots, a.strings, 50 * N, 0 * mm, -60 * mm), invalid_input);
    CHECK_THROWS_AS((void)anchor_for_down_force(hinged, {}, {}, 50 * N, -60 * mm, 0 * mm), invalid_input);
    auto slack = a;
    slack.strings[2].tension = 0 * N;
    CHECK_THROWS_AS((void)anchor_for_break(hinged, slack.slots, slack.strings, 10 * deg, -60 * mm, 0 * mm), invalid_input);
}
