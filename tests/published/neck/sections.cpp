// Sections against printed properties and a worked example.

#include <tautline/neck/station.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("semicircle and half ellipse (Gere, Mechanics of Materials, appendix D, case 10, scaled): area, centroid, I" *
          published::seen) {
    const double pi = std::numbers::pi;
    for (const double b : {10.0, 25.0}) {
        for (const double h : {10.0, 18.0}) {
            const auto s = section_from(back_sums<double>(1 * GPa, b * mm, h * mm, 0 * mm, superellipse_shape(2.0)));
            CHECK(published::relative("area, mm^2", s.axial_rigidity / (1 * GPa) / mm2, pi * b * h / 2, 1e-12));
            CHECK(published::relative("centroid", s.neutral_axis, -4 * h / (3 * pi) * mm, 1e-12));
            CHECK(published::relative("second moment, mm^4", s.bending_rigidity / (1 * GPa) / mm4,
                                      (pi / 8 - 8 / (9 * pi)) * b * h * h * h, 1e-12));
            CHECK(published::relative("second moment by the printed constant, mm^4", s.bending_rigidity / (1 * GPa) / mm4,
                                      0.1097570 * b * h * h * h, 1e-6));
        }
    }
}

TEST_CASE("Gere, Mechanics of Materials, appendix D, cases 1 and 3: rectangle b h^3/12 and triangle b h^3/36 are the "
          "exponents' limits" *
          published::seen) {
    const auto v = section_from(back_sums<double>(1 * GPa, 20 * mm, 18 * mm, -5 * mm, superellipse_shape(1.0)));
    CHECK(published::relative("triangle's second moment, mm^4", v.bending_rigidity / (1 * GPa) / mm4,
                              40.0 * 18 * 18 * 18 / 36, 1e-12));
    CHECK(published::relative("triangle's centroid", v.neutral_axis, -(5 + 18.0 / 3) * mm, 1e-12));
    const auto square = section_from(back_sums<double>(1 * GPa, 20 * mm, 18 * mm, -5 * mm, back_shape{}));
    CHECK(published::relative("rectangle's second moment, mm^4", square.bending_rigidity / (1 * GPa) / mm4,
                              40.0 * 18 * 18 * 18 / 12, 1e-12));
    CHECK(published::relative("rectangle's centroid", square.neutral_axis, -(5 + 9.0) * mm, 1e-12));
    const auto strip = section_from(rectangle_sums(1 * GPa, 40 * mm, -5 * mm, -23 * mm));
    CHECK(published::relative("rectangle as strip and as limit of the back", strip.bending_rigidity,
                              square.bending_rigidity, 1e-12));
    // The squarest back comes near the square one from below.
    const auto nearly = section_from(back_sums<double>(1 * GPa, 20 * mm, 18 * mm, -5 * mm, superellipse_shape(20.0)));
    CHECK(nearly.bending_rigidity < square.bending_rigidity);
    CHECK(
        published::relative("squarest back against the rectangle", nearly.bending_rigidity, square.bending_rigidity, 0.03));
}

TEST_CASE("steel on timber: 140 x 400 mm at 12.5 GPa under a 200 x 8 mm plate at 200 GPa, 30 kN m (a textbook's example 3 "
          "on a homework site)" *
          published::seen) {
    const auto wood = rectangle_sums(12.5 * GPa, 140 * mm, -8 * mm, -408 * mm);
    const auto plate = rectangle_sums(200 * GPa, 200 * mm, 0 * mm, -8 * mm);
    const auto s = section_from(wood + plate);
    const auto bending = 30e3 * N_m;
    const auto at = [&](stress<> e, tautline::length<> z) {
        return e * ((z - s.neutral_axis) * bending / s.bending_rigidity);
    };
    CHECK(published::within("stress in the wood, top", at(12.5 * GPa, -8 * mm), 2.76 * MPa, 0.005 * MPa)); // wood, top
    CHECK(published::within("stress in the wood, bottom", at(12.5 * GPa, -408 * mm), -5.36 * MPa,
                            0.005 * MPa));                                                          // wood, bottom
    CHECK(published::within("stress in the steel", at(200 * GPa, 0 * mm), 46.8 * MPa, 0.05 * MPa)); // steel
    CHECK(published::within("neutral axis", s.neutral_axis, -(408 - 264.0) * mm, 0.05 * mm));
    CHECK(published::relative("second moment in wood, mm^4", s.bending_rigidity / (12.5 * GPa) / mm4, 1.477939e9, 1e-6));
}

TEST_CASE("flitch beam of a text on flitch beams (inputs printed, sum by arithmetic): 8.000e6 + 3.90244e6 mm^4 in steel" *
          published::own_computation) {
    // Inputs as printed by a text on flitch beams; the sum is arithmetic.
    const auto steel = rectangle_sums(205 * GPa, 12 * mm, 0 * mm, -200 * mm);
    const auto timber = rectangle_sums(12 * GPa, 100 * mm, 0 * mm, -200 * mm);
    const auto s = section_from(steel + timber);
    CHECK(published::relative("second moment in steel, mm^4", s.bending_rigidity / (205 * GPa) / mm4, 11.90244e6, 1e-6));
    CHECK(published::within("neutral axis", s.neutral_axis, -100 * mm, 1e-9 * mm));
}

TEST_CASE("geometry of the circle: the segment that an arched top leaves away has area R^2 (a - sin a)/2" *
          published::own_computation) {
    for (const double radius : {184.0, 305.0, 60.0}) {
        const double b = 22, t = 7;
        const auto s = board_sums(1 * GPa, b * mm, t * mm, 1000 / radius * per_metre);
        const double a = 2 * std::asin(b / radius), fall = radius - std::sqrt(radius * radius - b * b);
        const double segment = radius * radius * (a - std::sin(a)) / 2;
        CHECK(published::relative("area, mm^2", s.ea / (1 * GPa) / mm2, 2 * b * (t - fall) + segment, 1e-11));
        // First moment: segment's centroid lies 4 R sin^3(a/2) / (3 (a - sin a)) from the circle's centre.
        const double centroid = 4 * radius * std::pow(std::sin(a / 2), 3) / (3 * (a - std::sin(a))) - radius;
        const double first = segment * centroid - 2 * b * (t - fall) * (t + fall) / 2;
        CHECK(published::relative("first moment, mm^3", s.es.value() / 1e9 / 1e-9, first, 1e-11));
    }
}

TEST_CASE("a superellipse and the polygon through 2000 of its points agree at every exponent" *
          published::own_computation) {
    for (const double k : {1.0, 1.5, 2.0, 2.5, 3.0, 5.0, 10.0}) {
        std::vector<profile_point> outline;
        const int n = 2000;
        for (int i = 0; i <= n; ++i) {
            // Denser toward the edges, where the outline is steep.
            const double u = -std::cos(std::numbers::pi * i / n);
            outline.push_back(
                {.y = 24 * u * mm, .depth = 17 * std::pow(std::max(0.0, 1 - std::pow(std::abs(u), k)), 1 / k) * mm});
        }
        const auto exact = superellipse_shape(k);
        const auto traced = profile_shape<double>(outline, 24 * mm, 17 * mm);
        CHECK(published::relative("area over that of the rectangle", traced.area, exact.area, 1e-4));
        CHECK(published::relative("first moment over that of the rectangle", traced.first, exact.first, 1e-4));
        CHECK(published::relative("second moment over that of the rectangle", traced.second, exact.second, 1e-4));
    }
}
