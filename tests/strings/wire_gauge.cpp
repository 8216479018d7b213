#include <tautline/strings/wire_gauge.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("wire gauge: sizes grow one way only, and nearest finds its own size") {
    for (int n = -5; n < 26; ++n) {
        CHECK(music_wire_gauge_diameter(n) < music_wire_gauge_diameter(n + 1));
        CHECK(nearest_music_wire_gauge(music_wire_gauge_diameter(n) * 1.001) == n);
    }
    CHECK(nearest_music_wire_gauge(1 * metre) == 26);
    CHECK(nearest_music_wire_gauge(0.001 * mm) == -5);
    static_assert(awg_diameter(36) / inch > 0.00499999 && awg_diameter(36) / inch < 0.00500001);
}

TEST_CASE("wire gauge: numbers outside the tables are refused") {
    CHECK_THROWS_AS((void)awg_diameter(-4), invalid_input);
    CHECK_THROWS_AS((void)awg_diameter(57), invalid_input);
    CHECK_THROWS_AS((void)music_wire_gauge_diameter(-6), invalid_input);
    CHECK_THROWS_AS((void)music_wire_gauge_diameter(27), invalid_input);
    CHECK_THROWS_AS((void)nearest_music_wire_gauge(0.0 * mm), invalid_input);
}
