#include <tautline/setup/setup.hpp>
#include <tautline/setup/under_strings.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("setup: descriptions leave no member out") {
    CHECK(described::gaps<basic_string_setup>() == "after plucks, after plucks");
    CHECK(described::gaps<basic_setup>() == "after straight_saddle, after straight_saddle");
    CHECK(described::gaps<basic_named_object>() == "");
    CHECK(described::gaps<basic_object_seat>() == "");
}

TEST_CASE("setup: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_string_setup>() == "");
    CHECK(described::defaults<basic_setup>() == "");
}

TEST_CASE("setup: what is worked out is nothing before it is filled") { CHECK(basic_setup<double>().octave_fret == 0); }
