#include <tautline/action/height_plan.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const string_line now{.nut_x = 0 * mm, .nut_z = 1.8 * mm, .saddle_x = 560 * mm, .saddle_z = 7 * mm};
}

TEST_CASE("property: both wanted heights come back from the planned line") {
    std::mt19937 random(101);
    std::uniform_real_distribution<double> low(0.1, 0.8), high(0.8, 4), crest(0.6, 1.4);
    for (int i = 0; i < 100; ++i) {
        const height_wish first{.x = 31 * mm, .crest = crest(random) * mm, .wanted = low(random) * mm};
        const height_wish action{.x = 280 * mm, .crest = crest(random) * mm, .wanted = high(random) * mm};
        const auto plan = plan_heights(now, first, action, 0.3 * mm);
        CHECK(near::within(height_over(plan.line, first.x, first.crest), first.wanted, 1e-12 * mm));
        CHECK(near::within(height_over(plan.line, action.x, action.crest), action.wanted, 1e-12 * mm));
        CHECK(near::within(now.nut_z + plan.slot_change, plan.line.nut_z, 1e-12 * mm));
        CHECK(near::within(now.saddle_z + plan.saddle_change, plan.line.saddle_z, 1e-12 * mm));
    }
}

TEST_CASE("lowering the action at the octave by one lowers the saddle by two when the slot stays") {
    const auto at_octave = height_over(now, 280 * mm, 1 * mm);
    const auto plan = plan_saddle_height(now, {.x = 280 * mm, .crest = 1 * mm, .wanted = at_octave - 0.5 * mm}, 0.3 * mm);
    CHECK(near::within(plan.saddle_change, -1 * mm, 1e-12 * mm));
    CHECK(plan.slot_change == 0 * mm);
    CHECK(plan.line.nut_z == now.nut_z);
}

TEST_CASE("a dual carries the derivative") {
    using D = dual<double, 1>;
    basic_height_wish<D> action{
        .x = length<D>(280 * mm), .crest = length<D>(1 * mm), .wanted = length<D>::from_value(D::variable(0.002, 0))};
    CHECK(near::relative(plan_saddle_height(over<D>(now), action, 0.3 * mm).saddle_change.value().partial[0], 2, 1e-12));
}

TEST_CASE("bad input is named") {
    const height_wish first{.x = 31 * mm, .crest = 1 * mm, .wanted = 0.2 * mm};
    CHECK_THROWS_WITH((void)plan_heights(now, first, {.x = 280 * mm, .crest = 1 * mm, .wanted = 0.5 * mm}, 1.2 * mm),
                      "action.wanted must be at least half the string's gauge: the string would rattle on the fret at the "
                      "softest touch.");
    CHECK_THROWS_AS((void)plan_heights(now, {.x = 31 * mm, .crest = 1 * mm, .wanted = 0 * mm},
                                       {.x = 280 * mm, .crest = 1 * mm, .wanted = 2 * mm}, 1 * mm),
                    invalid_input);
    CHECK_THROWS_AS((void)plan_heights(now, {.x = 300 * mm, .crest = 1 * mm, .wanted = 1 * mm},
                                       {.x = 280 * mm, .crest = 1 * mm, .wanted = 2 * mm}, 1 * mm),
                    invalid_input);
    CHECK_THROWS_AS((void)plan_saddle_height(now, {.x = 580 * mm, .crest = 1 * mm, .wanted = 2 * mm}, 1 * mm),
                    invalid_input);
    CHECK_THROWS_AS((void)plan_saddle_height(now, {.x = 280 * mm, .crest = 1 * mm, .wanted = 2 * mm}, 0 * mm),
                    invalid_input);
}

TEST_CASE("line and wishes are looked at by both plans") {
    const height_wish first{.x = 31 * mm, .crest = 1 * mm, .wanted = 0.5 * mm};
    const height_wish action{.x = 280 * mm, .crest = 1 * mm, .wanted = 2 * mm};
    auto high = action;
    high.wanted = 31 * mm;
    const string_line none{.nut_x = 10 * mm, .nut_z = 0 * mm, .saddle_x = 10 * mm, .saddle_z = 0 * mm};
    CHECK_THROWS_WITH((void)plan_heights(none, first, action, 0.3 * mm), "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH((void)plan_saddle_height(none, action, 0.3 * mm), "string_line.saddle_x must be beyond the nut.");
    const char* const too_high = "action.wanted is 31 mm; it must be at least 0.001 mm and at most 30 mm.";
    CHECK_THROWS_WITH((void)plan_heights(now, first, high, 0.3 * mm), too_high);
    CHECK_THROWS_WITH((void)plan_saddle_height(now, high, 0.3 * mm), too_high);
}
