#include <tautline/action/sounding_string.hpp>

#include <tautline/strings/stiff_string.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
sounding_string wire() {
    return {.mass_per_length = 0.9 * g_per_m,
            .open_pitch = 220 * Hz,
            .axial_stiffness = 20000 * N,
            .bending_stiffness = 2.5e-4 * N_m2};
}
} // namespace

TEST_CASE("a limp string pulls mu (2 L f)^2") {
    auto s = wire();
    s.bending_stiffness = 0 * N_m2;
    CHECK(near::relative(tension_at_pitch(s, 600 * mm), 0.9e-3 * 264 * 264 * N, 1e-12));
}

TEST_CASE("stiffness sounds sharp, so the string at pitch is slacker; the pitch comes back") {
    // To the stiffest that still counts as a string.
    for (const double stiffer : {1.0, 100.0, 800.0}) {
        for (const double ends : {0.0, 0.5, 1.0}) {
            auto s = wire();
            s.nut_end = s.saddle_end = ends;
            s.bending_stiffness = s.bending_stiffness * stiffer;
            const auto t = tension_at_pitch(s, 600 * mm);
            auto limp = s;
            limp.bending_stiffness = 0 * N_m2;
            CHECK(t < tension_at_pitch(limp, 600 * mm));
            CHECK(near::relative(
                kernel::lowest_partial<double>(1.0 / s.mass_per_length, 600 * mm, t, s.bending_stiffness, 2 * ends),
                220 * Hz, 1e-12));
        }
    }
}

TEST_CASE(
    "end conditions: hinged is Fletcher's sqrt(1 + B), one clamped and two clamped as printed by Anderson & Beausoleil") {
    const double pi2 = 9.869604401089358;
    for (const double e : {0.001, 0.003, 0.005}) {
        CHECK(near::within(kernel::stiffness_factor(e, 0.0), std::sqrt(1 + pi2 * e * e), 1e-15));
        CHECK(near::within(kernel::stiffness_factor(e, 1.0), 1 + e + (1 + pi2 / 2) * e * e, 13 * e * e * e * e));
        CHECK(near::within(kernel::stiffness_factor(e, 2.0), 1 + 2 * e + 4 * (1 + pi2 / 8) * e * e, 13 * e * e * e * e));
    }
}

TEST_CASE("the second order used here agrees with the boundary-layer solution of strings/ within 0.01 cents for fretted "
          "strings") {
    for (const double e : {0.001, 0.003, 0.006}) {
        for (const double ends : {0.0, 0.5, 1.0, 2.0}) {
            const double off =
                1200 * std::log2(kernel::stiffness_factor(e, ends) / kernel::partial_ratio<double>(1, e, ends));
            CHECK(near::within(off, 0, 0.01));
        }
    }
    CHECK(near::relative(tension_at_pitch(wire(), 600 * mm),
                         tension_of_stiff<double>(0.9 * g_per_m, 600 * mm, 220 * Hz, 2.5e-4 * N_m2), 1e-5));
}

TEST_CASE("a dual carries the derivative with respect to bending stiffness, zero included") {
    const auto tension = [](auto bending) {
        using R = real_of_t<decltype(bending)>;
        auto s = over<R>(wire());
        s.bending_stiffness = bending;
        return tension_at_pitch(s, 600 * mm).value();
    };
    using D = dual<double, 1>;
    const double at = 2.5e-4, h = 1e-8;
    const double by_difference = (tension((at + h) * N_m2) - tension((at - h) * N_m2)) / (2 * h);
    CHECK(near::relative(tension(flexural_rigidity<D>::from_value(D::variable(at, 0))).partial[0], by_difference, 1e-6));
    // To the last digits by the law the tension solves: f(T, B) stays what it is.
    const auto exact = tension(at * N_m2);
    const auto pitch = [&](D pull, D bending) {
        const auto s = over<D>(wire());
        return kernel::lowest_partial<D>(number<D>(1) / s.mass_per_length, over<D>(600 * mm), force<D>::from_value(pull),
                                         flexural_rigidity<D>::from_value(bending), D(s.nut_end + s.saddle_end))
            .value()
            .partial[0];
    };
    const double slope = -pitch(D(exact), D::variable(at, 0)) / pitch(D::variable(exact, 0), D(at));
    CHECK(near::relative(tension(flexural_rigidity<D>::from_value(D::variable(at, 0))).partial[0], slope, 1e-12));
    CHECK(std::isfinite(tension(flexural_rigidity<D>::from_value(D(0.0))).partial[0]));
}

TEST_CASE("bad input is named") {
    auto s = wire();
    s.axial_stiffness = 0 * N;
    CHECK_THROWS_WITH((void)tension_at_pitch(s, 600 * mm), "string.axial_stiffness is 0 N; it must be more than 0 N.");
    s = wire();
    s.fret_end = 1.5;
    CHECK_THROWS_AS((void)tension_at_pitch(s, 600 * mm), invalid_input);
    s = wire();
    s.bending_stiffness = 1 * N_m2;
    CHECK_THROWS_AS((void)tension_at_pitch(s, 600 * mm), invalid_input);
    CHECK_THROWS_AS((void)tension_at_pitch(wire(), 0 * mm), invalid_input);
    s = wire();
    s.open_pitch = std::nan("") * Hz;
    CHECK_THROWS_AS((void)tension_at_pitch(s, 600 * mm), invalid_input);
}

TEST_CASE("a length that cannot sound is called that, not a stiffness") {
    CHECK_THROWS_WITH((void)tension_at_pitch(wire(), 0 * mm), "speaking length is 0 mm; it must be more than 0 mm.");
}
