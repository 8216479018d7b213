#include <tautline/doubt/chi_square.hpp>

#include <boost/math/special_functions/gamma.hpp>

#include "near.hpp"

using namespace tautline;

TEST_SUITE("chi square") {
    TEST_CASE("the finite sum is the incomplete gamma function of Boost.Math, 1 to 40 degrees") {
        for (std::size_t m = 1; m <= 40; ++m) {
            for (const double square : {1e-6, 0.1, 1.0, 3.0, 10.0, 30.0, 80.0, 200.0}) {
                CAPTURE(m);
                CAPTURE(square);
                const double exact = boost::math::gamma_q(static_cast<double>(m) / 2, square / 2);
                CHECK(near::within(chi_square_tail(square, m), exact, 1e-14 + 1e-12 * exact));
            }
        }
        CHECK(near::relative(chi_square_tail(900.0, 1000), boost::math::gamma_q(500.0, 450.0), 1e-10));
    }
    TEST_CASE("limits: nothing seen is no surprise, no degree neither; more scatter is less likely") {
        CHECK(chi_square_tail(0.0, 5) == 1);
        CHECK(chi_square_tail(3.0, 0) == 1);
        for (std::size_t m = 1; m < 12; ++m) {
            double before = 1;
            for (double square = 0; square < 60; square += 0.5) {
                const double now = chi_square_tail(square, m);
                CHECK(now <= before);
                CHECK(now >= 0);
                before = now;
            }
        }
    }
    TEST_CASE_TEMPLATE("two degrees: e^-(square/2); one: both tails of the normal curve", R, float, double, long double) {
        const R eps = std::numeric_limits<R>::epsilon();
        for (const R x : {R(0.5L), R(2), R(7)}) {
            CHECK(std::abs(chi_square_tail(x, 2) - std::exp(-x / 2)) < 4 * eps);
            CHECK(std::abs(chi_square_tail(x * x, 1) - std::erfc(x / std::sqrt(R(2)))) < 4 * eps);
        }
    }
    TEST_CASE("what is no sum of squares is refused") {
        CHECK_THROWS_AS((void)chi_square_tail(-1.0, 2), invalid_input);
        CHECK_THROWS_AS((void)chi_square_tail(std::nan(""), 2), invalid_input);
        CHECK_THROWS_AS((void)chi_square_tail(1.0, 1001), invalid_input);
    }
}
