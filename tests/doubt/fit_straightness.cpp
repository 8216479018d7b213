#include <tautline/doubt/fit_straightness.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

/// y = x + bend x^2 / 2 of one input of doubt 1.
auto curved(double bend) {
    return [bend](std::span<const double> t, const matrix& along) {
        modelled m{{t[0] + bend * t[0] * t[0] / 2}, matrix(1, along.columns())};
        for (std::size_t c = 0; c < along.columns(); ++c) { m.slopes(0, c) = (1 + bend * t[0]) * along(0, c); }
        return m;
    };
}
fit_straightness straightness(double bend, double reading, double doubt) {
    const fit_problem p{covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {doubt * doubt})), {reading}, {}, {}};
    const auto fit = fit_weighted<double>(p, curved(bend), {.least_step = 1e-12});
    return straightness_of(fit, adjustment_of(fit), curved(bend));
}

} // namespace

TEST_SUITE("fit straightness") {
    TEST_CASE("a straight model is straight wherever the readings lead") {
        const auto s = straightness(0, 3, 0.1);
        CHECK(s.moved < 1e-9);
        CHECK(s.bent < 1e-9);
        CHECK_FALSE(s.far_off());
        CHECK_FALSE(s.stretched());
    }
    TEST_CASE("the bend along a doubt is what the curve leaves its slope by, in doubts of the reading") {
        // At x with u^2 = 1/(1 + (1 + bend x)^2/v^2): bend u^2 / 2 / v.
        const double bend = 0.1, v = 0.1;
        const fit_problem p{covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {v * v})), {1}, {}, {}};
        const auto fit = fit_weighted<double>(p, curved(bend), {.least_step = 1e-12});
        const double u2 = 1 / (1 + std::pow((1 + bend * fit.t[0]) / v, 2));
        CHECK(near::relative(straightness(bend, 1, v).bent, bend * u2 / 2 / v, 1e-6));
    }
    TEST_CASE("a reading far out on a curve moved the model far; a wide doubt on it is stretched") {
        CHECK(straightness(0.5, 4, 0.1).far_off());
        CHECK_FALSE(straightness(0.5, 0.01, 0.1).far_off());
        CHECK(straightness(3, 0, 1).stretched());
        CHECK_FALSE(straightness(0.3, 0, 1).stretched());
    }
    TEST_CASE("a model that refuses a step of one doubt is not straight at all") {
        const auto wall = [](std::span<const double> t, const matrix& along) {
            require_that(t[0] < 0.5, "neck", "must stand");
            return curved(0)(t, along);
        };
        const fit_problem p{covariance_root(matrix(1, 1, {1})), reading_root(matrix(1, 1, {1})), {0}, {}, {}};
        const auto fit = fit_weighted<double>(p, wall);
        CHECK(std::isinf(straightness_of(fit, adjustment_of(fit), wall).bent));
        CHECK(straightness_of(fit, adjustment_of(fit), wall).stretched());
    }
}
