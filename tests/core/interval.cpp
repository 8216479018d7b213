#include <tautline/core/interval.hpp>
#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("interval") {
    TEST_CASE("an octave doubles, a fifth of 702 cents is close to 3/2") {
        CHECK(near::relative(frequency_ratio(1200 * cents), 2.0, 1e-15));
        CHECK(near::relative(frequency_ratio(701.955 * cents), 1.5, 1e-6));
        CHECK(near::relative(frequency_ratio(-1200 * cents), 0.5, 1e-15));
    }
    TEST_CASE("the interval between two pitches inverts the ratio") {
        CHECK(near::within(interval_between(220 * Hz, 330 * Hz) / cents, 701.9550008653874, 1e-9));
        CHECK(interval_between(330 * Hz, 220 * Hz) < 0 * cents);
    }
}
