#include <tautline/board/found_radius.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("found radius: property, a measured sagitta gives the radius back") {
    std::mt19937 random(4);
    std::uniform_real_distribution<double> radii(100, 500), widths(30, 60);
    for (int i = 0; i < 100; ++i) {
        const double r = radii(random), w = widths(random);
        const auto found = find_radius(sagitta(r * mm, w * mm), w * mm, 0.01 * mm);
        REQUIRE(found.radius.has_value());
        CHECK(near::relative(*found.radius, r * mm, 1e-9));
        // The error is the change of the radius for the reading's error, to first order.
        const auto off = find_radius(sagitta(r * mm, w * mm) + 1e-5 * mm, w * mm, 0.01 * mm);
        CHECK(near::relative(abs(*off.radius - *found.radius) * 1000.0, *found.error, 1e-3));
    }
}

TEST_CASE("found radius: a gauge that fits, one that rocks, one that bridges") {
    const auto fits = find_radius_with_gauge(12 * inch, 0 * mm, 40 * mm, 0.02 * mm);
    CHECK(near::relative(*fits.radius, 12 * inch, 1e-12));
    // 0.02 mm on a width of 40 mm is nearly 5 mm on a radius of 12 in: dR = u (R/(w/2))^2 * 2, about.
    CHECK(near::relative(*fits.error, 2 * 0.02 * (304.8 / 20) * (304.8 / 20) * mm, 0.02));
    CHECK(*find_radius_with_gauge(12 * inch, 0.2 * mm, 40 * mm, 0.02 * mm).radius < 12 * inch);
    CHECK(*find_radius_with_gauge(12 * inch, -0.2 * mm, 40 * mm, 0.02 * mm).radius > 12 * inch);
}

TEST_CASE("found radius: flat within the reading's error, or hollow, has no radius") {
    CHECK_FALSE(find_radius(0.01 * mm, 40 * mm, 0.02 * mm).radius.has_value());
    CHECK_FALSE(find_radius(0 * mm, 40 * mm, 0 * mm).radius.has_value());
    const auto hollow = find_radius(-0.3 * mm, 40 * mm, 0.02 * mm);
    CHECK_FALSE(hollow.radius.has_value());
    CHECK(hollow.sagitta == -0.3 * mm);
}

TEST_CASE("found radius: bad input is named") {
    CHECK_THROWS_AS((void)find_radius(25 * mm, 40 * mm, 0.02 * mm), invalid_input);
    CHECK_THROWS_AS((void)find_radius(1 * mm, -40 * mm, 0.02 * mm), invalid_input);
    CHECK_THROWS_AS((void)find_radius(1 * mm, 40 * mm, -0.02 * mm), invalid_input);
    CHECK_THROWS_AS((void)find_radius(NAN * mm, 40 * mm, 0.02 * mm), invalid_input);
    CHECK_THROWS_AS((void)find_radius_with_gauge(15 * mm, 0 * mm, 40 * mm, 0.02 * mm), invalid_input);
}

TEST_CASE("found radius: a width of nothing is called that") {
    CHECK_THROWS_WITH((void)find_radius(0 * mm, 0 * mm, 0.02 * mm), doctest::Contains("width is 0 mm"));
}
