#include <tautline/strings/tension.hpp>

#include <random>

#include "near.hpp"
#include <tautline/strings/pitch.hpp>

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
        const auto s = wound_string(music_wire(), thickness(random) * thou, phosphor_bronze(), wire(random) * thou);
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
    CHECK(near::relative(core_stress(s, pull), 72 / (M_PI / 4 * 0.254 * 0.254) * MPa, 1e-12));
    const auto share = share_of_strength(s, pull);
    REQUIRE(share);
    CHECK(near::relative(*share, 72 / (M_PI / 4 * 0.254 * 0.254) / (2153.5 * std::pow(0.254, -0.1625)), 1e-12));
    CHECK(*share_of_strength(s, 200 * N) > 1); // above its strength: an answer, not an error
    CHECK_FALSE(share_of_strength(plain_string(copper(), 10 * thou), pull).has_value());
    CHECK_THROWS_AS((void)core_stress(s, -1.0 * N), invalid_input);
}
