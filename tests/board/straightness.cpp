#include <tautline/board/straightness.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

string_path spreading(double nut_mm, double saddle_mm) {
    return {.y_at_nut = nut_mm * mm, .y_at_saddle = saddle_mm * mm, .x_at_saddle = 640 * mm};
}

} // namespace

TEST_CASE("straightness: a cylinder humps under spreading strings by about y'^2 L^2/(8R), not under parallel ones") {
    const auto h = hump_under(cylinder(240 * mm), spreading(18, 27), 0 * mm, 460 * mm);
    const double run = 9.0 * 460 / 640;
    CHECK(near::relative(h.height, run * run / (8 * 240) * mm, 0.02));
    CHECK(near::within(h.at, 230 * mm, 5 * mm));
    CHECK(near::within(hump_under(cylinder(240 * mm), spreading(18, 18), 0 * mm, 460 * mm).height, 0 * mm, 1e-12 * mm));
    CHECK(near::within(hump_under(flat_surface(), spreading(18, 27), 0 * mm, 460 * mm).height, 0 * mm, 1e-12 * mm));
}

TEST_CASE("straightness: property, on the cone for their spread all strings run straight; on any other they hump") {
    std::mt19937 random(12);
    std::uniform_real_distribution<double> places(-18, 18), radii(150, 400), spreads(1.1, 1.8);
    for (int i = 0; i < 100; ++i) {
        const double growth = spreads(random), radius = radii(random), y = places(random);
        const auto c = cone_for_spread(radius * mm, 36 * mm, 36 * growth * mm, 640 * mm, 460 * mm);
        CHECK(near::within(hump_under(c, spreading(y, y * growth), 10 * mm, 460 * mm).height, 0 * mm, 1e-9 * mm));
    }
    for (int i = 0; i < 100; ++i) {
        const auto c = cone(radii(random) * mm, radii(random) * mm, 460 * mm);
        CHECK(hump_under(c, spreading(places(random), 1.3 * places(random)), 10 * mm, 460 * mm).height > -1e-12 * mm);
    }
    CHECK(hump_under(cone(200 * mm, 500 * mm, 460 * mm), spreading(18, 27), 0 * mm, 460 * mm).height > 0.05 * mm);
}

TEST_CASE("straightness: height under a string is the surface's at its place") {
    const auto c = cone(200 * mm, 300 * mm, 460 * mm);
    CHECK(near::within(height_under(c, spreading(10, 20), 320 * mm), surface_height(c, 320 * mm, 15 * mm), 1e-12 * mm));
}

TEST_CASE("straightness: derivative of the hump by the radius against differences") {
    using D = dual<double, 1>;
    const auto p = spreading(-18, -27);
    const auto hump = hump_under(cylinder(D::variable(0.24, 0) * metre), over<D>(p), 0 * mm, 460 * mm).height.value();
    const auto at = [&](double r) { return hump_under(cylinder(r * metre), p, 0 * mm, 460 * mm).height.value(); };
    CHECK(near::relative(hump.partial[0], (at(0.24 + 1e-5) - at(0.24 - 1e-5)) / 2e-5, 1e-5));
}

TEST_CASE("straightness: bad input is named") {
    CHECK_THROWS_AS((void)hump_under(cylinder(240 * mm), spreading(18, 27), 100 * mm, 100 * mm), invalid_input);
    CHECK_THROWS_AS((void)hump_under(cylinder(20 * mm), spreading(18, 27), 0 * mm, 460 * mm), invalid_input);
    CHECK_THROWS_AS((void)hump_under(cylinder(240 * mm), string_path(), 0 * mm, 460 * mm), invalid_input);
    CHECK_THROWS_AS((void)cone_for_spread(240 * mm, 0.0 * mm, 50 * mm, 640 * mm, 460 * mm), invalid_input);
}

TEST_CASE("straightness: spreads and length of a cone are looked at one by one") {
    using doctest::Contains;
    CHECK_THROWS_WITH((void)cone_for_spread(240 * mm, -36 * mm, 50 * mm, 640 * mm, 460 * mm),
                      Contains("spread at the nut is -36 mm"));
    CHECK_THROWS_WITH((void)cone_for_spread(240 * mm, 36 * mm, 0 * mm, 640 * mm, 460 * mm),
                      Contains("spread at the saddle is 0 mm"));
    CHECK_THROWS_WITH((void)cone_for_spread(240 * mm, 36 * mm, 50 * mm, 0 * mm, 460 * mm),
                      Contains("nut to saddle is 0 mm"));
}
