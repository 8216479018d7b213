// Strings of a course whose slots are cut apart, at the nut and in one saddle's top.
#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("heights of a course's two strings") {
    TEST_CASE("a slot in the saddle that is cut deeper lowers its own string by its share along the string, no other") {
        auto o = ready_made::octave_mandolin();
        const setup before = solve(string_up(o));
        o.instrument.saddle.slot_offsets = {0 * mm, 0 * mm, -0.4 * mm, 0 * mm, 0 * mm, 0 * mm, 0 * mm, 0 * mm};
        const setup after = solve(string_up(o));
        for (std::size_t i = 0; i < 8; ++i) {
            const auto sunk = before.strings[i].line.saddle_z - after.strings[i].line.saddle_z;
            CHECK(near::within(sunk, i == 2 ? 0.4 * mm : 0 * mm, 1e-9 * mm));
            for (const std::size_t n : {0u, 11u, 18u}) {
                const auto lower = before.strings[i].heights[n] - after.strings[i].heights[n];
                const double share = before.fret_x[n] / before.strings[i].line.saddle_x;
                // The neck hardly bends otherwise for it.
                CHECK(near::within(lower, i == 2 ? 0.4 * share * mm : 0 * mm, 1e-3 * mm));
            }
        }
        CHECK(after.strings[2].at_saddle.down() < before.strings[2].at_saddle.down());
    }
    TEST_CASE("slots of the nut are each string's own as well") {
        auto o = ready_made::octave_mandolin();
        const setup before = solve(string_up(o));
        o.instrument.nut.slot_heights[5] = 1.1 * mm;
        const setup after = solve(string_up(o));
        CHECK(near::within(before.strings[5].heights[0] - after.strings[5].heights[0],
                           0.2 * (1 - before.fret_x[0] / before.strings[5].line.saddle_x) * mm, 1e-3 * mm));
        CHECK(near::within(before.strings[4].heights[0], after.strings[4].heights[0], 1e-3 * mm));
    }
    TEST_CASE("what is wrong with them is named") {
        instrument i = ready_made::octave_mandolin().instrument;
        i.saddle.slot_offsets = {0 * mm, 0 * mm};
        CHECK(validate(i).front().sentence() ==
              "saddle.slot_offsets must be one for each of the 8 strings, but there are 2.");
        i.saddle.slot_offsets.assign(8, 0 * mm);
        i.saddle.slot_offsets[7] = -0.1 * mm;
        CHECK(validate(i).front().sentence() ==
              "saddle.slot_offsets[7] must be 0 mm: the heights are told under the outermost strings.");
        i.saddle.slot_offsets[7] = 0 * mm;
        i.saddle.slot_offsets[3] = -4 * mm;
        CHECK(validate(i).front().field == "saddle.slot_offsets[3]");
    }
}
