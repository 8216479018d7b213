#include <tautline/core/real.hpp>

#include <array>
#include <cmath>
#include <random>

#include "near.hpp"

namespace {

// Exact answers, in constant expressions.
static_assert(tautline::sqrt(0.0) == 0 && tautline::sqrt(4.0) == 2 && tautline::sqrt(0.0625) == 0.25);
static_assert(tautline::sqrt(1e-300) > 0.99e-150 && tautline::sqrt(1e300) < 1.01e150);
static_assert(tautline::sqrt(-1.0) != tautline::sqrt(-1.0));
static_assert(tautline::exp2(0.0) == 1 && tautline::exp2(10.0) == 1024 && tautline::exp2(-3.0) == 0.125);
static_assert(tautline::log2(1.0) == 0 && tautline::log2(8.0) == 3 && tautline::log2(0.25) == -2);
// The ends of the range.
constexpr double no_end = std::numeric_limits<double>::infinity(), not_a_number = std::numeric_limits<double>::quiet_NaN();
static_assert(tautline::exp2(1024.0) == no_end && tautline::exp2(1023.5) < no_end && tautline::exp2(-1080.0) == 0);
static_assert(tautline::exp2(128.0f) == std::numeric_limits<float>::infinity());
static_assert(tautline::exp2(16384.0L) == std::numeric_limits<long double>::infinity());
static_assert(tautline::exp2(-1074.0) == std::numeric_limits<double>::denorm_min());
static_assert(tautline::log2(0.0) == -no_end && tautline::log2(no_end) == no_end);
static_assert(tautline::log2(-1.0) != tautline::log2(-1.0) && tautline::exp2(not_a_number) != tautline::exp2(not_a_number));
static_assert(tautline::sqrt(no_end) == no_end);
static_assert(!tautline::all_finite(no_end) && !tautline::all_finite(-no_end) && !tautline::all_finite(not_a_number));
static_assert(tautline::all_finite(-1.7e308) && tautline::all_finite(0.0f) && tautline::all_finite(1e4000L));

// The rest.
static_assert(tautline::min(1.0, 2.0) == 1 && tautline::max(1.0, 2.0) == 2 && tautline::abs(-2.5f) == 2.5f);
static_assert(tautline::hypot(3.0, 4.0) == 5);
static_assert(tautline::power(2.0, 10) == 1024 && tautline::power(2.0, -2) == 0.25 && tautline::power(7.0, 0) == 1);
static_assert(tautline::power(-3.0, 3) == -27);
static_assert(tautline::root_or_zero(9.0) == 3 && tautline::root_or_zero(0.0) == 0 && tautline::root_or_zero(-4.0) == 0);
static_assert(tautline::select(true, 1, 2) == 1 && tautline::select(false, 1, 2) == 2);
static_assert(tautline::in_all_lanes(true) && !tautline::in_any_lane(false));
static_assert(tautline::number<float>(0.1L) == 0.1f && tautline::number<double>(0.1L) == 0.1);
static_assert(tautline::pi<double>() == 3.14159265358979323846 && tautline::pi<float>() == 3.14159265f);
static_assert(tautline::real<double> && !tautline::real<int*> && !tautline::real<bool*>);

constexpr std::size_t tabulated_count = 120;
/// `f` over a geometric (x > 0) or even row of values, computed by the compiler.
template <class T, class F>
constexpr std::array<T, tabulated_count> tabulated(F f, T first, T step, bool geometric) {
    std::array<T, tabulated_count> out{};
    T x = first;
    for (auto& y : out) {
        y = f(x);
        x = geometric ? x * step : x + step;
    }
    return out;
}
/// The same at run time by another function, and how many of the last bits may differ.
template <class T, class F>
void check_against(const std::array<T, tabulated_count>& table, F f, T first, T step, bool geometric, T ulps) {
    T x = first;
    for (const T& y : table) {
        const T want = f(x);
        CHECK(std::abs(y - want) <= ulps * std::numeric_limits<T>::epsilon() * std::abs(want));
        x = geometric ? x * step : x + step;
    }
}
template <class T>
void compare_with_standard_library() {
    constexpr auto root = [](T x) { return tautline::sqrt(x); };
    constexpr auto power_of_2 = [](T x) { return tautline::exp2(x); };
    constexpr auto logarithm = [](T x) { return tautline::log2(x); };
    constexpr auto roots = tabulated<T>(root, T(1e-18L), T(2.03L), true);
    constexpr auto powers = tabulated<T>(power_of_2, T(-31.4L), T(0.531L), false);
    constexpr auto logs = tabulated<T>(logarithm, T(1e-18L), T(2.03L), true);
    check_against<T>(
        roots, [](T x) { return std::sqrt(x); }, T(1e-18L), T(2.03L), true, 1);
    check_against<T>(
        powers, [](T x) { return std::exp2(x); }, T(-31.4L), T(0.531L), false, 4);
    check_against<T>(
        logs, [](T x) { return std::log2(x); }, T(1e-18L), T(2.03L), true, 2);
}

} // namespace

TEST_SUITE("real") {
    TEST_CASE("sqrt, exp2 and log2 of the compiler are the standard library's") {
        compare_with_standard_library<float>();
        compare_with_standard_library<double>();
        compare_with_standard_library<long double>();
    }
    TEST_CASE("property: over many values the compiler's series agree with the standard library") {
        std::mt19937 random(17);
        std::uniform_real_distribution<double> exponent(-1000, 1000), small(-3, 3);
        for (int i = 0; i < 20000; ++i) {
            const double e = i % 2 == 0 ? exponent(random) : small(random);
            const double x = std::exp2(e);
            CHECK(near::relative(tautline::constant::sqrt(x), std::sqrt(x), 4e-16));
            CHECK(near::relative(tautline::constant::exp2(e), x, 4e-16));
            CHECK(near::within(tautline::constant::log2(x), std::log2(x), 4e-16 * std::max(1e-3, std::abs(e))));
        }
    }
    TEST_CASE("at run time the functions are the standard library's own") {
        std::mt19937 random(18);
        std::uniform_real_distribution<double> unit(0, 1);
        for (int i = 0; i < 200; ++i) {
            const double x = unit(random), y = unit(random);
            CHECK(tautline::sqrt(x) == std::sqrt(x));
            CHECK(tautline::exp2(x) == std::exp2(x));
            CHECK(tautline::log2(x) == std::log2(x));
            CHECK(tautline::exp(x) == std::exp(x));
            CHECK(tautline::log(x) == std::log(x));
            CHECK(tautline::pow(x, y) == std::pow(x, y));
            CHECK(tautline::sin(x) == std::sin(x));
            CHECK(tautline::cos(x) == std::cos(x));
            CHECK(tautline::tan(x) == std::tan(x));
            CHECK(tautline::asin(x) == std::asin(x));
            CHECK(tautline::acos(x) == std::acos(x));
            CHECK(tautline::atan(x) == std::atan(x));
            CHECK(tautline::atan2(x, -y) == std::atan2(x, -y));
            CHECK(near::relative(tautline::hypot(x, y), std::hypot(x, y), 4e-16));
            CHECK(near::relative(tautline::power(x, 5), std::pow(x, 5), 4e-15));
            CHECK(near::relative(tautline::power(x, -3), std::pow(x, -3), 4e-15));
        }
    }
}
