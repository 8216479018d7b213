// The season's coefficients from readings of two visits.
#include <tautline/doubt/read_season.hpp>
#include <tautline/doubt/reconcile.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "read_case.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The flat-top told in one air and read in another, too.
read_instrument visited(double celsius = 21, double humidity = 65) {
    auto model = read_case::flat_top();
    model.states.clear();
    model.rod_screw.reset();
    model.states.push_back({.name = "in summer", .air = noted_air{celsius, humidity}});
    model.states.push_back({.name = "in summer, slack", .slack = true, .air = noted_air{celsius, humidity}});
    model.season = read_season{.measured_in = {.celsius = 21, .humidity = 40}};
    return model;
}
std::vector<doubt> season_doubts() {
    return {{"season.bow", any_quantity(unmeasured_season_bow), {{"season.bow"}}},
            {"season.top", any_quantity(unmeasured_season_top * metre), {{"season.top"}}},
            {"neck.back_modulus", any_quantity(2 * GPa), {{"neck.back_modulus"}}},
            {"saddle.board_line", any_quantity(0.15 * mm), {{"saddle.board_line"}}}};
}
/// Readings of both visits, of an instrument whose coefficients are these.
std::vector<reading> two_visits(const read_instrument& told, double bow, const length<>& top) {
    std::vector<reading> all;
    auto truth = told;
    truth.season->bow = bow;
    truth.season->top = top;
    for (const char* state : {"at pitch", "in summer"}) {
        solved_state s;
        solve_state(truth, state, s);
        all.push_back(relief_read(s.setup.relief->gap, 0.01 * mm).when(state));
        all.push_back(height_read(0, 12, s.setup.strings[0].heights[11], 0.02 * mm).when(state));
        all.push_back(height_read(5, 12, s.setup.strings[5].heights[11], 0.02 * mm).when(state));
    }
    return all;
}
const reconciled_input& input_of(const reconciliation& r, std::string_view name) {
    for (const auto& i : r.inputs) {
        if (i.name == name) { return i; }
    }
    FAIL("no such input");
    return r.inputs.front();
}

} // namespace

TEST_SUITE("season of readings") {
    TEST_CASE("a state in another air is the instrument moistened, and leaves it as it was") {
        auto model = visited();
        model.season->bow = 5e-5;
        model.season->top = 0.08 * mm;
        const auto before = model;
        solved_state s;
        solve_state(model, "in summer", s);
        const climate from{21 * celsius, 40 * percent_rh}, to{21 * celsius, 65 * percent_rh};
        const auto moist = solve(moistened(model.at_pitch, {.bow = 5e-5, .top = 0.08 * mm}, moisture_gained(from, to)));
        CHECK(near::within(s.setup.relief->gap.value(), moist.relief->gap.value(), 1e-12));
        for (std::size_t i = 0; i < 6; ++i) {
            CHECK(near::within(s.setup.strings[i].heights[11].value(), moist.strings[i].heights[11].value(), 1e-12));
        }
        solved_state now, then;
        solve_state(model, "at pitch", now);
        auto untouched = before;
        solve_state(untouched, "at pitch", then);
        CHECK(now.setup.relief->gap == then.setup.relief->gap);
        // Also where the state does not stand: a neck as soft as rubber is put back, too.
        auto soft = model;
        soft.at_pitch.instrument.neck.back_modulus = 0.05 * GPa;
        soft.at_pitch.instrument.neck.board_modulus = 0.05 * GPa;
        CHECK_THROWS_AS(solve_state(soft, "in summer", s), invalid_input);
        CHECK(soft.at_pitch.instrument.neck.board_strain == model.at_pitch.instrument.neck.board_strain);
        CHECK(soft.at_pitch.instrument.saddle.board_line == model.at_pitch.instrument.saddle.board_line);
    }
    TEST_CASE("readings of two visits give back the coefficients that made them") {
        const auto model = visited();
        for (const double bow : {-8e-5, 0.0, 6e-5}) {
            for (const auto& top : {-0.05 * mm, 0.12 * mm}) {
                CAPTURE(bow);
                const auto out = reconcile(model, season_doubts(), {}, two_visits(model, bow, top));
                const auto &a = input_of(out, "season.bow"), &b = input_of(out, "season.top");
                // The prior of 0 ± 9e-5 pulls a little: by less than the doubt that is left.
                CHECK(near::within(a.found.si(), bow, a.after.si()));
                CHECK(near::within(b.found.si(), top.value(), b.after.si()));
                CHECK(a.after.si() < 0.1 * unmeasured_season_bow);
                CHECK(b.after.si() < 0.2 * unmeasured_season_top);
                CHECK(near::within(out.adjusted.season->bow, a.found.si(), 1e-12));
                CHECK(near::within(out.adjusted.season->response().top.value(), b.found.si(), 1e-12));
            }
        }
    }
    TEST_CASE("what an error in the same tool does to both visits alike, the coefficients do not feel") {
        auto model = visited();
        model.gauges.push_back({.name = "feelers"});
        auto doubts = season_doubts();
        doubts.push_back({"feelers", any_quantity(0.05 * mm), {{"gauges[0].zero"}}});
        auto readings = two_visits(model, 5e-5, 0.08 * mm);
        for (auto& r : readings) {
            if (r.path != "relief.gap") { continue; }
            read_case::shift(r, 0.04e-3); // 0.04 mm too much both times
            r.gauge = "feelers";
        }
        const auto out = reconcile(model, doubts, {}, readings);
        CHECK(near::within(input_of(out, "season.bow").found.si(), 5e-5, 0.3e-5));
    }
    TEST_CASE("without a second air, or with one that hardly differs, the fit learns nothing of the season") {
        const auto model = visited(21, 40.05);
        const auto out = reconcile(model, season_doubts(), {}, two_visits(model, 5e-5, 0.08 * mm));
        CHECK(input_of(out, "season.bow").learnt.left > 0.9);
        CHECK(input_of(out, "season.top").learnt.left > 0.9);
    }
    TEST_CASE("as sure as two visits are by hand: 0.02 mm of relief and 0.05 mm of action over 3 %") {
        // Design page, 16.3: a_bow to 0.5e-5, a_top to 0.04 mm for 1 %.
        auto model = visited();
        model.states.erase(model.states.begin() + 1);
        double humidity = 40;
        const climate from{21 * celsius, 40 * percent_rh};
        while (moisture_gained(from, {21 * celsius, humidity * percent_rh}) < 3) { humidity += 0.1; }
        model.states[0].air->humidity = humidity;
        auto readings = two_visits(model, 5e-5, 0.08 * mm);
        for (auto& r : readings) {
            // Each visit's part of a change that is known to 0.02 mm and 0.05 mm; the outer strings' mean is what counts.
            const double change = r.path == "relief.gap" ? 0.02e-3 : 0.05e-3 * std::sqrt(2.0);
            r.standard = any_quantity(length<>::from_value(change / std::sqrt(2.0)));
            r.model = any_quantity(0 * mm);
        }
        const auto out = reconcile(model, season_doubts(), {}, readings);
        CHECK(near::relative(input_of(out, "season.bow").after.si(), 0.5e-5, 0.5));
        CHECK(near::relative(input_of(out, "season.top").after.si(), 0.04e-3, 0.5));
    }
    TEST_CASE("what cannot be is refused by its key") {
        auto model = visited();
        model.season.reset();
        CHECK_THROWS_WITH_AS((void)reconcile(model, {}, {}, {}), doctest::Contains("season"), invalid_input);
        solved_state s;
        CHECK_THROWS_WITH_AS(solve_state(model, "in summer", s), doctest::Contains("season"), invalid_input);
        CHECK_THROWS_WITH_AS((void)reconcile(visited(80), {}, {}, {}), doctest::Contains("states[0].air.celsius"),
                             invalid_input);
        CHECK_THROWS_WITH_AS((void)reconcile(visited(21, 120), {}, {}, {}), doctest::Contains("states[0].air.humidity"),
                             invalid_input);
        CHECK_THROWS_WITH_AS((void)reconcile(visited(21, 98), {}, {}, {}), doctest::Contains("4 to 20 %"), invalid_input);
        CHECK_THROWS_WITH_AS((void)reconcile(visited(21, std::nan("")), {}, {}, {}),
                             doctest::Contains("states[0].air.humidity"), invalid_input);
        auto far = visited(21, 19);
        far.season->measured_in.humidity = 83;
        CHECK_THROWS_WITH_AS((void)reconcile(far, {}, {}, {}), doctest::Contains("within 10 %"), invalid_input);
    }
}
