// Fanned frets backwards: heights, octaves and relief of a bass on single saddles, and what is not planned there.

#include <tautline/job/answer.hpp>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

bench_job fanned_job() {
    const auto o = ready_made::solid_body_bass();
    bench_job j;
    j.title = "four long strings, fanned";
    j.instrument = o.instrument;
    j.strings = o.strings;
    auto& i = j.instrument;
    i.board.board_length = 625 * mm;
    i.board.scale.fan = two_scales{.bass_scale = 880 * mm, .treble_scale = 845 * mm, .square_fret = 7};
    std::vector<single_saddle> each;
    for (int k = 0; k < 4; ++k) {
        each.push_back({.height = 11 * mm, .setback = 4 * mm, .least_setback = -3 * mm, .most_setback = 20 * mm});
    }
    i.saddle = single_saddles(i.saddle.spacing, each, i.saddle.board_line);
    return j;
}
wishes fanned_wishes() {
    wishes w;
    w.relief = 0.3 * mm;
    w.first_fret_bass = 0.6 * mm;
    w.first_fret_treble = 0.45 * mm;
    w.action_bass = 2.4 * mm;
    w.action_treble = 1.9 * mm;
    w.in_tune = true;
    return w;
}

} // namespace

TEST_SUITE("plan: fanned frets") {
    TEST_CASE("what is wished is what a solve of the planned instrument gives, and a second plan changes nothing") {
        const auto on = strung_as_found(fanned_job());
        const auto p = make_plan(on, fanned_wishes());
        CHECK(p.shortfalls.empty());
        const auto s = solve(p.adjusted);
        CHECK(near::within(s.relief->gap, 0.3 * mm, 1e-5 * mm));
        for (std::size_t i = 0; i < 4; ++i) {
            const double share = double(i) / 3;
            CHECK(near::within(s.strings[i].heights[11], (2.4 - 0.5 * share) * mm, 1e-5 * mm));
            CHECK(near::within(s.strings[i].heights[0], (0.6 - 0.15 * share) * mm, 1e-5 * mm));
            CHECK(near::within(s.strings[i].notes[11].error.cents(), 0.0, 1e-3));
            CHECK(near::within(p.singles[i].octave_left->cents(), 0.0, 1e-3));
        }
        const auto again = make_plan(p.adjusted, fanned_wishes());
        CHECK(abs(again.rod_pull_change) < 0.01 * N);
        for (std::size_t i = 0; i < 4; ++i) {
            CHECK(abs(again.slot_change[i]) < 1e-5 * mm);
            CHECK(abs(again.saddle_change[i]) < 1e-5 * mm);
            CHECK(abs(again.singles[i].setback_change) < 1e-4 * mm);
        }
    }
    TEST_CASE("one straight saddle lies by least squares along the fan's own line") {
        auto j = fanned_job();
        j.instrument.saddle = ready_made::solid_body_bass().instrument.saddle;
        const auto p = make_plan(strung_as_found(j), fanned_wishes());
        const auto& s = p.solved;
        const auto& saddle = p.adjusted.instrument.saddle;
        // The lines of the saddles by themselves: outer strings of 880 and 845 mm, the middle of the nut at 0.
        const double side = (57 - 31) / 2.0, gone = 1 - std::exp2(-7 / 12.0);
        const double run_b = std::sqrt(880. * 880 - side * side), run_t = std::sqrt(845. * 845 - side * side);
        const double lead = (run_b - run_t) * gone;
        CHECK(near::within(s.straight_saddle->at(s.strings.front().y_at_saddle) / mm,
                           -lead / 2 + run_b + saddle.setback_bass / mm, 1e-4));
        CHECK(near::within(s.straight_saddle->at(s.strings.back().y_at_saddle) / mm,
                           lead / 2 + run_t + saddle.setback_treble / mm, 1e-4));
    }
    TEST_CASE("a reset brings the action, the single saddles keep their mean height and follow at their own places") {
        auto w = fanned_wishes();
        w.in_tune = false;
        w.reset = reset_wish{.pocket_length = 76 * mm};
        const auto on = strung_as_found(fanned_job());
        const auto p = make_plan(on, w);
        CHECK(p.shortfalls.empty());
        REQUIRE(p.reset.has_value());
        for (std::size_t i = 0; i < 4; ++i) {
            CHECK(near::within(p.solved.strings[i].heights[11], (2.4 - 0.5 * double(i) / 3) * mm, 1e-5 * mm));
        }
        CHECK(near::within((p.saddle_height.front() + p.saddle_height.back()) / 2.0, 11 * mm, 1e-5 * mm));
        // By geometry on a neck that does not bow: how far the mean of the outer strings must come down over fret 12.
        auto stiff = on;
        stiff.instrument.neck.board_modulus = stiff.instrument.neck.back_modulus = 900 * GPa;
        auto heights = w;
        heights.relief.reset();
        heights.first_fret_bass.reset();
        heights.first_fret_treble.reset();
        const auto turned = make_plan(stiff, heights);
        const auto& flat = turned.untouched;
        const auto &bass = flat.strings.front(), &treble = flat.strings.back();
        const auto mean = [](const length<>& a, const length<>& b) { return length<>((a + b) / 2.0); };
        const length<> lower = mean(bass.heights[11], treble.heights[11]) - (2.4 + 1.9) / 2 * mm;
        const length<> x_a = mean(bass.crest_x[11], treble.crest_x[11]),
                       x_s = mean(bass.line.saddle_x, treble.line.saddle_x);
        const double turn = lower / x_a * (x_s / (x_s - joint_place(on.instrument)));
        CHECK(near::within(turned.reset->turn / rad, turn, 0.02 * std::abs(turn)));
        const auto again = make_plan(p.adjusted, w);
        CHECK(std::abs(again.reset->turn / rad) < 1e-4);
    }
    TEST_CASE("where the saddles stop short, a reset that helps is offered") {
        auto w = fanned_wishes();
        w.in_tune = false;
        w.lowest_saddle = 11 * mm;
        const auto p = make_plan(strung_as_found(fanned_job()), w);
        if (p.saddle_at_limit) {
            REQUIRE(p.reset_instead.has_value());
            CHECK(p.reset_instead->turn > 0 * deg);
        }
        CHECK(p.saddle_at_limit);
    }
    TEST_CASE("a job is answered with doubts; the file is told at both ends of each fret") {
        auto j = fanned_job();
        j.wanted = fanned_wishes();
        const auto a = answer(j);
        CHECK(a.setups.planned);
        const auto bass = find_result(a.found_doubts.results, "bass_relief.gap");
        REQUIRE(bass != nullptr);
        CHECK(bass->standard().si() > 0);
        j.planned = plan_as_found(j);
        j.planned->levelling = fret_levelling{.held = neck_held::slack};
        j.planned->sanding.reset();
        j.instrument.frets.wear = {0.05 * mm, 0 * mm, 0.12 * mm};
        const auto filed = answer(j);
        const auto numbers = numbers_of(filed.setups.work);
        REQUIRE(numbers.fret_cuts_bass.size() == 20);
        std::size_t told = 0, filed_ends = 0;
        for (const auto& step : filed.steps) {
            if (step.stage != bench_stage::level_frets) { continue; }
            for (const auto& line : step.lines) { told += line.what.find(" end") != std::string::npos ? 1 : 0; }
            CHECK(step.check.find("along each edge") != std::string::npos);
        }
        for (std::size_t n = 0; n < 20; ++n) {
            filed_ends +=
                (numbers.fret_cuts_bass[n] > 0.005 * mm ? 1 : 0) + (numbers.fret_cuts_treble[n] > 0.005 * mm ? 1 : 0);
        }
        CHECK(filed_ends > 10);
        CHECK(told == filed_ends);
        // How sure the found wear is goes on counting at both ends.
        const auto known = doubts_of_found(j);
        const auto worn = std::find_if(known.begin(), known.end(), [](const auto& d) { return d.name == "frets.wear[2]"; });
        REQUIRE(worn != known.end());
        CHECK(worn->found.size() == 3);
        CHECK(worn->found[1].path == "frets.wear_bass[2]");
        CHECK(worn->found[2].path == "frets.wear_treble[2]");
    }
    TEST_CASE("held down at a fret, a string runs from its own crest") {
        const auto on = strung_as_found(fanned_job());
        const auto s = solve(on);
        const auto& one = s.strings[1];
        const double x2 = one.crest_x[1] / mm, z2 = one.crest_z[1] / mm, x = one.crest_x[11] / mm;
        const double z = z2 + (one.line.saddle_z / mm - z2) * (x - x2) / (one.line.saddle_x / mm - x2);
        CHECK(near::within(kernel::height_held<double>(s, 1, 11, 1) / mm, z - one.crest_z[11] / mm, 1e-9));
    }
}
