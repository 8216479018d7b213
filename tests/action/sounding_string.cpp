#include <tautline/action/sounding_string.hpp>

#include <tautline/core/pack.hpp>
#include <tautline/strings/stiff_string.hpp>

#include <utility>
#include <vector>

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
    for (const double stiffer : {1.0, 35.0, 100.0, 800.0}) {
        for (const double ends : {0.0, 0.5, 1.0}) {
            auto s = wire();
            s.nut_end = s.saddle_end = ends;
            s.bending_stiffness = s.bending_stiffness * stiffer;
            const auto t = tension_at_pitch(s, 600 * mm);
            auto limp = s;
            limp.bending_stiffness = 0 * N_m2;
            CHECK(t < tension_at_pitch(limp, 600 * mm));
            CHECK(near::relative(kernel::lowest_partial<double>(1.0 / s.mass_per_length, 600 * mm, t, s.bending_stiffness,
                                                                kernel::held_by(ends, ends)),
                                 220 * Hz, 1e-12));
        }
    }
}

TEST_CASE(
    "end conditions: hinged is Fletcher's sqrt(1 + B), one clamped and two clamped as printed by Anderson & Beausoleil") {
    const double pi2 = 9.869604401089358;
    for (const double e : {0.001, 0.003, 0.005, 0.024}) {
        CHECK(near::within(kernel::stiffness_factor(e, kernel::held_by(0.0, 0.0)), std::sqrt(1 + pi2 * e * e), 1e-15));
    }
    for (const double e : {0.001, 0.003, 0.005}) {
        // They stop at the second order: what is left is 11 e^3 for one clamp, 21.2 e^3 for two.
        CHECK(near::within(kernel::stiffness_factor(e, kernel::held_by(1.0, 0.0)), 1 + e + (1 + pi2 / 2) * e * e,
                           11 * e * e * e));
        CHECK(near::within(kernel::stiffness_factor(e, kernel::held_by(1.0, 1.0)), 1 + 2 * e + 4 * (1 + pi2 / 8) * e * e,
                           22 * e * e * e));
    }
}

TEST_CASE(
    "series and phase agree: what multiplies e^3 and e^4 by differences, the whole within 5e4 e^4 cents to e = 0.03") {
    double worst = 0;
    for (int i = 0; i <= 10; ++i) {
        for (int k = 0; k <= 10; ++k) {
            const double nut = i / 10.0, saddle = k / 10.0;
            const auto ends = kernel::held_by(nut, saddle);
            CHECK(near::within(ends.by_3, kernel::held_by(saddle, nut).by_3, 1e-13));
            const auto off = [&](double e) {
                return 1200 *
                       std::log2(kernel::stiffness_series(e, ends) / kernel::partial_ratio<double>(1, e, nut, saddle));
            };
            for (const double e : {0.003, 0.006, 0.01, 0.015, 0.02, 0.025, 0.03}) {
                CHECK(std::abs(off(e)) < 5e4 * std::pow(e, 4));
            }
            worst = std::max(worst, std::abs(off(0.025)));
            // A series that is right to the fourth order leaves the fifth: 32 times less at half the share.
            if (std::abs(off(0.02)) > 1e-3) { CHECK(near::within(off(0.02) / off(0.01), 32, 6)); }
        }
    }
    CHECK(worst < 0.0075); // where the phase takes over: no jump that matters
    CHECK(worst > 0.006);  // and the documented size of it
    // Written out for two ends: 1 + pi^2/6 for edges, 8 + 4 pi^2/3 for clamps.
    const double pi2 = 9.869604401089358;
    CHECK(near::within(kernel::held_by(0.5, 0.5).by_3, 1 + pi2 / 6, 1e-13));
    CHECK(near::within(kernel::held_by(1.0, 1.0).by_3, 8 + 4 * pi2 / 3, 1e-13));
}

TEST_CASE("from e = 0.025 on the answer is the phase itself, and before it rises with each end's factor") {
    for (const double e : {0.0251, 0.03, 0.04, 0.1}) {
        CHECK(near::relative(kernel::stiffness_factor(e, kernel::held_by(0.3, 0.8)),
                             kernel::partial_ratio<double>(1, e, 0.3, 0.8), 1e-15));
    }
    CHECK(kernel::stiffness_factor(0.0249, kernel::held_by(0.3, 0.8)) ==
          kernel::stiffness_series(0.0249, kernel::held_by(0.3, 0.8)));
    for (const double e : {0.002, 0.01, 0.0249, 0.0251, 0.05}) {
        for (int i = 0; i < 10; ++i) {
            CHECK(kernel::stiffness_factor(e, kernel::held_by(0.1 * i, 0.4)) <
                  kernel::stiffness_factor(e, kernel::held_by(0.1 * (i + 1), 0.4)));
            CHECK(kernel::stiffness_factor(e, kernel::held_by(0.7, 0.1 * i)) <
                  kernel::stiffness_factor(e, kernel::held_by(0.7, 0.1 * (i + 1))));
        }
    }
}

TEST_CASE("nut and saddle hold the open string each by its own factor; the tension agrees with strings/") {
    for (const double stiffer : {1.0, 30.0, 400.0}) {
        for (const auto& [nut, saddle] : {std::pair{0.5, 0.5}, {1.0, 0.0}, {0.2, 0.9}}) {
            auto s = wire();
            s.nut_end = nut;
            s.saddle_end = saddle;
            s.fret_end = 0.77; // has no say
            s.bending_stiffness = s.bending_stiffness * stiffer;
            const auto by_phase =
                tension_of_stiff<double>(0.9 * g_per_m, 600 * mm, 220 * Hz, s.bending_stiffness, {nut, saddle});
            // 0.0075 cents of pitch are 8.7e-6 of the tension.
            CHECK(near::relative(tension_at_pitch(s, 600 * mm), by_phase, 9e-6));
        }
    }
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
    // To the last digits by the law the tension solves: f(T, B) stays what it is. By the series, and by the phase.
    const auto pitch = [&](D pull, D bending) {
        const auto s = over<D>(wire());
        return kernel::lowest_partial<D>(number<D>(1) / s.mass_per_length, over<D>(600 * mm), force<D>::from_value(pull),
                                         flexural_rigidity<D>::from_value(bending),
                                         kernel::held_by(s.nut_end, s.saddle_end))
            .value()
            .partial[0];
    };
    for (const double stiff : {at, 35 * at, 100 * at, 600 * at}) {
        const auto exact = tension(stiff * N_m2);
        const double slope = -pitch(D(exact), D::variable(stiff, 0)) / pitch(D::variable(exact, 0), D(stiff));
        CHECK(near::relative(tension(flexural_rigidity<D>::from_value(D::variable(stiff, 0))).partial[0], slope, 1e-12));
    }
    CHECK(std::isfinite(tension(flexural_rigidity<D>::from_value(D(0.0))).partial[0]));
}

TEST_CASE("how the ends hold the open string is the same over another number type, member by member") {
    auto s = wire();
    s.nut_end = 0.3;
    s.saddle_end = 0.8;
    const kernel::held_open<double> held(s);
    const auto same = held.as<dual<double, 1>>();
    const auto is = [](const dual<double, 1>& d, double value) {
        CHECK(d.value == value);
        CHECK(d.partial[0] == 0);
        CHECK(value != 0);
    };
    is(same.ends.first, 0.3);
    is(same.ends.second, 0.8);
    is(same.ends.by_1, held.ends.by_1);
    is(same.ends.by_2, held.ends.by_2);
    is(same.ends.by_3, held.ends.by_3);
    is(same.ends.by_4, held.ends.by_4);
    is(same.by_2, held.by_2);
    is(same.by_3, held.by_3);
    is(same.by_4, held.by_4);
    is(same.limp_per_length, held.limp_per_length);
    is(same.root_bending, held.root_bending);
}

TEST_CASE("lanes of a pack, one of them past the series, one limp, say what each says alone") {
    using P = pack<double>;
    constexpr std::size_t lanes = lanes_of<P>::count;
    for (const bool limp_too : {false, true}) {
        auto many = over<P>(wire());
        std::vector<sounding_string> alone(lanes, wire());
        for (std::size_t i = 0; i < lanes; ++i) {
            alone[i].bending_stiffness = (i % 2 == 0 ? 0.15 : (limp_too ? 0.0 : 2.5e-4)) * N_m2;
            P stiff = many.bending_stiffness.value();
            lanes_of<P>::set(stiff, i, alone[i].bending_stiffness.value());
            many.bending_stiffness = flexural_rigidity<P>::from_value(stiff);
        }
        const auto tension = tension_at_pitch<P>(many, over<P>(600 * mm));
        const auto pitch =
            kernel::lowest_partial<P>(number<P>(1) / many.mass_per_length, over<P>(300 * mm), tension,
                                      many.bending_stiffness, kernel::held_by(many.fret_end, many.saddle_end));
        for (std::size_t i = 0; i < lanes; ++i) {
            const auto t = tension_at_pitch(alone[i], 600 * mm);
            CHECK(near::relative(tension.value()[i], t.value(), 1e-14));
            const auto f =
                kernel::lowest_partial<double>(1.0 / alone[i].mass_per_length, 300 * mm, t, alone[i].bending_stiffness,
                                               kernel::held_by(alone[i].fret_end, alone[i].saddle_end));
            CHECK(near::relative(pitch.value()[i], f.value(), 1e-14));
        }
    }
}

TEST_CASE("bad input is named") {
    auto s = wire();
    s.axial_stiffness = 0 * N;
    CHECK_THROWS_WITH((void)tension_at_pitch(s, 600 * mm),
                      "string.axial_stiffness is 0 N; it must be at least 0.000001 N and at most 100000000 N.");
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
