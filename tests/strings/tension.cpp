#include <tautline/strings/tension.hpp>
#include <tautline/strings/wound_string.hpp>

#include <numbers>
#include <random>

#include "near.hpp"
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("tension: scaling laws of the ideal string") {
    const auto t = tension(0.4 * g_per_m, 640 * mm, 330 * Hz);
    CHECK(near::relative(tension(0.4 * g_per_m, 640 * mm, 660 * Hz), 4 * t, 1e-14));
    CHECK(near::relative(tension(0.4 * g_per_m, 320 * mm, 330 * Hz), 0.25 * t, 1e-14));
    CHECK(near::relative(tension(1.2 * g_per_m, 640 * mm, 330 * Hz), 3 * t, 1e-14));
    static_assert(tension(1.0 * g_per_m, 500 * mm, 100 * Hz) > 9.99999 * N);
    CHECK_THROWS_AS((void)tension(0.4 * g_per_m, 0.0 * mm, 330 * Hz), invalid_input);
    CHECK_THROWS_AS((void)tension(0.4 * g_per_m, 640 * mm, -330 * Hz), invalid_input);
    CHECK_THROWS_AS((void)tension(std::nan("") * g_per_m, 640 * mm, 330 * Hz), invalid_input);
}

TEST_CASE("tension: property, a stretching string obeys Mersenne's law with its mass per length at pitch") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> thickness(8, 40), wire(4, 30), hertz(60, 400), scale(500, 800);
    for (int i = 0; i < 300; ++i) {
        const auto core = thickness(random) * thou;
        const auto s = wound_string({.gauge = core + 2 * wire(random) * thou,
                                     .core = core,
                                     .core_material = music_wire(),
                                     .wrap_material = phosphor_bronze()});
        const auto f = hertz(random) * Hz;
        const auto l = scale(random) * mm;
        const auto t = tension(s, l, f);
        CHECK(near::relative(t, tension(mass_per_length_at(s, t), l, f), 1e-12));
        CHECK(t < tension(mass_per_length(s), l, f));
    }
}

TEST_CASE("tension: the derivative by pitch, against a difference; other number types") {
    using D = dual<double, 1>;
    const auto s = plain_string(music_wire(), 12 * thou);
    const auto by_pitch = tension(over<D>(s), 640 * mm, D::variable(246.94, 0) * Hz).value().partial[0];
    const double h = 1e-3;
    const double difference =
        (tension(s, 640 * mm, (246.94 + h) * Hz) - tension(s, 640 * mm, (246.94 - h) * Hz)).value() / (2 * h);
    CHECK(near::relative(by_pitch, difference, 1e-8));
    CHECK(near::relative(static_cast<double>(tension(over<float>(s), 640.0f * mm, 246.94f * Hz).value()),
                         tension(s, 640 * mm, 246.94 * Hz).value(), 1e-5));
    CHECK(near::relative(static_cast<double>(tension(over<long double>(s), 640 * mm, 246.94 * Hz).value()),
                         tension(s, 640 * mm, 246.94 * Hz).value(), 1e-14));
    using DD = dual<dual<double, 1>, 1>;
    CHECK(near::relative(value_of(tension(over<DD>(s), 640 * mm, 246.94 * Hz).value()),
                         tension(s, 640 * mm, 246.94 * Hz).value(), 1e-14));
}

TEST_CASE("tension: core stress and share of strength") {
    const auto s = plain_string(music_wire(), 10 * thou);
    const auto pull = 72 * N;
    CHECK(near::relative(core_stress(s, pull), 72 / (std::numbers::pi / 4 * 0.254 * 0.254) * MPa, 1e-12));
    const auto share = share_of_strength(s, pull);
    REQUIRE(share);
    CHECK(near::relative(*share, 72 / (std::numbers::pi / 4 * 0.254 * 0.254) / (2153.5 * std::pow(0.254, -0.1625)), 1e-12));
    CHECK(*share_of_strength(s, 200 * N) > 1); // above its strength: an answer, not an error
    CHECK_FALSE(share_of_strength(plain_string(copper(), 10 * thou), pull).has_value());
    CHECK_THROWS_AS((void)core_stress(s, -1.0 * N), invalid_input);
}

TEST_CASE("tension: property, pitch, length and tension come back from each other; bare ends too") {
    std::mt19937 random(23);
    std::uniform_real_distribution<double> d(0.2, 0.6), w(0.1, 0.5), scale(400, 900), hertz(60, 300), bare(0, 30);
    for (int i = 0; i < 200; ++i) {
        const auto core = d(random) * mm;
        auto s = wound_string(
            {.gauge = core + 2 * w(random) * mm, .core = core, .core_material = music_wire(), .wrap_material = nickel()});
        if (i % 2 == 0) { s.bare = bare_ends{.at_nut = bare(random) * mm, .at_saddle = bare(random) * mm}; }
        const auto l = scale(random) * mm;
        const auto f = hertz(random) * Hz;
        const auto t = tension(s, l, f);
        CHECK(near::relative(pitch_at(s, l, t), f, 1e-12));
        CHECK(near::relative(speaking_length_at(s, f, t), l, 1e-12));
        const auto mu = mass_per_length_at(s, t);
        CHECK(near::relative(mass_per_length_for(tension(mu, l, f), l, f), mu, 1e-12));
        CHECK(near::relative(pitch_at(mu, l, tension(mu, l, f)), f, 1e-12));
        CHECK(near::relative(speaking_length_at(mu, f, tension(mu, l, f)), l, 1e-12));
    }
}

TEST_CASE("tension: the highest pitch and the longest scale are where the core reaches its share") {
    const auto s = plain_string(music_wire(), 9 * thou);
    const auto f = highest_pitch(s, 640 * mm, 0.8);
    REQUIRE(f);
    CHECK(near::relative(*share_of_strength(s, tension(s, 640 * mm, *f)), 0.8, 1e-12));
    const auto l = longest_speaking_length(s, *f, 0.8);
    REQUIRE(l);
    CHECK(near::relative(*l, 640 * mm, 1e-12));
    CHECK(*highest_pitch(s, 640 * mm) > *f);
    // sqrt(S/rho)/(2 L) for a plain string, but for the stretch.
    CHECK(near::relative(*highest_pitch(s, 640 * mm), std::sqrt(2153.5e6 * std::pow(0.2286, -0.1625) / 7850) / 1.28 * Hz,
                         0.01));
    CHECK_FALSE(highest_pitch(plain_string(nylon(), 0.7 * mm), 640 * mm));
    CHECK_FALSE(longest_speaking_length(plain_string(nylon(), 0.7 * mm), 300 * Hz));
    CHECK_THROWS_AS((void)highest_pitch(s, 640 * mm, 0.0), invalid_input);
    CHECK_THROWS_AS((void)highest_pitch(s, 640 * mm, 1.1), invalid_input);
}

TEST_CASE("tension: bare ends that leave nothing between them are refused") {
    auto s = wound_string({.gauge = 1.0 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()});
    s.bare = bare_ends{.at_nut = 400 * mm, .at_saddle = 300 * mm};
    CHECK_THROWS_AS((void)tension(s, 640 * mm, 110 * Hz), invalid_input);
    CHECK_THROWS_AS((void)pitch_at(s, 640 * mm, 90 * N), invalid_input);
    CHECK(tension(s, 800 * mm, 110 * Hz) <
          tension(
              wound_string({.gauge = 1.0 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()}),
              800 * mm, 110 * Hz));
}

TEST_CASE("tension: bad input of the other formulas is named") {
    CHECK_THROWS_AS((void)wave_speed(0.0 * g_per_m, 70 * N), invalid_input);
    CHECK_THROWS_AS((void)pitch_at(1.0 * g_per_m, 640 * mm, 0.0 * N), invalid_input);
    CHECK_THROWS_AS((void)pitch_at(1.0 * g_per_m, -640.0 * mm, 70 * N), invalid_input);
    CHECK_THROWS_AS((void)speaking_length_at(1.0 * g_per_m, 0.0 * Hz, 70 * N), invalid_input);
    CHECK_THROWS_AS((void)mass_per_length_for(70 * N, 640 * mm, INFINITY * Hz), invalid_input);
    CHECK_THROWS_AS((void)tension(music_string(), 640 * mm, 110 * Hz), invalid_input);
}
