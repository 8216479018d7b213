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
    const auto found = validate(wire_material{}, "wire");
    REQUIRE(found.size() == 2);
    CHECK(found[0].field == "wire.mass_density");
    CHECK(found[1].field == "wire.modulus");
}
