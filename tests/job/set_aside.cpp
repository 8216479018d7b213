#include <tautline/job/set_aside.hpp>

#include <algorithm>

#include <doctest/doctest.h>
#include <tautline/job/what_cannot_be.hpp>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Four courses to be lowered at saddle and nut; heights and reliefs are read as a truth shows them.
bench_job job_with_readings(const strung_instrument& truth) {
    auto j = demo::job_as_found();
    j.planned = plan_as_found(j);
    j.wanted = wishes{};
    j.wanted->action_bass = 2.2 * mm;
    j.wanted->action_treble = 1.8 * mm;
    j.wanted->first_fret_bass = 0.5 * mm;
    const auto shown = solve(truth);
    const auto note = [&](const char* string, int fret, const length<>& value) {
        noted_reading n{.of = "height", .value = fixed_text(value, mm, 4) + " ± 0.05 mm"};
        n.string.text = string;
        n.fret = fret;
        j.readings.push_back(n);
    };
    for (const int fret : {12, 1}) {
        const auto row = static_cast<std::size_t>(fret - 1);
        note("4a", fret, shown.strings.front().heights[row]);
        note("1b", fret, shown.strings.back().heights[row]);
    }
    return j;
}
/// The same with the first height typed a millimetre too low.
bench_job mistyped(bench_job j) {
    const auto read = parse_any_measured("length", j.readings[0].value)->best.as<length<>>();
    j.readings[0].value = fixed_text(length<>(read - 1 * mm), mm, 4) + " ± 0.05 mm";
    return j;
}
const number_without& of_words(const std::vector<number_without>& all, std::string_view words) {
    const auto at =
        std::find_if(all.begin(), all.end(), [&](const auto& n) { return n.words.find(words) != std::string::npos; });
    REQUIRE(at != all.end());
    return *at;
}

} // namespace

TEST_SUITE("set aside") {
    TEST_CASE("a gross reading: what it should be, the job without it, and what would come of following it") {
        const auto truth = strung_as_found(demo::job_as_found());
        const auto right = job_with_readings(truth);
        const auto wrong = mistyped(right);
        const auto a = answer(wrong), clean = answer(right);
        REQUIRE(a.learnt.in_doubt);
        REQUIRE_FALSE(a.learnt.without.empty());
        const auto& one = a.learnt.without.front();
        const std::size_t place = a.readings.said.inputs.size();
        REQUIRE(one.places == std::vector<std::size_t>{place});
        // The others have the height as it is, give or take what the saddle and the board's line leave open.
        const double true_height = solve(truth).strings[0].heights[11].value();
        CHECK(near::within(one.items.at(0).without.si(), true_height, 0.15e-3));
        CHECK(near::within(one.items.at(0).with_all.si(), true_height - 1e-3, 1e-6));
        // Every number is driven by it, and is told without it.
        const auto& height = of_words(one.found, "over fret 12, course 4 (G2), its bass-side string");
        CHECK(near::within(height.without.si(), true_height, 0.15e-3));
        CHECK(height.with_all.si() < true_height - 0.5e-3);
        CHECK(height.give_or_take.si() > 1.5 * a.found_doubts.give_or_take("strings[0].heights[11]").si());
        const auto& saddle = of_words(one.settings, "saddle under course 4 (G2), its bass-side string");
        CHECK(near::within(saddle.without.si(), clean.setups.plan.saddle_change[0].value(), 0.3e-3));
        CHECK(saddle.with_all.si() == a.setups.plan.saddle_change[0].value());
        CHECK(std::abs(saddle.with_all.si() - saddle.without.si()) > 1e-3);
        // What comes of it, by another way: the true instrument changed by as much as the sheet says.
        auto set = truth;
        const auto& p = a.setups.plan;
        for (std::size_t i = 0; i < set.instrument.nut.slot_heights.size(); ++i) {
            set.instrument.nut.slot_heights[i] = set.instrument.nut.slot_heights[i] + p.slot_change[i];
        }
        auto& s = set.instrument.saddle;
        s.height_bass = s.height_bass + p.saddle_change.front();
        s.height_treble = s.height_treble + p.saddle_change.back();
        const auto& so = of_words(one.set_so, "over fret 12, course 4 (G2), its bass-side string");
        CHECK(near::within(so.with_all.si(), 2.2e-3, 1e-6));
        CHECK(near::within(so.without.si(), solve(set).strings[0].heights[11].value(), 0.15e-3));
        CHECK(so.without.si() > 2.7e-3);
    }
    TEST_CASE("a gross reading: warnings before the numbers, beside them and in every step that takes something off") {
        const auto j = mistyped(job_with_readings(strung_as_found(demo::job_as_found())));
        const auto a = answer(j);
        CHECK(what_cannot_be(a).back() == measure_first);
        std::size_t warned = 0;
        for (const auto& s : a.steps) {
            const bool takes_off = s.stage == bench_stage::cut_nut || s.stage == bench_stage::set_saddle;
            const bool warns = !s.lines.empty() && s.lines.front().what.starts_with("not before this is measured again: "
                                                                                    "height over fret 12 of course 4 (G2)");
            CHECK(warns == takes_off);
            warned += warns ? 1U : 0U;
        }
        CHECK(warned == 2);
        const auto said = sentences_of(j, a.readings, a.learnt);
        const auto tells = [&](std::string_view part) {
            return std::any_of(said.begin(), said.end(), [&](const auto& s) { return s.find(part) != std::string::npos; });
        };
        CHECK(tells("Without height over fret 12 of course 4 (G2), its bass-side string (by all else "));
        CHECK(tells(" Planned: saddle under course 4 (G2), its bass-side string by "));
        CHECK(tells(" What comes of setting it as told here all the same: "));
    }
    TEST_CASE("nothing of it where all agree, and where the numbers do not follow the readings") {
        const auto right = job_with_readings(strung_as_found(demo::job_as_found()));
        auto j = right;
        CHECK_FALSE(answer(j).learnt.in_doubt);
        CHECK(answer(j).learnt.without.empty());
        j = mistyped(right);
        j.adjusting.as_read = true;
        const auto a = answer(j);
        REQUIRE_FALSE(a.readings.said.suspicions.empty());
        CHECK_FALSE(a.learnt.in_doubt);
        const auto all = what_cannot_be(a);
        CHECK(std::find(all.begin(), all.end(), measure_first) == all.end());
    }
}
