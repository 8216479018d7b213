// What a job's other spellings of materials were taken for.
#include <tautline/job/names_taken.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;

TEST_SUITE("names taken") {
    TEST_CASE("the table's own names are taken as they are, whatever their capitals and hyphens") {
        auto j = demo::job_as_found();
        CHECK(names_taken(j).empty());
        j.strings[0].wrap = "Phosphor-Bronze";
        j.strings[0].material = "MUSIC  WIRE";
        CHECK(names_taken(j).empty());
    }
    TEST_CASE("short names and slips are told once each, with every string that has them") {
        auto j = demo::job_as_found();
        j.strings[0].wrap = j.strings[1].wrap = "phosfor bronze";
        j.strings[2].wrap = "red brass";
        j.strings[0].material = j.strings[5].material = "steel";
        const auto told = names_taken(j);
        REQUIRE(told.size() == 3);
        CHECK(told[0].said == "steel");
        CHECK(told[0].meant == "music wire");
        CHECK(told[0].paths == std::vector<std::string>{"strings[0].material", "strings[5].material"});
        CHECK(told[0].sentence == "\"steel\" was taken for music wire: material of strings 4a G2, 2b A3.");
        CHECK(told[1].sentence == "\"phosfor bronze\" was taken for phosphor bronze: wrap of strings 4a G2, 4b G2.");
        CHECK(told[2].meant == "80/20 bronze");
        CHECK(told[2].sentence == "\"red brass\" was taken for 80/20 bronze: wrap of string 3a D3.");
        // One that means nothing is the rules' matter.
        j.strings[0].wrap = j.strings[1].wrap = "bronze";
        CHECK(names_taken(j).size() == 2);
    }
    TEST_CASE("one name in several places is told with all of them, planned strings where they are new") {
        auto j = demo::job_as_found();
        j.strings[0].material = "piano wire";
        j.strings[0].inner_wrap = "piano wire";
        j.planned = plan_as_found(j);
        j.planned->strings = j.strings;
        j.planned->strings[7].material = "piano wire";
        j.planned->strings[6].material = "plain steel";
        j.planned->new_strings = {7};
        j.states.push_back({.name = "lighter set"});
        j.states.back().strings = j.strings;
        j.states.back().strings[0].inner_wrap.clear();
        const auto told = names_taken(j);
        REQUIRE(told.size() == 1); // the string that stays on is told as found
        CHECK(told[0].paths == std::vector<std::string>{"strings[0].material", "strings[0].inner_wrap",
                                                        "states[0].strings[0].material", "planned.strings[7].material"});
        CHECK(told[0].sentence ==
              "\"piano wire\" was taken for music wire: inner_wrap of string 4a G2; material of strings "
              "4a G2, 4a G2 lighter set, 1b E4 as planned.");
    }
}
