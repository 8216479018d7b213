#include <tautline/strings/named_tunings.hpp>

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

TEST_CASE("tuning: courses in unison and octave, and re-entrant ones") {
    const auto mandolin = doubled(parse_tuning("G3 D4 A4 E5"));
    CHECK(mandolin == parse_courses("G3/G3 D4/D4 A4/A4 E5/E5"));
    const auto twelve = doubled(parse_tuning("E2 A2 D3 G3 B3 E4"), 4);
    CHECK(twelve == parse_courses("E2/E3 A2/A3 D3/D4 G3/G4 B3/B3 E4/E4"));
    CHECK(strings_of(twelve).notes.size() == 12);
    CHECK(name_of(strings_of(parse_courses("G2/G3 D3"))) == "G2 G3 D3");
    CHECK(is_re_entrant(*find_tuning("ukulele")));
    CHECK_FALSE(is_re_entrant(*find_tuning("guitar")));
    CHECK_FALSE(is_re_entrant(strings_of(mandolin)));
    for (const char* wrong : {"", "G3/", "/G3", "G3//D4", "G3/H3"}) {
        CAPTURE(wrong);
        CHECK_THROWS_AS((void)parse_courses(wrong), invalid_input);
    }
    CHECK_THROWS_AS((void)doubled(parse_tuning("E2 A2"), 3), invalid_input);
    CHECK_THROWS_AS((void)doubled(parse_tuning("E2 A2"), -1), invalid_input);
}

TEST_CASE("tuning: every named one can be read, and has a name of its own") {
    for (std::size_t i = 0; i < named_tunings.size(); ++i) {
        CAPTURE(named_tunings[i].name);
        const auto t = find_tuning(named_tunings[i].name);
        REQUIRE(t);
        CHECK(name_of(*t) == named_tunings[i].notes);
        for (std::size_t k = 0; k < i; ++k) { CHECK(named_tunings[i].name != named_tunings[k].name); }
    }
    CHECK_FALSE(find_tuning("no such thing"));
    // Fifths all the way: what a mandolin family is.
    const auto rises_by = [](const char* name, int steps) {
        const auto t = *find_tuning(name);
        for (std::size_t i = 1; i < t.notes.size(); ++i) { CHECK(t.notes[i].number - t.notes[i - 1].number == steps); }
    };
    for (const char* name :
         {"mandolin", "mandola", "octave mandolin", "mandocello", "tenor guitar", "tenor banjo", "Irish tenor banjo"}) {
        rises_by(name, 7);
    }
    for (const char* name : {"bass guitar", "five-string bass guitar"}) { rises_by(name, 5); }
    // Open tunings are a major chord: root, third, fifth and nothing else. Baritones are a guitar lower.
    for (const auto& [name, root] : {std::pair{"guitar, open D", "D2"},
                                     {"guitar, open E", "E2"},
                                     {"guitar, open G", "G2"},
                                     {"guitar, open A", "A2"},
                                     {"guitar, open C", "C2"},
                                     {"five-string banjo, open G", "G2"}}) {
        const auto t = *find_tuning(name);
        for (const note n : t.notes) {
            const int over = ((n.number - parse_note(root).number) % 12 + 12) % 12;
            CHECK((over == 0 || over == 4 || over == 7));
        }
    }
    CHECK(transposed(*find_tuning("guitar"), -5) == *find_tuning("baritone guitar in B"));
    CHECK(transposed(*find_tuning("guitar"), -7) == *find_tuning("baritone guitar in A"));
}

TEST_CASE("tuning: one that falls from each string to the next is written from the treble") {
    CHECK(is_treble_first(parse_tuning("E4 B3 G3 D3 A2 E2")));
    CHECK_FALSE(is_treble_first(parse_tuning("E2 A2 D3 G3 B3 E4")));
    CHECK_FALSE(is_treble_first(parse_tuning("G4 D3 G3 B3 D4"))); // re-entrant
    CHECK_FALSE(is_treble_first(parse_tuning("E4 B3 B3")));
    CHECK_FALSE(is_treble_first(parse_tuning("A4 D4"))); // two may be meant
    CHECK_FALSE(is_treble_first(parse_tuning("E4")));
}
