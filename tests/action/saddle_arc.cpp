#include <tautline/action/saddle_arc.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

TEST_CASE("tops cut from a circle give the circle, level or turned") {
    for (const double radius : {40.0, 184.0, 300.0, 1000.0}) {
        for (const double turn : {-0.1, 0.0, 0.15}) {
            lengths y, z;
            for (int i = 0; i < 6; ++i) {
                const double at =
                    -25 + 10 * i; // on a circle about (radius sin(turn), -radius cos(turn)) relative to (0, 9)
                const double cy = radius * std::sin(turn), cz = 9 - radius * std::cos(turn);
                y.push_back(at * mm);
                z.push_back((cz + std::sqrt(radius * radius - (at - cy) * (at - cy))) * mm);
            }
            const auto arc = saddle_arc<double>(y, z);
            REQUIRE(arc.radius());
            CHECK(near::relative(*arc.radius(), radius * mm, 1e-6));
            CHECK(near::within(arc.middle, 9 * mm, 1e-6 * mm));
            CHECK(near::within(arc.tilt, std::tan(turn), 1e-6));
            CHECK(near::within(arc.worst_off, 0 * mm, 1e-6 * mm));
            CHECK(near::within(
                arc_height(arc, 7 * mm),
                (9 - radius * std::cos(turn) + std::sqrt(radius * radius - std::pow(7 - radius * std::sin(turn), 2))) * mm,
                1e-6 * mm));
        }
    }
}

TEST_CASE("a flat saddle has no radius, a hollow one neither") {
    const lengths y{-20 * mm, 0 * mm, 20 * mm};
    CHECK(near::within(saddle_arc<double>(y, lengths{8 * mm, 9 * mm, 10 * mm}).bend / per_metre, 0, 1e-9));
    CHECK_FALSE(saddle_arc<double>(y, lengths{9.5 * mm, 9 * mm, 9.5 * mm}).radius());
    // A vector says by itself which numbers it holds.
    CHECK_FALSE(saddle_arc(y, lengths{9.5 * mm, 9 * mm, 9.5 * mm}).radius());
}

TEST_CASE("property: no other arc fits uneven tops better") {
    std::mt19937 random(111);
    std::uniform_real_distribution<double> noise(-0.2, 0.2);
    for (int trial = 0; trial < 20; ++trial) {
        lengths y, z;
        for (int i = 0; i < 8; ++i) {
            const double at = -24 + 7 * i;
            y.push_back(at * mm);
            z.push_back((10 - at * at / 500 + noise(random)) * mm);
        }
        const auto arc = saddle_arc<double>(y, z);
        const auto squares = [&](double dm, double dt, double db) {
            auto other = arc;
            other.middle = other.middle + dm * mm;
            other.tilt += dt;
            other.bend = other.bend + db * per_metre;
            double sum = 0;
            for (std::size_t i = 0; i < y.size(); ++i) { sum += std::pow((arc_height(other, y[i]) - z[i]) / mm, 2); }
            return sum;
        };
        const double best = squares(0, 0, 0);
        for (const double h : {-1.0, 1.0}) {
            CHECK(squares(1e-3 * h, 0, 0) > best);
            CHECK(squares(0, 1e-4 * h, 0) > best);
            CHECK(squares(0, 0, 1e-2 * h) > best);
        }
        double worst = 0;
        for (std::size_t i = 0; i < y.size(); ++i) {
            worst = std::max(worst, std::abs((arc_height(arc, y[i]) - z[i]) / mm));
        }
        CHECK(near::relative(arc.worst_off, worst * mm, 1e-9));
    }
}

TEST_CASE("a dual carries the derivative of the radius") {
    using D = dual<double, 1>;
    std::vector<length<D>> y, z;
    const auto top = [](double at, double radius) {
        return 0.009 - at * at / (radius + std::sqrt(radius * radius - at * at));
    };
    for (int i = 0; i < 5; ++i) {
        const double at = -0.02 + 0.01 * i;
        y.push_back(length<D>::from_value(D(at)));
        z.push_back(length<D>::from_value(D(top(at, 0.2), {(top(at, 0.2001) - top(at, 0.1999)) / 2e-4})));
    }
    CHECK(near::within(saddle_arc<D>(y, z).radius()->value().partial[0], 1, 1e-5));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)saddle_arc<double>(lengths{-1 * mm, 1 * mm}, lengths{1 * mm, 1 * mm}),
                      "y must hold at least three strings: through fewer goes any arc.");
    CHECK_THROWS_AS((void)saddle_arc<double>(lengths{-1 * mm, 1 * mm, 1 * mm}, lengths(3)), invalid_input);
    CHECK_THROWS_AS((void)saddle_arc<double>(lengths{-1 * mm, 0 * mm, 1 * mm}, lengths(2)), invalid_input);
    CHECK_THROWS_AS((void)saddle_arc<double>(lengths{-1 * mm, 0 * mm, std::nan("") * mm}, lengths(3)), invalid_input);
}

TEST_CASE("each top is looked at, and the place where an arc is asked for") {
    const lengths y{-20 * mm, 0 * mm, 20 * mm};
    const char* const allowed = "; it must be at least -500 mm and at most 500 mm.";
    CHECK_THROWS_WITH((void)saddle_arc<double>(lengths{-600 * mm, 0 * mm, 20 * mm}, lengths(3)),
                      ("y[0] is -600 mm" + std::string(allowed)).c_str());
    CHECK_THROWS_WITH((void)saddle_arc<double>(y, lengths{9 * mm, 600 * mm, 9 * mm}),
                      ("z[1] is 600 mm" + std::string(allowed)).c_str());
    CHECK_THROWS_WITH((void)arc_height(saddle_arc<double>(y, lengths{8 * mm, 9 * mm, 8 * mm}), std::nan("") * mm),
                      "y is not a number; it must be a finite number.");
}
