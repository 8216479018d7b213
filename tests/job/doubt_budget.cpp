#include <tautline/job/doubt_budget.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("doubt budget") {
    TEST_CASE("of what is wanted, or of all; shares that make the whole, the largest first") {
        auto j = demo::job_as_found();
        j.adjusting.usual_doubts = false;
        j.doubts = {{"saddle.height_bass", 0.05 * mm}, {"saddle.height_treble", 0.1 * mm}, {"a4", 1 * Hz}};
        j.wanted = wishes{};
        j.wanted->action_treble = 1.8 * mm;
        const auto a = answer(j);
        const auto wanted = budgets_of(j, a, false), all = budgets_of(j, a, true);
        REQUIRE(wanted.size() == 1);
        CHECK(wanted[0].asked.path == "strings[7].heights[11]");
        CHECK(wanted[0].give_or_take == a.planned_doubts.give_or_take("strings[7].heights[11]"));
        CHECK(all.size() > 4);
        for (const result_budget& one : all) {
            double whole = 0, before = 1;
            for (const auto& part : one.parts) {
                whole += part.share;
                CHECK(part.share <= before);
                before = part.share;
            }
            CHECK_MESSAGE(near::within(whole, 1.0, 1e-9), one.asked.path);
        }
        CHECK(wanted[0].parts[0].input == "saddle.height_treble");
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::stated);
        // Where nothing is wanted, all are told.
        j.wanted.reset();
        const auto found = answer(j);
        CHECK(budgets_of(j, found, false).size() == budgets_of(j, found, true).size());
        CHECK(budgets_of(j, found, false).size() > 4);
        j.doubts.clear();
        CHECK(budgets_of(j, answer(j), true).empty());
    }
    TEST_CASE("what doubts stand on: readings are none that the file states") {
        bench_job j;
        job_answers a;
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::nothing);
        a.found_doubts.doubts.resize(2);
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::stated);
        a.found_doubts.usual = {"saddle.height_bass"};
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::both);
        a.readings.said.readings.resize(1); // the second doubt is that reading's
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::usual);
        j.adjusting.as_read = true; // readings are compared only: it is a stated one
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::both);
        a.found_doubts.usual.push_back("saddle.height_treble");
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::usual);
        a.setups.planned = true;
        CHECK(basis_of_doubts(j, a) == doubts_stand_on::nothing);
    }
}
