#include <tautline/setup/fret_overhang.hpp>
#include <tautline/setup/loose_slots.hpp>
#include <tautline/setup/noted_air.hpp>
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
    CHECK(described::gaps<basic_fret_overhang>() == "");
    CHECK(described::gaps<basic_loose_slots>() == "");
    CHECK(described::gaps<basic_noted_air>() == "");
}

TEST_CASE("setup: what each member may be, told a second time") {
    CHECK(described::ranges<basic_noted_air>() == "celsius: at least -1.2 and at most 60\n"
                                                  "humidity: at least 1 and at most 99");
}

TEST_CASE("setup: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_string_setup>() == "");
    CHECK(described::defaults<basic_setup>() == "");
}

TEST_CASE("setup: what is worked out is nothing before it is filled") { CHECK(basic_setup<double>().octave_fret == 0); }
