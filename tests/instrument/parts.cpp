#include <tautline/instrument/parts.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("instrument parts") {
    TEST_CASE("a saddle's arc must reach under the string that stands furthest from the centre line") {
        saddle s{.spacing = {.spread = 52 * mm},
                 .height_bass = 18 * mm,
                 .height_treble = 18 * mm,
                 .radius = 30 * mm,
                 .setback_bass = 0 * mm,
                 .setback_treble = 0 * mm,
                 .board_line = 9 * mm};
        const auto told = [&](double offset) {
            s.spacing.offset = offset * mm;
            std::string all;
            for (const auto& p : validate(s, "saddle")) { all += p.field; }
            return all;
        };
        // 26 mm to each side of the middle of the strings, which stands 4 mm off at most for a radius of 30 mm.
        for (const double off : {0.0, 3.9, -3.9}) { CHECK(told(off).empty()); }
        for (const double off : {4.1, -4.1, 10.0, -10.0}) { CHECK(told(off) == "saddle.radius"); }
        s.radius = 36.1 * mm;
        CHECK(told(-10).empty());
        s.radius.reset();
        CHECK(told(-10).empty());
    }
}
