#include <tautline/neck/loaded_frets.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
bow strung() { return bend(make_beam(demo::plain_neck()), demo::strings()); }
} // namespace

TEST_CASE("loaded crests rise by the neck's deflection where they stand; past the joint they stay") {
    const auto b = strung();
    const auto crests = demo::crests();
    const auto loaded = loaded_crests(b, crests);
    for (std::size_t i = 0; i < crests.size(); ++i) {
        CHECK(near::within(loaded[i].z, crests[i].z + deflection_at(b, crests[i].x), 1e-15 * metre));
        CHECK(loaded[i].x == crests[i].x);
    }
    CHECK(loaded[0].z > crests[0].z);
    CHECK(loaded.back().z == crests.back().z);
}

TEST_CASE(
    "a bowed neck leaves the board past the joint standing up: levelled straight under no load, it falls away negatively") {
    const auto loaded = loaded_crests(strung(), demo::crests());
    const auto f = fall_away<double>(loaded, 0, 13);
    CHECK(f.gap < 0 * mm);
    CHECK(f.index == 19);
    // Dropping the last frets lets them fall away.
    auto dropped = loaded;
    for (std::size_t i = 14; i < dropped.size(); ++i) { dropped[i].z = dropped[i].z - 1 * mm; }
    const auto g = fall_away<double>(dropped, 0, 13);
    CHECK(g.gap > 0 * mm);
    CHECK(near::within(g.gap, fall_away<double>(std::vector(loaded.begin(), loaded.begin() + 15), 0, 13).gap + 1 * mm,
                       1e-9 * mm));
    CHECK(fall_away<double>(loaded, 0, 19).gap == 0 * mm);
    // A vector says by itself which numbers it holds.
    CHECK(fall_away(loaded, 0, 13).gap == f.gap);
    CHECK(relief_between(loaded, 0, 13).gap == relief_between<double>(loaded, 0, 13).gap);
    CHECK_THROWS_AS((void)fall_away<double>(loaded, 0, 20), invalid_input);
    CHECK_THROWS_AS((void)fall_away<double>(loaded, 3, 3), invalid_input);
}

TEST_CASE("what the load adds, and where to level for it") {
    const auto b = strung();
    const auto crests = demo::crests();
    const auto added = relief_from_load(b, crests, 0, 13);
    CHECK(
        near::relative(added, relief_between<double>(loaded_crests(b, crests), 0, 13).gap, 1e-9)); // crests are level here
    CHECK(where_to_level(added) == levelling_place::under_load);
    CHECK(where_to_level(0.05 * mm) == levelling_place::bench);
    CHECK(where_to_level(-0.2 * mm) == levelling_place::under_load);
    CHECK(where_to_level(0.05 * mm, 0.02 * mm) == levelling_place::under_load);
    CHECK_THROWS_AS((void)where_to_level(std::nan("") * mm), invalid_input);
}

TEST_CASE("frets levelled on the bench to heights that allow for the bow lie as wanted under load") {
    const auto b = strung();
    auto wanted = demo::crests();
    for (std::size_t i = 0; i < wanted.size(); ++i) { wanted[i].z = (1.0 - 0.002 * static_cast<double>(i)) * mm; }
    const auto loaded = loaded_crests(b, bench_heights<double>(b, wanted));
    for (std::size_t i = 0; i < wanted.size(); ++i) { CHECK(near::within(loaded[i].z, wanted[i].z, 1e-12 * mm)); }
}

TEST_CASE("relief differs under each string's path when the crests do") {
    const auto b = strung();
    auto bass = demo::crests(), treble = bass;
    bass[6].z = bass[6].z - 0.05 * mm; // a fret worn under the bass string
    const auto r = [&](const std::vector<crest>& c) { return relief_between<double>(loaded_crests(b, c), 0, 13).gap; };
    CHECK(near::within(r(bass) - r(treble), 0.05 * mm, 0.02 * mm));
}
