// Friction of strings on a metal saddle, by the pitches of the two sides.

#include <tautline/instrument/parts.hpp>
#include <tautline/supports/friction.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("T. Groves and J. A. Kemp, Archives of Acoustics (2019), abstract: on a metal saddle below 0.17 plain, below "
          "0.26 wound" *
          published::measured) {
    using namespace published_friction;
    // A ceiling, copied; over 30 degrees of saddle it holds back at most 1.093 and 1.146 times the tension.
    CHECK(
        published::within("most friction of a plain string on metal, a ceiling", plain_steel_on_saddle.most, 0.17, 1e-12));
    CHECK(
        published::within("most friction of a wound string on metal, a ceiling", wound_steel_on_saddle.most, 0.26, 1e-12));
    const auto most = [](const friction& f) { return tension_beyond(f, 100 * N, 30 * deg).most / (100 * N); };
    CHECK(near::within(most(plain_steel_on_saddle), 1.093, 0.0005));
    CHECK(near::within(most(wound_steel_on_saddle), 1.146, 0.0005));
    // 77 and 118 cents between the two sides.
    CHECK(near::within(tuning_dead_band(plain_steel_on_saddle, 30 * deg).most.cents(), 77, 0.5));
    CHECK(near::within(tuning_dead_band(wound_steel_on_saddle, 30 * deg).most.cents(), 118, 0.5));
    // What a saddle has unless told otherwise is metal on wood, which no string on metal showed: it says so where it
    // stands.
    CHECK(published::within("default of a saddle, disagrees: it is metal on wood", saddle().friction.most, 0.26, 0.4));
    CHECK(saddle().friction.most > wound_steel_on_saddle.most);
    CHECK(metal_on_wood.most > 2 * wound_steel_on_saddle.most);
}
