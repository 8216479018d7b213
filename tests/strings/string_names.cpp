#include <doctest/doctest.h>
#include <tautline/strings/named_tunings.hpp>
#include <tautline/strings/string_names.hpp>

using namespace tautline;

namespace {

string_names names_of(std::vector<int> courses, const char* notes) {
    return {.courses = std::move(courses), .notes = parse_tuning(notes).notes};
}

} // namespace

TEST_CASE("string names: six single strings count from the treble") {
    const auto six = names_of({1, 1, 1, 1, 1, 1}, "E2 A2 D3 G3 B3 E4");
    CHECK(six.size() == 6);
    CHECK_FALSE(six.in_courses());
    CHECK(six.name(0) == "string 6 (E2)");
    CHECK(six.name(5) == "string 1 (E4)");
    CHECK(six.name_at_start(2) == "String 4 (D3)");
    CHECK(six.label(0) == "6 E2");
    CHECK(six.range() == "strings 1 (E4) to 6 (E2)");
    CHECK(six.place_of("6") == 0u);
    CHECK(six.place_of(" 1 ") == 5u);
    for (const char* none : {"", "0", "7", "6a", "06", "-1", "E2", "strings[0]"}) { CHECK_FALSE(six.place_of(none)); }
}

TEST_CASE("string names: a number says where a string lies, not how it sounds") {
    // The short string of a banjo lies on the bass side and sounds highest: it is the fifth.
    const auto banjo = names_of({1, 1, 1, 1, 1}, "G4 D3 G3 B3 D4");
    CHECK(banjo.name(0) == "string 5 (G4)");
    CHECK(banjo.name(4) == "string 1 (D4)");
    CHECK(banjo.range() == "strings 1 (D4) to 5 (G4)");
}

TEST_CASE("string names: courses count, and their strings have letters from the bass side") {
    const auto pairs = names_of({2, 2, 2, 2}, "G2 G2 D3 D3 A3 A3 E4 E4");
    CHECK(pairs.in_courses());
    CHECK(pairs.name(0) == "course 4 (G2), its bass-side string");
    CHECK(pairs.name(1) == "course 4 (G2), its treble-side string");
    CHECK(pairs.course_name(1) == "course 4 (G2)");
    CHECK(pairs.name_at_start(6) == "Course 1 (E4), its bass-side string");
    CHECK(pairs.label(1) == "4b G2");
    CHECK(pairs.place_of("4a") == 0u);
    CHECK(pairs.place_of("4B") == 1u);
    CHECK(pairs.place_of("1b") == 7u);
    CHECK_FALSE(pairs.place_of("4"));
    CHECK_FALSE(pairs.place_of("5a"));
    CHECK(pairs.range() == "courses 1 (E4) to 4 (G2); 4a is course 4 (G2), its bass-side string");
    // Octaves: each string with its own note.
    const auto octaves = names_of({2, 1, 3}, "G3 G2 D4 A3 A4 A3");
    CHECK(octaves.name(1) == "course 3 (G2), its treble-side string");
    CHECK(octaves.name(2) == "course 2 (D4)");
    CHECK(octaves.number(2) == "2");
    CHECK(octaves.place_of("2") == 2u);
    CHECK(octaves.name(4) == "course 1 (A4), its middle string");
    CHECK(names_of({4}, "C3 C3 C3 C3").name(1) == "course 1 (C3), its string b");
    CHECK(names_of({2}, "C3 C4").range() == "course 1 (C4); 1a is course 1 (C3), its bass-side string");
}

TEST_CASE("string names: without names of notes, and without such a string") {
    const string_names plain{.courses = {1, 1}, .notes = {}};
    CHECK(plain.name(0) == "string 2");
    CHECK(plain.label(1) == "1");
    CHECK(plain.range() == "strings 1 to 2");
    CHECK(plain.name(2) == "strings[2]");
    CHECK(plain.number(2).empty());
    CHECK(string_names{.courses = {1}, .notes = {note{200}}}.name(0) == "string 1");
    CHECK(string_names{}.range() == "no strings");
    CHECK(names_of({1}, "C3").range() == "string 1 (C3)");
}

TEST_CASE("string names: property, every number finds its own string") {
    for (const std::vector<int>& courses :
         {std::vector<int>{1, 1, 1, 1}, {2, 2, 2, 2, 2}, {1, 2, 3, 1}, {12}, {3, 1, 2, 2, 1, 1, 1, 1, 1, 1, 1, 1}}) {
        const string_names names{.courses = courses, .notes = {}};
        for (std::size_t i = 0; i < names.size(); ++i) { CHECK(names.place_of(names.number(i)) == i); }
    }
}
