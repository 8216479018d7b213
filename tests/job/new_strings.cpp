#include <tautline/job/job_doubts.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

bench_job planned_job() {
    bench_job j = demo::job_as_found();
    j.planned = plan_as_found(j);
    return j;
}
const known_doubt* find(const std::vector<known_doubt>& all, std::string_view name) {
    const auto at = std::find_if(all.begin(), all.end(), [&](const known_doubt& k) { return k.name == name; });
    return at == all.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("new strings") {
    TEST_CASE("one string of a set is replaced, the others stay what they are") {
        bench_job j = planned_job();
        replace_string(j, 4, {.gauge = 17 * thou});
        CHECK(is_valid(j));
        CHECK(j.planned->renews(4));
        CHECK_FALSE(j.planned->renews(3));
        CHECK_FALSE(j.planned->renews(40));
        CHECK(j.planned->strings[4].note == "A3"); // that of the string it replaces
        const auto s = setups_of(j);
        for (std::size_t i = 0; i < 8; ++i) {
            const auto &was = s.found.strings[i], &is = s.plan.solved.strings[i];
            if (i == 4) {
                // Mersenne: the same pitch and nearly the same length, so the pull goes with the square of the gauge.
                CHECK(near::relative(is.tension / was.tension, 17.0 * 17 / (16.0 * 16), 2e-3));
            } else {
                CHECK(near::relative(is.tension, was.tension, 1e-3));
                CHECK(is.gauge == was.gauge);
            }
        }
        // The same as the whole set written out with one string changed.
        bench_job whole = planned_job();
        whole.planned->strings = j.planned->strings;
        CHECK(whole.planned->renews(0));
        CHECK(setups_of(whole).plan.solved.total_tension == s.plan.solved.total_tension);
    }
    TEST_CASE("a side without a wish keeps the height that it had under the strings as found") {
        bench_job j = planned_job();
        for (const std::size_t i : {4u, 5u}) { replace_string(j, i, {.gauge = 20 * thou}); }
        for (const std::size_t i : {6u, 7u}) { replace_string(j, i, {.gauge = 14 * thou}); }
        const auto heights = [](const setup& s, std::size_t n) { return s.strings.back().heights[n]; };
        const setup found = setups_of(j).found;
        const auto kept = [&](const wishes& w, std::size_t n) {
            j.wanted = w;
            const auto s = setups_of(j);
            CHECK(s.plan.shortfalls.empty());
            CHECK(abs(heights(s.plan.untouched, n) - heights(found, n)) > 0.001 * mm); // the new strings pull more
            CHECK(near::within(heights(s.plan.solved, n), heights(found, n), 1e-6 * mm));
        };
        wishes w;
        w.action_bass = found.strings.front().heights[11] - 0.2 * mm;
        kept(w, 11);
        w = {};
        w.first_fret_bass = found.strings.front().heights[0] - 0.05 * mm;
        kept(w, 0);
        // A reset without a wished action keeps every string's.
        w = {};
        w.reset.emplace();
        w.reset->saddle_height = 19 * mm;
        kept(w, 11);
    }
    TEST_CASE("what was measured of the strings that stay is as doubtful as before; the new one is as sure as it says") {
        bench_job j = planned_job();
        j.doubts = {{"strings[0].gauge", any_quantity(length<>(0.05 * mm))},
                    {"strings[4].gauge", any_quantity(length<>(0.04 * mm))}};
        replace_string(j, 4, {.gauge = 17 * thou});
        CHECK_FALSE(kernel::is_replaced(j, "strings[0].gauge"));
        CHECK(kernel::is_replaced(j, "strings[4].gauge"));
        const auto s = setups_of(j);
        const auto all = doubts_of_plan(j, s);
        REQUIRE(find(all, "planned.strings[4].gauge"));
        CHECK(find(all, "planned.strings[4].gauge")->usual);
        for (const char* none : {"planned.strings[0].gauge", "planned.strings[3].core", "planned.strings[5].gauge"}) {
            CHECK_MESSAGE(!find(all, none), none);
        }
        // A whole new set is none of those that were measured.
        j.planned->new_strings.clear();
        CHECK(kernel::is_replaced(j, "strings[0].gauge"));
        CHECK(find(doubts_of_plan(j, s), "planned.strings[0].gauge"));
    }
    TEST_CASE("strings that stay are those of the instrument as readings found them") {
        bench_job j = planned_job();
        replace_string(j, 4, {.gauge = 17 * thou});
        auto on = strung_as_found(j);
        on.stringing.strings[0].string.core.diameter = 19 * thou;
        const auto s = setups_of(j, on);
        CHECK(s.plan.adjusted.stringing.strings[0].string.core.diameter == 19 * thou);
        CHECK(s.plan.adjusted.stringing.strings[4].string.core.diameter == 17 * thou);
    }
    TEST_CASE("the weight of a string moves its mass alone, a packet's tension too") {
        bench_job j = planned_job();
        j.strings[0].weight = 4.9 * gram;
        j.strings[0].weight_length = 1000 * mm;
        j.strings[6].packet_pull = 75 * N;
        j.strings[6].packet_scale = 648 * mm;
        REQUIRE(is_valid(j));
        const auto all = doubts_of_found(j);
        const auto* weight = find(all, "strings[0].weight");
        REQUIRE(weight);
        REQUIRE(weight->found.size() == 1);
        CHECK(weight->found[0].path == "strings[0].string.weighed");
        // A kitchen scale's half gram over one metre, in the mass over length; a millimetre of the length is 0.1 % of it.
        CHECK(weight->found[0].factor == 1);
        CHECK(near::relative(weight->standard.as<linear_density<>>(), 0.25 * g_per_m, 1e-12));
        CHECK(weight->usual);
        CHECK(near::relative(find(all, "strings[0].weight_length")->standard.as<linear_density<>>(), 0.0005 * 4.9 * g_per_m,
                             1e-12));
        // What errs together with another keeps its sign: a longer length is a lighter string.
        j.correlated = {{.first = "strings[0].weight_length", .second = "strings[1].gauge", .coefficient = 1}};
        CHECK(find(doubts_of_found(j), "strings[0].weight_length")->found[0].factor == -1);
        CHECK(find(doubts_of_found(j), "strings[0].weight")->found[0].factor == 1);
        const auto* packet = find(all, "strings[6].packet_pull");
        REQUIRE(packet);
        REQUIRE(packet->found.size() == 1);
        CHECK(packet->found[0].path == "strings[6].string.weighed");
        // The gauge still moves the string's own size, and through its stretch a little the mass that a packet means.
        CHECK(find(all, "strings[6].gauge")->found.size() == 2);
        CHECK_FALSE(find(all, "strings[1].weight"));
        // Carried through the solve: the pull goes with the mass.
        j.correlated.clear();
        const auto setups = setups_of(j);
        const setup_doubts d = doubts_found(j, setups);
        const auto budget = d.budget("strings[0].tension");
        const auto part =
            std::find_if(budget.begin(), budget.end(), [](const auto& b) { return b.input == "strings[0].weight"; });
        REQUIRE(part != budget.end());
        const double pull = setups.found.strings[0].tension.value();
        CHECK(near::relative(std::abs(part->contribution), pull * 0.25 / 4.9, 0.02));
    }
    TEST_CASE("refused: no plan, no such string, a whole new set") {
        bench_job j = demo::job_as_found();
        CHECK_THROWS_AS(replace_string(j, 0, {.gauge = 17 * thou}), invalid_input);
        j = planned_job();
        CHECK_THROWS_AS(replace_string(j, 8, {.gauge = 17 * thou}), invalid_input);
        replace_string(j, 4, {.gauge = 17 * thou});
        replace_string(j, 5, {.gauge = 17 * thou});
        replace_string(j, 4, {.gauge = 18 * thou});
        CHECK(j.planned->new_strings == std::vector<std::size_t>{4, 5});
        j.planned->new_strings = {4, 9};
        CHECK_FALSE(is_valid(j));
        j.planned->new_strings.clear();
        CHECK_THROWS_AS(replace_string(j, 4, {.gauge = 17 * thou}), invalid_input);
    }
}
