#include <tautline/job/all_results.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("all results") {
    TEST_CASE("every result once, with both states and their doubts") {
        auto j = demo::job_as_found();
        j.doubts = {{"saddle.height_bass", 0.05 * mm}};
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto a = answer(j);
        const auto list = all_results(a);
        std::size_t count = 0;
        for_each_leaf(a.setups.found, [&](std::string_view path, const auto& x) {
            REQUIRE(count < list.size());
            CHECK(list[count].path == path);
            CHECK(list[count].kind == kind_name_of(x));
            CHECK_FALSE(list[count].words.empty());
            // A result may be no number, which is no equal of itself.
            CHECK((list[count].found == any_of(x) || list[count].found.si() != list[count].found.si()));
            ++count;
        });
        CHECK(list.size() == count);
        const auto height =
            std::find_if(list.begin(), list.end(), [](const job_result& r) { return r.path == "strings[0].heights[11]"; });
        REQUIRE(height != list.end());
        CHECK(height->found == any_quantity(a.setups.found.strings[0].heights[11]));
        CHECK(height->planned == any_quantity(a.setups.plan.solved.strings[0].heights[11]));
        CHECK(height->found_give_or_take == a.found_doubts.give_or_take(height->path));
        CHECK(height->planned_give_or_take == a.planned_doubts.give_or_take(height->path));
        CHECK(height->found_give_or_take.si() > 0);
    }
    TEST_CASE("what a state does not have is nothing") {
        auto j = demo::job_as_found();
        j.adjusting.usual_doubts = false;
        for (const job_result& r : all_results(answer(j))) {
            CHECK(r.found.has_value());
            CHECK_FALSE(r.planned.has_value());
            CHECK_FALSE(r.found_give_or_take.has_value());
        }
        // A bridge that floats no longer: what it stood on is found only, what holds it now is planned only.
        job_plan plan = plan_as_found(j);
        plan.changes.values.tailpiece.reset();
        plan.changes.values.feet.reset();
        plan.changes.values.soundboard.reset();
        plan.changes.values.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 54 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
        plan.changes.paths = {"tailpiece", "feet", "soundboard", "pins"};
        j.planned = plan;
        const auto list = all_results(answer(j));
        const auto find = [&](std::string_view path) {
            return *std::find_if(list.begin(), list.end(), [&](const job_result& r) { return r.path == path; });
        };
        CHECK(find("tailpiece_rise").found.has_value());
        CHECK_FALSE(find("tailpiece_rise").planned.has_value());
        CHECK(find("pinned.turning").planned.has_value());
        CHECK_FALSE(find("pinned.turning").found.has_value());
        CHECK(list.back().planned.has_value());
    }
}
