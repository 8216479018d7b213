// A bridge on a solid body: statics derived by hand, and the limits of a glued bridge.
#include <cmath>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
/// One string along the centre line, so that all lies in one plane.
strung_instrument one_string() {
    auto o = ready_made::solid_body_bass();
    instrument& i = o.instrument;
    i.nut.spacing = {.spread = 0 * mm, .courses = {1}};
    i.nut.slot_heights = {1.7 * mm};
    i.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
    i.saddle.radius.reset();
    i.posts = {{.along = 60 * mm, .across = 0 * mm, .height = 5 * mm}};
    i.body_bridge = body_bridge{.distance = 30 * mm, .height = 2 * mm, .spread = 0 * mm};
    o.strings = {o.strings[1]};
    return string_up(o);
}
strung_instrument whole() { return string_up(ready_made::solid_body_bass()); }
} // namespace

TEST_SUITE("a bridge on a solid body") {
    TEST_CASE("one string breaks by the sum of its two slopes and presses with 2 T sin(half of that)") {
        const auto on = one_string();
        const auto& i = on.instrument;
        const setup s = solve(on);
        const auto& one = s.strings.front();
        // Heights of the axis over the body's face, from the measures alone; the nut has risen under load.
        const double half = one.gauge / mm / 2;
        const double saddle = i.saddle.height_bass / mm + half;
        const double edge = i.body_bridge->height / mm + half; // the string lies on the edge with its underside
        const double nut = (i.saddle.board_line + i.nut.slot_height(0) + s.nut_rise) / mm + half;
        const double ahead = (i.board.scale.scale_length + i.saddle.setback_bass) / mm;
        const double behind = (i.body_bridge->distance - i.saddle.setback_bass) / mm;
        const double speaking_side = std::atan((saddle - nut) / ahead), after = std::atan((saddle - edge) / behind);
        CHECK(near::within(one.at_saddle.break_angle, (speaking_side + after) * rad, 1e-9 * rad));
        CHECK(near::within(one.at_saddle.down_break, (speaking_side + after) * rad, 1e-9 * rad));
        CHECK(
            near::relative(one.at_saddle.on_support.size(), 2 * std::sin((speaking_side + after) / 2) * one.tension, 1e-9));
        // Downward each side pulls by its own slope; along, what the steeper one lacks.
        CHECK(near::relative(one.at_saddle.down(), (std::sin(speaking_side) + std::sin(after)) * one.tension, 1e-9));
        CHECK(near::within(s.push_along, (std::cos(after) - std::cos(speaking_side)) * one.tension, 1e-7 * N));
        CHECK(near::relative(s.anchor_pull.size(), one.tension, 1e-12));
    }
    TEST_CASE("nothing gives, stands or is pressed: no top, no feet, no pins in the results") {
        const setup s = solve(whole());
        CHECK_FALSE(s.top_force.has_value());
        CHECK_FALSE(s.top.has_value());
        CHECK_FALSE(s.pinned.has_value());
        CHECK_FALSE(s.standing.has_value());
        CHECK_FALSE(s.tailpiece_rise.has_value());
        CHECK(s.down_force > 0 * N);
    }
    TEST_CASE("a setup that is solved over one with a soundboard keeps nothing of it") {
        setup s;
        solve(string_up(ready_made::flat_top()), s);
        REQUIRE(s.top_force.has_value());
        REQUIRE(s.pinned.has_value());
        solve(whole(), s);
        CHECK_FALSE(s.top_force.has_value());
        CHECK_FALSE(s.pinned.has_value());
    }
    TEST_CASE("where the string runs straight on behind the saddle nothing presses it down; higher, it lifts") {
        auto on = one_string();
        const setup before = solve(on);
        const auto& line = before.strings.front().line;
        const length<> axis = on.instrument.saddle.height_bass + 0.5 * before.strings.front().gauge;
        const double slope = (line.saddle_z - line.nut_z) / line.saddle_x;
        const length<> straight = axis + slope * (on.instrument.body_bridge->distance - on.instrument.saddle.setback_bass);
        // Over the edge, too, the axis is half a gauge up.
        on.instrument.body_bridge->height = straight - 0.5 * before.strings.front().gauge;
        CHECK(near::within(solve(on).strings.front().at_saddle.down(), 0 * N, 1e-6 * N));
        on.instrument.body_bridge->height = straight - 0.5 * before.strings.front().gauge + 0.1 * mm;
        const setup s = solve(on);
        CHECK(s.strings.front().at_saddle.down() < 0 * N);
        bool said = false;
        for (const finding& f : s.findings) { said = said || f.kind == finding_kind::lifts_off_saddle; }
        CHECK(said);
    }
    TEST_CASE("no finding of it speaks of a soundboard") {
        auto on = whole();
        // Everything amiss at once: strings up at the nut, no break, a neck in back-bow.
        on.instrument.body_bridge->height = 16 * mm;
        on.instrument.neck.rod_pull = 2500 * N;
        const setup s = solve(on);
        REQUIRE(s.findings.size() > 4);
        for (const finding& f : s.findings) {
            const std::string said = sentence_of(f, s.names);
            CAPTURE(said);
            CHECK(said.find("soundboard") == std::string::npos);
        }
    }
    TEST_CASE("the lower the edge and the nearer it is, the more the saddle bears") {
        auto on = whole();
        const auto down = [&](double distance, double height) {
            on.instrument.body_bridge->distance = distance * mm;
            on.instrument.body_bridge->height = height * mm;
            return solve(on).down_force;
        };
        CHECK(down(36, 3) > down(36, 6));
        CHECK(down(36, -10) > down(36, 3));
        CHECK(down(25, 3) > down(36, 3));
    }
}
