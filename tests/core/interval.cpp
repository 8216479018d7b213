#include <tautline/core/interval.hpp>

#include <random>

#include <tautline/core/dual.hpp>
#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

// A bare number is not an interval, nor is an interval a number.
static_assert(!std::is_convertible_v<double, interval<>> && !std::is_convertible_v<interval<>, double>);
static_assert(-(3 * cents) + 5 * cents == 2 * cents && 5 * cents - 3 * cents == 2 * cents && 2 * (3 * cents) == 6 * cents);
static_assert(3 * cents < 4 * cents && 4 * cents > 3 * cents && interval<>{} == 0 * cents);

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
    TEST_CASE("property: intervals add where ratios multiply, and come back from the pitches they lead to") {
        std::mt19937 random(6);
        std::uniform_real_distribution<double> any(-3000, 3000), pitch(20, 5000);
        for (int i = 0; i < 200; ++i) {
            const auto a = any(random) * cents, b = any(random) * cents;
            CHECK(near::relative(frequency_ratio(a + b), frequency_ratio(a) * frequency_ratio(b), 1e-14));
            CHECK(near::relative(frequency_ratio(a - b) * frequency_ratio(b), frequency_ratio(a), 1e-14));
            const frequency<> f = pitch(random) * Hz;
            CHECK(near::within(interval_between<double>(f, f * frequency_ratio(a)) / cents, a / cents, 1e-9));
        }
    }
    TEST_CASE("other numbers") {
        CHECK(frequency_ratio(1200.0f * cents) == 2.0f);
        CHECK(frequency_ratio(1200.0L * cents) == 2.0L);
        const auto r = frequency_ratio(interval<dual<double, 1>>::from_cents(dual<double, 1>::variable(1200, 0)));
        CHECK(near::relative(r.partial[0], 2 * std::numbers::ln2 / 1200, 1e-14));
    }
}
