#include <tautline/strings/tuning.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("tuning: from text and back") {
    const tuning guitar = parse_tuning("E2 A2 D3 G3 B3 E4");
    REQUIRE(guitar.notes.size() == 6);
    CHECK(guitar.notes[1] == note{45});
    CHECK(name_of(guitar) == "E2 A2 D3 G3 B3 E4");
    CHECK(parse_tuning(" G4, C4,E4\tA4 ") == parse_tuning("G4 C4 E4 A4"));
    CHECK(name_of(transposed(guitar, -2)) == "D2 G2 C3 F3 A3 D4");
    CHECK(near::relative(pitches_of(guitar)[1], 110 * Hz, 1e-14));
    CHECK(parse_tuning("A4").notes.size() == 1);
}

TEST_CASE("tuning: every wrong name is told") {
    CHECK_THROWS_AS((void)parse_tuning(""), invalid_input);
    CHECK_THROWS_AS((void)parse_tuning(" , "), invalid_input);
    try {
        (void)parse_tuning("E2 H2 D3 X");
        FAIL("taken for a tuning");
    } catch (const invalid_input& e) {
        REQUIRE(e.problems().size() == 2);
        CHECK(e.problems()[0].value == "\"H2\"");
        CHECK(e.problems()[1].value == "\"X\"");
    }
}
