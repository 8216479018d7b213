// A reset is as sure as its joint is cut; heights read after stringing up then correct the turn, not the nut.
#include <algorithm>
#include <cmath>

#include <tautline/job/answer.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

bench_job job_with_reset() {
    auto j = demo::job_as_found();
    j.wanted = wishes{};
    j.wanted->action_bass = 2.2 * mm;
    j.wanted->action_treble = 1.8 * mm;
    j.wanted->reset = reset_wish{.heel_depth = 90 * mm};
    return j;
}
const known_doubt* reset_of(const std::vector<known_doubt>& all) {
    const auto at = std::find_if(all.begin(), all.end(), [](const known_doubt& d) { return d.name == reset_doubt; });
    return at == all.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("reset doubt") {
    TEST_CASE("a tenth at the heel's cap, carried to the saddle by similar triangles") {
        auto j = job_with_reset();
        auto all = doubts_of_plan(j, setups_of(j));
        const auto* d = reset_of(all);
        REQUIRE(d);
        CHECK_FALSE(d->cut);
        // The joint of the demo is at fret 12 of 560 mm: 280 mm before the saddle, 90 mm over the heel's cap.
        CHECK(near::within(coverage_factor * d->standard.as<length<>>(), 0.1 * mm * 280 / 90, 1e-3 * mm));
        j.wanted->reset->heel_depth.reset(); // a usual heel is as deep
        all = doubts_of_plan(j, setups_of(j));
        CHECK(near::within(coverage_factor * reset_of(all)->standard.as<length<>>(), 0.1 * mm * 280 / 90, 1e-3 * mm));
        j.wanted->reset->pocket_length = 60 * mm;
        j.adjusting.reset_to = 0.05 * mm;
        all = doubts_of_plan(j, setups_of(j));
        CHECK(near::within(coverage_factor * reset_of(all)->standard.as<length<>>(), 0.05 * mm * 280 / 60, 1e-3 * mm));
        j.adjusting.usual_doubts = false; // what is stated counts all the same
        CHECK(reset_of(doubts_of_plan(j, setups_of(j))));
        j.adjusting.reset_to.reset();
        CHECK_FALSE(reset_of(doubts_of_plan(j, setups_of(j))));
        j.adjusting.usual_doubts = true;
        j.wanted->reset.reset();
        CHECK_FALSE(reset_of(doubts_of_plan(j, setups_of(j))));
    }
    TEST_CASE("the planned action is as unsure as that: about half of it over fret 12") {
        auto j = job_with_reset();
        const auto unsure = answer(j);
        j.adjusting.reset_to = 0 * mm;
        const auto sure = answer(j);
        const double more = unsure.planned_doubts.give_or_take("strings[0].heights[11]").si() * 1e3,
                     less = sure.planned_doubts.give_or_take("strings[0].heights[11]").si() * 1e3;
        const double added = std::sqrt(more * more - less * less);
        CHECK(added == doctest::Approx(0.1 * 280 / 90 / 2).epsilon(0.15));
    }
    TEST_CASE("heights read once all is cut correct the turn") {
        auto j = job_with_reset();
        // All that lies between board and saddle is known closely, but for the turn.
        for (const char* path : {"saddle.board_line", "saddle.height_bass", "saddle.height_treble", "neck.depth_at_nut",
                                 "neck.depth_at_joint", "board.thickness"}) {
            j.doubts.push_back({.path = path, .standard = any_quantity(0.005 * mm)});
        }
        for (const char* path : {"neck.board_modulus", "neck.back_modulus"}) {
            j.doubts.push_back({.path = path, .standard = any_quantity(0.02 * GPa)});
        }
        const auto a = answer(j);
        // The neck was turned too little: the board's line stands 0.3 mm lower at the saddle.
        auto real = a.setups.plan.adjusted;
        real.instrument.saddle.board_line = real.instrument.saddle.board_line - 0.3 * mm;
        const auto seen = solve(real);
        for (const std::size_t i : {std::size_t{0}, std::size_t{7}}) {
            for (const int fret : {1, 12}) {
                noted_reading n{.of = "height",
                                .value = fixed_text(seen.strings[i].heights[static_cast<std::size_t>(fret) - 1], mm, 4) +
                                         " ± 0.02 mm"};
                n.string.text = i == 0 ? "4a" : "1b";
                n.fret = fret;
                n.after = "finish"; // nothing is left to cut then
                j.readings.push_back(n);
            }
        }
        const auto b = answer(j);
        const auto& now = b.readings.said.adjusted.after_work.front().instrument;
        const auto& was = a.setups.plan.adjusted.instrument;
        // It is found in the line, hardly any of it in the slots.
        CHECK((was.saddle.board_line - now.saddle.board_line) / mm > 0.2);
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::within(now.nut.slot_height(i), was.nut.slot_height(i), 0.02 * mm));
        }
        const auto read = solve(b.readings.said.adjusted.after_work.front());
        CHECK(near::within(read.strings[0].heights[11], seen.strings[0].heights[11], 0.03 * mm));
    }
    TEST_CASE("the steps that can be read after are those of the job") {
        auto j = job_with_reset();
        const auto has = [&](bench_stage stage) {
            const auto all = kernel::steps_to_read_after(j);
            return std::find(all.begin(), all.end(), stage) != all.end();
        };
        CHECK_FALSE(has(bench_stage::set_rod));
        CHECK(has(bench_stage::hang_tailpiece));
        CHECK(has(bench_stage::string_up));
        j.instrument.tailpiece.reset();
        CHECK_FALSE(has(bench_stage::hang_tailpiece));
        j.instrument.neck.rod.emplace();
        CHECK(has(bench_stage::set_rod));
    }
    TEST_CASE("a place planned without a doubt is set by what measured it as found") {
        auto j = demo::job_as_found();
        j.adjusting.usual_doubts = false;
        j.planned = plan_as_found(j);
        j.planned->changes.values.tailpiece->hinge_height = j.instrument.tailpiece->hinge_height + 8 * mm;
        j.planned->changes.paths = {"tailpiece.hinge_height"};
        const stated_doubt off{.path = "tailpiece.hinge_height", .standard = any_quantity(1 * mm)};
        j.doubts = {off};
        const auto by_value = answer(j);
        // The same down-force by a wish is as unsure.
        auto wished = j;
        wished.planned.reset();
        wished.wanted = wishes{};
        wished.wanted->down_force = by_value.setups.plan.solved.down_force;
        const auto by_wish = answer(wished);
        const auto doubt_of = [](const job_answers& a) { return a.planned_doubts.give_or_take("down_force").si(); };
        CHECK(doubt_of(by_wish) > 1);
        CHECK(near::relative(doubt_of(by_value), doubt_of(by_wish), 1e-3));
        // One that is stated for the planned value is taken as it is.
        j.doubts.push_back({.path = "planned.tailpiece.hinge_height", .standard = any_quantity(0.1 * mm)});
        CHECK(near::relative(doubt_of(answer(j)), doubt_of(by_wish) / 10, 1e-3));
    }
}
