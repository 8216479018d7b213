#include <tautline/action/straight_saddle.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

TEST_CASE("strings that ask for places in a line get them") {
    const lengths y{-20 * mm, -5 * mm, 12 * mm, 21 * mm};
    lengths wanted;
    for (const auto& at : y) { wanted.push_back(563 * mm - 0.08 * at); }
    const auto s = straight_saddle<double>(y, wanted);
    CHECK(near::within(s.at_centre, 563 * mm, 1e-9 * mm));
    CHECK(near::within(s.slant, -0.08, 1e-9));
    for (std::size_t i = 0; i < 4; ++i) { CHECK(near::within(s.at(y[i]), wanted[i], 1e-9 * mm)); }
}

TEST_CASE("property: no other straight saddle is nearer, weights included") {
    std::mt19937 random(121);
    std::uniform_real_distribution<double> place(561, 566), weight(0.5, 2);
    for (int trial = 0; trial < 20; ++trial) {
        const lengths y{-22 * mm, -14 * mm, -3 * mm, 6 * mm, 15 * mm, 24 * mm};
        lengths wanted;
        std::vector<double> w;
        for (int i = 0; i < 6; ++i) {
            wanted.push_back(place(random) * mm);
            w.push_back(weight(random));
        }
        const auto s = straight_saddle<double>(y, wanted, w);
        const auto squares = [&](double dc, double ds) {
            double sum = 0;
            for (std::size_t i = 0; i < 6; ++i) {
                sum += w[i] * std::pow((s.at(y[i]) + dc * mm + ds * y[i] - wanted[i]) / mm, 2);
            }
            return sum;
        };
        for (const double h : {-1.0, 1.0}) {
            CHECK(squares(h * 1e-3, 0) > squares(0, 0));
            CHECK(squares(0, h * 1e-4) > squares(0, 0));
        }
        CHECK(std::abs(straight_saddle<double>(y, wanted).slant - s.slant) > 1e-9); // the weights count
    }
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)straight_saddle<double>(lengths{5 * mm, 5 * mm}, lengths(2)),
                      "y must hold two strings that stand apart.");
    CHECK_THROWS_AS((void)straight_saddle<double>(lengths{5 * mm}, lengths(1)), invalid_input);
    CHECK_THROWS_WITH((void)straight_saddle<double>(lengths{5 * mm, 600 * mm}, lengths(2)),
                      "y[1] is 600 mm; it must be at least -500 mm and at most 500 mm.");
    CHECK_THROWS_WITH((void)straight_saddle<double>(lengths{5 * mm, 6 * mm}, lengths{560 * mm, std::nan("") * mm}),
                      "wanted[1] is not a number; it must be a finite number.");
    CHECK_THROWS_AS((void)straight_saddle<double>(lengths{5 * mm, 6 * mm}, lengths(3)), invalid_input);
    CHECK_THROWS_AS((void)straight_saddle<double>(lengths{5 * mm, 6 * mm}, lengths(2), std::vector<double>{1, 0}),
                    invalid_input);
}

TEST_CASE("one string alone is called that") {
    CHECK_THROWS_WITH((void)straight_saddle<double>(lengths{5 * mm}, lengths(1)), "y must hold at least two strings.");
}
