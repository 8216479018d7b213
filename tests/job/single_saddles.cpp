// Single saddles backwards: heights and octaves of every string, the travel of its saddle, pieces that move together.

#include <tautline/job/answer.hpp>
#include <tautline/job/plan.hpp>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Single saddles in a row that nobody has set yet.
strung_instrument unset_singles() {
    auto on = demo::strung();
    auto& saddle = on.instrument.saddle;
    saddle = single_saddles(saddle.spacing, std::vector<single_saddle>(8, {.height = 18 * mm, .setback = 1 * mm}),
                            saddle.board_line);
    return on;
}
wishes action_in_tune() {
    wishes w;
    w.action_bass = 2.4 * mm;
    w.action_treble = 1.9 * mm;
    w.in_tune = true;
    return w;
}
std::string travel_said(const strung_instrument& on, const wishes& w) {
    try {
        (void)make_plan(on, w);
    } catch (const invalid_input& e) { return e.what(); }
    return "nothing";
}

} // namespace

TEST_SUITE("plan: single saddles") {
    TEST_CASE("every string has its height and its octave, and a plan of the result changes nothing") {
        const auto p = make_plan(unset_singles(), action_in_tune());
        CHECK(p.shortfalls.empty());
        REQUIRE(p.singles.size() == 8);
        const auto s = solve(p.adjusted);
        for (std::size_t i = 0; i < 8; ++i) {
            const double share =
                (s.strings[i].y_at_nut - s.strings[0].y_at_nut) / (s.strings[7].y_at_nut - s.strings[0].y_at_nut);
            CHECK(near::within(s.strings[i].heights[11], (2.4 - 0.5 * share) * mm, 1e-6 * mm));
            CHECK(near::within(s.strings[i].notes[11].error.cents(), 0.0, 1e-4));
            CHECK(near::within(p.singles[i].octave_left->cents(), 0.0, 1e-4));
            CHECK(near::within(*p.singles[i].height_left, 0 * mm, 1e-6 * mm));
            CHECK(p.adjusted.instrument.saddle.single[i].setback == p.singles[i].setback);
            CHECK(near::within(p.singles[i].setback_change, p.singles[i].setback - 1 * mm, 1e-12 * mm));
            CHECK(near::within(p.saddle_height[i], p.adjusted.instrument.saddle.single[i].height, 1e-12 * mm));
            CHECK(near::within(p.saddle_change[i], p.saddle_height[i] - 18 * mm, 1e-12 * mm));
        }
        CHECK(p.saddle_off_arc == 0 * mm);
        const auto again = make_plan(p.adjusted, action_in_tune());
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(abs(again.singles[i].setback_change) < 1e-6 * mm);
            CHECK(abs(again.saddle_change[i]) < 1e-6 * mm);
        }
    }
    TEST_CASE("what the travel leaves is told by string: height, cents, which end") {
        const auto free = make_plan(unset_singles(), action_in_tune());
        auto on = unset_singles();
        auto& single = on.instrument.saddle.single;
        const auto height = [&](std::size_t i) { return free.saddle_height[i]; };
        single[1].highest = height(1) - 0.5 * mm;
        single[6].lowest = height(6) + 0.3 * mm;
        single[2].most_setback = free.singles[2].setback - 0.8 * mm;
        single[5].least_setback = free.singles[5].setback + 0.6 * mm;
        const auto p = make_plan(on, action_in_tune());
        CHECK(near::within(p.saddle_height[1], *single[1].highest, 1e-12 * mm));
        CHECK(near::within(p.saddle_height[6], *single[6].lowest, 1e-12 * mm));
        CHECK(p.singles[2].setback == *single[2].most_setback);
        CHECK(p.singles[5].setback == *single[5].least_setback);
        CHECK(p.saddle_at_limit);
        const double share = p.solved.fret_x[11] / p.solved.strings[1].line.saddle_x;
        CHECK(near::within(*p.singles[1].height_left, -0.5 * share * mm, 0.01 * mm));
        CHECK(near::within(*p.singles[6].height_left, 0.3 * share * mm, 0.01 * mm));
        // Too short behind the octave fret is sharp: 600/ln2 (1/l_open ... ) of the place alone, by lengths.
        const auto cents = [&](std::size_t i, double short_mm) {
            const double open = p.solved.strings[i].line.saddle_x / mm, rest = open - p.solved.fret_x[11] / mm;
            return 1200 / std::log(2.0) * (short_mm / rest - short_mm / open);
        };
        CHECK(near::within(p.singles[2].octave_left->cents(), cents(2, 0.8), 0.1));
        CHECK(near::within(p.singles[5].octave_left->cents(), cents(5, -0.6), 0.1));
        REQUIRE(p.shortfalls.size() == 4);
        CHECK(p.shortfalls[0].wish == "action_bass");
        CHECK(p.shortfalls[0].why ==
              p.solved.names.name(1) + ": the saddle would have to stand above its travel or highest_saddle");
        CHECK(p.shortfalls[1].wish == "action_treble");
        CHECK(p.shortfalls[1].why ==
              p.solved.names.name(6) + ": the saddle would have to come below its travel or lowest_saddle");
        CHECK(p.shortfalls[2].wish == "in_tune");
        CHECK(p.shortfalls[2].why == p.solved.names.name(2) + ": its saddle is as far from the nut as it can be set");
        CHECK(p.shortfalls[2].nearest.si() == p.singles[2].octave_left->cents());
        CHECK(p.shortfalls[3].why == p.solved.names.name(5) + ": its saddle is as near to the nut as it can be set");
        // The others are met all the same.
        for (const std::size_t i : {0u, 3u, 4u, 7u}) {
            CHECK(near::within(*p.singles[i].height_left, 0 * mm, 1e-6 * mm));
            CHECK(near::within(p.singles[i].octave_left->cents(), 0.0, 1e-4));
        }
    }
    TEST_CASE("a piece moves as one: its strings keep their places on it, and what they still ask for has no mean") {
        auto on = unset_singles();
        on.instrument.saddle.pieces = {5, 2, 1};
        const double ledges[] = {0, 0.4, -0.7, 1.1, 0.2, 0, -0.9, 0.3}; // mm
        for (std::size_t i = 0; i < 8; ++i) {
            auto& one = on.instrument.saddle.single[i];
            one.setback = one.setback + ledges[i] * mm;
        }
        const auto p = make_plan(on, action_in_tune());
        const auto moved = [&](const setup_plan& q, std::size_t i) {
            return (q.singles[i].setback - on.instrument.saddle.single[i].setback) / mm;
        };
        for (const std::size_t i : {1u, 2u, 3u, 4u}) { CHECK(near::within(moved(p, i), moved(p, 0), 1e-9)); }
        CHECK(near::within(moved(p, 6), moved(p, 5), 1e-9));
        CHECK(std::abs(moved(p, 0) - moved(p, 5)) > 0.1); // the pieces move each in its own way
        const auto asks = [&](std::size_t i) { return *p.solved.strings[i].octave_setback / mm; };
        CHECK(std::abs(asks(0)) > 0.05);
        CHECK(near::within(asks(0) + asks(1) + asks(2) + asks(3) + asks(4), 0.0, 1e-5));
        CHECK(near::within(asks(5) + asks(6), 0.0, 1e-5));
        CHECK(near::within(asks(7), 0.0, 1e-5));
        // What is left is told for each string: flat where the string asks to come nearer to the nut.
        for (std::size_t i = 0; i < 7; ++i) { CHECK((p.singles[i].octave_left->cents() > 0) == (asks(i) > 0)); }
        // The travel of one of its strings holds the whole piece.
        on.instrument.saddle.single[3].most_setback = p.singles[3].setback - 0.5 * mm;
        on.instrument.saddle.single[3].least_setback = -40 * mm;
        const auto held = make_plan(on, action_in_tune());
        for (std::size_t i = 0; i < 5; ++i) { CHECK(near::within(moved(held, i), moved(p, i) - 0.5, 1e-6)); }
        for (std::size_t i = 5; i < 8; ++i) { CHECK(near::within(moved(held, i), moved(p, i), 0.01)); }
        REQUIRE(held.shortfalls.size() == 5);
        CHECK(held.shortfalls[0].why == held.solved.names.name(0) + ": its saddle is as far from the nut as it can be set");
    }
    TEST_CASE("wished limits and travel must leave a height; thumbwheels do not raise single saddles") {
        auto on = unset_singles();
        on.instrument.saddle.single[3].highest = 17 * mm;
        auto w = action_in_tune();
        w.lowest_saddle = 17.5 * mm;
        CHECK(travel_said(on, w) == "wanted.lowest_saddle must not be more than saddle.single[3].highest.");
        w.lowest_saddle.reset();
        on.instrument.saddle.single[3].lowest = 16 * mm;
        w.highest_saddle = 15.5 * mm;
        CHECK(travel_said(on, w) == "wanted.highest_saddle must not be less than saddle.single[3].lowest.");
        w.highest_saddle.reset();
        w.adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.7 * mm};
        CHECK(travel_said(on, w) ==
              "wanted.adjusters must be left out where each string has its own saddle: each is set alone.");
    }
    TEST_CASE("a reset of the neck brings the mean of the outer saddles to where it is wanted") {
        auto w = action_in_tune();
        w.reset.emplace();
        w.reset->saddle_height = 19 * mm;
        const auto p = make_plan(unset_singles(), w);
        CHECK(p.shortfalls.empty());
        CHECK(near::within((p.saddle_height.front() + p.saddle_height.back()) / 2.0, 19 * mm, 1e-5 * mm));
        for (std::size_t i = 0; i < 8; ++i) { CHECK(near::within(*p.singles[i].height_left, 0 * mm, 1e-6 * mm)); }
    }
    TEST_CASE("a job sets them in a step of their own lines, and doubts each alone") {
        auto j = demo::job_as_found();
        j.instrument = unset_singles().instrument;
        j.wanted = action_in_tune();
        const auto a = answer(j);
        std::size_t backs = 0, heights = 0;
        for (const auto& step : a.steps) {
            if (step.stage != bench_stage::set_saddle) { continue; }
            for (const auto& line : step.lines) {
                backs += line.what.starts_with("behind the scale length, course");
                heights += line.what.starts_with("slot over the soundboard, course");
                CHECK(line.what.find("scale length, bass") == std::string::npos);
            }
        }
        CHECK(backs == 8);
        CHECK(heights == 8);
        std::size_t found = 0, cut = 0;
        for (const auto& d : doubts_of_found(j)) { found += d.name.starts_with("saddle.single[") ? 1 : 0; }
        for (const auto& d : doubts_of_plan(j, a.setups)) {
            cut += d.name.starts_with("setting the saddle of course") ? 1 : 0;
        }
        CHECK(found == 16);
        CHECK(cut == 8);
    }
}
