#include <tautline/job/year_words.hpp>

#include <algorithm>

#include <tautline/job/answer.hpp>

#include <doctest/doctest.h>

#include "job_of_a_year.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
std::size_t count_with(const std::vector<std::string>& all, std::string_view part) {
    return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](const auto& s) { return has(s, part); }));
}

} // namespace

TEST_SUITE("year in words") {
    TEST_CASE("a wish that fails and a string that touches, in either system of units") {
        const any_quantity wanted(2.4 * mm), then(2.21 * mm);
        const year_miss low{.what = "action_bass",
                            .end = 1,
                            .sure = true,
                            .wanted = wanted,
                            .then = then,
                            .off = wanted - then,
                            .words = "string 4 (E1) over fret 12"};
        CHECK(words_of(low) ==
              "In the driest air string 4 (E1) over fret 12 is 2.21 mm, 0.19 mm below the wish (action_bass).");
        CHECK(words_of(low, measures::imperial) ==
              "In the driest air string 4 (E1) over fret 12 is 87.0 thou, 7.5 thou below the wish (action_bass).");
        year_miss touch{.what = "clearance",
                        .end = 2,
                        .sure = false,
                        .wanted = any_quantity(0 * mm),
                        .then = any_quantity(-0.04 * mm),
                        .off = any_quantity(0.04 * mm),
                        .string_index = 3,
                        .pressed = 0,
                        .fret = 6,
                        .words = "string 1 (G2)"};
        CHECK(words_of(touch) ==
              "In the dampest air string 1 (G2), open, may touch fret 6, which it clears now: it lacks 0.04 mm.");
        touch.pressed = 2;
        CHECK(has(words_of(touch), "string 1 (G2), pressed at fret 2, may touch"));
    }
    TEST_CASE("what may fail by what nobody measured is told once, with the most that each may be off") {
        auto j = demo::planned_for_a_year();
        j.wanted->relief = 0.2 * mm;
        j.season->bow.reset();
        const auto a = answer(j);
        const auto& misses = a.year->misses;
        REQUIRE(std::count_if(misses.begin(), misses.end(), [](const auto& m) { return !m.sure; }) > 3);
        const auto told = sentences_of(*a.year);
        REQUIRE(count_with(told, "By what is not known of how it moves with the air") == 1);
        CHECK(count_with(told, " may be ") == 1);
        CHECK(count_with(told, "may touch") <= 1);
        const auto said =
            *std::find_if(told.begin(), told.end(), [](const auto& s) { return has(s, "By what is not known"); });
        double most = 0;
        for (const auto& m : misses) {
            if (m.what == "action_bass") { most = std::max(most, m.off.si()); }
        }
        CHECK(has(said, "over fret 12 by " + bench_text(any_quantity(length<>::from_value(most)))));
        for (const auto& sentence : sentences_of(*a.year, measures::imperial)) { CHECK_FALSE(has(sentence, " mm")); }
    }
    TEST_CASE("what fails surely is told for each end, and not as what may fail") {
        auto j = demo::planned_for_a_year();
        j.season->top = 0.1 * mm;
        const auto told = sentences_of(*answer(j).year);
        CHECK(count_with(told, "(action_bass)") == 2);
        CHECK(count_with(told, "By what is not known") == 0);
    }
}
