#include <tautline/core/units.hpp>

#include <tautline/core/dual.hpp>
#include <tautline/core/interval.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using namespace tautline::literals;

namespace {

constexpr bool close(long double a, long double b) { return a - b <= 1e-18L * b && b - a <= 1e-18L * b; }

// By their exact definitions (international yard and pound, 1959; standard gravity; radian).
static_assert(close(inch.size, 0.0254L) && close(1000 * thou.size, inch.size) && close(10 * mm.size, cm.size));
static_assert(close(lb.size, 0.45359237L) && close(lbf.size, 4.4482216152605L) && close(kgf.size, 9.80665L));
static_assert(close(psi.size * inch.size * inch.size, lbf.size) && close(lbf_in.size, lbf.size* inch.size));
static_assert(close(lb_per_in.size * inch.size, lb.size) && close(180 * deg.size, std::numbers::pi_v<long double>));
static_assert(close(GPa.size, 1000 * MPa.size) && close(MPa.size, N.size / (mm.size * mm.size)));
static_assert(close(N_per_mm.size * mm.size, N.size) && close(mm_per_N.size, mm.size) &&
              close(N_mm.size, N_m.size* mm.size));
static_assert(close(mm4.size, mm2.size* mm2.size) && close(mm3.size, mm2.size* mm.size) && close(N_mm2.size, 1e-6L));
static_assert(close(1000 * g_per_m.size, kg_per_m.size) && close(kHz.size, 1000 * Hz.size));
static_assert(close(standard_gravity.size * kg.size, kgf.size));

// A tag takes every number type; whole numbers become doubles.
static_assert(std::is_same_v<decltype(12 * thou), length<double>> && std::is_same_v<decltype(12.0f * thou), length<float>>);
static_assert(std::is_same_v<decltype(12.0L * thou), length<long double>>);
static_assert(std::is_same_v<decltype(dual<float, 2>(12.0f) * thou), length<dual<float, 2>>>);
static_assert(std::is_same_v<decltype(2 * mm * mm), area<double>> &&
              std::is_same_v<decltype(2 * N * metre), moment<double>>);
static_assert(7 / 2 * inch == 3 * inch &&
              (7 * inch) / 2 == 3.5 * inch); // whole numbers are divided before they meet a unit

template <class Q, class T>
concept readable_in = requires(Q q, T t) {
    q / t;
};
static_assert(std::is_same_v<decltype(3 * mm / mm), double>);
// Of another kind it is a quotient.
static_assert(a_stiffness<decltype(60 * N / mm)> && 60 * N / mm == 60 * N_per_mm && 2 * (60 * N / mm) / N_per_mm == 120);
static_assert(!readable_in<double, unit_tag<unit::length>>);

// Literals are doubles of the same size as tags.
static_assert(25.5_inch == 25.5 * inch && 25_in == 25 * inch && 12_thou == 12.0 * thou && 43.5_mm == 43.5 * mm);
static_assert(4_cm == 4 * cm && 70.5_N == 70.5 * N && 16_lbf == 16 * lbf && 7.2_kgf == 7.2 * kgf);
static_assert(0.56_g_per_m == 0.56 * g_per_m && 0.00003_lb_per_in == 0.00003 * lb_per_in && 203_GPa == 203 * GPa);
static_assert(2400_MPa == 2400 * MPa && 100.5_psi == 100.5 * psi && 14_deg == 14 * deg && 440_Hz == 440 * Hz);
static_assert(5_cents == 5 * cents && 5.5_cents == 5.5 * cents);

} // namespace

TEST_SUITE("units") {
    TEST_CASE("a quantity is read back in the unit it was written in, for every number type") {
        const auto round_trip = []<class R>(R v) {
            using tautline::abs;
            const auto back = [&](auto tag) {
                return abs(R((v * tag) / tag - v)) <= R(4) * std::numeric_limits<R>::epsilon() * v;
            };
            CHECK(back(inch));
            CHECK(back(thou));
            CHECK(back(lbf));
            CHECK(back(psi));
            CHECK(back(deg));
            CHECK(back(g_per_m));
            CHECK(back(lb_per_in));
            CHECK(back(mm4));
        };
        for (int i = 1; i < 50; ++i) {
            round_trip(0.37f * float(i));
            round_trip(0.37 * double(i));
            round_trip(0.37L * static_cast<long double>(i));
        }
    }
    TEST_CASE("one unit read in another") {
        CHECK(near::relative(25.4 * mm / thou, 1000, 1e-15));
        CHECK(near::relative(10 * kgf / lbf, 22.046226218487758, 1e-15)); // 10 / 0.45359237
        CHECK(near::relative(30 * deg / rad, std::numbers::pi / 6, 1e-15));
        CHECK(near::relative(0.1 * mm * mm / mm2, 0.1, 1e-15));
    }
    TEST_CASE("a dual keeps its derivative through a tag") {
        const auto q = dual<double, 1>::variable(12, 0) * thou;
        CHECK(near::relative(q.value().partial[0], 25.4e-6, 1e-15));
        CHECK(near::relative((q / thou).partial[0], 1, 1e-15));
    }
}
