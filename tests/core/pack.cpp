#include <tautline/core/dual.hpp>
#include <tautline/core/invalid_input.hpp>
#include <tautline/core/pack.hpp>

#include <cmath>
#include <random>
#include <type_traits>

#include <doctest/doctest.h>

using namespace tautline;

namespace {

template <class T>
void functions_agree(double bound) {
    using P = pack<T>;
    constexpr std::size_t lanes = lanes_of<P>::count;
    std::mt19937 random(7);
    std::uniform_real_distribution<double> wide(-30, 30), share(-1, 1);
    for (int i = 0; i < 2000; ++i) {
        P x, y, u;
        for (std::size_t k = 0; k < lanes; ++k) {
            lanes_of<P>::set(x, k, static_cast<T>(wide(random)));
            lanes_of<P>::set(y, k, static_cast<T>(wide(random) * (i % 2 == 0 ? 1 : 1e-3)));
            lanes_of<P>::set(u, k, static_cast<T>(share(random)));
        }
        const auto agree = [&](const P& got, auto f) {
            for (std::size_t k = 0; k < lanes; ++k) {
                const T want = f(x[k], y[k], u[k]);
                CHECK(std::abs(got[k] - want) <= bound * std::max(std::abs(want), T(1e-3)));
            }
        };
        agree(log2(exp2(x)), [](T a, T, T) { return std::log2(std::exp2(a)); });
        agree(log2(P(1) + u * P(T(1e-3))), [](T, T, T c) { return std::log2(1 + c * T(1e-3)); });
        agree(log(exp(u)), [](T, T, T c) { return std::log(std::exp(c)); });
        agree(sqrt(x * x), [](T a, T, T) { return std::abs(a); });
        agree(sin(u), [](T, T, T c) { return std::sin(c); });
        agree(cos(u), [](T, T, T c) { return std::cos(c); });
        agree(tan(u), [](T, T, T c) { return std::tan(c); });
        agree(asin(u), [](T, T, T c) { return std::asin(c); });
        agree(acos(u), [](T, T, T c) { return std::acos(c); });
        agree(atan(x), [](T a, T, T) { return std::atan(a); });
        agree(atan2(x, y), [](T a, T b, T) { return std::atan2(a, b); });
        agree(pow(abs(x), u), [](T a, T, T c) { return std::pow(std::abs(a), c); });
    }
}

} // namespace

TEST_SUITE("pack") {
    TEST_CASE("elementary functions are the standard library's in every lane") {
        functions_agree<double>(2e-15);
        functions_agree<float>(2e-6);
    }
    TEST_CASE("limits of the logarithm and quadrants of the angle") {
        using P = pack<double>;
        CHECK(log2(P(0))[0] == -std::numeric_limits<double>::infinity());
        CHECK(std::isnan(log2(P(-1))[0]));
        CHECK(std::isinf(log2(P(std::numeric_limits<double>::infinity()))[0]));
        using limits = std::numeric_limits<double>;
        CHECK(log2(P(limits::min()))[0] == -1022);
        CHECK(log2(P(limits::min() / 4))[0] == -1024); // no longer normal
        CHECK(log2(P(std::ldexp(1.0, 1023)))[0] == 1023);
        CHECK(std::abs(log2(P(limits::max()))[0] - 1024) < 1e-12);
        CHECK(std::isnan(log2(P(limits::quiet_NaN()))[0]));
        for (const double y : {-2.0, 0.0, 2.0}) {
            for (const double x : {-3.0, 0.0, 3.0}) { CHECK(atan2(P(y), P(x))[0] == doctest::Approx(std::atan2(y, x))); }
        }
    }
    TEST_CASE("a range holds where it holds in every lane; no single number can be told where it does not") {
        using P = pack<double>;
        P x(5);
        CHECK_NOTHROW(require("share", x, between(0, 10)));
        lanes_of<P>::set(x, lanes_of<P>::count - 1, 11);
        CHECK_THROWS_WITH_AS(require("share", x, between(0, 10)), "share must be at least 0 and at most 10.",
                             invalid_input);
    }
    TEST_CASE("a dual is searched as its plain number, one of packs lane by lane, also where a pack has one lane") {
        CHECK(std::is_same_v<search_t<dual<double, 2>>, double>);
        CHECK(std::is_same_v<search_t<dual<dual<long double, 1>, 1>>, long double>);
        using D = dual<pack<double>, 1>;
        CHECK(std::is_same_v<search_t<D>, D>);
        CHECK(std::is_same_v<search_t<pack<double>>, pack<double>>);
    }
    TEST_CASE("lanes are chosen and asked one by one") {
        using P = pack<double>;
        P a(1), b(2);
        lanes_of<P>::set(a, 0, 5);
        const auto less = a < b;
        CHECK(select(less, a, b)[0] == 2);
        CHECK(max(a, b)[0] == 5);
        if constexpr (lanes_of<P>::count > 1) {
            CHECK(in_any_lane(less));
            CHECK_FALSE(in_all_lanes(less));
            CHECK(select(less, a, b)[1] == 1);
            CHECK_THROWS_AS((void)one_answer(less), lanes_differ);
            CHECK(in_any_lane(!less && P(4) < a));
            CHECK(in_all_lanes(less || P(4) < a));
        }
        CHECK(one_answer(b < a + P(2)));
        CHECK_FALSE(one_answer(a < P(0)));
        P c = a;
        c += b;
        c *= P(3);
        c -= a;
        c /= P(2);
        CHECK(c[0] == (3 * 7 - 5) / 2.0);
    }
}
