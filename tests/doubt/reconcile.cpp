#include <tautline/doubt/reconcile.hpp>

#include <cmath>

#include "near.hpp"
#include "read_case.hpp"
#include "sanitized.hpp"

using namespace tautline;
using namespace tautline::units;
using read_case::of;

namespace {

/// The cittern, its twenty doubts and nine readings of a truth.
struct whole_case {
    read_instrument model = read_case::cittern();
    std::vector<doubt> doubts = read_case::cittern_doubts();
    std::vector<reading> readings = read_case::cittern_readings();
    explicit whole_case(double scatter = 1, std::uint64_t seed = 3) {
        read_case::fill(model, doubts, readings, read_case::truth(doubts.size(), seed), scatter, seed);
    }
    [[nodiscard]] reconciliation out(std::span<const correlation> together = {}) const {
        return reconcile(model, doubts, together, readings);
    }
};
/// Readings exactly as the instrument as read has them.
whole_case as_predicted() {
    whole_case c;
    read_case::fill(c.model, c.doubts, c.readings, std::vector<double>(20), 0, 1);
    return c;
}
double action_of(const std::vector<uncertain_result>& all) {
    return find_result(all, "strings[0].heights[11]")->standard().si();
}

} // namespace

TEST_SUITE("reconcile") {
    TEST_CASE("no readings: the instrument as read, doubts as propagated") {
        const whole_case c;
        const auto out = reconcile(c.model, c.doubts, {}, {});
        CHECK(out.tests.chance == 1);
        CHECK(out.suspicions.empty());
        const auto now = propagate(out.adjusted.at_pitch, out.doubts),
                   unit = propagate(out.adjusted.at_pitch, out.unit_doubts);
        auto own = c.doubts;
        own.pop_back(); // the feelers are no part of the instrument
        const auto before = propagate(c.model.at_pitch, own);
        for (const char* path : {"strings[0].heights[11]", "relief.gap", "down_force", "strings[4].notes[3].error"}) {
            const double u = find_result(before, path)->standard().si();
            CHECK(near::relative(find_result(now, path)->standard().si(), u, 1e-9));
            CHECK(near::relative(find_result(unit, path)->standard().si(), u, 1e-9));
            CHECK(near::relative(out.result_of(*find_result(now, path)).after.si(), u, 1e-9));
        }
        for (std::size_t i = 0; i < 20; ++i) {
            CHECK(out.inputs[i].found.si() == out.inputs[i].as_read.si());
            CHECK(near::relative(out.inputs[i].after.si(), c.doubts[i].standard.si(), 1e-12));
        }
    }
    TEST_CASE("no doubts: nothing to adjust, readings are compared all the same") {
        const whole_case c;
        const auto out = reconcile(c.model, {}, {}, c.readings);
        CHECK(out.inputs.empty());
        for (const auto& r : out.readings) {
            CHECK(near::within(r.test.w, (r.value - r.expected).si() / r.standard.si(), 1e-9));
            CHECK(near::within(r.test.redundancy, 1, 1e-12));
        }
    }
    TEST_CASE("readings as predicted move nothing and make results surer") {
        const auto c = as_predicted();
        const auto out = c.out();
        CHECK(out.fit.end == fit_end::settled);
        CHECK(out.tests.square < 1e-12);
        for (std::size_t i = 0; i < 20; ++i) {
            const double as_read = out.inputs[i].as_read.si();
            CHECK(near::within(out.inputs[i].found.si(), as_read, 1e-9 * std::abs(as_read) + 1e-15));
            CHECK(out.inputs[i].after.si() <= out.inputs[i].before.si() * (1 + 1e-9));
        }
        const auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const auto action = out.result_of(*find_result(results, "strings[0].heights[11]"));
        CHECK(action.after.si() < 0.5 * action.before.si());
        CHECK(out.straightness.moved < 1e-6);
        CHECK_FALSE(out.largest_elsewhere);
    }
    TEST_CASE("slopes of every reading in every state are those of finite differences") {
        for (const bool rod : {false, true}) {
            auto model = rod ? read_case::flat_top() : read_case::cittern();
            std::vector<doubt> doubts =
                rod ? std::vector<doubt>{of("neck.back_modulus", 2e9),      of("neck.rod_pull", 60),
                                         of("states[0].rod_turns", 0.02),   of("rod_screw.lead", 1e-5),
                                         of("playing.finger.behind", 2e-3), of("pins.height", 5e-4)}
                    : read_case::cittern_doubts();
            std::vector<reading> readings;
            const auto any = 0 * mm;
            if (rod) {
                readings = {relief_read(any),
                            relief_read(any).when("slack"),
                            relief_read(any).when("a quarter turn"),
                            relief_read(any).when("slack, a quarter turn"),
                            saddle_break_read(2, 0 * deg),
                            note_read(0, 12, 0 * cents),
                            setback_read(1, any),
                            nut_break_read(0, 0 * deg)};
            } else {
                readings = read_case::cittern_readings();
                readings.push_back(tailpiece_read(0 * deg));
                readings.push_back(top_sink_read(any));
                readings.push_back(gap_read(3, {.x = 430 * mm, .z = 0 * mm, .extent = 20 * mm}, any));
                readings.push_back(note_read(2, 7, 0 * cents));
            }
            const auto inputs = read_inputs_of(model, doubts);
            kernel::read_model says(model, inputs, readings);
            const std::size_t n = inputs.size();
            std::vector<double> t;
            for (std::size_t i = 0; i < n; ++i) { t.push_back(0.3 * inputs[i].standard); }
            const auto at = says(t, matrix::identity(n));
            for (std::size_t i = 0; i < n; ++i) {
                auto up = t, down = t;
                const double step = 0.02 * inputs[i].standard;
                up[i] += step;
                down[i] -= step;
                const auto high = says(up, matrix(n, 0)).values, low = says(down, matrix(n, 0)).values;
                for (std::size_t k = 0; k < readings.size(); ++k) {
                    const double slope = (high[k] - low[k]) / (2 * step),
                                 scale = standard_of(readings[k]) / inputs[i].standard;
                    CAPTURE(readings[k].path);
                    CAPTURE(inputs[i].name);
                    CHECK(near::within(at.slopes(k, i), slope, 1e-4 * std::abs(slope) + 1e-5 * scale));
                }
            }
        }
    }
    TEST_CASE("what a reading moves is what the whole reconciliation gives when it is read otherwise") {
        const auto c = as_predicted();
        const auto out = c.out();
        for (const std::size_t k : {0U, 2U, 6U, 8U}) {
            auto up = c, down = c;
            const double step = 0.01 * standard_of(c.readings[k]);
            read_case::shift(up.readings[k], step);
            read_case::shift(down.readings[k], -step);
            const auto high = up.out(), low = down.out();
            for (std::size_t i = 0; i < 20; ++i) {
                std::vector<double> unit(20);
                unit[i] = 1;
                const double moved = (high.fit.t[i] - low.fit.t[i]) / (2 * step), s = out.turned[i].standard;
                CHECK(near::within(out.adjustment->gain(unit)[k] / s, moved / s, 1e-4 / standard_of(c.readings[k])));
            }
        }
    }
    TEST_CASE("unit doubts through the solve are the doubts after the readings, for every result") {
        const whole_case c;
        const auto out = c.out();
        const auto now = propagate(out.adjusted.at_pitch, out.doubts),
                   unit = propagate(out.adjusted.at_pitch, out.unit_doubts);
        REQUIRE(now.size() == unit.size());
        for (std::size_t k = 0; k < now.size(); k += 7) {
            CAPTURE(now[k].path);
            const double after = out.result_of(now[k]).after.si();
            CHECK(near::within(unit[k].standard().si(), after, 1e-6 * now[k].standard().si() + 1e-15));
            CHECK(after <= now[k].standard().si() * (1 + 1e-9) + 1e-15);
        }
    }
    TEST_CASE("the budget has a line for each reading, and its squares are the variance") {
        const whole_case c;
        const auto out = c.out();
        const auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const auto* action = find_result(results, "strings[0].heights[11]");
        const auto lines = out.budget_of(*action);
        double sum = 0;
        bool read = false;
        for (const auto& line : lines) {
            sum += line.contribution * line.contribution;
            read = read || line.input == "height over fret 12 of course 5 (D2), its bass-side string";
        }
        CHECK(read);
        CHECK(near::relative(std::sqrt(sum), out.result_of(*action).after.si(), 1e-9));
    }
    TEST_CASE("without a reading: as reconciled without it, to first order") {
        const whole_case c;
        const auto out = c.out();
        const auto results = propagate(out.adjusted.at_pitch, out.doubts);
        const auto* action = find_result(results, "strings[0].heights[11]");
        for (const std::size_t k : {2U, 7U}) {
            auto fewer = c;
            fewer.readings.erase(fewer.readings.begin() + static_cast<std::ptrdiff_t>(k));
            const auto other = fewer.out();
            const auto there = propagate(other.adjusted.at_pitch, other.doubts);
            const auto* then = find_result(there, "strings[0].heights[11]");
            const auto told = out.without(*action, 20 + k);
            CHECK(near::within(told.value.si(), then->value.si(), 2e-6));
            CHECK(near::relative(told.standard.si(), other.result_of(*then).after.si(), 0.03));
        }
    }
    TEST_CASE("a gauge that errs alike is as readings that err together by as much") {
        const whole_case c;
        const auto gauged = c.out();
        auto plain = c;
        plain.doubts.pop_back();
        std::vector<std::size_t> with;
        std::vector<double> total;
        const double zero = 0.01e-3;
        for (std::size_t k = 0; k < plain.readings.size(); ++k) {
            auto& r = plain.readings[k];
            double v = standard_of(r);
            if (r.gauge == "feelers") {
                with.push_back(k);
                v = std::hypot(v, zero);
            }
            r.gauge.clear();
            r.standard = any_quantity::of(r.value.kind(), v);
            r.model = any_quantity::of(r.value.kind(), 0);
            total.push_back(v);
        }
        REQUIRE(with.size() == 3);
        std::vector<correlation> alike;
        for (std::size_t a = 0; a < 3; ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                alike.push_back({with[a], with[b], zero * zero / (total[with[a]] * total[with[b]])});
            }
        }
        const auto together = reconcile(plain.model, plain.doubts, {}, plain.readings, {.read_together = alike});
        CHECK(near::relative(together.tests.square, gauged.tests.square, 1e-6));
        for (std::size_t i = 0; i < 19; ++i) {
            CHECK(near::within(together.fit.t[i] / together.turned[i].standard, gauged.fit.t[i] / gauged.turned[i].standard,
                               1e-6));
            CHECK(near::relative(together.inputs[i].after.si(), gauged.inputs[i].after.si(), 1e-6));
        }
    }
    TEST_CASE("what a gauge reads too much stands in what is read with it, and in nothing else") {
        auto c = as_predicted();
        c.model.gauges[0].zero = 0.1 * mm;
        const auto out = c.out();
        for (std::size_t k = 0; k < 9; ++k) {
            const double more = c.readings[k].gauge.empty() ? 0 : 0.1e-3;
            CHECK(near::within((out.readings[k].expected - c.readings[k].value).si(), more, 1e-9));
        }
    }
    TEST_CASE("two inputs that always err alike are one doubt that moves both") {
        const whole_case c;
        const std::vector<correlation> alike{{3, 4, 1}};
        const auto together = c.out(alike);
        auto one = c;
        one.doubts[3].moves.push_back({"saddle.height_treble"});
        one.doubts.erase(one.doubts.begin() + 4);
        const auto joined = one.out();
        CHECK(near::relative(together.tests.square, joined.tests.square, 1e-8));
        CHECK(near::within(together.inputs[4].found.si() - together.inputs[4].as_read.si(),
                           joined.inputs[3].found.si() - joined.inputs[3].as_read.si(), 1e-9));
        CHECK(near::relative(together.inputs[3].after.si(), joined.inputs[3].after.si(), 1e-7));
        // For who errs alike the doubts of results go by the correlation.
        const auto now = propagate(together.adjusted.at_pitch, together.doubts);
        const auto other = propagate(joined.adjusted.at_pitch, joined.doubts);
        CHECK(near::relative(together.result_of(*find_result(now, "strings[5].heights[11]")).after.si(),
                             joined.result_of(*find_result(other, "strings[5].heights[11]")).after.si(), 1e-7));
        CHECK(near::relative(action_of(propagate(together.adjusted.at_pitch, together.unit_doubts)),
                             action_of(propagate(joined.adjusted.at_pitch, joined.unit_doubts)), 1e-7));
    }
    TEST_CASE("by a share or by an amount: alike as the doubt shrinks") {
        // A modulus and one that moves it by a factor below 0, which is taken by its amount.
        auto c = as_predicted();
        double before = 1;
        for (const double size : {1.0, 0.3, 0.1}) {
            auto shares = c, amounts = c;
            for (auto* one : {&shares, &amounts}) {
                one->doubts = {of("neck.back_modulus", 2e9 * size)};
                one->readings = {relief_read(0 * mm, 0.02 * size * mm)};
                one->readings[0].model = 0 * mm;
                read_case::fill(one->model, one->doubts, one->readings, {1}, 0, 1);
            }
            amounts.readings = shares.readings;
            amounts.doubts[0].moves[0].factor = -1;
            const auto s = shares.out(), a = amounts.out();
            CHECK(s.turned[0].by_share);
            CHECK_FALSE(a.turned[0].by_share);
            const double off = std::abs(s.inputs[0].found.si() + a.inputs[0].found.si()) / (2e9 * size);
            CHECK(off < before);
            before = off;
        }
        CHECK(before < 0.02);
    }
    TEST_CASE("order of readings and of doubts does not matter") {
        const whole_case c;
        auto turned = c;
        std::reverse(turned.readings.begin(), turned.readings.end());
        std::reverse(turned.doubts.begin(), turned.doubts.end());
        const auto a = c.out(), b = turned.out();
        CHECK(near::relative(b.tests.square, a.tests.square, 1e-8));
        for (std::size_t i = 0; i < 20; ++i) {
            CHECK(near::within(b.fit.t[19 - i] / a.turned[i].standard, a.fit.t[i] / a.turned[i].standard, 1e-6));
        }
        for (std::size_t k = 0; k < 9; ++k) {
            CHECK(near::within(b.readings[8 - k].test.w, a.readings[k].test.w, 1e-5));
            CHECK(near::relative(b.readings[8 - k].test.least_detectable, a.readings[k].test.least_detectable, 1e-5));
        }
    }
    TEST_CASE("a limit that an input ends at is told") {
        auto model = read_case::flat_top();
        model.at_pitch.instrument.neck.rod_pull = 60 * N;
        const std::vector<doubt> doubts{of("neck.rod_pull", 100), of("neck.back_modulus", 1e8)};
        std::vector<reading> readings{relief_read(0 * mm, 0.02 * mm)};
        read_case::fill(model, doubts, readings, {-0.6, 0}, 0, 1);
        read_case::shift(readings[0], 0.3e-3);
        const auto out = reconcile(model, doubts, {}, readings);
        CHECK(out.inputs[0].edge == fit_edge::least);
        CHECK(out.inputs[0].found.si() < 0.1);
        CHECK(out.inputs[0].found.si() >= 0);
        CHECK(out.inputs[1].edge == fit_edge::none);
    }
    TEST_CASE("a planned instrument inherits what was learnt: its action is surer, new strings or not") {
        const auto c = as_predicted();
        const auto out = c.out();
        auto planned = out.adjusted.at_pitch;
        planned.instrument.saddle.height_bass = planned.instrument.saddle.height_bass - 1 * mm;
        planned.instrument.saddle.height_treble = planned.instrument.saddle.height_treble - 1 * mm;
        for (auto& s : planned.stringing.strings) { s.string.core.diameter = 0.95 * s.string.core.diameter; }
        const auto results = propagate(planned, out.doubts);
        const auto action = out.result_of(*find_result(results, "strings[0].heights[11]"));
        CHECK(action.after.si() < 0.5 * action.before.si());
        CHECK(near::relative(action_of(propagate(planned, out.unit_doubts)), action.after.si(), 1e-7));
    }
    TEST_CASE("simulated jobs on the whole instrument: truth within two doubts, chi square as it should" *
              doctest::skip(sanitized)) {
#if defined(__OPTIMIZE__) && !defined(__SANITIZE_ADDRESS__)
        constexpr std::uint64_t jobs = 60;
#else
        constexpr std::uint64_t jobs = 5;
#endif
        double sum = 0;
        std::size_t inside = 0, all = 0, alarms = 0, tested = 0;
        for (std::uint64_t seed = 1; seed <= jobs; ++seed) {
            const whole_case c(1, seed);
            const auto truth = read_case::truth(20, seed);
            const auto out = c.out();
            REQUIRE(out.fit.end == fit_end::settled);
            sum += out.tests.square;
            for (std::size_t i = 0; i < 20; ++i) {
                const double after = out.inputs[i].learnt.standard;
                inside += std::abs(out.fit.t[i] - truth[i] * out.turned[i].standard) <= 2 * after;
                ++all;
            }
            for (std::size_t i = 0; i < out.tests.size(); ++i) {
                alarms += std::abs(out.tests.at(i).w) > naming_limit;
                tested += out.tests.at(i).controlled();
            }
        }
        const auto count = static_cast<double>(jobs);
        MESSAGE("chi square ", sum / count, " of 9, within two doubts ",
                static_cast<double>(inside) / static_cast<double>(all), ", alarms ", alarms, " of ", tested);
        CHECK(near::within(sum / count, 9, 4 * std::sqrt(18 / count)));
        CHECK(near::within(static_cast<double>(inside) / static_cast<double>(all), 0.954,
                           4 * std::sqrt(0.044 / (8 * count))));
    }
    TEST_CASE("two readings off at once, in 500 straightened jobs: both are named, a sound one seldom first" *
              doctest::skip(sanitized)) {
        const auto out = as_predicted().out();
        const auto& a = *out.adjustment;
        const auto with = [&](std::vector<double> misfit) {
            return tests_of(linear_adjustment(a.root(), a.reading_root(), a.by_input(), std::move(misfit)));
        };
        const auto clean = with(std::vector<double>(9));
        // Readings that others control by 0.3 at least.
        std::vector<std::size_t> controlled;
        for (std::size_t k = 0; k < 9; ++k) {
            if (clean.readings[k].redundancy >= 0.3) { controlled.push_back(k); }
        }
        const std::size_t few = controlled.size();
        REQUIRE(few >= 5);
        std::size_t both = 0, sound_first = 0, runs = 0, suspicions = 0, places = 0;
        for (std::size_t seed = 0; seed < 500; ++seed) {
            const std::size_t first = controlled[seed % few],
                              second = controlled[(seed % few + 1 + (seed / few) % (few - 1)) % few];
            std::vector<double> errors(9), misfit(9);
            for (const std::size_t k : {first, second}) {
                errors[k] = 1.3 * clean.readings[k].least_detectable * (kernel::normal_deviate(5, seed, k) > 0 ? 1 : -1);
            }
            std::vector<double> t;
            for (std::size_t i = 0; i < 20; ++i) {
                t.push_back(out.turned[i].standard * kernel::normal_deviate(7, seed, i));
            }
            const auto truth = a.by_input() * t;
            for (std::size_t k = 0; k < 9; ++k) {
                misfit[k] = truth[k] + errors[k] + out.readings[k].standard.si() * kernel::normal_deviate(7, seed, 100 + k);
            }
            ++runs;
            const auto named = suspicions_of(with(misfit));
            const auto in = [](const suspicion& s, std::size_t place) {
                return std::find(s.places.begin(), s.places.end(), place) != s.places.end();
            };
            bool one = false, other = false;
            for (const auto& s : named) {
                one = one || in(s, 20 + first);
                other = other || in(s, 20 + second);
                ++suspicions;
                places += s.places.size();
            }
            both += one && other;
            sound_first += !named.empty() && !in(named[0], 20 + first) && !in(named[0], 20 + second);
        }
        MESSAGE("of ", runs, ": both ", both, ", a sound one first ", sound_first, "; ", suspicions, " suspicions of ",
                places, " readings");
        CHECK(static_cast<double>(both) > 0.7 * static_cast<double>(runs));
        CHECK(static_cast<double>(sound_first) < 0.05 * static_cast<double>(runs));
    }
    TEST_CASE("where the instrument as read stands on a kink of the model the fit ends there all the same") {
        for (const std::uint64_t seed : {17U, 22U, 23U}) {
            whole_case c;
            c.model.at_pitch.instrument.board.scale.scale_length = 524 * mm; // the joint just at the last mark of the set
            read_case::fill(c.model, c.doubts, c.readings, read_case::truth(20, seed), 1, seed);
            const auto out = c.out();
            CHECK(out.fit.end == fit_end::settled);
            CHECK(out.fit.steps < 20);
        }
    }
    TEST_CASE("one reading off: it is named, with its size") {
        auto c = as_predicted();
        read_case::shift(c.readings[4], 0.4e-3); // of an inner string over fret 12
        const auto out = c.out();
        REQUIRE(out.suspicions.size() == 1);
        CHECK(out.suspicions[0].places[0] == 20 + 4);
        CHECK(near::within(out.readings[4].test.error, 0.4e-3, 0.02e-3));
        CHECK(out.tests.chance < 0.01);
        // And still pulls less once it counts by its residual.
        const auto robust = reconcile(c.model, c.doubts, {}, c.readings, {.fit = {.huber = true}});
        CHECK(robust.fit.weights[4] < 0.6);
        CHECK(std::abs(robust.fit.t[2]) < std::abs(out.fit.t[2]));
    }
}
