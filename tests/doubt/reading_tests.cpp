#include <tautline/doubt/reading_tests.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"
#include "sanitized.hpp"
#include "stacked.hpp"

using namespace tautline;

namespace {

using cheap::slopes;
/// Readings that the straightened model says of a truth, an error at one of them.
std::vector<double> misfit_of(const std::vector<double>& truth) { return slopes() * truth; }
using cheap::adjusted;

} // namespace

TEST_SUITE("reading tests") {
    TEST_CASE("tests, errors and redundancies as those of the stacked adjustment, correlated readings too") {
        auto s = matrix::squares(cheap::input_doubts), r = matrix::squares(cheap::reading_doubts);
        for (const bool correlated : {false, true}) {
            if (correlated) {
                s(3, 4) = s(4, 3) = 0.7 * cheap::input_doubts[3] * cheap::input_doubts[4];
                r(3, 4) = r(4, 3) = 0.5 * cheap::reading_doubts[3] * cheap::reading_doubts[4];
            }
            std::vector<double> misfit{0.05, -0.02, 0.01, 0.1, -0.05, 0.03, 0.02, 0.2};
            const linear_adjustment a(covariance_root(s), reading_root(r), slopes(), misfit);
            const auto tests = tests_of(a);
            const auto stacked = stack::adjusted(s, r, slopes(), misfit);
            double sum = 0;
            for (std::size_t i = 0; i < 16; ++i) {
                CAPTURE(i);
                CHECK(near::within(tests.at(i).w, stacked.w[i], 1e-8));
                CHECK(near::within(tests.at(i).redundancy, stacked.redundancy[i], 1e-9));
                CHECK(near::relative(tests.at(i).error / tests.at(i).w, tests.at(i).least_detectable / detectable_shift,
                                     1e-9));
                sum += tests.at(i).redundancy;
            }
            CHECK(near::within(sum, 8, 1e-9));
            CHECK(near::relative(tests.square, stacked.square, 1e-9));
            CHECK(tests.degrees == 8);
        }
    }
    TEST_CASE("an error in one reading, all else as it is: its test tells it, and none is larger") {
        for (std::size_t place = 0; place < 16; ++place) {
            const double error = 0.3;
            // An input read too high by so much: the truth lies lower. A reading of a result: it reads higher.
            std::vector<double> misfit(8);
            if (place < 8) {
                std::vector<double> truth(8);
                truth[place] = -error;
                misfit = misfit_of(truth);
            } else {
                misfit[place - 8] = error;
            }
            const auto tests = tests_of(adjusted(misfit));
            CAPTURE(place);
            CHECK(near::relative(tests.at(place).error, error, 1e-9));
            CHECK(near::relative(tests.at(place).w, error * detectable_shift / tests.at(place).least_detectable, 1e-9));
            for (std::size_t j = 0; j < 16; ++j) { CHECK(std::abs(tests.at(j).w) <= std::abs(tests.at(place).w) + 1e-9); }
            // What an error at one place does to the test at another is their likeness.
            for (std::size_t j = 0; j < 16; ++j) {
                CHECK(near::within(tests.at(j).w, tests.likeness(place, j) * tests.at(place).w, 1e-7));
            }
        }
    }
    TEST_CASE("with one reading set aside the others are tested as if it had not been taken") {
        const std::vector<double> misfit{0.05, -0.02, 0.01, 0.1, -0.05, 0.03, 0.02, 0.2};
        const auto all = tests_of(adjusted(misfit));
        for (const std::size_t out : {0U, 3U, 5U}) {
            auto doubts = cheap::reading_doubts, left = misfit;
            doubts.erase(doubts.begin() + static_cast<std::ptrdiff_t>(out));
            left.erase(left.begin() + static_cast<std::ptrdiff_t>(out));
            matrix j(7, 8);
            for (std::size_t k = 0; k < 7; ++k) {
                for (std::size_t i = 0; i < 8; ++i) { j(k, i) = slopes()(k < out ? k : k + 1, i); }
            }
            const auto without = tests_of(linear_adjustment(covariance_root(matrix::squares(cheap::input_doubts)),
                                                            reading_root(matrix::squares(doubts)), j, left));
            const auto aside = tests_without(all, 8 + out);
            CHECK(near::relative(aside.square, without.square, 1e-9));
            CHECK(near::relative(aside.chance, without.chance, 1e-9));
            CHECK_FALSE(aside.readings[out].controlled());
            for (std::size_t i = 0; i < 15; ++i) {
                const std::size_t there = i < 8 + out ? i : i + 1;
                CAPTURE(i);
                CHECK(near::within(aside.at(there).w, without.at(i).w, 1e-7));
                CHECK(near::within(aside.at(there).error, without.at(i).error, 1e-8));
                CHECK(near::relative(aside.at(there).least_detectable, without.at(i).least_detectable, 1e-7));
                for (std::size_t k = 0; k < 15; ++k) {
                    CHECK(near::within(aside.likeness(there, k < 8 + out ? k : k + 1), without.likeness(i, k), 1e-7));
                }
            }
        }
        CHECK_THROWS_AS((void)tests_without(all, 16), invalid_input);
        const auto aside = tests_without(all, 9);
        CHECK_THROWS_AS((void)tests_without(aside, 9), invalid_input);
    }
    TEST_CASE("one reading: every |w| is alike and nothing can be located; the stated errors differ") {
        matrix j(1, 8);
        for (std::size_t i = 0; i < 8; ++i) { j(0, i) = slopes()(3, i); }
        const linear_adjustment a(covariance_root(matrix::squares(cheap::input_doubts)), reading_root(matrix(1, 1, {6e-4})),
                                  j, {0.2});
        const auto tests = tests_of(a);
        const double w = 0.2 / std::sqrt(6e-4 + a.standard_before(j.row(0)) * a.standard_before(j.row(0)));
        for (std::size_t i = 0; i < 9; ++i) {
            if (i < 8 && j(0, i) == 0) {
                CHECK_FALSE(tests.at(i).controlled());
                CHECK(std::isinf(tests.at(i).least_detectable));
                CHECK(tests.at(i).w == 0);
            } else {
                CHECK(near::within(std::abs(tests.at(i).w), w, 1e-10));
                CHECK(near::within(std::abs(tests.likeness(8, i)), 1, 1e-9));
            }
        }
        CHECK(near::within(tests.at(8).error, 0.2, 1e-12));
    }
    TEST_CASE("a reading that no doubtful input moves: w is its residual over its doubt, redundancy 1") {
        const linear_adjustment a(covariance_root(matrix(1, 1, {1})), reading_root(matrix(2, 2, {0.04, 0, 0, 0.09})),
                                  matrix(2, 1, {1, 0}), {0.5, 0.6});
        const auto tests = tests_of(a);
        CHECK(near::within(tests.readings[1].w, 2, 1e-12));
        CHECK(near::within(tests.readings[1].redundancy, 1, 1e-12));
        CHECK(near::within(tests.readings[1].error, 0.6, 1e-12));
        CHECK(near::within(tests.readings[1].least_detectable, detectable_shift * 0.3, 1e-12));
    }
    TEST_CASE("units and order of readings do not matter") {
        const std::vector<double> misfit{0.05, -0.02, 0.01, 0.1, -0.05, 0.03, 0.02, 0.2};
        const auto plain = tests_of(adjusted(misfit));
        // Backward, in thousandths, inputs in hundredths.
        std::vector<double> other(8), doubts(8), own(8);
        matrix j(8, 8);
        for (std::size_t k = 0; k < 8; ++k) {
            other[k] = 1000 * misfit[7 - k];
            doubts[k] = 1000 * cheap::reading_doubts[7 - k];
            own[k] = 100 * cheap::input_doubts[7 - k];
            for (std::size_t i = 0; i < 8; ++i) { j(k, i) = 10 * slopes()(7 - k, 7 - i); }
        }
        const auto turned = tests_of(
            linear_adjustment(covariance_root(matrix::squares(own)), reading_root(matrix::squares(doubts)), j, other));
        CHECK(near::relative(turned.square, plain.square, 1e-10));
        for (std::size_t k = 0; k < 8; ++k) {
            CHECK(near::within(turned.readings[k].w, plain.readings[7 - k].w, 1e-9));
            CHECK(near::within(turned.readings[k].error, 1000 * plain.readings[7 - k].error, 1e-8));
            CHECK(near::within(turned.inputs[k].error, 100 * plain.inputs[7 - k].error, 1e-8));
        }
    }
    TEST_CASE("simulated jobs: the scatter is chi square, false alarms are 1 in 1000, truth lies within two doubts") {
        double sum = 0;
        std::size_t alarms = 0, tested = 0, within = 0, inputs = 0, low = 0;
        for (std::uint64_t job = 0; job < cheap::jobs; ++job) {
            const auto drawn = cheap::drawn(job);
            const auto fit = fit_weighted<double>(cheap::problem(drawn.readings), cheap::model);
            REQUIRE(fit.end == fit_end::settled);
            const auto a = adjustment_of(fit);
            const auto tests = tests_of(a);
            sum += tests.square;
            low += tests.chance < 0.01;
            for (std::size_t i = 0; i < 16; ++i) {
                alarms += std::abs(tests.at(i).w) > naming_limit;
                ++tested;
            }
            const auto p = a.covariance();
            for (std::size_t i = 0; i < 8; ++i) {
                within += std::abs(drawn.truth[i] - fit.t[i]) <= 2 * std::sqrt(p(i, i));
                ++inputs;
            }
        }
        const auto jobs = static_cast<double>(cheap::jobs);
        MESSAGE("chi square ", sum / jobs, ", false alarms ",
                1000.0 * static_cast<double>(alarms) / static_cast<double>(tested), " in 1000, within two doubts ",
                static_cast<double>(within) / static_cast<double>(inputs), ", chance below 1 % in ",
                static_cast<double>(low) / jobs);
        // Mean of `jobs` chi squares of 8 degrees: off by 4/sqrt(jobs) each; four of these.
        CHECK(near::within(sum / jobs, 8, 4 * 4 / std::sqrt(jobs)));
        CHECK(near::within(static_cast<double>(low) / jobs, 0.01, 5 * std::sqrt(0.01 / jobs)));
        // Tests of one job are alike: some four are independent at least.
        CHECK(near::within(static_cast<double>(alarms) / static_cast<double>(tested), 0.001,
                           4 * std::sqrt(0.001 / (4 * jobs))));
        CHECK(near::within(static_cast<double>(within) / static_cast<double>(inputs), 0.9545,
                           4 * std::sqrt(0.9545 * 0.0455 / (4 * jobs))));
    }
    TEST_CASE("a known error in one reading: its w is on average the error over its least size, 80 in 100 are named" *
              doctest::skip(sanitized)) {
        const double size = 1;
        for (const std::size_t place : {0U, 3U, 6U}) {
            double sum = 0, shift = 0;
            std::size_t named = 0;
            for (std::uint64_t job = 0; job < cheap::jobs; ++job) {
                auto drawn = cheap::drawn(job, 17);
                const auto least = tests_of(adjusted(std::vector<double>(8))).readings[place].least_detectable;
                drawn.readings[place] += size * least;
                const auto tests =
                    tests_of(adjustment_of(fit_weighted<double>(cheap::problem(drawn.readings), cheap::model)));
                sum += tests.readings[place].w;
                shift += size * least * detectable_shift / tests.readings[place].least_detectable;
                named += std::abs(tests.readings[place].w) > naming_limit;
            }
            const auto jobs = static_cast<double>(cheap::jobs);
            CAPTURE(place);
            CHECK(near::within(sum / jobs, shift / jobs, 4 / std::sqrt(jobs) + 0.02 * detectable_shift));
            CHECK(near::within(static_cast<double>(named) / jobs, 0.80, 4 * 0.4 / std::sqrt(jobs) + 0.02));
        }
    }
}
