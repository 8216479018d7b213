#include <tautline/job/typed_names.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("typed names") {
    TEST_CASE("a string by its number, and what was renamed") {
        const string_names names = names_of(demo::four_course().nut.spacing.courses, demo::ordered_pairs());
        CHECK(typed_path("string 4a.tension", names, "name") == "strings[0].tension");
        CHECK(typed_path("found.string 1b.heights[0]", names, "name") == "found.strings[7].heights[0]");
        CHECK(typed_path("no such thing", names, "name") == "no such thing");
        CHECK_THROWS_WITH(
            (void)typed_path("string 9.tension", names, "first"),
            "first is \"string 9.tension\"; it must be of a string that is there; there are courses 1 (E4) to "
            "4 (G2); 4a is course 4 (G2), its bass-side string.");
        CHECK_THROWS_WITH((void)typed_path("plan.neck_reset", names, "first"),
                          "first is \"plan.neck_reset\"; it is now named \"plan.reset.turn\".");
    }
    TEST_CASE("an input of an instrument or its strings") {
        const auto j = demo::job_as_found();
        const auto on = strung_as_found(j);
        CHECK(input_path(on, "saddle.height_bass", "vary") == "saddle.height_bass");
        CHECK(input_path(on, "a4", "vary") == "standard.a4");
        CHECK(input_path(on, "standard.a4", "vary") == "standard.a4");
        CHECK(input_path(on, "string 1b.gauge", "vary") == "strings[7].string.core.diameter");
        CHECK(input_path(on, "strings[0].string.core.diameter", "vary") == "strings[0].string.core.diameter");
        CHECK_THROWS_WITH((void)input_path(on, "string 4a.gauge", "vary"),
                          doctest::Contains("must be the gauge of a plain string; of a wound one vary"));
        for (const char* none : {"strings[99].gauge", "posts[8].across", "string 9a.gauge"}) {
            CHECK_THROWS_WITH((void)input_path(on, none, "vary"),
                              doctest::Contains("must be of a string that is there; there are courses 1 (E4) to 4 (G2)"));
        }
        CHECK_THROWS_WITH(
            (void)input_path(on, "sadle.height_bass", "vary"),
            "vary is \"sadle.height_bass\"; it must be the name of a number of the instrument or its strings, "
            "such as saddle.height_bass.");
        // What is varied is an input; a result is none.
        CHECK_THROWS_AS((void)input_path(on, "relief.gap", "vary"), invalid_input);
    }
    TEST_CASE("a result of the last setup") {
        auto j = demo::job_as_found();
        const auto found = setups_of(j);
        CHECK(result_path(found, "relief.gap", "table") == "relief.gap");
        CHECK(result_path(found, "found.relief.gap", "table") == "relief.gap");
        CHECK(result_path(found, "found.string 4a.tension", "table") == "strings[0].tension");
        CHECK_THROWS_AS((void)result_path(found, "planned.relief.gap", "table"), invalid_input);
        CHECK_THROWS_WITH((void)result_path(found, "releif.gap", "table"),
                          "table is \"releif.gap\"; it must be the name of a result, such as relief.gap.");
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto both = setups_of(j);
        CHECK(result_path(both, "planned.relief.gap", "table") == "relief.gap");
        CHECK_THROWS_WITH(
            (void)result_path(both, "found.relief.gap", "table"),
            "table is \"found.relief.gap\"; it must be a result of the instrument as planned, which is what is "
            "varied: planned.relief.gap.");

        // Several, each once; of none those that a sheet begins with.
        CHECK(result_paths(both, *j.wanted, {"string 4a.tension", "planned.relief.gap"}, "table") ==
              std::vector<std::string>{"strings[0].tension", "relief.gap"});
        CHECK_THROWS_WITH((void)result_paths(both, *j.wanted, {"relief.gap", "planned.relief.gap"}, "table"),
                          "table is \"planned.relief.gap\"; it must name each result once.");
        const auto begun = result_paths(both, *j.wanted, {}, "table");
        const auto asked = asked_results(*j.wanted, both.last());
        REQUIRE(begun.size() == asked.size());
        for (std::size_t i = 0; i < asked.size(); ++i) { CHECK(begun[i] == asked[i].path); }
    }
}
