// The strings' way over the head: rollers in slots, guides, and a tie block at the other end.
#include <cmath>
#include <numbers>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr double from_radians = 180 / std::numbers::pi;

strung_instrument slotted(double roller_mm, double depth_mm) {
    auto o = ready_made::nylon_strung();
    for (auto& post : o.instrument.posts) {
        post.roller = roller_mm * mm;
        post.height = -depth_mm * mm;
    }
    o.instrument.headstock.slot_start = 18 * mm;
    return string_up(o);
}
strung_instrument guided_bass(double height_mm, std::optional<double> across_mm = {}) {
    auto o = ready_made::solid_body_bass();
    for (auto& post : o.instrument.posts) {
        post.guide = string_guide{.along = 30 * mm, .height = height_mm * mm};
        if (across_mm) { post.guide->across = *across_mm * mm; }
    }
    return string_up(o);
}
bool tells(const setup& s, finding_kind kind) {
    for (const auto& f : s.findings) {
        if (f.kind == kind) { return true; }
    }
    return false;
}

} // namespace

TEST_SUITE("a slotted head") {
    TEST_CASE("the break at the nut is that of the tangent to the roller") {
        const auto on = slotted(10, 9);
        const auto& i = on.instrument;
        const setup s = solve(on);
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& one = s.strings[k];
            const auto& b = s.bridge_strings[k];
            // In the plane seen from the side, on a head that has risen but hardly turned: axis, then the tangent's fall
            // is that of the line to the axis less the angle under which half roller and half string are seen.
            const double pitch = i.headstock.pitch / rad, along = i.posts[k].along / mm, height = -9;
            const double axis_x = -(6 + std::cos(pitch) * along + std::sin(pitch) * height);
            const double axis_z =
                -4 - std::sin(pitch) * along + std::cos(pitch) * height + s.nut_rise / mm + axis_x * s.bow.slope.front();
            const double run = -axis_x, fall = b.slot.z / mm - axis_z, radius = 5 + 0.5 * (one.gauge / mm);
            const double down = std::atan2(fall, run) - std::asin(radius / std::hypot(run, fall));
            // The string runs sideways as well, which makes both sides less steep.
            const double tangent = std::sqrt(run * run + fall * fall - radius * radius);
            const double aside = (i.posts[k].across - b.slot.y) / mm;
            const double behind = std::atan(tangent * std::sin(down) / std::hypot(tangent * std::cos(down), aside));
            const double ahead = std::atan((b.saddle.z - b.slot.z) / hypot(b.saddle.x - b.slot.x, b.saddle.y - b.slot.y));
            CHECK(near::within(one.at_nut.down_break / deg, (behind - ahead) * from_radians, 1e-3));
            CHECK(near::within(distance_between(s.posts[k], {.x = axis_x * mm, .y = s.posts[k].y, .z = axis_z * mm}),
                               radius * mm, 1e-3 * mm));
            REQUIRE(one.at_guide);
            CHECK(near::within(one.at_guide->break_angle, 0 * rad, 1e-9 * rad));
        }
        CHECK_FALSE(tells(s, finding_kind::lies_on_slot_edge));
        CHECK_FALSE(tells(s, finding_kind::passes_untouched));
    }
    TEST_CASE("a roller deeper down steepens the break until the string lies on the edge of its slot") {
        const setup higher = solve(slotted(10, 6)), lower = solve(slotted(10, 9)), too_low = solve(slotted(8, 30));
        for (std::size_t k = 0; k < higher.strings.size(); ++k) {
            CHECK(higher.strings[k].at_nut.down_break < lower.strings[k].at_nut.down_break);
        }
        CHECK(tells(too_low, finding_kind::lies_on_slot_edge));
        for (const auto& one : too_low.strings) {
            CHECK(one.at_guide->on_support.z < 0 * N); // it presses the wood
        }
        // Lying there it breaks over the nut toward the edge alone, whatever the roller does.
        const setup deeper = solve(slotted(8, 35));
        CHECK(near::within(too_low.strings[2].at_nut.down_break, deeper.strings[2].at_nut.down_break, 2e-3 * rad));
    }
    TEST_CASE("nut, edge and post together bear what the string pulls") {
        const setup s = solve(slotted(8, 30));
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& one = s.strings[k];
            const auto& b = s.bridge_strings[k];
            const auto u = direction_between<double>(b.slot, b.saddle);
            const auto all = one.at_nut.on_support + one.at_guide->on_support + one.at_guide->on_anchor;
            CHECK(near::within(all.x, u.x * one.tension, 1e-9 * N));
            CHECK(near::within(all.y, u.y * one.tension, 1e-9 * N));
            CHECK(near::within(all.z, u.z * one.tension, 1e-9 * N));
        }
    }
}

TEST_SUITE("guides on the head") {
    TEST_CASE("a guide seats a string that runs off flat, and is lifted by what it bends it") {
        const setup s = solve(guided_bass(1)), without = solve(string_up(ready_made::solid_body_bass()));
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& one = s.strings[k];
            CHECK(one.at_nut.down() > without.strings[k].at_nut.down());
            REQUIRE(one.at_guide);
            CHECK(one.at_guide->on_support.z > 0 * N);
            CHECK(near::within(one.at_guide->on_support.y, 0 * N, 1e-9 * N)); // a bar bears nothing along itself
            CHECK(near::within(s.behind_nut[k].x, -38 * mm, 1e-9 * mm));
            CHECK_FALSE(without.strings[k].at_guide.has_value());
            // All else of the setup is before the nut and stays.
            CHECK(near::within(one.tension, without.strings[k].tension, 1e-12 * N));
            CHECK(near::within(one.at_saddle.down(), without.strings[k].at_saddle.down(), 1e-9 * N));
        }
    }
    TEST_CASE("a guide that is too high does nothing and is told") {
        const setup s = solve(guided_bass(20)), without = solve(string_up(ready_made::solid_body_bass()));
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            CHECK(near::within(s.strings[k].at_nut.down(), without.strings[k].at_nut.down(), 1e-9 * N));
            CHECK(near::within(s.strings[k].at_guide->on_support.size(), 0 * N, 1e-9 * N));
        }
        CHECK(tells(s, finding_kind::passes_untouched));
        CHECK_FALSE(tells(solve(guided_bass(1)), finding_kind::passes_untouched));
    }
    TEST_CASE("a guide with a place across turns the string sideways at nut and guide") {
        const setup bar = solve(guided_bass(1)), held = solve(guided_bass(1, -25.0));
        CHECK(near::within(held.behind_nut[3].y, -25 * mm, 1e-12 * mm));
        CHECK(tautline::abs(held.strings[3].at_nut.side_angle) > tautline::abs(bar.strings[3].at_nut.side_angle));
        CHECK(held.strings[3].at_guide->on_support.y > 1 * N);
        CHECK_FALSE(tells(held, finding_kind::strings_cross)); // all under one place: none crosses another there
    }
}

TEST_SUITE("a tie block") {
    TEST_CASE("hole and distance decide the break: the string lies against the upper edge of its hole") {
        auto o = ready_made::nylon_strung();
        o.instrument.pins.reset();
        o.instrument.tie_block = tie_block{.distance = 12 * mm,
                                           .hole_height = 4 * mm,
                                           .hole_diameter = 2 * mm,
                                           .spread = 58 * mm,
                                           .top_thickness = 2.4 * mm,
                                           .saddle_exposed = 4 * mm};
        const auto on = string_up(o);
        const auto& i = on.instrument;
        const setup s = solve(on);
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            const auto& b = s.bridge_strings[k];
            const double half = 0.5 * (s.strings[k].gauge / mm);
            const double fall = (b.saddle.z + i.saddle.board_line) / mm - (4 + 1 - half);
            const double behind = (660 - b.saddle.x / mm);
            const double ahead = std::atan((b.saddle.z - b.slot.z) / (b.saddle.x - b.slot.x));
            CHECK(near::within(s.strings[k].at_saddle.down_break, (std::atan(fall / behind) + ahead) * rad, 1e-3 * rad));
        }
        // The loop of the tie lifts every string, and the break is less.
        o.instrument.tie_block->loop_lift = 1.5 * mm;
        const setup lifted = solve(string_up(o));
        for (std::size_t k = 0; k < s.strings.size(); ++k) {
            CHECK(lifted.strings[k].at_saddle.down() < s.strings[k].at_saddle.down());
            CHECK(near::within(lifted.bridge_strings[k].anchor.z - s.bridge_strings[k].anchor.z, 1.5 * mm, 1e-9 * mm));
        }
    }
    TEST_CASE("its bridge is turned and sheared as pins as far behind would have it") {
        auto tied = ready_made::nylon_strung();
        tied.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                                .turn_stiffness = field<rotational_stiffness<>>(900 * N_m / rad),
                                                .saddle_ahead = 0 * mm,
                                                .saddle_height = 10 * mm};
        auto pinned = tied;
        const auto& p = *tied.instrument.pins;
        tied.instrument.tie_block = tie_block{.distance = p.distance,
                                              .hole_height = p.height,
                                              .hole_diameter = 4 * mm,
                                              .spread = p.spread,
                                              .top_thickness = p.top_thickness,
                                              .saddle_exposed = p.saddle_exposed};
        tied.instrument.pins.reset();
        const setup a = solve(string_up(tied)), b = solve(string_up(pinned));
        REQUIRE(a.pinned);
        REQUIRE(a.top);
        CHECK(near::relative(a.pinned->turning, b.pinned->turning, 1e-9));
        CHECK(near::relative(a.pinned->shear, b.pinned->shear, 1e-9));
        CHECK(near::relative(a.top->sink, b.top->sink, 1e-9));
        CHECK(near::relative(*a.top_force, *b.top_force, 1e-9));
        CHECK(a.down_force < 0.95 * b.down_force); // the strings lie at their holes' upper edges
    }
}
