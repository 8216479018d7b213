#include <tautline/core/path_pattern.hpp>

#include <doctest/doctest.h>

using namespace tautline;

TEST_SUITE("path pattern") {
    TEST_CASE("numbers in brackets, one after the other") {
        CHECK(kernel::item_of("strings[12].heights[3]", 0) == 12u);
        CHECK(kernel::item_of("strings[12].heights[3]", 1) == 3u);
        CHECK_FALSE(kernel::item_of("strings[12].heights[3]", 2).has_value());
        CHECK_FALSE(kernel::item_of("relief.gap", 0).has_value());
    }
    TEST_CASE("a pattern names a path, something above it, or neither") {
        CHECK(kernel::covered("strings[].heights[]", "strings[12].heights[3]") == 22);
        CHECK(kernel::covered("strings[]", "strings[12].heights[3]") == 11);
        CHECK(kernel::covered("frets.wire", "frets.wire.crown_height") == 10);
        CHECK(kernel::covered("frets.wire", "frets.wires") == 0);
        CHECK(kernel::covered("relief.gap", "relief") == 0);
        CHECK(kernel::covered("top", "relief") == 0);
    }
}
