#include <tautline/setup/under_strings.hpp>

#include <doctest/doctest.h>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("under strings") {
    TEST_CASE("the least of all strings, open and pressed at the last fret") {
        const auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        const named_object guard{.name = "guard", .shape = {.x = 430 * mm, .z = -4 * mm, .extent = 30 * mm}};
        const auto seat = under_strings(s, guard);
        length<> open = 1 * metre, pressed = 1 * metre;
        for (const auto& one : s.strings) {
            for (const length<>& x : {length<>(415 * mm), length<>(445 * mm)}) {
                const auto at = [&](length<> x0, length<> z0) {
                    return length<>(z0 + (one.line.saddle_z - z0) * ((x - x0) / (one.line.saddle_x - x0)) + 4 * mm);
                };
                open = std::min(open, at(one.line.nut_x, one.line.nut_z));
                pressed = std::min(pressed, at(s.fret_x.back(), one.crest_z.back()));
            }
        }
        CHECK(near::within(seat.open, open, 1e-9 * mm));
        REQUIRE(seat.pressed);
        CHECK(near::within(*seat.pressed, pressed, 1e-9 * mm));
        CHECK(*seat.pressed < seat.open);
    }
    TEST_CASE("an object turned as it is told lies along the strings: both edges clear them alike") {
        const auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        named_object guard{.name = "guard", .shape = {.x = 430 * mm, .z = -4 * mm, .extent = 30 * mm}};
        const auto seat = under_strings(s, guard);
        guard.shape.along = seat.along;
        guard.shape.across = seat.across;
        const auto again = under_strings(s, guard);
        CHECK(near::within(again.along, seat.along, 1e-9 * rad));
        length<> front{}, back{};
        for (const auto& one : s.strings) {
            const auto c = object_clearance(guard.shape, one.line);
            front += c.front;
            back += c.back;
        }
        CHECK(near::within(front, back, 1e-6 * mm));
    }
    TEST_CASE("no frets, nothing is pressed; no strings are refused") {
        auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        const named_object guard{.name = "guard", .shape = {.x = 430 * mm, .z = -4 * mm, .extent = 30 * mm}};
        s.fret_x.clear();
        CHECK_FALSE(under_strings(s, guard).pressed);
        s.strings.clear();
        CHECK_THROWS_AS((void)under_strings(s, guard), invalid_input);
    }
}
