#include <tautline/setup/tightest.hpp>

#include <doctest/doctest.h>
#include <tautline/setup/solve.hpp>

#include "demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("tightest") {
    TEST_CASE("no other place of a solved string is tighter, and none before is as tight") {
        const auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        for (const string_setup& one : s.strings) {
            const auto pressed = tightest(one), plucked = soonest_to_buzz(one);
            REQUIRE((pressed && plucked));
            for (std::size_t n = 0; n < one.clearances.size(); ++n) {
                CHECK(one.clearances[n].gap >= one.clearances[*pressed].gap);
                if (n < *pressed) { CHECK(one.clearances[n].gap > one.clearances[*pressed].gap); }
                CHECK(one.plucks[n].pull >= one.plucks[*plucked].pull);
                if (n < *plucked) { CHECK(one.plucks[n].pull > one.plucks[*plucked].pull); }
            }
        }
    }
    TEST_CASE("a fret that is worn low is tightest where the next one stands up") {
        auto worn = demo::four_course();
        for (auto& w : worn.frets.wear) { w = 0 * mm; }
        worn.frets.wear[4] = 0.15 * mm; // pressed at fret 5, fret 6 is near
        const auto s = solve(strung_instrument{worn, demo::unison_pairs()});
        for (const string_setup& one : s.strings) { CHECK(tightest(one) == 5); }
    }
    TEST_CASE("without frets there is no such place") {
        string_setup bare;
        CHECK_FALSE(tightest(bare));
        CHECK_FALSE(soonest_to_buzz(bare));
    }
}
