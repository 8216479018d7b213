#include <tautline/strings/material_names.hpp>

#include <algorithm>

#include <doctest/doctest.h>

using namespace tautline;

TEST_SUITE("material names") {
    TEST_CASE("every name of the table means itself, whatever its capitals, hyphens and blanks") {
        for (const wire_material& m : wire_materials()) {
            CHECK(meant_material(m.name) == m.name);
            std::string loud(m.name);
            std::transform(loud.begin(), loud.end(), loud.begin(),
                           [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
            std::replace(loud.begin(), loud.end(), ' ', '-');
            CHECK(meant_material("  " + loud + " ") == m.name);
        }
    }
    TEST_CASE("every short name means a material of the table, or none where it may be several") {
        for (const material_byname& by : material_bynames) {
            CAPTURE(by.said);
            CHECK(meant_material(by.said) == by.meant);
            CHECK((by.meant.empty() || find_wire_material(by.meant).has_value()));
            CHECK(kernel::plain_name(by.said) == by.said);
        }
    }
    TEST_CASE("a slip of the pen is understood, another thing is not") {
        CHECK(meant_material("phosphor bronz") == "phosphor bronze");
        CHECK(meant_material("phosfor bronze") == "phosphor bronze");
        CHECK(meant_material("stainles steel") == "stainless steel");
        CHECK(meant_material("nickl plated steel") == "nickel-plated steel");
        CHECK(meant_material("cooper") == "copper");
        CHECK(meant_material("80/20 bronce") == "80/20 bronze");
        // Digits are no slip, short words are other words, and what may be two is none.
        for (const char* none :
             {"", " ", "tin", "cut", "milk", "bronze", "85/20 bronze", "8/20 bronze", "cheese", "iron", "wire"}) {
            CAPTURE(none);
            CHECK(meant_material(none).empty());
        }
        CHECK(meant_material(std::string(100000, 'n')).empty());
    }
    TEST_CASE("a name that means none is told with all there are, and the nearest") {
        CHECK(must_be_a_material("nickelxx").ends_with("; did you mean \"nickel\"?"));
        CHECK(must_be_a_material("bronze").ends_with("; say which bronze it is"));
        CHECK(must_be_a_material("zzzzzzzz").ends_with("silk"));
        CHECK(meant_wire_material("phosphor")->mass_density == phosphor_bronze().mass_density);
        CHECK_FALSE(meant_wire_material("zzz"));
    }
}
