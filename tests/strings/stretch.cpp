#include <tautline/strings/stretch.hpp>

#include <numbers>
#include <random>

#include "near.hpp"
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("stretch: length drawn in, by following a slack length") {
    // 900 mm of path; before, the string on it is just straight and slack. Drawing in u leaves 900 - u of slack string,
    // stretched to 900: strain u/(900 - u).
    const auto s = plain_string(music_wire(), 11 * thou);
    const auto u = length_drawn_in(s, 900 * mm, 80 * N);
    const double eps = (u / mm) / (900 - u / mm);
    CHECK(near::relative(axial_stiffness(s) * eps, 80 * N, 1e-12));
    CHECK(length_drawn_in(s, 900 * mm, 0.0 * N) == 0.0 * mm);
    CHECK_THROWS_AS((void)length_drawn_in(s, 0.0 * mm, 80 * N), invalid_input);
    CHECK_THROWS_AS((void)length_drawn_in(s, 900 * mm, -80.0 * N), invalid_input);
}

TEST_CASE("stretch: turns of a post") {
    // One turn of a thin string on 6 mm is the circle's circumference; the coil's advance makes it a helix.
    CHECK(near::relative(post_turns(std::numbers::pi * 6 * mm, 6 * mm, 1e-4 * mm), 1.0, 2e-5));
    CHECK(near::relative(post_turns(100 * mm, 6 * mm, 1 * mm),
                         100 / std::sqrt(std::numbers::pi * 7 * std::numbers::pi * 7 + 1), 1e-12));
    CHECK(post_turns(0.0 * mm, 6 * mm, 1 * mm) == 0);
    CHECK_THROWS_AS((void)post_turns(10 * mm, 0.0 * mm, 1 * mm), invalid_input);
}

TEST_CASE("stretch: property, both rates are the slopes of the pitch of a string followed exactly") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> d(0.2, 0.5), t(40, 150), path(600, 1100);
    for (int i = 0; i < 100; ++i) {
        const auto s = i % 2 ? plain_string(music_wire(), d(random) * mm) : plain_string(nylon(), 2 * d(random) * mm);
        const double pull = t(random), whole = path(random) * 1e-3, ea = axial_stiffness(s).value();
        const double slack = whole / (1 + pull / ea), mu = mass_per_length(s).value();
        // Pitch over a fixed speaking length: path and slack length decide.
        const auto log_pitch = [&](double now, double slack_now) {
            const double eps = now / slack_now - 1;
            return 600 * std::log2(ea * eps * (1 + eps) / mu);
        };
        const double h = 1e-6;
        const double by_path = (log_pitch(whole + h, slack) - log_pitch(whole - h, slack)) / (2 * h);
        const double drawn = (log_pitch(whole, slack - h) - log_pitch(whole, slack + h)) / (2 * h);
        CHECK(near::relative(pitch_by_path(s, whole * metre, pull * N).cents_per_metre, by_path, 1e-6));
        CHECK(near::relative(pitch_by_length_drawn_in(s, whole * metre, pull * N).cents_per_metre, drawn, 1e-6));
        CHECK(near::relative(pitch_by_path(s, whole * metre, pull * N) * (2 * mm) / cents, by_path * 2e-3, 1e-6));
        // For small strains the second is EA/T + 3.
        const double eps = pull / ea;
        CHECK(near::relative(drawn, 600 / std::log(2) * (1 / eps + 3) / whole, 2.5 * eps * eps + 1e-6));
    }
}

TEST_CASE("stretch: lateral stiffness is the force of two straight parts") {
    const double pull = 70, a = 0.2, b = 0.44, push = 1e-6;
    const double exact = pull * (push / std::hypot(a, push) + push / std::hypot(b, push)) / push;
    CHECK(near::relative(lateral_stiffness(pull * N, a * metre, b * metre), exact * N_per_m, 1e-9));
    CHECK(near::relative(lateral_stiffness(70 * N, 320 * mm, 320 * mm), 4 * 70 / 0.64 * N_per_m, 1e-13));
    CHECK_THROWS_AS((void)lateral_stiffness(70 * N, 0.0 * mm, 320 * mm), invalid_input);
}

TEST_CASE("bend: small pushes follow the path's rate, and lose what the sounding part gains in length") {
    const auto s = plain_string(music_wire(), 10 * thou);
    const sideways_bend b{.nut_to_finger = 260 * mm, .finger_to_saddle = 380 * mm, .beyond = 150 * mm};
    const double aside = 0.5e-3;
    const double growth = aside * aside / 2 * (1 / 0.26 + 1 / 0.38);
    const double longer = aside * aside / 2 / (0.38 * 0.38);
    const auto c = bent(s, b, 72 * N, aside * metre);
    const double expected = pitch_by_path(s, 790 * mm, 72 * N).cents_per_metre * growth - 1200 / std::log(2) * longer;
    CHECK(near::relative(c.change / cents, expected, 1e-4));
    CHECK(near::relative(
        c.pull, (72 + axial_stiffness(s).value() * (1 + 72 / axial_stiffness(s).value()) * growth / 0.79) * N, 1e-6));
    CHECK(bent(s, b, 72 * N, 0.0 * mm).change / cents == 0.0);
}

TEST_CASE("bend: property, the distance for a rise gives that rise; a longer string beyond the ends bends less") {
    std::mt19937 random(13);
    std::uniform_real_distribution<double> where(100, 400), beyond(0, 300), rise(5, 250);
    const auto s = plain_string(music_wire(), 11 * thou);
    for (int i = 0; i < 100; ++i) {
        sideways_bend b{
            .nut_to_finger = where(random) * mm, .finger_to_saddle = where(random) * mm, .beyond = beyond(random) * mm};
        const double wanted = rise(random);
        const auto aside = distance_aside_for(s, b, 70 * N, wanted * cents);
        REQUIRE(aside);
        CHECK(near::within(bent(s, b, 70 * N, *aside).change / cents, wanted, 1e-8));
        b.beyond = b.beyond + 100 * mm;
        CHECK(bent(s, b, 70 * N, *aside).change / cents < wanted);
    }
    const sideways_bend stiff{.nut_to_finger = 300 * mm, .finger_to_saddle = 340 * mm};
    CHECK_FALSE(distance_aside_for(s, stiff, 70 * N, 5000 * cents)); // out of reach: an answer, not an error
    CHECK(near::within(*distance_aside_for(s, stiff, 70 * N, 0 * cents), 0.0 * mm, 1e-6 * mm));
    CHECK_THROWS_AS((void)bent(s, sideways_bend(), 70 * N, 1 * mm), invalid_input);
    CHECK_THROWS_AS((void)distance_aside_for(s, stiff, 70 * N, -5 * cents), invalid_input);
}

TEST_CASE("bend: derivative of the distance by tension, through the search, against a difference") {
    using D = dual<double, 1>;
    const auto s = plain_string(music_wire(), 11 * thou);
    const sideways_bend b{.nut_to_finger = 300 * mm, .finger_to_saddle = 340 * mm, .beyond = 100 * mm};
    const auto d = distance_aside_for<D>(over<D>(s), over<D>(b), D::variable(70.0, 0) * N, interval<D>::from_cents(100.0));
    const double h = 1e-3;
    const auto at = [&](double pull) { return distance_aside_for(s, b, pull * N, 100 * cents)->value(); };
    CHECK(near::relative(d->value().value, at(70), 1e-12));
    CHECK(near::relative(d->value().partial[0], (at(70 + h) - at(70 - h)) / (2 * h), 1e-6));
}

TEST_CASE("warmth: a string on a body of its own material keeps its strain; thermal stress is E alpha dT") {
    const auto s = plain_string(music_wire(), 11 * thou);
    // Same expansion: tension stays, all lengths grow by alpha dT, pitch falls by half of that in octaves of e.
    const auto same = warmed(s, 80 * N, 12e-6 * per_kelvin, 20 * kelvin);
    CHECK(near::relative(same->pull, 80 * N, 1e-9));
    CHECK(near::relative(same->change / cents, -600 / std::log(2) * 12e-6 * 20, 1e-3));
    // A rigid body: the core loses E alpha dT of stress (OpenStax University Physics 2, 1.3: thermal stress), to the first
    // order in the strains.
    const auto rigid = warmed(s, 80 * N, 0 * per_kelvin, 20 * kelvin);
    CHECK(near::relative(80 * N - rigid->pull, axial_stiffness(s) * (12e-6 * 20), 0.01));
    CHECK(rigid->change.cents() < 0);
    CHECK(warmed(s, 80 * N, 0 * per_kelvin, -20 * kelvin)->change.cents() > 0);
    CHECK(near::within(warmed(s, 80 * N, 5e-6 * per_kelvin, 0 * kelvin)->change / cents, 0.0, 1e-9));
    // Warm it enough and nothing is left of the strain: an answer, not an error.
    CHECK_FALSE(warmed(plain_string(music_wire(), 0.5 * mm), 20 * N, 0 * per_kelvin, 60 * kelvin));
    CHECK_FALSE(warmed(plain_string(nylon(), 0.7 * mm), 60 * N, 4e-6 * per_kelvin, 5 * kelvin)); // expansion not known
    CHECK_THROWS_AS((void)warmed(s, 0.0 * N, 4e-6 * per_kelvin, 5 * kelvin), invalid_input);
    CHECK_THROWS_AS((void)warmed(s, 80 * N, 1 * per_kelvin, 5 * kelvin), invalid_input);
}
