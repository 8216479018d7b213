#include <tautline/job/input_words.hpp>

#include <set>

#include <doctest/doctest.h>

using namespace tautline;

TEST_SUITE("input words") {
    TEST_CASE("every input has words and an example, and stands once") {
        std::set<std::string_view> paths;
        for (const input_words& w : words_of_inputs) {
            CAPTURE(w.path);
            CHECK(paths.insert(w.path).second);
            CHECK_FALSE(w.words.empty());
            CHECK_FALSE(w.example.empty());
            CHECK(words_of_input(w.path) == &w);
        }
    }
    TEST_CASE("places do not matter, and a planned input means what the found one does") {
        const auto same = [](std::string_view path, std::string_view as) {
            REQUIRE(words_of_input(path));
            CHECK(words_of_input(path)->path == as);
        };
        same("strings[12].gauge", "strings[].gauge");
        same("neck.set[3].x", "neck.set[].x");
        same("planned.nut.slot_heights", "nut.slot_heights");
        same("planned.strings[0].note", "strings[].note");
        same("planned.wire.crown_height", "frets.wire.crown_height");
        same("planned.title", "planned.title");
        for (const char* none :
             {"", "planned", "planned.", "no.such.input", "nut", "nut.slot_heights.more", "wire.crown_height"}) {
            CHECK_MESSAGE(!words_of_input(none), none);
        }
    }
}
