#include <tautline/core/dual.hpp>

#include <random>

#include "near.hpp"

using tautline::dual;

static_assert(tautline::real<float> && tautline::real<double> && tautline::real<long double> &&
              tautline::real<dual<double, 3>> && tautline::real<dual<dual<double, 1>, 2>>);

namespace {

/// A function over any number, and where its inputs may lie.
template <class F>
struct sample {
    const char* name;
    F f;
    double low, high;
};
template <class F>
sample(const char*, F, double, double) -> sample<F>;

template <class Check>
void for_each_function(Check check) {
    check(sample{"sqrt", [](auto x) { return tautline::sqrt(x); }, 0.1, 9});
    check(sample{"exp2", [](auto x) { return tautline::exp2(x); }, -3, 3});
    check(sample{"log2", [](auto x) { return tautline::log2(x); }, 0.1, 9});
    check(sample{"exp", [](auto x) { return tautline::exp(x); }, -3, 3});
    check(sample{"log", [](auto x) { return tautline::log(x); }, 0.1, 9});
    check(sample{"x^2.5", [](auto x) { return tautline::pow(x, 2.5); }, 0.1, 9});
    check(sample{"x^x", [](auto x) { return tautline::pow(x, x); }, 0.2, 3});
    check(sample{"2^x", [](auto x) { return tautline::pow(decltype(x)(2.0), x); }, -2, 3});
    check(sample{"sin", [](auto x) { return tautline::sin(x); }, -4, 4});
    check(sample{"cos", [](auto x) { return tautline::cos(x); }, -4, 4});
    check(sample{"tan", [](auto x) { return tautline::tan(x); }, -1.2, 1.2});
    check(sample{"asin", [](auto x) { return tautline::asin(x); }, -0.9, 0.9});
    check(sample{"acos", [](auto x) { return tautline::acos(x); }, -0.9, 0.9});
    check(sample{"atan", [](auto x) { return tautline::atan(x); }, -5, 5});
    check(sample{"atan2(x, 2)", [](auto x) { return tautline::atan2(x, decltype(x)(2.0)); }, -4, 4});
    check(sample{"atan2(1, x)", [](auto x) { return tautline::atan2(decltype(x)(1.0), x); }, -4, 4});
    check(sample{"atan2(x, x - 9)", [](auto x) { return tautline::atan2(x, decltype(x)(x - 9.0)); }, 0.5, 8});
    check(sample{"1/x", [](auto x) { return 1.0 / x; }, 0.3, 4});
    check(sample{"x*x - 3/x + 2*x", [](auto x) { return x * x - 3.0 / x + 2 * x; }, 0.3, 4});
    check(sample{"-x, +x", [](auto x) { return (-x) * (+x); }, -3, 3});
    check(sample{"power 5", [](auto x) { return tautline::power(x, 5); }, -2, 2});
    check(sample{"power -2", [](auto x) { return tautline::power(x, -2); }, 0.5, 2});
    check(sample{"hypot(x, 1.5)", [](auto x) { return tautline::hypot(x, decltype(x)(1.5)); }, -4, 4});
    check(sample{"root_or_zero", [](auto x) { return tautline::root_or_zero(x); }, 0.1, 4});
    check(sample{"abs below 0", [](auto x) { return tautline::abs(x) * x; }, -4, -0.1});
    check(sample{"abs above 0", [](auto x) { return tautline::abs(x) * x; }, 0.1, 4});
    check(sample{"min, max",
                 [](auto x) { return tautline::min(x * x, decltype(x)(4.0)) * tautline::max(x, decltype(x)(1.0)); }, 1.1,
                 1.9});
    check(sample{"+=, -=, *=, /=",
                 [](auto x) {
                     auto y = x;
                     y += x * x;
                     y -= 3.0;
                     y *= x;
                     y /= x + 5.0;
                     return y;
                 },
                 -3, 3});
}

} // namespace

TEST_SUITE("dual") {
    TEST_CASE("the derivative of every function is its central difference") {
        std::mt19937 random(3);
        for_each_function([&](auto s) {
            std::uniform_real_distribution<double> inside(s.low, s.high);
            for (int i = 0; i < 50; ++i) {
                const double x = inside(random), h = 1e-5;
                const auto y = s.f(dual<double, 2>::variable(x, 1));
                const double slope = (s.f(x + h) - s.f(x - h)) / (2 * h);
                INFO(s.name << " at " << x);
                // Terms of up to 30 cancel in some; on x87 those of a dual are stored, and those of a double are not.
                CHECK(near::within(y.value, s.f(x), 1e-15 * (near::rounds_at_once ? std::abs(s.f(x)) : 30)));
                CHECK(near::within(y.partial[1], slope, 2e-8 * (1 + std::abs(slope))));
                CHECK(y.partial[0] == 0);
            }
        });
    }
    TEST_CASE("a dual of a dual carries the second derivative") {
        using D = dual<double, 1>;
        using DD = dual<D, 1>;
        std::mt19937 random(4);
        for_each_function([&](auto s) {
            std::uniform_real_distribution<double> inside(s.low, s.high);
            for (int i = 0; i < 20; ++i) {
                const double x = inside(random), h = 1e-5;
                const auto y = s.f(DD::variable(D::variable(x, 0), 0));
                const auto slope = [&](double at) { return s.f(D::variable(at, 0)).partial[0]; };
                const double bend = (slope(x + h) - slope(x - h)) / (2 * h);
                INFO(s.name << " at " << x);
                CHECK(near::relative(y.value.value, s.f(x), 1e-15));
                CHECK(near::relative(y.value.partial[0], slope(x), 1e-15));
                CHECK(near::relative(y.partial[0].value, slope(x), 1e-13));
                CHECK(near::within(y.partial[0].partial[0], bend, 5e-8 * (1 + std::abs(bend))));
            }
        });
    }
    TEST_CASE("two inputs: the gradient of a function of both") {
        std::mt19937 random(5);
        std::uniform_real_distribution<double> inside(0.3, 3);
        const auto f = [](auto x, auto y) {
            return tautline::pow(x, y) * tautline::atan2(x, y) / (x + y * y) - tautline::hypot(x, y);
        };
        for (int i = 0; i < 50; ++i) {
            const double x = inside(random), y = inside(random), h = 1e-5;
            const auto z = f(dual<double, 2>::variable(x, 0), dual<double, 2>::variable(y, 1));
            CHECK(near::within(z.partial[0], (f(x + h, y) - f(x - h, y)) / (2 * h), 1e-7 * (1 + std::abs(z.partial[0]))));
            CHECK(near::within(z.partial[1], (f(x, y + h) - f(x, y - h)) / (2 * h), 1e-7 * (1 + std::abs(z.partial[1]))));
        }
    }
    TEST_CASE("float and long double carry derivatives to their own precision") {
        const auto slope = [](auto x) {
            using R = decltype(x);
            return tautline::exp(tautline::sin(dual<R, 1>::variable(x, 0))).partial[0];
        };
        const long double want = std::cos(0.7L) * std::exp(std::sin(0.7L));
        CHECK(std::abs(slope(0.7f) - static_cast<float>(want)) <= 4 * std::numeric_limits<float>::epsilon());
        CHECK(std::abs(slope(0.7L) - want) <= 4 * std::numeric_limits<long double>::epsilon());
    }
    TEST_CASE("comparisons look at the value, so that searches take the plain path") {
        using D = dual<double, 1>;
        const D a = D::variable(1, 0), b(2.0);
        CHECK(a < b);
        CHECK(b > a);
        CHECK(a <= D(1.0));
        CHECK(a >= D(1.0));
        CHECK(a == D(1.0));
        CHECK(a != b);
        CHECK(tautline::select(a < b, a, b).partial[0] == 1);
        CHECK(tautline::select(b < a, a, b).partial[0] == 0);
        CHECK(tautline::value_of(dual<D, 1>(D(3.0))) == 3);
    }
    TEST_CASE("a vector that vanishes has a length with a finite derivative") {
        using D = dual<double, 1>;
        const D none = tautline::root_or_zero(D::variable(0, 0));
        CHECK(none.value == 0);
        CHECK(none.partial[0] == 0);
    }
    TEST_CASE("duals work in constant expressions") {
        constexpr auto y = tautline::sqrt(dual<double, 1>::variable(4, 0)) * 3;
        static_assert(y.value == 6 && y.partial[0] == 0.75);
        constexpr auto e = tautline::log2(tautline::exp2(dual<double, 1>::variable(3, 0)));
        static_assert(e.value == 3 && e.partial[0] > 0.999999999999999 && e.partial[0] < 1.000000000000001);
    }
}
