#include <tautline/core/number_row.hpp>

#include <cmath>
#include <limits>
#include <random>

#include <doctest/doctest.h>

#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;

static_assert(real<number_row<double>> && real<number_row<float>> && real<dual<number_row<double>, 1>>);
static_assert(std::is_same_v<row_of<long double>, long double> && std::is_same_v<row_of<dual<double, 2>>, dual<double, 2>>);
static_assert(places_in<number_row<double>> == 2 && places_in<number_row<float>> == 4 && places_in<double> == 1);

namespace {

/// Every function and operator of a row against the same of its numbers one by one.
template <class T>
void agree_with_plain(double bound) {
    if (!near::rounds_at_once) { bound *= 64; } // there a number in a register has more digits than one in a row
    using V = number_row<T>;
    std::mt19937 random(11);
    std::uniform_real_distribution<double> wide(-30, 30), share(-1, 1);
    for (int i = 0; i < 1000; ++i) {
        const V x = V::made([&](std::size_t) { return static_cast<T>(wide(random)); });
        const V y = V::made([&](std::size_t) { return static_cast<T>(wide(random) * (i % 2 == 0 ? 1 : 1e-3)); });
        const V u = V::made([&](std::size_t) { return static_cast<T>(share(random)); });
        const auto agree = [&](const V& got, auto f) {
            for (std::size_t k = 0; k < V::count; ++k) {
                const T want = f(x[k], y[k], u[k]);
                CHECK(std::abs(got[k] - want) <= bound * std::max(std::abs(want), T(1e-3)));
            }
        };
        agree(x + y * u - x / y, [](T a, T b, T c) { return a + b * c - a / b; });
        agree(-x, [](T a, T, T) { return -a; });
        agree(log2(exp2(x)), [](T a, T, T) { return std::log2(std::exp2(a)); });
        agree(log2(V(1) + u * V(T(1e-3))), [](T, T, T c) { return std::log2(1 + c * T(1e-3)); });
        agree(log(exp(u)), [](T, T, T c) { return std::log(std::exp(c)); });
        agree(sqrt(x * x), [](T a, T, T) { return std::abs(a); });
        agree(root_or_zero(x), [](T a, T, T) { return a > 0 ? std::sqrt(a) : T(0); });
        agree(sin(u), [](T, T, T c) { return std::sin(c); });
        agree(cos(u), [](T, T, T c) { return std::cos(c); });
        agree(tan(u), [](T, T, T c) { return std::tan(c); });
        agree(asin(u), [](T, T, T c) { return std::asin(c); });
        agree(acos(u), [](T, T, T c) { return std::acos(c); });
        agree(atan(x), [](T a, T, T) { return std::atan(a); });
        agree(atan2(x, y), [](T a, T b, T) { return std::atan2(a, b); });
        agree(pow(abs(x), u), [](T a, T, T c) { return std::pow(std::abs(a), c); });
        agree(min(x, y), [](T a, T b, T) { return std::min(a, b); });
        agree(max(x, y), [](T a, T b, T) { return std::max(a, b); });
        agree(select(x < y || y == x, x, u), [](T a, T b, T c) { return a <= b ? a : c; });
        agree(select(!(y <= x) && x != u, y, u), [](T a, T b, T c) { return a < b && a != c ? b : c; });
        agree(select(x >= y, x, y), [](T a, T b, T) { return a >= b ? a : b; });
        agree(select(x > y, y, x), [](T a, T b, T) { return a > b ? b : a; });
    }
}

} // namespace

TEST_SUITE("number_row") {
    TEST_CASE("operators and functions are those of the numbers at every place") {
        agree_with_plain<double>(2e-15);
        agree_with_plain<float>(2e-6);
    }
    TEST_CASE("the logarithm's limits are the standard library's, also beside a number that has none") {
        using limits = std::numeric_limits<double>;
        for (const double x : {0.0, -1.0, limits::infinity(), limits::quiet_NaN(), limits::min() / 4, limits::max(),
                               limits::min(), 1.0, 0.5, 2.0}) {
            number_row<double> pair(8);
            pair.set(0, x);
            const double got = log2(pair)[0], want = std::log2(x);
            CHECK((got == want || (std::isnan(got) && std::isnan(want)) || std::abs(got - want) < 1e-12));
            CHECK(log2(pair)[1] == 3);
        }
    }
    TEST_CASE("places are asked one by one") {
        number_row<double> a(1), b(2);
        CHECK(in_all_lanes(a < b));
        a.set(1, 5);
        CHECK(!in_all_lanes(a < b));
        CHECK(in_any_lane(a < b));
        CHECK(!in_any_lane(b < b));
        CHECK(at_place(a, 0) == 1);
        CHECK(at_place(a, 1) == 5);
        CHECK(at_place(7.0, 0) == 7);
        const auto counted = row_from<number_row<float>>([](std::size_t k) { return static_cast<float>(k); });
        CHECK(counted[3] == 3);
    }
    TEST_CASE("quantities take rows") {
        const auto side = length<number_row<double>>::from_value(number_row<double>(3)),
                   other = length<number_row<double>>::from_value(4);
        CHECK(sqrt(side * side + other * other).value()[1] == 5);
    }
}
