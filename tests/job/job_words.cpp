#include <tautline/job/job_words.hpp>

#include <doctest/doctest.h>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("job words") {
    TEST_CASE("a line of a step: alone, with a number, of a string, as a change") {
        CHECK(words_of(step_line{"mark where the feet stand", {}, false}) == "mark where the feet stand");
        CHECK(words_of(step_line{"relief", length<>(0.2 * mm), false}) == "relief 0.20 mm");
        CHECK(words_of(step_line{"change, string 6 (E2)", length<>(0.2 * mm), true, 0}) ==
              "change, string 6 (E2): +0.20 mm");
        CHECK(words_of(step_line{"turn", 0.5 * deg, true}, measures::imperial) == "turn +0.50 deg");
        CHECK(words_of(step_line{"relief", length<>(0.254 * mm), false}, measures::both) == "relief 0.25 mm = 10.0 thou");
    }
    TEST_CASE("a change: by a share where one says something") {
        setup_change c{"down_force", 100 * N, 120 * N, 2, "down-force", "presses more"};
        CHECK(words_of(c) == "down-force: 100.0 N to 120.0 N (+20 %): presses more");
        c.planned = 1200 * N; // more than tenfold
        CHECK(words_of(c) == "down-force: 100.0 N to 1200.0 N (+1100.0 N): presses more");
        c.meaning = {};
        c.found = 0 * N;
        c.planned = 12 * N;
        CHECK(words_of(c) == "down-force: 0.0 N to 12.0 N (+12.0 N)");
        c.found = interval<>::from_cents(2);
        c.planned = interval<>::from_cents(3);
        CHECK(words_of(c) == "down-force: 2.0 cents to 3.0 cents (+1.0 cents)");
    }
    TEST_CASE("wishes that are not met, and what else decides them") {
        CHECK(words_of(shortfall{"relief", {}, {}, "the neck has no rod"}) == "wanted.relief: the neck has no rod.");
        CHECK(words_of(shortfall{"action_bass", 2 * mm, 2.5 * mm, "the saddle stops"}) ==
              "wanted.action_bass: the saddle stops; nearest 2.50 mm.");
        CHECK(words_of(shortfall{"saddle_break", 12 * deg, 10 * deg, "the holes end"}) ==
              "wanted.saddle_break: the holes end; nearest 10.00 deg, of 12.00 deg.");
        CHECK(words_of(plan_remark{"first_fret_bass", "a zero fret decides it; its crown would be", length<>(1 * mm)}) ==
              "wanted.first_fret_bass: a zero fret decides it; its crown would be 1.00 mm.");
        CHECK(words_of(plan_remark{"relief", "the work decides it", {}}) == "wanted.relief: the work decides it.");
    }
    TEST_CASE("the cautions name what hurts people, and who decides") {
        for (const char* word : {"eye", "slacken", "Dust", "qualified repairer"}) {
            CHECK(job_cautions.find(word) != std::string_view::npos);
        }
    }
}
