#include <tautline/supports/bridge.hpp>
#include <tautline/supports/nut.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("behind a pinned saddle the pin's place sets the break") {
    const point slot{.x = 0 * mm, .y = 0 * mm, .z = 1 * mm}, saddle{.x = 640 * mm, .y = 0 * mm, .z = 12 * mm};
    const auto near_pin = saddle_load(slot, saddle, {.x = 646 * mm, .z = 6 * mm}, 80 * N);
    const auto far_pin = saddle_load(slot, saddle, {.x = 656 * mm, .z = 6 * mm}, 80 * N);
    CHECK(near::within(near_pin.break_angle, 45 * deg + atan2(11 * mm, 640 * mm), 1e-9 * deg));
    CHECK(near_pin.down() > far_pin.down());
}

TEST_CASE("behind a floating bridge every string breaks over to the hinged bar") {
    const hinged_tailpiece tail{.hinge_x = 840 * mm, .hinge_z = -30 * mm, .reach = 90 * mm};
    std::vector<point> slots;
    std::vector<tail_string> strings;
    for (int i = 0; i < 4; ++i) {
        const double y = -15 + 10 * i;
        slots.push_back({.x = 0 * mm, .y = 0.6 * y * mm, .z = 1.5 * mm});
        strings.push_back({.saddle = {.x = 640 * mm, .y = y * mm, .z = (14 - 0.005 * y * y) * mm},
                           .across = y * mm,
                           .tension = (60 + 5 * i) * N});
    }
    std::vector<basic_support_load<double>> loads(4);
    const auto rise = saddle_loads(tail, slots, strings, loads);
    force<double> sum{};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto alone =
            saddle_load(slots[i], strings[i].saddle, tailpiece_point(tail, rise, strings[i].across), strings[i].tension);
        CHECK(near::relative(loads[i].down(), alone.down(), 1e-12));
        CHECK(loads[i].break_angle > 10 * deg);
        sum += loads[i].down();
    }
    CHECK(near::relative(total_force<double>(loads).down(), sum, 1e-12));
    // More height at the bridge: more break, more down-force on every string.
    auto raised = strings;
    for (auto& s : raised) { s.saddle.z = s.saddle.z + 2 * mm; }
    std::vector<basic_support_load<double>> more(4);
    (void)saddle_loads(tail, slots, raised, more);
    for (std::size_t i = 0; i < 4; ++i) { CHECK(more[i].down() > loads[i].down()); }
    more.pop_back();
    CHECK_THROWS_AS((void)saddle_loads(tail, slots, raised, more), invalid_input);
}

TEST_CASE("property: whatever the geometry, the forces on posts, nut, bridge and tailpiece sum to zero") {
    std::mt19937 random(91);
    std::uniform_real_distribution<double> place(-1, 1);
    for (int i = 0; i < 100; ++i) {
        const hinged_tailpiece tail{
            .hinge_x = (820 + 30 * place(random)) * mm, .hinge_z = (-20 + 20 * place(random)) * mm, .reach = 90 * mm};
        const headstock head{.pitch = (12 + 10 * place(random)) * deg, .face_start = 5 * mm, .face_drop = 2 * mm};
        std::vector<point> slots;
        std::vector<tail_string> strings;
        basic_support_force<double> sum;
        for (int k = 0; k < 1 + i % 8; ++k) {
            slots.push_back({.x = place(random) * mm, .y = 20 * place(random) * mm, .z = 2 * place(random) * mm});
            strings.push_back({.saddle = {.x = (600 + 3 * place(random)) * mm,
                                          .y = 30 * place(random) * mm,
                                          .z = (14 + 5 * place(random)) * mm},
                               .across = 30 * place(random) * mm,
                               .tension = (80 + 40 * place(random)) * N});
            const auto at_nut =
                nut_load(slots.back(), strings.back().saddle, head,
                         {.along = (80 + 60 * place(random)) * mm, .across = 30 * place(random) * mm, .height = 5 * mm},
                         strings.back().tension);
            sum += at_nut.on_support + at_nut.on_anchor;
        }
        std::vector<basic_support_load<double>> loads(strings.size());
        (void)saddle_loads(tail, slots, strings, loads);
        sum += total_force<double>(loads) + total_anchor_pull<double>(loads);
        CHECK(near::within(sum.size(), 0 * N, 1e-10 * N));
        // Not trivially: each share is tens of newtons and more.
        CHECK(total_anchor_pull<double>(loads).size() > 35 * N);
        // The end block is pulled toward the nut.
        CHECK(total_anchor_pull<double>(loads).x < 0 * N);
    }
}
