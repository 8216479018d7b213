#include <tautline/neck/truss_rod.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a straight rod keeps its height, a curved channel dips midway") {
    truss_rod rod{.x_from = 20 * mm, .x_to = 320 * mm, .z_ends = -11 * mm, .dip = 0 * mm};
    CHECK(near::within(kernel::rod_height<double>(rod, 100 * mm), -11 * mm, 1e-12 * mm));
    rod.dip = 3 * mm;
    CHECK(near::within(kernel::rod_height<double>(rod, 20 * mm), -11 * mm, 1e-12 * mm));
    CHECK(near::within(kernel::rod_height<double>(rod, 170 * mm), -14 * mm, 1e-12 * mm));
    CHECK(near::within(kernel::rod_height<double>(rod, 95 * mm), -13.25 * mm, 1e-12 * mm));
    CHECK(near::within(kernel::rod_height<double>(rod, 320 * mm), -11 * mm, 1e-12 * mm));
}

TEST_CASE("what is wrong with a rod is named") {
    truss_rod rod{.x_from = 20 * mm, .x_to = 320 * mm, .z_ends = -11 * mm, .dip = 0 * mm};
    CHECK(validate(rod).empty());
    CHECK_FALSE(rod.two_way());
    rod.separation = 6 * mm;
    CHECK(rod.two_way());
    rod.separation = -1 * mm;
    CHECK_FALSE(validate(rod).empty());
    rod = {.x_from = 20 * mm, .x_to = 10 * mm, .z_ends = -11 * mm, .dip = 0 * mm};
    CHECK_THROWS_WITH(require_valid(rod, "rod"), "rod.x_to must be further from the nut than x_from.");
    rod = {.x_from = 20 * mm, .x_to = 320 * mm, .z_ends = 1 * mm, .dip = 0 * mm};
    CHECK_THROWS_WITH(require_valid(rod, "rod"), "rod.z_ends is 1 mm; it must be at least -60 mm and at most 0 mm.");
}
