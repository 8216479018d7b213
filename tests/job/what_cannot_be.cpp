#include <tautline/job/what_cannot_be.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("what cannot be") {
    TEST_CASE("nothing where all is well") { CHECK(what_cannot_be(answer(demo::job_as_found())).empty()); }
    TEST_CASE("a load past a limit, then a wish that is not met with the nearest, then readings that disagree") {
        auto j = demo::job_as_found();
        j.strings[0].gauge = 70 * thou; // far more than its note leaves whole
        j.strings[0].note = "G3";
        j.wanted = wishes{};
        j.wanted->action_bass = 0.9 * mm;
        j.wanted->lowest_saddle = 15 * mm;
        j.adjusting.usual_doubts = false;
        j.doubts = {{"saddle.height_bass", 0.01 * mm}};
        const auto before = answer(j);
        j.readings = {{.of = "height", .value = "9 mm", .string = {"1a"}, .fret = 12}};
        const auto all = what_cannot_be(answer(j));
        REQUIRE(all.size() >= 3);
        CHECK(all.front().starts_with("STOP: "));
        const auto place = [&](std::string_view of) {
            return std::find_if(all.begin(), all.end(), [&](const auto& s) { return s.find(of) != std::string::npos; }) -
                   all.begin();
        };
        CHECK(place("STOP") < place("not met: wanted.action_bass"));
        CHECK(place("not met: wanted.action_bass") < place("disagrees"));
        CHECK(all[static_cast<std::size_t>(place("not met: wanted.action_bass"))].find("nearest ") != std::string::npos);
        CHECK(what_cannot_be(before).size() < all.size());
    }
}
