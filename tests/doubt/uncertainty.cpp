#include <tautline/doubt/uncertainty.hpp>

#include <vector>

#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("uncertainty") {
    TEST_CASE("independent contributions add in quadrature, a gauge shared by both adds straight") {
        const std::vector<length<>> parts{0.3 * mm, -0.4 * mm};
        CHECK(near::relative(combined_uncertainty<unit::length>(parts), 0.5 * mm, 1e-14));
        const std::vector<correlation> same{{0, 1, 1}}, opposite{{0, 1, -1}};
        CHECK(near::relative(combined_uncertainty<unit::length>(parts, same), 0.1 * mm, 1e-12));
        CHECK(near::relative(combined_uncertainty<unit::length>(parts, opposite), 0.7 * mm, 1e-12));
    }
    TEST_CASE("no contribution, no doubt; perfect cancelling is exactly none") {
        CHECK(combined_uncertainty<unit::length>(std::vector<length<>>{}).value() == 0);
        const std::vector<length<>> parts{0.1 * mm, -0.1 * mm};
        const std::vector<correlation> same{{0, 1, 1}};
        CHECK(combined_uncertainty<unit::length>(parts, same).value() < 1e-15);
    }
    TEST_CASE("the budget is in order, its shares sum to one") {
        const std::vector<std::string> names{"a", "b", "c", "d"};
        const std::vector<length<>> parts{1 * mm, -3 * mm, 0 * mm, 2 * mm};
        const auto lines = budget<unit::length>(names, parts);
        REQUIRE(lines.size() == 3);
        CHECK(lines[0].input == "b");
        CHECK(lines[1].input == "d");
        CHECK(near::within(lines[0].share, 9.0 / 14, 1e-14));
        CHECK(near::within(lines[0].share + lines[1].share + lines[2].share, 1, 1e-14));
        CHECK(lines[0].contribution < 0 * mm);
    }
    TEST_CASE("a tolerance of half width a has standard uncertainty a/sqrt 3") {
        CHECK(near::relative(rectangular(3 * mm) * rectangular(3 * mm), 3 * mm * mm, 1e-14));
    }
    TEST_CASE("correlations that contradict each other by a rounding are taken, by more are refused") {
        // Three alike, in one unit: the variance is 3 + 2 (r1 + r2 + r3). Room is 1e-12 of the 3.
        const std::vector<length<>> parts{1 * metre, 1 * metre, 1 * metre};
        const auto short_of_nothing = [&](double by) {
            const std::vector<correlation> together{{0, 1, -0.5}, {0, 2, -0.5}, {1, 2, -0.5 - by / 2}};
            return combined_uncertainty<unit::length>(parts, together);
        };
        CHECK(short_of_nothing(2.9e-12) == 0 * metre);
        CHECK_THROWS_WITH((void)short_of_nothing(3.1e-12), "correlation must not contradict the other correlations.");
    }
    TEST_CASE("correlations that can hold at once are those of a matrix without a negative eigenvalue") {
        const auto three = [](double ab, double ac, double bc) {
            return kernel::can_hold(std::vector<correlation>{{4, 7, ab}, {4, 2, ac}, {7, 2, bc}});
        };
        CHECK(kernel::can_hold({}));
        CHECK(three(1, 1, 1));
        CHECK(three(1, -1, -1));
        CHECK(three(0, 0, 1));
        CHECK_FALSE(three(-1, -1, -1));
        CHECK_FALSE(three(1, 1, 0));
        CHECK_FALSE(three(1, 1, -1));
        // Of three the determinant 1 + 2 abc - a^2 - b^2 - c^2 says it.
        for (double a = -1; a <= 1; a += 0.25) {
            for (double b = -1; b <= 1; b += 0.25) {
                for (double c = -1; c <= 1; c += 0.25) {
                    CAPTURE(a);
                    CAPTURE(b);
                    CAPTURE(c);
                    CHECK(three(a, b, c) == (1 + 2 * a * b * c - a * a - b * b - c * c >= -1e-12));
                }
            }
        }
    }
    TEST_CASE("bad correlations are refused") {
        const std::vector<length<>> parts{1 * mm, 1 * mm, 1 * mm}, fewer{1 * mm};
        const auto with = [&](std::vector<correlation> c) { return combined_uncertainty<unit::length>(parts, c); };
        CHECK_THROWS_AS((void)with({{0, 3, 0.5}}), invalid_input);
        CHECK_THROWS_AS((void)with({{1, 1, 0.5}}), invalid_input);
        CHECK_THROWS_AS((void)with({{0, 1, 1.5}}), invalid_input);
        CHECK_THROWS_AS((void)with({{0, 1, std::nan("")}}), invalid_input);
        CHECK_THROWS_AS((void)with({{0, 1, -1}, {0, 2, -1}, {1, 2, -1}}), invalid_input);
        CHECK_THROWS_AS((void)(covariance<unit::length, unit::length>(parts, fewer)), invalid_input);
    }
}
