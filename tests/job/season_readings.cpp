// Readings of two visits in a job: what 1 % of moisture does to its instrument.
#include <tautline/job/answer.hpp>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A visit in winter beside the one of the measurements; readings are what the instrument does with these coefficients.
bench_job job_of_two_visits(double bow, const length<>& top) {
    auto j = demo::job_as_found();
    j.season = noted_season{};
    j.season->measured_in = {.celsius = 21, .humidity = 60};
    j.season->dry = {.celsius = 21, .humidity = 30};
    j.season->damp = {.celsius = 21, .humidity = 65};
    noted_state winter;
    winter.name = "in winter";
    winter.air = noted_air{.celsius = 21, .humidity = 32};
    j.states = {winter};
    const auto on = strung_as_found(j);
    const double gained = moisture_gained(j.season->measured_in.climate(), winter.air->climate());
    const std::array shows{solve(on), solve(moistened(on, {.bow = bow, .top = top}, gained))};
    const auto text = [](const length<>& q, const char* doubt) { return fixed_text(q, mm, 4) + " ± " + doubt + " mm"; };
    for (std::size_t k = 0; k < 2; ++k) {
        noted_reading r;
        r.when = k == 0 ? "at pitch" : "in winter";
        r.of = "relief";
        r.value = text(shows[k].relief->gap, "0.02");
        j.readings.push_back(r);
        for (const auto& [string, place] : {std::pair{"4b", std::size_t{0}}, std::pair{"1a", std::size_t{7}}}) {
            (void)place;
            noted_reading h;
            h.when = r.when;
            h.of = "height";
            h.string.text = string;
            h.fret = 12;
            const auto at = names_of(courses_of(j.instrument), j.strings).place_of(string);
            REQUIRE(at);
            h.value = text(shows[k].strings[*at].heights[11], "0.03");
            j.readings.push_back(h);
        }
    }
    return j;
}
double found_of(const job_answers& a, std::string_view name) {
    for (const auto& i : a.readings.said.inputs) {
        if (i.name == name) { return i.found.si(); }
    }
    FAIL("no such input");
    return 0;
}

} // namespace

TEST_SUITE("season of a job's readings") {
    TEST_CASE("two visits give back the coefficients, and the year counts with them and with what doubt is left") {
        for (const double bow : {-7e-5, 5e-5}) {
            const auto top = 0.07 * mm;
            const auto a = answer(job_of_two_visits(bow, top));
            CHECK(near::within(found_of(a, "season.bow"), bow, 0.8e-5));
            CHECK(near::within(found_of(a, "season.top"), top.value(), 0.02e-3));
            REQUIRE(a.year);
            CHECK(a.year->known.by_readings);
            CHECK(a.year->known.bow_known);
            CHECK(a.year->known.top_known);
            CHECK(near::within(a.year->known.response.bow, found_of(a, "season.bow"), 1e-12));
            CHECK(a.year->known.bow_standard < 0.3 * unmeasured_season_bow);
            CHECK(a.year->lines[0].give_or_take[0].has_value());
            for (const auto& c : a.year->cautions) { CHECK(c.find("was not measured") == std::string::npos); }
            // The dry end as the true instrument has it, within what is told.
            auto j = job_of_two_visits(bow, top);
            const auto truth = solve(moistened(strung_as_found(j), {.bow = bow, .top = top}, a.year->gained[1]));
            CHECK(near::within(a.year->lines[0].values[1].si(), truth.relief->gap.value(),
                               a.year->lines[0].give_or_take[0].si() + 0.02e-3));
        }
    }
    TEST_CASE("where all was read in one air nothing is told of the season, and it costs nothing") {
        auto j = job_of_two_visits(5e-5, 0.07 * mm);
        j.states.clear();
        std::erase_if(j.readings, [](const noted_reading& r) { return r.when != "at pitch"; });
        const auto a = answer(j);
        for (const auto& i : a.readings.said.inputs) { CHECK(i.name.find("season") == std::string::npos); }
        CHECK_FALSE(a.readings.model.season);
        CHECK_FALSE(a.year->known.by_readings);
        CHECK(a.year->known.response.bow == 0);
    }
    TEST_CASE("coefficients that are given are readings as well, and their doubt is the one that is stated") {
        auto j = job_of_two_visits(5e-5, 0.07 * mm);
        j.season->bow = 6e-5;
        j.doubts = {{.path = "season.bow", .standard = any_quantity(1e-6)}};
        const auto a = answer(j);
        CHECK(near::within(found_of(a, "season.bow"), 6e-5, 1e-6)); // held by its own doubt
        j.doubts = {{.path = "season.bow", .standard = any_quantity(1e-4)}};
        CHECK(near::within(found_of(answer(j), "season.bow"), 5e-5, 0.8e-5)); // told by the readings
    }
    TEST_CASE("also without usual doubts what nobody measured is not taken for sure") {
        auto j = job_of_two_visits(5e-5, 0.07 * mm);
        j.adjusting.usual_doubts = false;
        CHECK(near::within(found_of(answer(j), "season.bow"), 5e-5, 0.3e-5));
    }
    TEST_CASE("readings that are only compared leave the year as it was noted") {
        auto j = job_of_two_visits(5e-5, 0.07 * mm);
        j.adjusting.as_read = true;
        const auto a = answer(j);
        CHECK_FALSE(a.year->known.by_readings);
        CHECK(a.year->known.response.bow == 0);
    }
    TEST_CASE("an air that cannot be, or that has nothing beside it, is refused by its key") {
        auto j = job_of_two_visits(5e-5, 0.07 * mm);
        j.season.reset();
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("states[0].air"), invalid_input);
        j = job_of_two_visits(5e-5, 0.07 * mm);
        j.states[0].air->celsius = 75;
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("states[0].air.celsius"), invalid_input);
        j = job_of_two_visits(5e-5, 0.07 * mm);
        j.states[0].air->humidity = 99;
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("states[0].air.humidity"), invalid_input);
        j = job_of_two_visits(5e-5, 0.07 * mm);
        std::swap(j.season->dry, j.season->damp);
        CHECK_THROWS_WITH_AS((void)answer(j), doctest::Contains("season.dry.humidity"), invalid_input);
    }
}
