#include <tautline/neck/wood_by_name.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a wood's own name brings its own figures, capitals or not") {
    for (const char* name : {"sapele", "Sapele", "SAPELE"}) {
        const auto m = woods::find_modulus(name);
        REQUIRE(m.has_value());
        CHECK(m->is_one());
        CHECK(m->names() == "sapele");
        CHECK(m->modulus == 11.7 * GPa);
        CHECK(m->standard == 2.3 * GPa);
    }
    CHECK(woods::find_modulus("khaya")->names() == "African mahogany");
    CHECK(woods::find_modulus("african ebony")->names() == "African ebony");
}

TEST_CASE("a short name brings the mean of what it may be, with a doubt that holds them all") {
    // Two boards drawn from each of the two, one standard deviation to either side: their spread is that of the name.
    const auto ebony = woods::find_modulus("ebony").value();
    CHECK(ebony.names() == "African ebony or Asian black ebony");
    const double boards[] = {17.7 - 3.5, 17.7 + 3.5, 18 - 4.0, 18 + 4.0};
    double mean = 0, squares = 0;
    for (const double b : boards) { mean += b / 4; }
    for (const double b : boards) { squares += (b - mean) * (b - mean) / 4; }
    CHECK(near::relative(ebony.modulus, mean * GPa, 1e-12));
    CHECK(near::relative(ebony.standard, std::sqrt(squares) * GPa, 1e-12));

    const auto rosewood = woods::find_modulus("rosewood").value();
    CHECK(rosewood.names() == "Indian rosewood, Brazilian rosewood or Honduras rosewood");
    for (const wood& w : rosewood.may_be) {
        CHECK(rosewood.standard > w.standard_gpa * GPa);
        CHECK(abs(w.use_gpa * GPa - rosewood.modulus) < 2 * rosewood.standard);
    }
    // Under either of its names a wood counts once: hard maple is sugar maple.
    CHECK(woods::find_modulus("maple")->may_be.size() == 5);
    CHECK(woods::find_modulus("beech")->may_be.size() == 2);
}

TEST_CASE("no name, half a word, a wood without a modulus: nothing") {
    for (const char* name : {"", "x", "wood", "ple", "spruce pine", "plum", " "}) {
        CHECK_FALSE(woods::find_modulus(name));
    }
    CHECK(woods::must_have_modulus("plum") == "must come with a modulus: none was found of plum. Give one with how it was "
                                              "measured and its give or take");
    CHECK(woods::must_have_modulus("wengee").starts_with("must be a wood of the table, perhaps wenge. For another give"));
}
