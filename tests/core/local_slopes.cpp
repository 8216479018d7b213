#include <tautline/core/local_slopes.hpp>

#include <cmath>
#include <random>

#include <doctest/doctest.h>

using namespace tautline;

static_assert(kernel::has_local_slopes<dual<double, 8>, 4> && !kernel::has_local_slopes<dual<double, 8>, 5>);
static_assert(!kernel::has_local_slopes<double, 1> && !kernel::has_local_slopes<dual<double, 1>, 1>);
static_assert(!kernel::has_local_slopes<dual<dual<double, 4>, 4>, 1>);

namespace {

/// Two results of three inputs.
const auto formula = [](const auto& a, const auto& b, const auto& c) {
    using D = std::remove_cvref_t<decltype(a)>;
    return std::array<D, 2>{sqrt(D(a * a + b / c)) * log2(c), number<D>(3) * a - sin(D(b * c))};
};
using wide = dual<double, 9>;

} // namespace

TEST_SUITE("local_slopes") {
    TEST_CASE("a formula's results and all their derivatives are those of the formula in duals") {
        std::mt19937 random(5);
        std::uniform_real_distribution<double> some(0.5, 3);
        for (int turn = 0; turn < 100; ++turn) {
            std::array<wide, 3> x;
            for (auto& one : x) {
                one = wide(some(random));
                for (auto& p : one.partial) { p = some(random) - 2; }
            }
            const auto want = formula(x[0], x[1], x[2]), got = kernel::by_local_slopes(formula, x[0], x[1], x[2]);
            for (std::size_t k = 0; k < want.size(); ++k) {
                CHECK(got[k].value == want[k].value);
                for (std::size_t i = 0; i < wide().partial.size(); ++i) {
                    CHECK(std::abs(got[k].partial[i] - want[k].partial[i]) < 1e-13);
                }
            }
        }
    }
    TEST_CASE("numbers without derivatives pass through the formula itself") {
        CHECK(kernel::by_local_slopes(formula, 2.0, 1.0, 0.5) == formula(2.0, 1.0, 0.5));
    }
    TEST_CASE("a dual from slopes is their sum over the inputs") {
        const auto a = wide::variable(2, 0), b = wide::variable(3, 8);
        const auto sum = kernel::from_slopes(7.0, {0.5, -4.0}, a, wide(a + b));
        CHECK(sum.value == 7);
        CHECK(sum.partial[0] == -3.5);
        CHECK(sum.partial[8] == -4);
        CHECK(sum.partial[4] == 0);
    }
}
