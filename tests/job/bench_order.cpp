// Every step's check can be made at that step: over drawn jobs, what it needs is the state that the instrument is in then.

#include <tautline/job/steps.hpp>
#include <tautline/work/do_work.hpp>

#include <random>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>

#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

struct drawn_job {
    std::vector<bench_step> steps;
    bool sanded = false, fretted = false;
};

/// A job of what the draw says, on one of several instruments.
drawn_job draw(std::mt19937& by) {
    const auto chance = [&](double p) { return std::uniform_real_distribution<double>(0, 1)(by) < p; };
    const auto between_mm = [&](double from, double to) {
        return std::uniform_real_distribution<double>(from, to)(by) * mm;
    };
    strung_instrument on = chance(0.5) ? demo::strung() : string_up(ready_made::flat_top());
    bench_work work;
    board_details d;
    d.slot = slot{.depth = 2.6 * mm, .width = 0.6 * mm};
    const neck_held held = chance(0.4) ? neck_held::slack : chance(0.5) ? neck_held::as_at_pitch : neck_held::as_it_will_be;
    if (chance(0.5)) {
        work.sanding = sanding{.surface = cylinder(400 * mm), .held = held, .allowance = 0.05 * mm};
        work.wire =
            fret_wire{.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.5 * mm, .tang_thickness = 0.55 * mm};
    } else if (chance(0.5)) {
        work.levelling = fret_levelling{.held = held, .least_crown = 0.3 * mm};
    }
    wishes w;
    if (chance(0.5)) { w.first_fret_bass = between_mm(0.4, 0.8); }
    if (chance(0.5)) { w.first_fret_treble = between_mm(0.3, 0.6); }
    if (chance(0.6)) { w.action_bass = between_mm(1.8, 3); }
    if (chance(0.6)) { w.action_treble = between_mm(1.5, 2.5); }
    if (on.instrument.neck.rod && chance(0.5) && held != neck_held::as_it_will_be) { w.relief = between_mm(0.05, 0.3); }
    if (on.instrument.tailpiece && chance(0.4)) { w.down_force = 100 * N; }
    if (chance(0.3)) { w.in_tune = true; }
    const setup found = solve(on);
    bow will_be = found.bow;
    const work_done done = do_work(on, d, work, &will_be);
    const setup_plan plan = make_plan(done.after, w);
    return {steps_of(found, done, plan), work.sanding.has_value(), work.wire.has_value()};
}
bool says(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_SUITE("order of the bench") {
    TEST_CASE("over drawn jobs every check is made in the state that it needs, and steps come in their order") {
        std::mt19937 by(20);
        int slack_checks = 0, finishes = 0;
        for (int n = 0; n < 60; ++n) {
            CAPTURE(n);
            const drawn_job j = draw(by);
            // Followed step by step: what is done to the strings, and nothing else, changes the state.
            bench_state now = bench_state::at_pitch;
            const bench_step* before = nullptr;
            int slackened = 0, strung = 0;
            for (const bench_step& s : j.steps) {
                CAPTURE(s.title);
                CAPTURE(s.check);
                if (before) { CHECK(before->stage < s.stage); }
                before = &s;
                if (s.title.find("Slacken all strings") == 0) {
                    now = bench_state::slack;
                    ++slackened;
                }
                if (s.title.find("String up") == 0) {
                    now = bench_state::at_pitch;
                    ++strung;
                }
                CHECK(s.checked == now);
                CHECK(state_after_stage(s.stage) == now);
                if (now == bench_state::slack) {
                    ++slack_checks;
                    for (const char* strung_only : {" at pitch", "Action", "action ", "Tuned", "rings", "octave",
                                                    "break over", "clear the first fret"}) {
                        CHECK_FALSE_MESSAGE(says(s.check, strung_only), strung_only);
                    }
                } else {
                    CHECK_FALSE(says(s.check, "slack"));
                }
                finishes += s.stage == bench_stage::finish ? 1 : 0;
            }
            CHECK(slackened == 1);
            CHECK(strung == 1);
            const auto place = [&](bench_stage stage) {
                for (std::size_t i = 0; i < j.steps.size(); ++i) {
                    if (j.steps[i].stage == stage) { return static_cast<int>(i); }
                }
                return -1;
            };
            // What is cut near is finished at pitch, and the neck is brought to its shape before it is sanded.
            const bool near = place(bench_stage::cut_nut) > 0 || place(bench_stage::set_saddle) > 0 ||
                              place(bench_stage::set_rod) > 0 || place(bench_stage::hang_tailpiece) > 0;
            CHECK(near == (place(bench_stage::finish) > place(bench_stage::string_up)));
            CHECK(j.sanded == (place(bench_stage::sand_board) > 0));
            if (j.sanded) {
                CHECK(place(bench_stage::straighten_neck) == place(bench_stage::sand_board) - 1);
                CHECK(place(bench_stage::take_off) > 0);
            }
            CHECK(j.fretted == (place(bench_stage::fit_frets) > 0));
        }
        CHECK(slack_checks > 200);
        CHECK(finishes > 20);
    }
    TEST_CASE("where the trade has two orders both are told") {
        wishes w;
        w.first_fret_bass = 0.6 * mm;
        w.first_fret_treble = 0.5 * mm;
        w.action_bass = 2.2 * mm;
        w.action_treble = 1.8 * mm;
        const auto on = demo::strung();
        const auto steps = steps_of(solve(on), do_work(on, {}, {}), make_plan(on, w));
        const auto finish =
            std::find_if(steps.begin(), steps.end(), [](const bench_step& s) { return s.stage == bench_stage::finish; });
        REQUIRE(finish != steps.end());
        CHECK(says(finish->decision, "Some cut the nut first"));
        CHECK(says(finish->check, "clear the first fret as told"));
        CHECK(says(finish->check, "over fret 12 is as told"));
    }
}
