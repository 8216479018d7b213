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
    // A ceiling: 30 degrees of saddle hold back at most 1.093 and 1.146 times the tension, 77 and 118 cents.
    const auto most = [](const friction& f) { return tension_beyond(f, 100 * N, 30 * deg).most / (100 * N); };
    CHECK(published::within("most ratio of the tensions, plain", most(plain_steel_on_saddle),
                            std::exp(0.17 * std::numbers::pi / 6), 1e-9));
    CHECK(published::within("most ratio of the tensions, wound", most(wound_steel_on_saddle),
                            std::exp(0.26 * std::numbers::pi / 6), 1e-9));
    // Two strings of tensions T and T exp(mu theta) of one length lie 1200 log2 sqrt of that apart.
    CHECK(published::within("most between the two sides, plain, cents",
                            tuning_dead_band(plain_steel_on_saddle, 30 * deg).most.cents(),
                            600 * std::log2(std::exp(0.17 * std::numbers::pi / 6)), 1e-9));
    // What a saddle has unless told otherwise is metal on wood, which no string on metal showed: it says so where it
    // stands.
    CHECK(published::within("default of a saddle, disagrees: it is metal on wood", saddle{}.friction.most, 0.26, 0.4));
    CHECK(saddle{}.friction.most > wound_steel_on_saddle.most);
    CHECK(metal_on_wood.most > 2 * wound_steel_on_saddle.most);
}
