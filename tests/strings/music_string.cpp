#include <tautline/strings/music_string.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("string: a plain one is a rod") {
    constexpr auto s = plain_string(music_wire(), 13 * thou);
    CHECK(gauge(s) == 13 * thou);
    const double d = 13 * 25.4e-6;
    CHECK(near::relative(mass_per_length(s), 7850 * M_PI / 4 * d * d * kg_per_m, 1e-13));
    CHECK(near::relative(axial_stiffness(s), 203.4e9 * M_PI / 4 * d * d * N, 1e-13));
    CHECK(near::relative(core_bending_stiffness(s), 203.4e9 * M_PI / 64 * d * d * d * d * N_m2, 1e-13));
    static_assert(mass_per_length(s) > 0.67 * g_per_m && mass_per_length(s) < 0.68 * g_per_m);
}

TEST_CASE("string: a close wound layer on a round core fills pi/4 of its annulus (geometry)") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> size(0.1, 1.5);
    for (int i = 0; i < 200; ++i) {
        const double d = size(random), w = size(random);
        const auto s = wound_string(music_wire(), d * mm, nickel(), w * mm);
        const double annulus = M_PI / 4 * ((d + 2 * w) * (d + 2 * w) - d * d) * 1e-6;
        const auto wrap_mass = mass_per_length(s) - mass_per_length(plain_string(music_wire(), d * mm));
        CHECK(near::relative(wrap_mass, M_PI / 4 * annulus * 8880 * kg_per_m, 1e-10));
        CHECK(near::relative(gauge(s), (d + 2 * w) * mm, 1e-14));
    }
}

TEST_CASE("string: what cannot be built is told, all of it") {
    auto s = wound_string(music_wire(), 18 * thou, phosphor_bronze(), 10 * thou);
    s.layers[0].ground = 11 * thou;
    s.layers.push_back({.material = nickel(), .form = layer_form::ribbon, .thickness = 5 * thou});
    const auto found = validate(s, "string");
    REQUIRE(found.size() == 2);
    CHECK(found[0].sentence() == "string.layers[0].ground must be less than the diameter of the wrap wire.");
    CHECK(found[1].sentence() == "string.layers[1].ribbon_width must be more than 0 mm for a ribbon.");
    CHECK_THROWS_AS((void)mass_per_length(s), invalid_input);
    CHECK_THROWS_AS((void)plain_string(music_wire(), 0.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)plain_string(music_wire(), -1.0 * mm), invalid_input);
}
