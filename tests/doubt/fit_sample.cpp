#include <tautline/doubt/fit_sample.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

const auto no_results = [](std::span<const double>) { return std::vector<double>{}; };

} // namespace

TEST_SUITE("fit sample") {
    TEST_CASE("a straight model: nearly every draw counts, mean and spread are the adjustment's") {
        const auto line = [](std::span<const double> t, const matrix& along) {
            modelled m{{t[0] + 2 * t[1]}, matrix(1, along.columns())};
            for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(0, c) = along(0, c) + 2 * along(1, c); }
            return m;
        };
        const fit_problem p{
            covariance_root(matrix(2, 2, {1, 0.5, 0.5, 4})), reading_root(matrix(1, 1, {0.25})), {3}, {}, {}};
        const auto fit = fit_weighted<double>(p, line);
        const auto a = adjustment_of(fit);
        const auto difference = [](std::span<const double> t) { return std::vector{t[0] - t[1]}; };
        const auto s = sample_of(fit, a, line, difference, 20000, 3);
        CHECK(s.effective > 0.75);
        CHECK(s.effective < 1);
        CHECK(s.trusted());
        const auto cov = a.covariance();
        for (std::size_t i = 0; i < 2; ++i) {
            CHECK(near::within(s.inputs[i].mean, fit.t[i], 5 * std::sqrt(cov(i, i) / 20000)));
            CHECK(near::relative(s.inputs[i].standard, std::sqrt(cov(i, i)), 5.0 / 200));
        }
        const std::vector<double> g{1, -1};
        CHECK(near::relative(s.results[0].standard, a.standard(g), 5.0 / 200));
    }
    TEST_CASE("a curved model: mean and spread as by the integral over the input") {
        const auto exponential = [](std::span<const double> t, const matrix& along) {
            modelled m{{std::exp(t[0])}, matrix(1, along.columns())};
            for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(0, c) = m.values[0] * along(0, c); }
            return m;
        };
        const fit_problem p{covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {0.64})), {2}, {}, {}};
        double all = 0, mean = 0, square = 0;
        for (double t = -8; t < 8; t += 1e-3) {
            const double w = std::exp(-(t * t + std::pow((2 - std::exp(t)) / 0.8, 2)) / 2);
            all += w;
            mean += w * t;
            square += w * t * t;
        }
        mean /= all;
        const double spread = std::sqrt(square / all - mean * mean);
        const auto fit = fit_weighted<double>(p, exponential);
        const auto s = sample_of(fit, adjustment_of(fit), exponential, no_results, 20000, 5);
        CHECK(s.trusted());
        CHECK(near::within(s.inputs[0].mean, mean, 0.02));
        CHECK(near::relative(s.inputs[0].standard, spread, 0.03));
        // The straight adjustment differs by more than that.
        CHECK(std::abs(fit.t[0] - mean) > 0.05);
    }
    TEST_CASE("the same seed gives the same sample, another another") {
        const auto fit = fit_weighted<double>(cheap::problem(cheap::drawn(2).readings), cheap::model);
        const auto a = adjustment_of(fit);
        const auto draw = [&](std::uint64_t seed) { return sample_of(fit, a, cheap::model, no_results, 100, seed); };
        CHECK(draw(1).inputs[0].mean == draw(1).inputs[0].mean);
        CHECK(draw(1).inputs[0].mean != draw(2).inputs[0].mean);
        CHECK(draw(1).effective > 0.8);
    }
    TEST_CASE("draws that the model refuses count as none") {
        const auto wall = [](std::span<const double> t, const matrix& along) {
            require_that(t[0] < 0.5, "neck", "must stand");
            modelled m{{t[0]}, matrix(1, along.columns())};
            for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(0, c) = along(0, c); }
            return m;
        };
        const fit_problem p{covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {1})), {0}, {}, {}};
        const auto fit = fit_weighted<double>(p, wall);
        const auto s = sample_of(fit, adjustment_of(fit), wall, no_results, 4000, 5);
        // Beyond 0.5 of a spread of sqrt(1/2): 24 %.
        CHECK(near::within(static_cast<double>(s.refused) / 4000, 0.2398, 4 * std::sqrt(0.18 / 4000) + 0.03));
        CHECK(s.effective < 1 - 0.2398);
        CHECK_THROWS_AS((void)sample_of(fit, adjustment_of(fit), wall, no_results, 1, 5), invalid_input);
    }
}
