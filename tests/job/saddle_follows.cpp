// What follows a saddle that is cut: its height over the line that the bridge turns about, and what stands out of its slot.
#include <string>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/job_setups.hpp>
#include <tautline/job/job_words.hpp>
#include <tautline/job/steps.hpp>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A nylon-strung guitar on a top that gives and turns, with a saddle that can come down.
strung_instrument turning(double exposed_mm = 4) {
    auto on = string_up(ready_made::nylon_strung());
    on.instrument.saddle.height_bass = 13 * mm;
    on.instrument.saddle.height_treble = 12 * mm;
    on.instrument.saddle.radius.reset();
    on.instrument.pins->saddle_exposed = exposed_mm * mm;
    on.instrument.soundboard = soundboard{.sink_stiffness = 120 * N_per_mm,
                                          .turn_stiffness = 250 * N_m_per_rad,
                                          .saddle_ahead = 7 * mm,
                                          .saddle_height = 11.5 * mm};
    return on;
}
/// An action lower by 1 mm, for a saddle lower by 2 mm, nearly.
wishes lowered(const setup& s, double by_mm = 1) {
    wishes w;
    w.action_bass = s.strings.front().heights[11] - by_mm * mm;
    w.action_treble = s.strings.back().heights[11] - by_mm * mm;
    return w;
}
length<> mean_change(const setup_plan& p) {
    length<> sum{};
    for (const auto& q : p.saddle_change) { sum += q; }
    return sum / static_cast<double>(p.saddle_change.size());
}
/// The result of a plan as a repairer finds it: saddle, lever and what stands out measured again.
strung_instrument measured_again(const setup_plan& p) {
    auto on = p.start;
    auto& i = on.instrument;
    i.saddle.height_bass = p.saddle_height.front();
    i.saddle.height_treble = p.saddle_height.back();
    i.saddle.radius = p.adjusted.instrument.saddle.radius;
    *i.soundboard->saddle_height = *i.soundboard->saddle_height + mean_change(p);
    i.pins->saddle_exposed = i.pins->saddle_exposed + mean_change(p);
    return on;
}
const shortfall* below_wood(const setup_plan& p, std::string_view wish) {
    for (const auto& f : p.shortfalls) {
        if (f.wish == wish && f.why.find("stands out of its slot") != std::string::npos) { return &f; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("what follows the saddle") {
    TEST_CASE("a plan fed back as found gives the same turn, relief, heights and tipping") {
        const auto on = turning();
        const auto p = make_plan(on, lowered(solve(on)));
        REQUIRE(p.shortfalls.empty());
        REQUIRE(mean_change(p) < -1.8 * mm);
        CHECK(on.instrument.soundboard->saddle_height->value() == doctest::Approx(11.5e-3)); // found stays as measured
        const setup again = solve(measured_again(p));
        CHECK(near::within(again.top->turn, p.solved.top->turn, 1e-9 * rad));
        CHECK(near::within(again.top->forward, p.solved.top->forward, 1e-9 * mm));
        CHECK(near::within(again.relief->gap, p.solved.relief->gap, 1e-6 * mm));
        CHECK(near::within(again.pinned->saddle_tipping, p.solved.pinned->saddle_tipping, 1e-9 * N_m));
        for (std::size_t i = 0; i < again.strings.size(); ++i) {
            CHECK(near::within(again.strings[i].heights[11], p.solved.strings[i].heights[11], 1e-6 * mm));
            CHECK(near::within(again.strings[i].heights[0], p.solved.strings[i].heights[0], 1e-6 * mm));
        }
    }
    TEST_CASE("the turn is the pull times the lever that is left, and the press times the lead") {
        const auto on = turning();
        const auto p = make_plan(on, lowered(solve(on)));
        const double lever = 11.5e-3 + mean_change(p).value();
        double turning = 0;
        for (const auto& b : p.solved.bridge_strings) {
            const double x = (b.saddle.x - b.slot.x).value(), y = (b.saddle.y - b.slot.y).value(),
                         z = (b.saddle.z - b.slot.z).value(), length = std::sqrt(x * x + y * y + z * z);
            turning += b.tension.value() * (x / length * lever + z / length * 7e-3);
        }
        CHECK(p.solved.top->turn.value() == doctest::Approx(turning / 250).epsilon(1e-9));
        CHECK(p.solved.top->turn < 0.88 * p.untouched.top->turn);
    }
    TEST_CASE("a saddle planned by value takes both with it; what is planned beside it stays as it is told") {
        bench_job j = demo::job_as_found();
        j.instrument.tailpiece.reset();
        j.instrument.pins = pins{
            .distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
        j.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                             .turn_stiffness = 2000 * N_m_per_rad,
                                             .saddle_ahead = 3 * mm,
                                             .saddle_height = 18 * mm};
        j.planned = plan_as_found(j);
        auto& changes = j.planned->changes;
        changes.values.saddle.height_bass = changes.values.saddle.height_bass - 1 * mm;
        changes.values.saddle.height_treble = changes.values.saddle.height_treble - 2 * mm;
        changes.paths = {"saddle.height_bass", "saddle.height_treble"};
        const auto last = setups_of(j).last_strung().instrument;
        CHECK(near::within(*last.soundboard->saddle_height, 16.5 * mm, 1e-9 * mm));
        CHECK(near::within(last.pins->saddle_exposed, 2.5 * mm, 1e-9 * mm));
        changes.values.soundboard->saddle_height = field<length<>>(16 * mm);
        changes.values.pins->saddle_exposed = 3 * mm;
        changes.paths.insert(changes.paths.end(), {"soundboard.saddle_height", "pins.saddle_exposed"});
        const auto told = setups_of(j).last_strung().instrument;
        CHECK(*told.soundboard->saddle_height == 16 * mm);
        CHECK(told.pins->saddle_exposed == 3 * mm);
        // Below the wood no saddle can be planned.
        j.instrument.pins->saddle_exposed = 1 * mm;
        changes.paths.resize(2);
        std::string said;
        try {
            (void)setups_of(j);
        } catch (const invalid_input& wrong) { said = wrong.what(); }
        CHECK(said == "planned.saddle.height_bass must leave the saddle above the bridge's wood: it would come down by "
                      "1.50 mm, and 1.00 mm of it stands out of its slot.");
    }
    TEST_CASE("a reset moves neither; the saddle's own cut does") {
        const auto on = turning();
        auto w = lowered(solve(on));
        w.reset = reset_wish{.saddle_height = field<length<>>(12 * mm)};
        const auto p = make_plan(on, w);
        REQUIRE(p.shortfalls.empty());
        REQUIRE(abs(p.reset->turn) > 1e-4 * rad);
        CHECK(near::within(mean_change(p), -0.5 * mm, 0.03 * mm)); // seen from a board that has turned
        CHECK(near::within(p.adjusted.instrument.pins->saddle_exposed, 4 * mm + mean_change(p), 1e-9 * mm));
        CHECK(near::within(*p.adjusted.instrument.soundboard->saddle_height, 11.5 * mm + mean_change(p), 1e-9 * mm));
    }
    TEST_CASE("a saddle that would go below the wood cannot be, and the neck reset is what is left") {
        const auto on = turning(1);
        const auto w = lowered(solve(on));
        const auto p = make_plan(on, w);
        CHECK(p.saddle_below_wood);
        const auto* told = below_wood(p, "action_bass");
        REQUIRE(told);
        const std::string come_down = bench_text(any_quantity(length<>(-mean_change(p))));
        CHECK(words_of(*told) == "wanted.action_bass: the saddle would have to come down by " + come_down +
                                     ", and 1.00 mm of it stands out of its slot: the strings would lie on the bridge's "
                                     "wood; a neck reset brings the strings down with the saddle left high, see "
                                     "[wanted.reset].");
        CHECK(p.adjusted.instrument.pins->saddle_exposed == 0 * mm);
        // Enough stands out, to a hundredth of a millimetre.
        const auto enough = make_plan(turning(-mean_change(p) / mm + 0.01), w);
        CHECK_FALSE(enough.saddle_below_wood);
        CHECK(enough.shortfalls.empty());
        const auto just_not = make_plan(turning(-mean_change(p) / mm - 0.01), w);
        CHECK(below_wood(just_not, "action_bass"));
    }
    TEST_CASE("a reset that leaves too little of the saddle is told under the height that it was wished for") {
        wishes w;
        w.reset = reset_wish{.saddle_height = field<length<>>(11 * mm)};
        const auto p = make_plan(turning(1), w);
        const auto* told = below_wood(p, "reset.saddle_height");
        REQUIRE(told);
        CHECK(told->why.ends_with("the neck must be reset further, which leaves the saddle higher"));
        w.reset->saddle_height = field<length<>>(12 * mm);
        CHECK_FALSE(make_plan(turning(1), w).saddle_below_wood);
    }
    TEST_CASE("no step tells to cut a saddle below the wood, nor that it gives the action within its limits") {
        bench_job j = demo::job_as_found();
        j.instrument.tailpiece.reset();
        j.instrument.pins = pins{
            .distance = 22 * mm, .height = 7 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 1 * mm};
        const setup found = setups_of(j).found;
        j.wanted = lowered(found, 1.2);
        const auto s = setups_of(j);
        REQUIRE(below_wood(s.plan, "action_bass"));
        bool told = false;
        for (const bench_step& step : steps_of(s.found, s.work, s.plan)) {
            CHECK(step.decision.find("within its limits") == std::string::npos);
            told = told || (step.title == "Do not cut the saddle so far" &&
                            step.decision.find("below the bridge's wood") != std::string::npos);
        }
        CHECK(told);
    }
}
