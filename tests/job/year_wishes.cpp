// What a plan keeps in the air it was made in and not at the ends of its year.
#include <tautline/job/answer.hpp>
#include <tautline/job/year_words.hpp>

#include <algorithm>

#include <doctest/doctest.h>

#include "job_of_a_year.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

using demo::planned_for_a_year;

namespace {

std::vector<year_miss> misses_of(const bench_job& j) {
    const auto a = answer(j);
    REQUIRE(a.year);
    return a.year->misses;
}
const year_miss* find_miss(const std::vector<year_miss>& all, std::string_view what, std::size_t end) {
    const auto at =
        std::find_if(all.begin(), all.end(), [&](const year_miss& m) { return m.what == what && m.end == end; });
    return at == all.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("year of wishes") {
    TEST_CASE("an instrument that does not move keeps all it keeps now") { CHECK(misses_of(planned_for_a_year()).empty()); }
    TEST_CASE("a top that rises fails the action: too high in the damp, too low in the dry, by half of its rise") {
        auto j = planned_for_a_year();
        j.season->top = 0.1 * mm;
        const auto a = answer(j);
        for (const char* wish : {"action_bass", "action_treble"}) {
            for (const std::size_t end : {std::size_t{1}, std::size_t{2}}) {
                CAPTURE(wish);
                CAPTURE(end);
                const auto* m = find_miss(a.year->misses, wish, end);
                REQUIRE(m);
                CHECK(m->sure);
                CHECK(m->fret == 12);
                // Over the octave half of the saddle's rise.
                CHECK(near::within(m->then.si() - m->wanted.si(), 0.1e-3 * a.year->gained[end] / 2, 0.015e-3));
                CHECK(near::within(m->off.si(), std::abs(m->then.si() - m->wanted.si()), 1e-12));
                CHECK(words_of(*m).find(end == 1 ? "In the driest air" : "In the dampest air") == 0);
                CHECK(words_of(*m).find(end == 1 ? "below the wish" : "above the wish") != std::string::npos);
            }
        }
        // At fret 1 it rises by a fifteenth of that: nobody could tell.
        CHECK_FALSE(find_miss(a.year->misses, "first_fret_bass", 1));
        CHECK_FALSE(find_miss(a.year->misses, "first_fret_bass", 2));
    }
    TEST_CASE("what is nearer than a reading can tell is kept, and what is just beyond is not") {
        auto j = planned_for_a_year();
        const double gained = answer(j).year->gained[2];
        // The usual doubt of a height is 0.05 mm; the saddle's rise comes to half over fret 12.
        j.season->top = (2 * 0.045 / gained) * mm;
        CHECK_FALSE(find_miss(misses_of(j), "action_bass", 2));
        j.season->top = (2 * 0.058 / gained) * mm;
        CHECK(find_miss(misses_of(j), "action_bass", 2));
    }
    TEST_CASE("a season that nobody measured may fail a wish, and is told as such") {
        auto j = planned_for_a_year();
        j.wanted->relief = 0.2 * mm;
        j.season->bow.reset();
        const auto a = answer(j);
        const auto* m = find_miss(a.year->misses, "action_bass", 2);
        REQUIRE(m);
        CHECK_FALSE(m->sure);
        CHECK(words_of(*m).find("may be") != std::string::npos);
        // As far as the line of the year has it: value and give or take.
        const auto& line = a.year->lines[2];
        CHECK(line.path == "strings[0].heights[11]");
        CHECK(near::relative(m->off.si(), line.give_or_take[1].si(), 0.12));
    }
    TEST_CASE("strings that clear now and touch at one end are told with string, fret and by how much") {
        auto j = planned_for_a_year();
        j.wanted->action_bass = 1.2 * mm;
        j.wanted->action_treble = 1.2 * mm;
        j.wanted->first_fret_bass.reset();
        j.season->bow = 2e-4; // as much as any board does
        const auto a = answer(j);
        CHECK_FALSE(find_miss(a.year->misses, "clearance", 1));
        const auto* m = find_miss(a.year->misses, "clearance", 2);
        REQUIRE(m);
        CHECK(m->sure);
        // As the solve in that air has it.
        const double gained = a.year->gained[2];
        const auto damp = solve(moistened(a.setups.last_strung(), {.bow = 2e-4, .top = 0 * mm, .stiffness = 0}, gained));
        const auto& gap = damp.strings[*m->string_index].clearances[static_cast<std::size_t>(*m->pressed)];
        CHECK(near::within(-gap.gap.value(), m->off.si(), 1e-9));
        CHECK(gap.fret_number() == *m->fret);
        CHECK(a.setups.last().strings[*m->string_index].clearances[static_cast<std::size_t>(*m->pressed)].gap > 0 * mm);
        // The page has the worst string of each end and counts the others.
        std::size_t touching = 0;
        for (const auto& one : a.year->misses) { touching += one.what == "clearance" ? 1 : 0; }
        std::size_t told = 0;
        for (const auto& line : sentences_of(*a.year)) {
            told += line.find("touches fret") != std::string::npos ? 1 : 0;
            if (line.find("touches fret") != std::string::npos && touching > 1) {
                CHECK(line.find("So do") != std::string::npos);
            }
        }
        CHECK(told == 1);
        // Of a bow that nobody measured it is only possible.
        j.season->bow.reset();
        const auto unsure = misses_of(j);
        const auto* may = find_miss(unsure, "clearance", 2);
        REQUIRE(may);
        CHECK_FALSE(may->sure);
    }
    TEST_CASE("what the plan does not reach as it is is not told again") {
        auto j = planned_for_a_year();
        j.wanted->highest_saddle = 14 * mm; // far below what the action asks for
        j.season->top = 0.002 * mm;
        const auto a = answer(j);
        REQUIRE(std::any_of(a.setups.plan.shortfalls.begin(), a.setups.plan.shortfalls.end(),
                            [](const shortfall& f) { return f.wish == "action_bass"; }));
        CHECK_FALSE(find_miss(a.year->misses, "action_bass", 2));
    }
    TEST_CASE("a wish for down-force is looked at, too: kept within 2 %, as near as two forces are told apart") {
        auto j = planned_for_a_year();
        j.wanted = wishes{};
        j.wanted->down_force = setups_of(planned_for_a_year()).found.down_force;
        const auto a = answer(j);
        CHECK(a.year->misses.empty());
        auto then = a.setups.plan.solved;
        const auto missed = [&](double share) {
            then.down_force = a.setups.plan.solved.down_force * share;
            std::vector<year_miss> all;
            kernel::find_missed_wishes(*j.wanted, a.setups.plan, {2, then, {}}, all);
            return all;
        };
        CHECK(missed(1.015).empty());
        CHECK(missed(0.985).empty());
        REQUIRE(missed(1.03).size() == 1);
        CHECK(missed(1.03)[0].what == "down_force");
        CHECK(near::relative(missed(1.03)[0].off.si(), 0.03 * j.wanted->down_force->value(), 1e-3));
        CHECK(words_of(missed(0.97)[0]).find("below the wish") != std::string::npos);
    }
    TEST_CASE("without a plan there are no wishes, but strings are looked at") {
        auto j = planned_for_a_year();
        j.wanted.reset();
        j.season->top = 0.5 * mm;
        for (const auto& m : misses_of(j)) { CHECK(m.what == "clearance"); }
    }
}
