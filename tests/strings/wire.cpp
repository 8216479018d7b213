#include <tautline/strings/wire_materials.hpp>

#include <set>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("wire: every material is complete, valid, has a name of its own, a source, and is found") {
    std::set<std::string_view> names;
    for (const wire_material& m : wire_materials()) {
        CAPTURE(m.name);
        CHECK(validate(m).empty());
        CHECK(names.insert(m.name).second);
        CHECK(m.source.size() > 10);
        REQUIRE(find_wire_material(m.name));
        CHECK(find_wire_material(m.name)->mass_density == m.mass_density);
    }
    CHECK_FALSE(find_wire_material("unobtainium"));
    CHECK_FALSE(find_wire_material(""));
}

TEST_CASE("wire: a polymer takes the caller's modulus") {
    CHECK(nylon(3.1 * GPa).modulus == 3.1 * GPa);
    CHECK(fluorocarbon(4 * GPa).modulus == 4.0 * GPa);
    CHECK(gut(5.5 * GPa).modulus == 5.5 * GPa);
    CHECK(silk(9 * GPa).modulus == 9.0 * GPa);
    CHECK(modulus_at(nylon(3.1 * GPa), 0.7 * mm) == 3.1 * GPa);
}

TEST_CASE("wire: music wire gets weaker as it gets thicker; a measured thin modulus scales the steps") {
    stress<double> before = 1e6 * MPa;
    for (double d = 0.1; d <= 7.0; d += 0.1) {
        const auto s = minimum_strength(music_wire(), d * mm);
        REQUIRE(s);
        CHECK(*s < before);
        before = *s;
    }
    static_assert(minimum_strength(music_wire(), 1 * mm)->value() > 2153e6 &&
                  minimum_strength(music_wire(), 1 * mm)->value() < 2154e6);
    wire_material measured = music_wire();
    measured.modulus = 190 * GPa;
    CHECK(near::relative(modulus_at(measured, 1 * mm), 190 * 200 / 203.4 * GPa, 1e-14));
}

TEST_CASE("wire: strength that is not known is no strength") {
    CHECK_FALSE(minimum_strength(nickel(), 0.3 * mm));
    CHECK_FALSE(minimum_strength(music_wire(), 0.05 * mm));
    CHECK_FALSE(minimum_strength(music_wire(), 8 * mm));
    wire_material tested = nickel();
    tested.strength = 500 * MPa;
    CHECK(*minimum_strength(tested, 0.3 * mm) == 500 * MPa);
    CHECK_THROWS_AS((void)minimum_strength(music_wire(), 0.0 * mm), invalid_input);
    CHECK_THROWS_AS((void)modulus_at(music_wire(), std::nan("") * mm), invalid_input);
}

TEST_CASE("wire: a material with nothing in it is told field by field") {
    const auto found = validate(wire_material(), "wire");
    REQUIRE(found.size() == 2);
    CHECK(found[0].field == "wire.mass_density");
    CHECK(found[1].field == "wire.modulus");
}

TEST_CASE("wire: the figures told a second time: g/cm3, million psi and parts in a million for each kelvin") {
    struct {
        std::string_view name;
        double density, modulus, expansion; ///< 0: not known
        bool gpa = false;                   ///< a modulus that its source gives in GPa
    } const told[] = {
        {"music wire", 7.85, 29.5, 12},      {"nickel-plated steel", 7.85, 30, 12},
        {"stainless steel", 8.00, 28, 17.2}, {"ferritic stainless steel", 7.80, 29, 10.8},
        {"nickel", 8.88, 30, 13.4},          {"phosphor bronze", 8.858, 16, 17.8}, // 0.320 lb/in3
        {"80/20 bronze", 8.66, 16, 19.1},    {"90/10 bronze", 8.80, 17, 18.4},
        {"brass", 8.53, 16, 19.9},           {"copper", 8.94, 110, 17, true},
        {"silver", 10.49, 83, 18, true},     {"nylon", 1.134, 5, 0, true}, // 2.2 slug/ft3
        {"fluorocarbon", 1.78, 5, 0, true},  {"gut", 1.30, 6, 0, true},
        {"silk", 1.34, 10, 0, true},
    };
    const auto all = wire_materials();
    REQUIRE(std::size(told) == all.size());
    for (std::size_t k = 0; k < all.size(); ++k) {
        CAPTURE(std::string(all[k].name));
        CHECK(all[k].name == told[k].name);
        CHECK(near::relative(all[k].mass_density, told[k].density * 1000 * kg_per_m3, 1e-9));
        CHECK(near::relative(all[k].modulus, told[k].modulus * (told[k].gpa ? 1 : 6.894757) * GPa, 0.004));
        CHECK(all[k].expansion.has_value() == (told[k].expansion > 0));
        if (all[k].expansion) { CHECK(near::relative(*all[k].expansion, told[k].expansion * 1e-6 * per_kelvin, 1e-9)); }
        CHECK((all[k].grade == wire_grade::music_wire) == (k == 0));
    }
}
