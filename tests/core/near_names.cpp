#include <vector>

#include <doctest/doctest.h>
#include <tautline/core/near_names.hpp>

using namespace tautline;

TEST_SUITE("near names") {
    TEST_CASE("letters apart: the textbook's pairs") {
        CHECK(letters_apart("kitten", "sitting") == 3); // the usual worked example; from memory
        CHECK(letters_apart("", "abc") == 3);
        CHECK(letters_apart("abc", "") == 3);
        CHECK(letters_apart("saddle", "saddle") == 0);
        CHECK(letters_apart("nut", "unt") == 1); // two letters exchanged are one slip
        CHECK(letters_apart("nut", "tnu") == 2);
        CHECK(letters_apart("ca", "abc") == 3); // no letter is moved twice
    }
    TEST_CASE("the closest known name, or none when none is close") {
        const std::vector<std::string_view> known{"tension", "down_force", "relief.gap"};
        CHECK(nearest("tensoin", known) == "tension");
        CHECK(nearest("relief", known) == "");
        CHECK(nearest("relif.gap", known) == "relief.gap");
        CHECK(nearest("TENSION", known) == "tension");
        CHECK(nearest("Tensoin", known) == "tension");
        CHECK(nearest(std::string(200, 'x'), known) == "");
        CHECK(nearest("x", {}) == "");
        CHECK(nearest_or("zzzzzzzz", known, "down_force") == "down_force");
    }
}
