#include <tautline/doubt/weighted_fit.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

/// One input of doubt 1, read as 0; its exponential is read.
modelled exponential(std::span<const double> t, const matrix& along) {
    modelled m{{std::exp(t[0])}, matrix(1, along.columns())};
    for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(0, c) = m.values[0] * along(0, c); }
    return m;
}
fit_problem of_one(double reading, double doubt) {
    return {covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {doubt * doubt})), {reading}, {}, {}};
}
/// The least of the cost of `exponential` by halving its derivative.
double least_of(double reading, double doubt) {
    double low = -50, high = 50;
    for (int i = 0; i < 200; ++i) {
        const double t = (low + high) / 2, slope = t - (reading - std::exp(t)) * std::exp(t) / (doubt * doubt);
        (slope < 0 ? low : high) = t;
    }
    return low;
}

} // namespace

TEST_SUITE("weighted fit") {
    TEST_CASE("no readings: everything stays as read") {
        const auto model = [](std::span<const double>, const matrix& along) {
            return modelled{{}, matrix(0, along.columns())};
        };
        const auto fit = fit_weighted<double>({covariance_root(matrix(2, 2, {4, 1, 1, 9})), matrix(), {}, {}, {}}, model);
        CHECK(fit.end == fit_end::settled);
        CHECK(fit.t == std::vector<double>{0, 0});
        CHECK(fit.cost == 0);
    }
    TEST_CASE("a reading exactly as predicted moves nothing") {
        const auto fit = fit_weighted<double>(cheap::problem(cheap::predicted(std::vector<double>(8))), cheap::model);
        CHECK(fit.end == fit_end::settled);
        CHECK(fit.steps == 1);
        for (const double t : fit.t) { CHECK(std::abs(t) < 1e-15); }
        CHECK(fit.cost < 1e-20);
    }
    TEST_CASE("a curved model: at the least of its cost, also where plain steps overshoot") {
        for (const double reading : {0.01, 0.5, 2.0, 20.0, 1000.0}) {
            for (const double doubt : {0.01, 0.3, 5.0}) {
                CAPTURE(reading);
                CAPTURE(doubt);
                const auto fit = fit_weighted<double>(of_one(reading, doubt), exponential);
                CHECK(fit.end == fit_end::settled);
                CHECK(near::within(fit.t[0], least_of(reading, doubt), 1e-7));
                CHECK(fit.steps <= 30);
            }
        }
    }
    TEST_CASE_TEMPLATE("in every number type", R, float, double, long double) {
        const auto model = [](std::span<const R> t, const basic_matrix<R>& along) { return cheap::modelled<R>(t, along); };
        std::vector<R> readings, doubts, own;
        for (const double y : cheap::drawn(3).readings) { readings.push_back(static_cast<R>(y)); }
        for (const double v : cheap::reading_doubts) { doubts.push_back(static_cast<R>(v)); }
        for (const double s : cheap::input_doubts) { own.push_back(static_cast<R>(s)); }
        const auto fit = fit_weighted<R>({covariance_root(basic_matrix<R>::squares(own)),
                                          reading_root(basic_matrix<R>::squares(doubts)),
                                          readings,
                                          {},
                                          {}},
                                         model);
        const auto plain = fit_weighted<double>(cheap::problem(cheap::drawn(3).readings), cheap::model);
        CHECK(fit.end == fit_end::settled);
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(std::abs(fit.t[i] - static_cast<R>(plain.t[i])) < (std::is_same_v<R, float> ? R(1e-4L) : R(1e-8L)));
        }
    }
    TEST_CASE("at the end the cost does not fall in any direction") {
        const auto cost_at = [](const fit_problem& p, const std::vector<double>& t) {
            double c = 0;
            const auto h = cheap::predicted(t);
            for (std::size_t i = 0; i < 8; ++i) { c += std::pow(t[i] / cheap::input_doubts[i], 2); }
            for (std::size_t k = 0; k < 8; ++k) { c += std::pow((p.readings[k] - h[k]) / cheap::reading_doubts[k], 2); }
            return c;
        };
        for (std::uint64_t j = 0; j < 20; ++j) {
            const auto problem = cheap::problem(cheap::drawn(j).readings);
            const auto fit = fit_weighted<double>(problem, cheap::model);
            REQUIRE(fit.end == fit_end::settled);
            CHECK(near::within(fit.cost, cost_at(problem, fit.t), 1e-9));
            for (std::size_t i = 0; i < 8; ++i) {
                for (const double step : {1e-3, -1e-3}) {
                    auto t = fit.t;
                    t[i] += step * cheap::input_doubts[i];
                    CHECK(cost_at(problem, t) > fit.cost);
                }
            }
        }
    }
    TEST_CASE("inputs that err alike are one input that moves both") {
        // Saddle bass and treble by one gauge: together as one cause of each one's doubt.
        auto s = matrix::squares(cheap::input_doubts);
        s(3, 4) = s(4, 3) = cheap::input_doubts[3] * cheap::input_doubts[4];
        auto problem = cheap::problem(cheap::drawn(5).readings);
        problem.root = covariance_root(s);
        REQUIRE(problem.root.columns() == 7);
        const auto fit = fit_weighted<double>(problem, cheap::model);
        auto one = cheap::problem(cheap::drawn(5).readings);
        auto seven = cheap::input_doubts;
        seven.erase(seven.begin() + 4);
        one.root = covariance_root(matrix::squares(seven));
        const auto both = [](const auto& t) {
            std::vector<double> all(t.begin(), t.end());
            all.insert(all.begin() + 4, t[3]);
            return all;
        };
        const auto model = [&](std::span<const double> t, const matrix& along) {
            matrix wide(8, along.columns());
            for (std::size_t i = 0; i < 8; ++i) {
                for (std::size_t c = 0; c < along.columns(); ++c) { wide(i, c) = along(i > 3 ? i - 1 : i, c); }
            }
            const auto all = both(t);
            return cheap::modelled<double>(std::span<const double>(all), wide);
        };
        const auto joined = both(fit_weighted<double>(one, model).t);
        for (std::size_t i = 0; i < 8; ++i) { CHECK(near::within(fit.t[i], joined[i], 1e-8)); }
    }
    TEST_CASE("slopes by input, also where inputs share a cause") {
        auto s = matrix::squares(cheap::input_doubts);
        s(1, 2) = s(2, 1) = 0.5 * cheap::input_doubts[1] * cheap::input_doubts[2];
        auto problem = cheap::problem(cheap::drawn(5).readings);
        problem.root = covariance_root(s);
        for (const auto& p : {problem, cheap::problem(cheap::drawn(5).readings)}) {
            const auto fit = fit_weighted<double>(p, cheap::model);
            for (std::size_t i = 0; i < 8; ++i) {
                auto up = fit.t, down = fit.t;
                up[i] += 1e-5;
                down[i] -= 1e-5;
                const auto high = cheap::predicted(up), low = cheap::predicted(down);
                // Of an input with a cause of its own they are those before the last, short step.
                for (std::size_t k = 0; k < 8; ++k) {
                    CHECK(near::within(fit.by_input(k, i), (high[k] - low[k]) / 2e-5, 1e-7));
                }
            }
        }
    }
    TEST_CASE("a limit is kept and told, and let go where it no longer holds") {
        auto p = of_one(20, 0.3);
        p.least = {-2};
        p.most = {1.5};
        auto fit = fit_weighted<double>(p, exponential);
        CHECK(fit.end == fit_end::settled);
        CHECK(fit.edges[0] == fit_edge::most);
        CHECK(near::within(fit.t[0], 1.5, 1e-6));
        CHECK(fit.t[0] <= 1.5);
        p.most = {5};
        fit = fit_weighted<double>(p, exponential);
        CHECK(fit.edges[0] == fit_edge::none);
        CHECK(near::within(fit.t[0], least_of(20, 0.3), 1e-7));
        // The first step overshoots to the limit, from where the curve leads back.
        p.readings = {3};
        p.most = {1.2};
        fit = fit_weighted<double>(p, exponential);
        CHECK(fit.edges[0] == fit_edge::none);
        CHECK(near::within(fit.t[0], least_of(3, 0.3), 1e-7));
    }
    TEST_CASE("two inputs, one at its limit: the other is as if that were known") {
        // y1 = a + b, y2 = a - b.
        const auto sum = [](std::span<const double> t, const matrix& along) {
            modelled m{{t[0] + t[1], t[0] - t[1]}, matrix(2, along.columns())};
            for (std::size_t c = 0; c < along.columns(); ++c) {
                m.slopes(0, c) = along(0, c) + along(1, c);
                m.slopes(1, c) = along(0, c) - along(1, c);
            }
            return m;
        };
        fit_problem p{covariance_root(matrix(2, 2, {1, 0.3, 0.3, 1})),
                      reading_root(matrix::identity(2)),
                      {4, -1},
                      {-9, -9},
                      {0.5, 9}};
        const auto fit = fit_weighted<double>(p, sum);
        CHECK(fit.edges[0] == fit_edge::most);
        CHECK(fit.edges[1] == fit_edge::none);
        // b with a = 0.5: derivative of (b^2 - 0.3 b)/0.91 + (3.5 - b)^2 + (1.5 - b)^2.
        const double b = (0.3 / 0.91 + 2 * 3.5 + 2 * 1.5) / (2 / 0.91 + 4);
        CHECK(near::within(fit.t[1], b, 1e-6));
    }
    TEST_CASE("a model that refuses part of the way is approached by damping; one that refuses the start is told") {
        const auto refusing = [](double from) {
            return [from](std::span<const double> t, const matrix& along) {
                require_that(t[0] < from, "neck", "must stand");
                return exponential(t, along);
            };
        };
        // The first step to 19 is refused, the least at 2.98 is not.
        auto fit = fit_weighted<double>(of_one(20, 0.3), refusing(5));
        CHECK(fit.end == fit_end::settled);
        CHECK(near::within(fit.t[0], least_of(20, 0.3), 1e-7));
        fit = fit_weighted<double>(of_one(20, 0.3), refusing(2));
        CHECK(fit.end == fit_end::stuck);
        CHECK(fit.t[0] < 2);
        CHECK(fit.t[0] > 1.5);
        CHECK_THROWS_WITH((void)fit_weighted<double>(of_one(20, 0.3), refusing(-1)), "neck must stand.");
    }
    TEST_CASE("slopes by input are known of one with a cause of its own, and asked for of those that share causes") {
        std::size_t columns = 0;
        const auto model = [&](std::span<const double> t, const matrix& along) {
            columns = along.columns();
            modelled m{{2 * t[0] + 3 * t[1] - t[2] + t[2] * t[2] + 4 * t[3]}, matrix(1, along.columns())};
            for (std::size_t c = 0; c < along.columns(); ++c) {
                m.slopes(0, c) = 2 * along(0, c) + 3 * along(1, c) + (2 * t[2] - 1) * along(2, c) + 4 * along(3, c);
            }
            return m;
        };
        // The first two err together, the last is exact.
        const matrix s(4, 4, {4, 1, 0, 0, 1, 9, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0});
        const auto fit = fit_weighted<double>({covariance_root(s), reading_root(matrix(1, 1, {0.01})), {5}, {}, {}}, model);
        CHECK(fit.end == fit_end::settled);
        CHECK(columns == 3);
        const double slopes[] = {2, 3, 2 * fit.t[2] - 1, 4};
        for (std::size_t i = 0; i < 4; ++i) { CHECK(near::within(fit.by_input(0, i), slopes[i], 1e-6)); }
    }
    TEST_CASE("the least may lie on a kink of the model: the fit goes along it and settles there") {
        // y = max(a, b + shift), read far below both: both come down, and are alike in the end. A third input moves all.
        for (const double shift : {0.0, 0.2, -0.3}) {
            const auto largest = [shift](std::span<const double> t, const matrix& along) {
                const bool first = t[0] >= t[1] + shift;
                modelled m{{std::max(t[0], t[1] + shift) + t[2]}, matrix(1, along.columns())};
                for (std::size_t c = 0; c < along.columns(); ++c) {
                    m.slopes(0, c) = along(first ? 0 : 1, c) + along(2, c);
                }
                return m;
            };
            const fit_problem p{covariance_root(matrix::squares(std::vector<double>{1, 2, 0.5})),
                                reading_root(matrix(1, 1, {0.01})),
                                {-2},
                                {},
                                {}};
            const auto fit = fit_weighted<double>(p, largest);
            CAPTURE(shift);
            CHECK(fit.end == fit_end::settled);
            // With a = b + shift: a^2 + (a - shift)^2/4 + c^2/0.25 + (a + c + 2)^2/0.01 is least.
            const double k = 100, q = 1.25 * (4 + k) + 4 * k, a = (0.25 * shift * (4 + k) - 2 * k * 4) / q,
                         c = -k * (a + 2) / (4 + k);
            CHECK(near::within(fit.t[0], a, 2e-3));
            CHECK(near::within(fit.t[1], a - shift, 2e-3));
            CHECK(near::within(fit.t[2], c, 2e-3));
        }
    }
    TEST_CASE("too few steps are told") {
        const auto fit = fit_weighted<double>(of_one(20, 0.3), exponential, {.most_steps = 2});
        CHECK(fit.end == fit_end::too_many_steps);
        CHECK(fit.steps == 2);
    }
    TEST_CASE("robust: a reading far out among many counts less, none where all are near") {
        const auto mean = [](std::span<const double> t, const matrix& along) {
            modelled m{std::vector<double>(9, t[0]), matrix(9, along.columns())};
            for (std::size_t k = 0; k < 9; ++k) {
                for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(k, c) = along(0, c); }
            }
            return m;
        };
        std::vector<double> readings{0.1, -0.2, 0.3, -0.1, 0, 0.2, -0.3, 0.05, 9};
        const fit_problem p{covariance_root(matrix(1, 1, {100})), reading_root(matrix::identity(9)), readings, {}, {}};
        const auto plain = fit_weighted<double>(p, mean), robust = fit_weighted<double>(p, mean, {.huber = true});
        CHECK(plain.t[0] > 0.9);
        CHECK(robust.end == fit_end::settled);
        // Its pull is that of one 1.5 doubts off: sum of the others - 8 t + 1.5 = t/100.
        CHECK(near::within(robust.t[0], (0.05 + 1.5) / 8.01, 1e-6));
        CHECK(near::within(robust.weights[8], 1.5 / (9 - robust.t[0]), 1e-6));
        for (std::size_t k = 0; k < 8; ++k) { CHECK(robust.weights[k] == 1); }
    }
    TEST_CASE("what does not fit together is refused") {
        auto p = of_one(1, 1);
        p.readings = {1, 2};
        CHECK_THROWS_AS((void)fit_weighted<double>(p, exponential), invalid_input);
        p = of_one(1, 1);
        p.least = {0};
        CHECK_THROWS_AS((void)fit_weighted<double>(p, exponential), invalid_input);
        CHECK_THROWS_AS((void)fit_weighted<double>(of_one(1, 1), exponential, {.most_steps = 0}), invalid_input);
        const auto no_number = [](std::span<const double>, const matrix& along) {
            return modelled{{NAN}, matrix(1, along.columns())};
        };
        CHECK_THROWS_AS((void)fit_weighted<double>(of_one(1, 1), no_number), invalid_input);
    }
}
