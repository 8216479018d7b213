#include <tautline/setup/ends.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("ends") {
    TEST_CASE("the pitch hangs at nut and saddle each by its own friction and its own break angle") {
        auto i = demo::four_course();
        i.nut.friction = {0.1, 0.2};
        i.saddle.friction = {0.3, 0.5};
        // Half a break's wrap for each side of pitch: 600 mu theta/ln 2 cents (Euler and Eytelwein's rope).
        const auto cents_of = [](double mu, angle<> wrap) { return 600 / std::log(2.0) * mu * (wrap / rad); };
        for (const auto& s : solve(strung_instrument{i, demo::unison_pairs()}).strings) {
            REQUIRE(s.at_nut.break_angle > 1 * deg);
            REQUIRE(s.at_saddle.break_angle > 1 * deg);
            CHECK(near::relative(s.nut_dead_band.least / cents, cents_of(0.1, s.at_nut.break_angle), 1e-12));
            CHECK(near::relative(s.nut_dead_band.most / cents, cents_of(0.2, s.at_nut.break_angle), 1e-12));
            CHECK(near::relative(s.saddle_dead_band.least / cents, cents_of(0.3, s.at_saddle.break_angle), 1e-12));
            CHECK(near::relative(s.saddle_dead_band.most / cents, cents_of(0.5, s.at_saddle.break_angle), 1e-12));
        }
    }
}
