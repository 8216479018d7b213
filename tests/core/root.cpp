#include <tautline/core/root.hpp>

#include <random>

#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;

TEST_SUITE("root") {
    TEST_CASE("hard functions: flat, steep, bent, far from the middle, of any scale") {
        for (const double root : {1e-6, 0.013, 0.3, 0.5, 0.77, 1 - 1e-6}) {
            const auto found = [&](auto f) { return find_root([&](auto x) { return f(x - root, x); }, 0.0, 1.0); };
            const auto is_root = [&](auto f) { CHECK(near::within(found(f), root, 1e-14)); };
            is_root([](auto d, auto) { return d; });
            is_root([](auto d, auto) { return -1e9 * d; });
            is_root([](auto d, auto) { return 1e-12 * d * (1 + d * d); });
            is_root([](auto d, auto) { return tautline::atan(1000.0 * d); });
            is_root([](auto d, auto) { return tautline::exp(50.0 * d) - 1.0; });
            is_root([](auto d, auto) { return 1.0 - tautline::exp(-50.0 * d); });
            is_root([](auto d, auto x) { return d * (x * x + 0.01) * (1.0 + 0.9 * tautline::sin(40.0 * x)); });
            is_root([](auto d, auto) { return d + 1000.0 * d * d * d; });
        }
    }
    TEST_CASE("where Newton's steps stay in the bracket and are far too short, halving it arrives") {
        // From its steep side exp(k x) - 1 lets Newton go by 1/k a step: some 300 steps of 1/700 where the search has 45.
        for (const double root : {0.02, 0.05, 0.1}) {
            const auto steep = [&](auto x) { return tautline::exp(700.0 * (x - root)) - 1.0; };
            CHECK(near::within(find_root(steep, 0.0, 1.0), root, 1e-14));
            const auto mirrored = [&](auto x) { return 1.0 - tautline::exp(700.0 * (1.0 - root - x)); };
            CHECK(near::within(find_root(mirrored, 0.0, 1.0), 1 - root, 1e-14));
        }
    }
    TEST_CASE("a root at an end of the bracket is found there") {
        for (const double sign : {1.0, -1.0}) {
            CHECK(near::within(find_root([&](auto x) { return sign * x; }, 0.0, 1.0), 0, 1e-15));
            CHECK(near::within(find_root([&](auto x) { return sign * (x - 1.0); }, 0.0, 1.0), 1, 1e-15));
            CHECK(near::within(find_root([&](auto x) { return sign * tautline::atan(300.0 * x); }, 0.0, 1.0), 0, 1e-15));
            CHECK(
                near::within(find_root([&](auto x) { return sign * (tautline::exp(9.0 * x) - 1.0); }, 0.0, 1.0), 0, 1e-15));
            CHECK(near::within(find_root([&](auto x) { return sign * (x * x * x - 8.0); }, -5.0, 2.0), 2, 1e-15));
        }
    }
    TEST_CASE("property: cubics with one root in the bracket, against the root they were built from") {
        std::mt19937 random(8);
        std::uniform_real_distribution<double> place(-3, 3), off(0.1, 4), size(-6, 6);
        for (int i = 0; i < 500; ++i) {
            const double r = place(random), b = place(random), c = off(random), k = std::pow(10, size(random));
            // k (x - r) ((x - b)^2 + c): the other two roots are not real.
            const auto f = [&](auto x) { return k * (x - r) * ((x - b) * (x - b) + c); };
            CHECK(near::within(find_root(f, -4.0, 3.5), r, 1e-14 * (1 + std::abs(r))));
        }
    }
    TEST_CASE("float and long double go to their own last digits") {
        const auto root = []<class R>(R) { return find_root([](auto x) { return x * x - 2; }, R(0), R(2)); };
        CHECK(std::abs(root(0.0f) - std::sqrt(2.0f)) <= std::numeric_limits<float>::epsilon());
        CHECK(std::abs(root(0.0L) - std::sqrt(2.0L)) <= std::numeric_limits<long double>::epsilon());
        // From brackets of any width: the last step is not always a large one.
        for (int k = 1; k < 60; ++k) {
            const long double high = 1.5L + 0.37L * static_cast<long double>(k);
            const long double found = find_root([](auto x) { return x * x - 2; }, 0.0L, high);
            CHECK(std::abs(found - std::sqrt(2.0L)) <= 2 * std::numeric_limits<long double>::epsilon());
        }
    }
    TEST_CASE("a dual comes out of the search with dx/dp = -F_p / F_x, and a dual of a dual with the second derivative") {
        using D = dual<double, 1>;
        using DD = dual<D, 1>;
        std::mt19937 random(9);
        std::uniform_real_distribution<double> value(0.2, 5);
        for (int i = 0; i < 50; ++i) {
            const double p = value(random);
            // x^3 = p
            const auto x = find_root([&](auto t) { return t * t * t - D::variable(p, 0); }, D(0.0), D(3.0));
            CHECK(near::relative(x.value, std::cbrt(p), 1e-15));
            CHECK(near::relative(x.partial[0], std::cbrt(p) / (3 * p), 1e-14));
            const auto xx =
                find_root([&](auto t) { return t * t * t - DD::variable(D::variable(p, 0), 0); }, DD(0.0), DD(3.0));
            CHECK(near::relative(xx.partial[0].partial[0], -2 * std::cbrt(p) / (9 * p * p), 1e-12));
        }
    }
    TEST_CASE("ends that depend on the parameter do not disturb its derivative") {
        using D = dual<double, 1>;
        const D p = D::variable(2, 0);
        CHECK(near::relative(find_root([&](auto t) { return t * t - p; }, D(0.0), p).partial[0], 1 / (2 * std::sqrt(2.0)),
                             1e-14));
    }
    TEST_CASE("from one quantity to another") {
        using namespace tautline::units;
        // The radius at which a 5 mm wide arc falls 0.1 mm: R = c^2/(8 s) + s/2.
        const auto radius = find_root(
            [](const auto& r) {
                using R = real_of_t<decltype(r)>;
                const auto half = over<R>(2.5 * mm);
                return r - sqrt(r * r - half * half) - over<R>(0.1 * mm);
            },
            3 * mm, 100 * mm);
        CHECK(near::relative(radius, 31.3 * mm, 1e-12));
    }
    TEST_CASE("without a sign change the answer stays a number: callers check the ends first") {
        CHECK(std::isfinite(find_root([](auto x) { return x * x + 1; }, -1.0, 2.0)));
    }
    TEST_CASE("Newton alone, near a root and on an almost straight function") {
        CHECK(near::within(newton_root([](auto x) { return x + 0.01 * x * x - 0.5; }, 0.4), (std::sqrt(1.02) - 1) / 0.02,
                           1e-13));
        // Where it stops early, one step along the last slope is worth three more digits.
        CHECK(near::within(newton_root([](auto x) { return x * x - number<decltype(x)>(5); }, 2.245, 0.01), std::sqrt(5.0),
                           1e-7));
        using D = dual<double, 1>;
        const auto x = newton_root([](auto t) { return t * t - D::variable(2, 0); }, D(1.5));
        CHECK(near::relative(x.partial[0], 1 / (2 * std::sqrt(2.0)), 1e-14));
    }
    TEST_CASE("secants, from two places near the root of an almost straight function") {
        int looks = 0;
        const auto f = [&](auto x) {
            ++looks;
            return x + 0.01L * x * x - 0.5L;
        };
        const long double root = (std::sqrt(1.02L) - 1) / 0.02L;
        CHECK(near::within(secant_root([&](double x) { return static_cast<double>(f(x)); }, 0.0, -0.5, 0.5, 50.0),
                           static_cast<double>(root), 1e-15));
        CHECK(looks <= 4);
        CHECK(std::abs(secant_root([&](long double x) { return f(x); }, 0.0L, -0.5L, 0.5L, 50.0L) - root) < 4e-18L);
        // At the root already, and on a flat function, the place stays.
        CHECK(secant_root([](double x) { return x; }, 0.0, 0.0, 0.0, 1.0) == 0);
        CHECK(secant_root([](double) { return 1.0; }, 0.0, 1.0, 0.25, 1.0) == 0.25);
    }
    TEST_CASE("the search works in constant expressions") {
        constexpr double x = find_root([](auto t) { return t * t - 9; }, 0.0, 10.0);
        static_assert(x > 2.999999999999999 && x < 3.000000000000001);
    }
}
