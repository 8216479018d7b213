#include <tautline/job/named_numbers.hpp>

#include <set>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("named numbers") {
    TEST_CASE("every number has a name of its own, words and the value of what it names") {
        auto j = demo::job_as_found();
        j.objects = {{.name = "guard", .shape = {.x = 430 * mm, .z = -6 * mm, .extent = 40 * mm}}};
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto s = setups_of(j);
        const auto list = named_numbers(s);
        std::set<std::string> names;
        for (const auto& n : list) {
            CHECK_MESSAGE(names.insert(n.name).second, n.name);
            CHECK_FALSE_MESSAGE(n.words.empty(), n.name);
            CHECK(n.name == n.state + "." + n.path);
        }
        REQUIRE(find_number(list, "found.total_tension"));
        CHECK(find_number(list, "found.total_tension")->value == any_quantity(s.found.total_tension));
        CHECK(find_number(list, "relief.gap") == find_number(list, "planned.relief.gap"));
        CHECK(find_number(list, "plan.saddle_change[0]")->value == any_quantity(s.plan.saddle_change[0]));
        CHECK(find_number(list, "objects[0].open")->value == any_quantity(s.seats[0].open));
        CHECK(find_number(list, "objects[0].open")->words == "guard: least clearance under open strings");
        CHECK_FALSE(find_number(list, "objects[1].open"));
        CHECK(nearest_name(list, "releif.gap") == "relief.gap");
        CHECK(nearest_name(list, "fuond.relief.gap") == "found.relief.gap");
        CHECK(nearest_name(list, std::string(90, 'x')).empty());

        // By a name as somebody types it.
        CHECK(number_by_name(s, "relief.gap", "name").name == "planned.relief.gap");
        CHECK(number_by_name(s, "found.string 4a.tension", "name").value == any_quantity(s.found.strings[0].tension));
        CHECK_THROWS_WITH((void)number_by_name(s, "releif.gap", "name"),
                          "name is \"releif.gap\"; it must be the name of a number of the answers, such as relief.gap.");
        CHECK_THROWS_WITH((void)number_by_name(s, "plan.neck_reset", "name"),
                          "name is \"plan.neck_reset\"; it is now named \"plan.reset.turn\".");
    }
    TEST_CASE("what moves a number of the plan, by its difference") {
        auto j = demo::job_as_found();
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto s = setups_of(j);
        const auto list = named_numbers(s);
        const auto inputs = inputs_of(j, s, *find_number(list, "plan.saddle_change[0]"));
        const auto wish =
            std::find_if(inputs.begin(), inputs.end(), [](const auto& i) { return i.path == "wanted.action_bass"; });
        REQUIRE(wish != inputs.end());
        const auto at = [&](length<> action) {
            j.wanted->action_bass = action;
            return setups_of(j).plan.saddle_change[0].value();
        };
        CHECK(near::within(wish->effect.si(), (at(2.21 * mm) - at(2.19 * mm)) / 2e-5, 1e-3));
        CHECK(inputs_of(j, s, *find_number(list, "found.relief.gap")).size() > 5);
    }
}
