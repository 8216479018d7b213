// Each step says what to take in hand, and what is set by screws, wheels and crowns is told as it is set.
#include <tautline/job/job_words.hpp>
#include <tautline/job/steps.hpp>
#include <tautline/work/do_work.hpp>

#include <algorithm>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/instrument/ready_made_bent.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

struct planned {
    setup_plan plan;
    std::vector<bench_step> steps;

    [[nodiscard]] const bench_step* at(bench_stage stage) const {
        for (const bench_step& s : steps) {
            if (s.stage == stage) { return &s; }
        }
        return nullptr;
    }
};
planned plan_of(const strung_instrument& on, const wishes& w, const bench_work& work = {}) {
    const setup found = solve(on);
    const work_done done = do_work(on, {}, work);
    setup_plan plan = make_plan(done.after, w);
    auto steps = steps_of(found, done, plan);
    return {std::move(plan), std::move(steps)};
}
bool mentions(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

wishes heights() {
    wishes w;
    w.first_fret_bass = 0.45 * mm;
    w.first_fret_treble = 0.35 * mm;
    w.action_bass = 2.2 * mm;
    w.action_treble = 1.8 * mm;
    return w;
}

} // namespace

TEST_SUITE("in hand") {
    TEST_CASE("every step of every ready-made kind names its tools") {
        bench_work work;
        work.levelling = fret_levelling{.held = neck_held::slack, .least_crown = 0.2 * mm};
        for (const auto& on : {string_up(ready_made::flat_top()), string_up(ready_made::solid_body_bass()),
                               string_up(ready_made::ten_string_cittern()), string_up(ready_made::zero_fret_guitar()),
                               string_up(ready_made::five_string_banjo()), string_up(ready_made::fanned_bass())}) {
            wishes w = heights();
            if (!on.instrument.saddle.single.empty()) { w.in_tune = true; }
            if (!on.instrument.short_strings.empty()) { w.first_fret_bass = w.first_fret_treble = std::nullopt; }
            for (const bench_step& s : plan_of(on, w, work).steps) {
                CAPTURE(s.title);
                CHECK(s.in_hand.size() > 5);
                CHECK_FALSE(s.in_hand.ends_with("."));
            }
        }
    }
    TEST_CASE("what corrects at pitch is what the steps before took in hand") {
        const auto p = plan_of(string_up(ready_made::flat_top()), heights());
        CHECK(mentions(p.at(bench_stage::cut_nut)->in_hand, "slot files"));
        CHECK(mentions(p.at(bench_stage::finish)->in_hand, "slot files"));
        CHECK(mentions(p.at(bench_stage::finish)->in_hand, "abrasive paper"));
        CHECK_FALSE(mentions(p.at(bench_stage::finish)->in_hand, "rod"));
    }
    TEST_CASE("a zero fret has a step of its own, with the crowns that the plan remarks") {
        const auto on = string_up(ready_made::zero_fret_guitar());
        wishes w = heights();
        w.first_fret_bass = 0.25 * mm;
        w.first_fret_treble = 0.2 * mm;
        const auto p = plan_of(on, w);
        const bench_step* s = p.at(bench_stage::cut_nut);
        REQUIRE(s != nullptr);
        CHECK(s->title == "Bring the zero fret to its crown");
        REQUIRE(p.plan.remarks.size() == 2); // nearly one crown
        REQUIRE(s->lines.size() == 2);
        CHECK(s->lines[0].what == "crown over the board at its bass end");
        CHECK(s->lines[0].number.as<length<>>() == p.plan.remarks[0].number.as<length<>>());
        CHECK(s->lines[1].number.as<length<>>() == p.plan.remarks[1].number.as<length<>>());
        // One rounding everywhere: the step, the remark and the line of the check.
        CHECK(words_of(p.plan.remarks[0]).ends_with(" " + words_of(s->lines[0]).substr(s->lines[0].what.size() + 1) + "."));
        CHECK(mentions(s->in_hand, "crowning file"));
        CHECK(mentions(s->decision, "planned.frets.zero_crown"));
        CHECK(mentions(p.at(bench_stage::set_saddle)->decision, "for the zero fret as it was"));
        w.first_fret_bass = 1.5 * mm;
        CHECK(mentions(plan_of(on, w).at(bench_stage::cut_nut)->decision, "It must come up"));
        // Planned by hand, the crown is told with its change, and the saddle is told for it.
        auto filed = on;
        filed.instrument.frets.zero_crown = 0.95 * mm;
        const auto by_hand = make_plan(filed, heights());
        const auto steps = steps_of(solve(on), do_work(filed, {}, {}), by_hand, {}, 1.05 * mm);
        const auto at = [&](bench_stage stage) {
            return *std::find_if(steps.begin(), steps.end(), [&](const bench_step& one) { return one.stage == stage; });
        };
        CHECK(near::within(at(bench_stage::cut_nut).lines[0].number.as<length<>>(), 0.95 * mm, 1e-9 * mm));
        CHECK(near::within(at(bench_stage::cut_nut).lines[1].number.as<length<>>(), -0.1 * mm, 1e-9 * mm));
        CHECK(at(bench_stage::cut_nut).decision.empty());
        CHECK_FALSE(mentions(at(bench_stage::set_saddle).decision, "zero fret"));
        // No wish for the first fret, no such step.
        w.first_fret_bass.reset();
        w.first_fret_treble.reset();
        const auto no_wish = plan_of(on, w);
        CHECK(no_wish.at(bench_stage::cut_nut) == nullptr);
        CHECK_FALSE(mentions(no_wish.at(bench_stage::set_saddle)->decision, "zero fret"));
    }
    TEST_CASE("a saddle that must rise is shimmed or made anew; screws and wheels are turned") {
        wishes w = heights();
        w.action_bass = 4 * mm;
        w.action_treble = 4 * mm;
        const char* const anew = "shim the saddle, or make a new one";
        const auto flat_top = plan_of(string_up(ready_made::flat_top()), w);
        CHECK(mentions(flat_top.at(bench_stage::set_saddle)->decision, anew));
        CHECK_FALSE(
            mentions(plan_of(string_up(ready_made::flat_top()), heights()).at(bench_stage::set_saddle)->decision, anew));
        auto wheels = w;
        wheels.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
        const auto turned = plan_of(demo::strung(), wheels);
        CHECK_FALSE(mentions(turned.at(bench_stage::set_saddle)->decision, anew));
        CHECK(mentions(turned.at(bench_stage::set_saddle)->in_hand, "wheels"));
    }
    TEST_CASE("each single saddle's setback is told where all strings' numbers are not") {
        wishes w = heights();
        w.in_tune = true;
        const auto p = plan_of(string_up(ready_made::fanned_bass()), w);
        const bench_step* s = p.at(bench_stage::set_saddle);
        REQUIRE(s != nullptr);
        REQUIRE_FALSE(p.plan.singles.empty());
        std::size_t told = 0;
        for (const step_line& l : s->lines) {
            if (l.what.starts_with("behind both scales' ends, along the centre line, string ")) {
                CHECK_FALSE(l.one_of_all);
                CHECK(l.number.as<length<>>() == p.plan.singles[*l.string_index].setback);
                ++told;
            }
        }
        CHECK(told == p.plan.singles.size());
        CHECK(mentions(s->in_hand, "screws"));
    }
}
