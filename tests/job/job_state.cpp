#include <tautline/job/job_state.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("job state") {
    TEST_CASE("nothing to change: one state, as found") {
        auto j = demo::job_as_found();
        j.adjusting.usual_doubts = false;
        j.objects = {{.name = "guard", .shape = {.x = 430 * mm, .z = -6 * mm, .extent = 40 * mm}}};
        const auto a = answer(j);
        const auto states = states_of(j, a);
        REQUIRE(states.size() == 1);
        CHECK(states[0].name == "found");
        CHECK(&states[0].is == &a.setups.last());
        CHECK(&states[0].on == &a.setups.last_strung());
        CHECK(&states[0].doubts == &a.last_doubts());
        REQUIRE(states[0].seats.size() == 1);
        CHECK(states[0].seats[0].open == under_strings(a.setups.found, j.objects[0]).open);
        // What lies there in the end is what lies there.
        CHECK(a.setups.objects[0].shape.z == j.objects[0].shape.z);
        CHECK(a.setups.seats[0].open == states[0].seats[0].open);
    }
    TEST_CASE("found and planned, each with its own strings, objects and doubts") {
        auto j = demo::job_as_found();
        j.adjusting.usual_doubts = false;
        j.doubts = {{"saddle.height_bass", 0.05 * mm}};
        j.objects = {{.name = "guard", .shape = {.x = 430 * mm, .z = -6 * mm, .extent = 40 * mm}}};
        j.planned = plan_as_found(j);
        j.planned->objects = std::vector<named_object>{};
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto a = answer(j);
        const auto states = states_of(j, a);
        REQUIRE(states.size() == 2);
        CHECK(states[1].name == "planned");
        CHECK(&states[0].is == &a.setups.found);
        CHECK(&states[0].on == &a.setups.as_found);
        CHECK(&states[1].is == &a.setups.last());
        CHECK(&states[1].on == &a.setups.last_strung());
        CHECK(states[0].seats.size() == 1);
        CHECK(states[1].objects.empty());
        CHECK(&states[0].doubts == &a.found_doubts);
        CHECK(&states[1].doubts == &a.last_doubts());
        CHECK(states[1].named("strings[0].tension") == "strings[0].tension (4a G2)");
        CHECK(states[1].named("nut.slot_heights[7]") == "nut.slot_heights[7] (1b E4)");
        CHECK(states[1].named("relief.gap") == "relief.gap");
    }
}
