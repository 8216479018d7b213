// What is planned by value is told as a change from how things stand before, with its step, as a wish is.
#include <algorithm>

#include <tautline/job/answer.hpp>
#include <tautline/job/named_numbers.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The demo job with values that are planned by hand; its doubts are left out unless they are asked for.
bench_job job_by_value() {
    auto j = demo::job_as_found();
    j.adjusting.usual_doubts = false;
    j.planned = plan_as_found(j);
    return j;
}
void plan_saddle(bench_job& j, const length<>& bass, const length<>& treble) {
    j.planned->changes.values.saddle.height_bass = bass;
    j.planned->changes.values.saddle.height_treble = treble;
    for (const char* path : {"saddle.height_bass", "saddle.height_treble"}) { j.planned->changes.paths.emplace_back(path); }
}
const bench_step* step_by_value(const job_answers& a, bench_stage stage) {
    const auto at = std::find_if(a.steps.begin(), a.steps.end(), [&](const bench_step& s) { return s.stage == stage; });
    return at == a.steps.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("planned values") {
    TEST_CASE("slots, saddle and hanger by value: planned less found, with their steps") {
        auto j = job_by_value();
        const auto& found = j.instrument;
        plan_saddle(j, found.saddle.height_bass - 2 * mm, found.saddle.height_treble - 1.5 * mm);
        auto& values = j.planned->changes.values;
        values.nut.slot_heights = std::vector<field<length<>>>(8, found.nut.slot_height(0) - 0.5 * mm);
        values.tailpiece->hinge_height = found.tailpiece->hinge_height + 10 * mm;
        for (const char* path : {"nut.slot_heights", "tailpiece.hinge_height"}) {
            j.planned->changes.paths.emplace_back(path);
        }
        const auto a = answer(j);
        const auto& p = a.setups.plan;
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(
                near::within(p.slot_change[i], found.nut.slot_height(0) - 0.5 * mm - found.nut.slot_height(i), 1e-9 * mm));
        }
        CHECK(near::within(p.saddle_change.front(), -2 * mm, 1e-9 * mm));
        CHECK(near::within(p.saddle_change.back(), -1.5 * mm, 1e-9 * mm));
        REQUIRE(p.hinge_change.has_value());
        CHECK(near::within(*p.hinge_change, 10 * mm, 1e-9 * mm));
        CHECK(step_by_value(a, bench_stage::cut_nut));
        CHECK(step_by_value(a, bench_stage::hang_tailpiece));
        const auto* saddle = step_by_value(a, bench_stage::set_saddle);
        REQUIRE(saddle);
        CHECK(saddle->decision == "Saddle: it is set to its planned heights; the neck stays as it is joined.");
    }
    TEST_CASE("a wish besides: its change counts from what stands on the bench, too") {
        auto j = job_by_value();
        plan_saddle(j, j.instrument.saddle.height_bass - 2 * mm, j.instrument.saddle.height_treble - 1.5 * mm);
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        j.wanted->action_treble = 1.8 * mm;
        const auto p = setups_of(j).plan;
        CHECK(near::within(p.saddle_change.front(), p.adjusted.instrument.saddle.height_bass - 18.5 * mm, 1e-9 * mm));
        CHECK(near::within(p.saddle_height.front() - p.saddle_change.front(), 18.5 * mm, 1e-9 * mm));
        // The same wish without planned values ends at the same saddle, so its change is the same.
        j.planned->changes.paths.clear();
        CHECK(near::within(setups_of(j).plan.saddle_change.front(), p.saddle_change.front(), 1e-4 * mm));
    }
    TEST_CASE("a rod by value turns by the difference, and its step claims no wish") {
        auto j = job_by_value();
        j.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        j.instrument.neck.rod_pull = 100 * N;
        j.planned = plan_as_found(j);
        j.planned->changes.values.neck.rod_pull = 150 * N;
        j.planned->changes.paths = {"neck.rod_pull"};
        const auto a = answer(j);
        CHECK(near::within(a.setups.plan.rod_pull_change, 50 * N, 1e-9 * N));
        const auto* rod = step_by_value(a, bench_stage::set_rod);
        REQUIRE(rod);
        CHECK(rod->decision == "The rod is set to its planned pull.");
    }
    TEST_CASE("a slot is told over the board as it is when the slot is cut; the saddle over the body") {
        auto j = job_by_value();
        j.planned->sanding = sanding{.held = neck_held::slack, .allowance = 0.3 * mm};
        j.planned->wire = j.instrument.frets.wire;
        j.planned->changes.values.nut.slot_heights = std::vector<field<length<>>>(8, 1 * mm);
        j.planned->changes.paths = {"nut.slot_heights"};
        plan_saddle(j, 17 * mm, 17 * mm);
        const auto s = setups_of(j);
        REQUIRE(s.stood);
        for (std::size_t i = 0; i < 8; ++i) {
            const length<> stands = s.stood->nut.slot_height(i);
            CHECK(stands > j.instrument.nut.slot_height(i) + 0.2 * mm);
            CHECK(near::within(s.plan.slot_change[i], 1 * mm - stands, 1e-9 * mm));
        }
        CHECK(near::within(s.plan.saddle_change.front(), 17 * mm - 18.5 * mm, 1e-9 * mm));
    }
    TEST_CASE("what is set by value has the doubt of its planned value, not that of a cut besides") {
        auto j = job_by_value();
        j.adjusting.usual_doubts = true;
        plan_saddle(j, 17 * mm, 17 * mm);
        const auto s = setups_of(j);
        for (const known_doubt& d : doubts_of_plan(j, s)) {
            CAPTURE(d.name);
            CHECK(d.name.find("cutting the saddle") == std::string::npos);
        }
        // A wish that moves it further is a cut of its own.
        j.wanted = wishes{};
        j.wanted->action_bass = 2.2 * mm;
        const auto cut = doubts_of_plan(j, setups_of(j));
        CHECK(std::any_of(cut.begin(), cut.end(),
                          [](const known_doubt& d) { return d.name == "cutting the saddle at the bass"; }));
    }
    TEST_CASE("the inputs of a change that is planned by value") {
        auto j = job_by_value();
        plan_saddle(j, 17 * mm, 17 * mm);
        const auto s = setups_of(j);
        const auto list = named_numbers(s);
        const auto effect = [&](const char* number, const char* path) {
            const auto inputs = inputs_of(j, s, *find_number(list, number));
            const auto at = std::find_if(inputs.begin(), inputs.end(), [&](const auto& i) { return i.path == path; });
            return at == inputs.end() ? 0.0 : at->effect.si();
        };
        CHECK(near::within(effect("plan.saddle_change[0]", "saddle.height_bass"), 1, 1e-9));
        // What is not planned by value is as it was: the change does not follow it.
        CHECK(effect("plan.slot_change[0]", "nut.slot_heights[0]") == 0);
    }
}
