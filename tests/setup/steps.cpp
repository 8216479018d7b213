#include <tautline/setup/steps.hpp>

#include "demo.hpp"

#include <doctest/doctest.h>

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument strung() { return {demo::four_course(), demo::unison_pairs()}; }

struct job {
    setup found;
    work_done work;
    setup_plan plan;
    std::vector<bench_step> steps;
};
job run(const strung_instrument& on, const bench_work& work, const wishes& w) {
    board_details d;
    d.slot = slot{.depth = 1.9 * mm, .width = 0.6 * mm};
    job j{solve(on.instrument, on.strung), do_work(on, d, work), {}, {}};
    j.plan = make_plan(j.work.on, w);
    j.steps = steps_of(j.found, j.work, work.wire.has_value(), j.plan);
    return j;
}
std::vector<bench_stage> stages(const job& j) {
    std::vector<bench_stage> list;
    for (const auto& s : j.steps) { list.push_back(s.stage); }
    return list;
}
const bench_step& step(const job& j, bench_stage stage) {
    for (const auto& s : j.steps) {
        if (s.stage == stage) { return s; }
    }
    throw std::runtime_error("no such step");
}
template <class Q>
Q number(const bench_step& s, const std::string& what) {
    for (const auto& l : s.lines) {
        if (l.what == what) { return std::get<Q>(l.number); }
    }
    throw std::runtime_error("no line " + what);
}

wishes everything() {
    wishes w;
    w.first_fret_bass = 0.55 * mm;
    w.first_fret_treble = 0.45 * mm;
    w.action_bass = 2.2 * mm;
    w.action_treble = 1.8 * mm;
    w.down_force = 110 * N;
    w.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.5 * mm};
    return w;
}

} // namespace

TEST_SUITE("steps") {
    TEST_CASE("nothing planned: measure, slacken, string up, check") {
        const auto j = run(strung(), {}, {});
        CHECK(stages(j) ==
              std::vector{bench_stage::measure, bench_stage::slacken, bench_stage::string_up, bench_stage::check});
        CHECK(step(j, bench_stage::string_up).decision == "The top is pressed as before.");
    }
    TEST_CASE("a whole job in the order of the bench, every step with a check") {
        bench_work work;
        work.sanding = sanding{.surface = cylinder(400 * mm), .allowance = 0.1 * mm};
        work.wire =
            fret_wire{.crown_height = 1.2 * mm, .crown_width = 2 * mm, .tang_depth = 1.8 * mm, .tang_thickness = 0.65 * mm};
        auto on = strung();
        on.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm};
        auto w = everything();
        w.relief = 0.05 * mm;
        const auto j = run(on, work, w);
        CHECK(stages(j) == std::vector{bench_stage::measure, bench_stage::slacken, bench_stage::sand_board,
                                       bench_stage::deepen_slots, bench_stage::fit_frets, bench_stage::set_rod,
                                       bench_stage::cut_nut, bench_stage::set_saddle, bench_stage::hang_tailpiece,
                                       bench_stage::string_up, bench_stage::check});
        for (const auto& s : j.steps) { CHECK_FALSE(s.check.empty()); }
        CHECK(number<length<>>(step(j, bench_stage::sand_board), "radius") == 400 * mm);
        CHECK(step(j, bench_stage::fit_frets).decision.find("wedges") != std::string::npos);
        CHECK(step(j, bench_stage::set_rod).decision == "The rod reaches the wanted relief.");
        CHECK(number<length<>>(step(j, bench_stage::cut_nut), "change, string 3") == j.plan.slot_change[2]);
        CHECK(number<length<>>(step(j, bench_stage::set_saddle), "slot over the soundboard, string 8") ==
              j.plan.saddle_height[7]);
        CHECK(number<double>(step(j, bench_stage::set_saddle), "turns of the bass adjuster") ==
              j.plan.adjusters->bass_turns);
        CHECK(number<force<>>(step(j, bench_stage::string_up), "all together") == j.plan.solved.total_tension);
        CHECK(step(j, bench_stage::string_up).decision.find("more than as found: whether it bears that") !=
              std::string::npos);
        CHECK(number<length<>>(step(j, bench_stage::measure), "height of string 1 over fret 12") ==
              j.found.strings[0].heights[11]);
        CHECK(number<length<>>(step(j, bench_stage::check), "height of string 1 over fret 12") ==
              j.plan.solved.strings[0].heights[11]);
    }
    TEST_CASE("level or refret, and what a rod cannot do, are said") {
        bench_work work;
        work.levelling = fret_levelling{};
        auto on = strung();
        on.instrument.frets.wear[9] = 0 * mm;
        wishes w;
        w.relief = 0 * mm;
        auto j = run(on, work, w);
        CHECK(step(j, bench_stage::level_frets).decision.find("Level with the neck") == 0);
        CHECK(number<length<>>(step(j, bench_stage::level_frets), "off fret 10") > 0.02 * mm);
        CHECK(step(j, bench_stage::set_rod).decision ==
              "The rod does not reach the wanted relief: no rod is there to set it by.");
        CHECK(step(j, bench_stage::check).lines.back().what == "not met: relief, no rod is there to set it by");
        work.levelling->least_crown = 0.86 * mm;
        j = run(on, work, w);
        CHECK(step(j, bench_stage::level_frets).decision.find("Refret: the file would leave ") == 0);
    }
    TEST_CASE("one string without frets") {
        strung_instrument on = strung();
        auto& i = on.instrument;
        i.nut.spacing = i.saddle.spacing = {.spread = 0 * mm, .courses = {1}};
        i.nut.slot_heights.resize(1);
        i.posts.resize(1);
        i.board.scale.frets = 0;
        i.frets.wear.clear();
        on.strung.strings.resize(1);
        const auto j = run(on, {}, {});
        CHECK(j.steps.size() == 4);
    }
}
