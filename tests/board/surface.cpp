#include <tautline/board/surface.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("surface: a flat board is flat, an arc falls away on both sides alike") {
    CHECK(surface_height(flat_surface(), 100 * mm, 20 * mm) == 0.0 * mm);
    const auto arc = cylinder(9.5 * inch);
    CHECK(surface_height(arc, 0 * mm, 0 * mm) == 0.0 * mm);
    CHECK(surface_height(arc, 0 * mm, 20 * mm) < 0.0 * mm);
    CHECK(surface_height(arc, 0 * mm, 20 * mm) == surface_height(arc, 300 * mm, -20 * mm));
}

TEST_CASE("surface: property, every point lies on the circle") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> radii(30, 600), shares(-1, 1);
    for (int i = 0; i < 500; ++i) {
        const double r = radii(random), y = shares(random) * r;
        const double z = surface_height(cylinder(r * mm), 0 * mm, y * mm) / mm;
        CHECK(near::relative(y * y + (r + z) * (r + z), r * r, 1e-12));
    }
}

TEST_CASE("surface: a very large radius keeps its digits, where subtraction would lose them") {
    // 20 mm off centre on a radius of 10 km: y^2/(2R) = 2e-8 m to 16 digits.
    CHECK(near::relative(surface_height(cylinder(1e4 * metre), 0 * mm, 20 * mm), -2e-8 * metre, 1e-11));
}

TEST_CASE("surface: a cone has its two radii at its two places and their mean halfway") {
    const auto c = cone(180 * mm, 320 * mm, 400 * mm);
    CHECK(near::relative(1 / arc_curvature(c, 0 * mm).value(), 0.180, 1e-14));
    CHECK(near::relative(1 / arc_curvature(c, 400 * mm).value(), 0.320, 1e-14));
    CHECK(near::relative(1 / arc_curvature(c, 200 * mm).value(), 0.250, 1e-14));
    CHECK(near::relative(surface_height(c, 200 * mm, 21 * mm), surface_height(cylinder(250 * mm), 0 * mm, 21 * mm), 1e-13));
}

TEST_CASE("surface: sagitta and radius undo each other") {
    std::mt19937 random(8);
    std::uniform_real_distribution<double> radii(30, 600), shares(0.01, 1);
    for (int i = 0; i < 200; ++i) {
        const auto r = radii(random) * mm;
        const auto w = r * (2 * shares(random));
        CHECK(near::relative(radius_from_sagitta(sagitta(r, w), w), r, 1e-10));
    }
    CHECK(near::relative(sagitta(50 * mm, 100 * mm), 50 * mm, 1e-15));
    CHECK(sagitta(50 * mm, 0 * mm) == 0.0 * mm);
}

TEST_CASE("surface: other numbers, and derivatives against differences") {
    using D = dual<double, 2>;
    const D r = D::variable(0.2, 0), y = D::variable(0.02, 1);
    const auto z = surface_height(cylinder(r * metre), 0 * mm, y * metre).value();
    const auto at = [](double rr, double yy) { return surface_height(cylinder(rr * metre), 0 * mm, yy * metre).value(); };
    const double h = 1e-6;
    CHECK(near::relative(z.partial[0], (at(0.2 + h, 0.02) - at(0.2 - h, 0.02)) / (2 * h), 1e-6));
    CHECK(near::relative(z.partial[1], (at(0.2, 0.02 + h) - at(0.2, 0.02 - h)) / (2 * h), 1e-6));
    CHECK(near::relative(static_cast<double>(surface_height(cylinder(0.2f * metre), 0 * mm, 20 * mm).value()),
                         at(0.2, 0.02), 1e-6));
    const auto carried = over<D>(cone(180 * mm, 320 * mm, 400 * mm));
    CHECK(near::relative(arc_curvature(carried, 400 * mm).value().value, 1 / 0.32, 1e-14));
}

TEST_CASE("surface: bad input is named") {
    CHECK_THROWS_AS((void)cylinder(0.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)cylinder(-5.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)cylinder(INFINITY * mm), invalid_input);
    CHECK_THROWS_AS((void)cone(180 * mm, 320 * mm, 0.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)surface_height(cylinder(20 * mm), 0 * mm, 21 * mm), invalid_input);
    CHECK_THROWS_AS((void)surface_height(cone(100 * mm, 50 * mm, 100 * mm), 300 * mm, 1 * mm), invalid_input);
    CHECK_THROWS_AS((void)surface_height(flat_surface(), 0 * mm, NAN * mm), invalid_input);
    CHECK_THROWS_AS((void)sagitta(20 * mm, 41 * mm), invalid_input);
    CHECK_THROWS_AS((void)radius_from_sagitta(0.0 * mm, 41 * mm), invalid_input);
    CHECK_THROWS_AS((void)radius_from_sagitta(21 * mm, 41 * mm), invalid_input);
    CHECK(validate(surface{.radius_at_end = 300 * mm}).size() == 2);
    CHECK(validate(surface{.radius = 200 * mm, .cone_length = 300 * mm}).front().sentence() ==
          "radius_at_end must be given for a cone: both or neither.");
    CHECK(validate(surface{.radius = -200 * mm}).size() == 1);
}

TEST_CASE("surface: radii and chords are looked at one by one") {
    using doctest::Contains;
    CHECK_THROWS_WITH((void)cone(0 * mm, 320 * mm, 400 * mm), Contains("radius at nut is 0 mm"));
    CHECK_THROWS_WITH((void)cone(180 * mm, 0 * mm, 400 * mm), Contains("radius at end is 0 mm"));
    CHECK_THROWS_WITH((void)sagitta(0 * mm, 40 * mm), Contains("radius is 0 mm"));
    CHECK_THROWS_WITH((void)sagitta(200 * mm, -40 * mm), Contains("width is -40 mm"));
    CHECK_THROWS_WITH((void)radius_from_sagitta(1 * mm, 0 * mm), Contains("width is 0 mm"));
    CHECK_THROWS_WITH((void)radius_from_sagitta(0 * mm, 40 * mm), Contains("sagitta is 0 mm"));
}
