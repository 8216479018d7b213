#include <tautline/strings/mass_by_layer.hpp>

#include <tautline/strings/wire_materials.hpp>

#include <numbers>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("mass by layer: what each part of a string weighs") {
    music_string s{.core = {.material = music_wire(), .diameter = 0.5 * mm}};
    s.layers.push_back({.material = nickel(), .thickness = 0.2 * mm});
    s.layers.push_back({.material = phosphor_bronze(), .thickness = 0.3 * mm});
    const auto mass = mass_by_layer(s);
    // A close wound layer on what is round fills pi/4 of its annulus: 0.5 to 0.9 mm and 0.9 to 1.5 mm.
    const double share = std::numbers::pi / 4 * std::numbers::pi / 4 * 1e-6;
    REQUIRE(mass.layers.size() == 2);
    CHECK(near::relative(mass.core, 7850 * std::numbers::pi / 4 * 0.25e-6 * kg_per_m, 1e-12));
    CHECK(near::relative(mass.layers[0], 8880 * share * (0.81 - 0.25) * kg_per_m, 1e-12));
    CHECK(near::relative(mass.layers[1], phosphor_bronze().mass_density / kg_per_m3 * share * (2.25 - 0.81) * kg_per_m,
                         1e-12));
    CHECK(near::relative(mass.total(), mass_per_length(s), 1e-14));
    // What was weighed is not shared out.
    s.weighed = 20 * g_per_m;
    CHECK(near::relative(mass_by_layer(s).total(), mass.total(), 1e-14));
    CHECK(mass_by_layer(plain_string(music_wire(), 0.3 * mm)).layers.empty());
    static_assert(mass_by_layer(plain_string(music_wire(), 13 * thou)).core > 0.67 * g_per_m);
}
