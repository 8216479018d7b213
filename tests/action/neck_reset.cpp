#include <tautline/action/neck_reset.hpp>

#include <complex>
#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The worked example of the project's own page on neck resets; every number of it was worked out there by an independent
/// program: scale 640, joint at fret 14, nut slot 3.0, crests 1.1 + 1.5 (1 - x/x_e), saddle (642, 6.0).
constexpr double x_e = 354.91;
double crest_at(double x) { return 1.1 + 1.5 * (1 - x / x_e); }
reset_case example() {
    reset_case c;
    c.joint = {.x = x_e * mm, .z = -6 * mm};
    c.string = {.nut_x = 0 * mm, .nut_z = 3 * mm, .saddle_x = 642 * mm, .saddle_z = 6 * mm};
    c.fret_x = 320 * mm;
    c.crest_z = crest_at(320) * mm;
    return c;
}
angle<> thousandths(double t) { return t * 1e-3 * rad; }

/// Instruments of every size.
reset_case random_case(std::mt19937& random) {
    const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
    const double scale = between(330, 900), share = between(0.42, 0.68);
    reset_case c;
    c.joint = {.x = share * scale * mm, .z = between(-9, -3) * mm, .leave = between(0, 1) * mm};
    c.string = {.nut_x = 0 * mm,
                .nut_z = between(0.5, 3) * mm,
                .saddle_x = (scale + between(0, 6)) * mm,
                .saddle_z = between(3, 14) * mm};
    c.fret_x = 0.5 * scale * mm;
    c.crest_z = between(0.2, 1.5) * mm;
    return c;
}

} // namespace

TEST_SUITE("neck reset") {
    TEST_CASE("the worked example, digit by digit") {
        const auto c = example();
        CHECK(near::within(action_after_turn(c, 0 * deg), 3.2478 * mm, 5e-5 * mm));
        const auto t = turn_for_action(c, 2.2 * mm);
        CHECK(t.reachable);
        CHECK(near::within(t.turn / rad, 7.32126e-3, 1e-8));
        CHECK(near::within(t.action, 2.2 * mm, 1e-9 * mm));
        CHECK(near::within(first_order_turn(c, 2.2 * mm) / rad, 7.32214e-3, 5e-9));
        CHECK(near::within(heel_cut(c.joint, t.turn, 88 * mm), 0.64428 * mm, 5e-6 * mm));
        const auto nut = after_turn(c.joint, t.turn, {.x = c.string.nut_x, .z = c.string.nut_z});
        CHECK(near::within(nut.x - c.string.nut_x, -0.05638 * mm, 5e-6 * mm));
        CHECK(near::within(nut.z - c.string.nut_z, -2.59861 * mm, 5e-6 * mm));
        const auto octave = after_turn(c.joint, t.turn, {.x = c.fret_x, .z = c.crest_z});
        CHECK(near::within(octave.x - c.fret_x, -0.05213 * mm, 5e-6 * mm));
        CHECK(near::within(tongue_wedge(c.joint, t.turn, 460 * mm), 0.76937 * mm, 2e-5 * mm));
        CHECK(near::within(length_error_after_turn(c, 0 * deg) / cents, -5.5545, 5e-5));
        CHECK(near::within(length_error_after_turn(c, t.turn) / cents, -5.6566, 5e-5));
        // The change of the string's slope, (z_n - z'_n)/L to first order.
        CHECK(near::relative(break_change(c, t.turn) / rad, 2.59861 / 642, 1e-3));
    }
    TEST_CASE("half a millimetre off the whole face sharpens the octave by some 1.2 cents") {
        auto c = example();
        const auto before = length_error_after_turn(c, 0 * deg);
        c.joint.leave = 0.5 * mm;
        // Derived: 1200/ln 2 times (leave over what the octave fret leaves, less leave over the whole).
        CHECK(near::within((length_error_after_turn(c, 0 * deg) - before) / cents,
                           1200 / std::log(2.0) * (0.5 / 322 - 0.5 / 642), 0.01));
        CHECK(near::within(heel_cut(c.joint, 0 * deg, 88 * mm), 0.5 * mm, 1e-12 * mm));
        CHECK(near::within(heel_cut(c.joint, thousandths(10), 0 * mm), 0.5 * mm, 1e-12 * mm));
        // Linear between edge and cap.
        CHECK(near::within(heel_cut(c.joint, thousandths(10), 44 * mm) - 0.5 * mm,
                           (heel_cut(c.joint, thousandths(10), 88 * mm) - 0.5 * mm) / 2.0, 1e-12 * mm));
    }
    TEST_CASE("an action that is there already takes no turn") {
        std::mt19937 random(1);
        for (int trial = 0; trial < 200; ++trial) {
            auto c = random_case(random);
            c.joint.leave = 0 * mm;
            const auto now = action_after_turn(c, 0 * deg);
            if (now < 0.2 * mm) { continue; }
            CHECK(std::abs(turn_for_action(c, now).turn / rad) < 1e-12);
        }
    }
    TEST_CASE("the turn found gives the action, by points turned here") {
        std::mt19937 random(2);
        std::uniform_real_distribution<double> wish(0.8, 4);
        int tried = 0;
        for (int trial = 0; trial < 500; ++trial) {
            const auto c = random_case(random);
            const double wanted = wish(random);
            const auto t = turn_for_action(c, wanted * mm);
            if (!t.reachable) { continue; }
            ++tried;
            const auto turned = [&](double x, double z) {
                const std::complex<double> arm((x - c.joint.x / mm), (z - c.joint.z / mm));
                const auto there = arm * std::polar(1.0, t.turn / rad);
                return std::pair{c.joint.x / mm + c.joint.leave / mm + there.real(), c.joint.z / mm + there.imag()};
            };
            const auto [nx, nz] = turned(c.string.nut_x / mm, c.string.nut_z / mm);
            const auto [ax, az] = turned(c.fret_x / mm, c.crest_z / mm);
            const double px = c.string.saddle_x / mm, pz = c.string.saddle_z / mm;
            CHECK(near::within(nz + (pz - nz) * (ax - nx) / (px - nx) - az, wanted, 1e-9));
        }
        CHECK(tried > 300);
    }
    TEST_CASE("distances between points of the neck are kept, a turn and its opposite undo each other") {
        std::mt19937 random(3);
        std::uniform_real_distribution<double> x(-150, 500), z(-90, 5), angle(-59, 59);
        for (int trial = 0; trial < 200; ++trial) {
            auto joint = random_case(random).joint;
            const auto turn = thousandths(angle(random));
            const point a{.x = x(random) * mm, .z = z(random) * mm}, b{.x = x(random) * mm, .z = z(random) * mm};
            const auto ta = after_turn(joint, turn, a), tb = after_turn(joint, turn, b);
            CHECK(near::relative(hypot(length<>(tb.x - ta.x), length<>(tb.z - ta.z)),
                                 hypot(length<>(b.x - a.x), length<>(b.z - a.z)), 1e-12));
            // Seen from the neck, what stayed on the body went the other way.
            const auto back = seen_after_turn(joint, turn, ta);
            CHECK(near::within(back.x, length<>(a.x), 1e-9 * mm));
            CHECK(near::within(back.z, length<>(a.z), 1e-9 * mm));
            joint.leave = 0 * mm;
            const auto undone = after_turn(joint, -turn, after_turn(joint, turn, a));
            CHECK(near::within(undone.x, length<>(a.x), 1e-9 * mm));
            CHECK(near::within(undone.z, length<>(a.z), 1e-9 * mm));
        }
    }
    TEST_CASE("saddle and reset trade at theta = -dz_s/(x_s - x_e) to first order") {
        std::mt19937 random(4);
        for (int trial = 0; trial < 100; ++trial) {
            auto c = random_case(random);
            c.joint.leave = 0 * mm;
            const auto now = action_after_turn(c, 0 * deg);
            if (now < 0.5 * mm) { continue; }
            for (const double dz : {-0.2, 0.1}) {
                // The saddle raised by dz: what turn keeps the action?
                auto raised = c;
                raised.string.saddle_z = c.string.saddle_z + dz * mm;
                const auto t = turn_for_action(raised, now);
                CHECK(near::relative(t.turn / rad, dz / ((c.string.saddle_x - c.joint.x) / mm), 0.02));
            }
        }
    }
    TEST_CASE("first order is within 2 % below 15 thousandths") {
        std::mt19937 random(5);
        for (int trial = 0; trial < 300; ++trial) {
            auto c = random_case(random);
            c.joint.leave = 0 * mm;
            const auto wanted = action_after_turn(c, thousandths(std::uniform_real_distribution<double>(-15, 15)(random)));
            if (wanted < 0.2 * mm) { continue; }
            const auto t = turn_for_action(c, wanted);
            CHECK(near::within(first_order_turn(c, wanted) / rad, t.turn / rad, 0.02 * std::abs(t.turn / rad) + 1e-9));
        }
    }
    TEST_CASE("the line of the crests rises at the saddle by theta (x_s - x_e)") {
        const auto c = example();
        const auto t = thousandths(5);
        const auto a = after_turn(c.joint, t, {.x = 100 * mm, .z = crest_at(100) * mm}),
                   b = after_turn(c.joint, t, {.x = 300 * mm, .z = crest_at(300) * mm});
        const auto there = a.z + (b.z - a.z) * ((642 * mm - a.x) / (b.x - a.x));
        CHECK(near::relative(there - crest_at(642) * mm, 5e-3 * (642 - x_e) * mm, 0.01));
    }
    TEST_CASE("out of range comes back with the nearer end") {
        const auto c = example();
        const auto down = turn_for_action(c, 2.2 * mm, thousandths(-2), thousandths(3));
        CHECK_FALSE(down.reachable);
        CHECK(down.turn == thousandths(3));
        CHECK(down.action == action_after_turn(c, thousandths(3)));
        const auto up = turn_for_action(c, 4 * mm, thousandths(-2), thousandths(3));
        CHECK_FALSE(up.reachable);
        CHECK(up.turn == thousandths(-2));
        CHECK(up.action > 3.3 * mm);
    }
    TEST_CASE("a head that goes back takes a shim under the bridge end of the pocket") {
        CHECK(near::within(pocket_shim(thousandths(10), 70 * mm), 0.7 * mm, 1e-4 * mm));
        CHECK(pocket_shim(thousandths(-10), 70 * mm) < 0 * mm);
    }
    TEST_CASE("a dual carries the derivative, long double and float the answer") {
        const auto turn = [](auto wanted) {
            using R = real_of_t<decltype(wanted)>;
            return turn_for_action(over<R>(example()), wanted).turn.value();
        };
        using D = dual<double, 1>;
        const double h = 1e-7;
        CHECK(near::relative(turn(length<D>::from_value(D::variable(0.0022, 0))).partial[0],
                             (turn((0.0022 + h) * metre) - turn((0.0022 - h) * metre)) / (2 * h), 1e-6));
        CHECK(near::within(static_cast<double>(turn(length<long double>(2.2L * mm))), 7.32126e-3, 1e-8));
        CHECK(near::within(static_cast<double>(turn(length<float>(2.2f * mm))), 7.32126e-3, 1e-5));
    }
    TEST_CASE("bad input is named") {
        auto c = example();
        CHECK_THROWS_WITH((void)action_after_turn(c, thousandths(61)),
                          doctest::Contains("turn is 3.49504 deg; it must be at least -3.4 deg and at most 3.4 deg"));
        CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm, 1 * deg, -1 * deg), "most must be more than least.");
        c.joint.x = 700 * mm;
        CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm), "case.joint.x must lie before the saddle.");
        c = example();
        c.fret_x = 650 * mm;
        CHECK_THROWS_WITH((void)turn_for_action(c, 2 * mm), "case.fret_x must lie between nut and saddle.");
        CHECK_THROWS_WITH((void)tongue_wedge(example().joint, thousandths(1), 300 * mm), "x must lie beyond the joint.");
        CHECK_THROWS_AS((void)heel_cut(example().joint, thousandths(1), -1 * mm), invalid_input);
        CHECK_THROWS_AS((void)turn_for_action(example(), 0 * mm), invalid_input);
    }
}
