// A reset and a sanded board in one job: each step tells the board's line as it stands once that step is done.
#include <algorithm>
#include <cmath>

#include <tautline/job/answer.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

length<> line_told(const job_answers& a, bench_stage stage) {
    for (const bench_step& s : a.steps) {
        for (const step_line& l : s.lines) {
            if (s.stage == stage && l.what.starts_with("then the board's line over the")) {
                return l.number.as<length<>>();
            }
        }
    }
    return length<>::from_value(NAN);
}

} // namespace

TEST_SUITE("reset and sanding") {
    TEST_CASE("the reset is checked by the board that is there, the sanding lowers its line") {
        for (const neck_held held : {neck_held::slack, neck_held::as_it_will_be}) {
            auto j = demo::job_as_found();
            j.adjusting.usual_doubts = false;
            j.instrument.neck.set = {{.x = 140 * mm, .z = -0.3 * mm}};
            j.planned = plan_as_found(j);
            j.planned->sanding = sanding{.held = held, .allowance = 0.2 * mm};
            j.planned->wire = j.instrument.frets.wire;
            j.wanted = wishes{};
            j.wanted->action_bass = 2.2 * mm;
            j.wanted->action_treble = 1.8 * mm;
            j.wanted->reset = reset_wish{};
            const auto a = answer(j);
            const auto& p = a.setups.plan;
            REQUIRE(p.reset.has_value());
            REQUIRE(abs(p.reset->turn) > 0.05 * deg);
            // The neck turns about the edge of its joint: the line falls or rises by its lever's tangent.
            const auto& i = j.instrument;
            const length<> back = (i.saddle.setback_bass + i.saddle.setback_treble) / 2;
            const length<> lever = kernel::line_place(i) + back - joint_place(i);
            const length<> turned = i.saddle.board_line + lever * std::tan(p.reset->turn.value());
            CHECK(near::within(line_told(a, bench_stage::reset_neck), turned, 0.02 * mm));
            CHECK(near::within(line_told(a, bench_stage::sand_board), p.reset->board_line, 1e-9 * mm));
            CHECK(line_told(a, bench_stage::reset_neck) > line_told(a, bench_stage::sand_board) + 0.1 * mm);
            // Without sanding nothing is lowered: the step tells the line of the plan.
            j.planned->sanding.reset();
            const auto plain = answer(j);
            CHECK(line_told(plain, bench_stage::reset_neck) == plain.setups.plan.reset->board_line);
            CHECK(std::isnan(line_told(plain, bench_stage::sand_board).value()));
        }
    }
}
