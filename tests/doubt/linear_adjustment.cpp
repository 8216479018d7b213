#include <tautline/doubt/linear_adjustment.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"
#include "stacked.hpp"

using namespace tautline;

namespace {

/// The straightened cheap neck, all inputs and readings correlated somehow.
struct straight_case {
    matrix s, r, j;
    std::vector<double> misfit;
};
straight_case correlated_case() {
    straight_case c{matrix::squares(cheap::input_doubts), matrix::squares(cheap::reading_doubts), {}, {}};
    const auto pair = [](matrix& m, std::size_t a, std::size_t b, double share) {
        m(a, b) = m(b, a) = share * std::sqrt(m(a, a) * m(b, b));
    };
    pair(c.s, 3, 4, 0.7);
    pair(c.s, 1, 2, -0.4);
    pair(c.r, 3, 4, 0.5);
    pair(c.r, 4, 5, 0.3);
    pair(c.r, 0, 1, -0.2);
    const std::vector<double> zero(8);
    c.j = cheap::modelled<double>(std::span<const double>(zero), matrix::identity(8)).slopes;
    const auto h = cheap::predicted(zero), y = cheap::drawn(7).readings;
    for (std::size_t k = 0; k < 8; ++k) { c.misfit.push_back(y[k] - h[k]); }
    return c;
}
linear_adjustment adjusted(const straight_case& c) { return {covariance_root(c.s), reading_root(c.r), c.j, c.misfit}; }

} // namespace

TEST_SUITE("linear adjustment") {
    TEST_CASE("as the stacked adjustment of inputs and readings alike, by Gauss and Jordan") {
        const auto c = correlated_case();
        const auto a = adjusted(c);
        const auto stacked = stack::adjusted(c.s, c.r, c.j, c.misfit);
        const auto moved = a.inputs_moved();
        const auto p = a.covariance();
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::within(moved[i], stacked.moved[i], 1e-12));
            for (std::size_t k = 0; k < 8; ++k) { CHECK(near::within(p(i, k), stacked.covariance(i, k), 1e-13)); }
        }
        CHECK(near::relative(a.square(), stacked.square, 1e-10));
    }
    TEST_CASE("without readings: doubts as before, nothing moves") {
        const auto c = correlated_case();
        const linear_adjustment a(covariance_root(c.s), matrix(), matrix(0, 8), {});
        CHECK(a.square() == 0);
        std::vector<double> g{1, 2, -1, 0.5, 0.5, -0.5, 1, 3};
        CHECK(near::relative(a.standard(g), a.standard_before(g), 1e-14));
        for (const double t : a.inputs_moved()) { CHECK(t == 0); }
    }
    TEST_CASE("unit directions squared are the covariance; a result's doubt is along them") {
        const auto a = adjusted(correlated_case());
        const auto u = a.unit_directions(), p = a.covariance();
        const std::vector<double> g{1, 2, -1, 0.5, 0.5, -0.5, 1, 3};
        double along = 0, by_p = 0;
        for (const double x : u.transposed() * g) { along += x * x; }
        for (std::size_t i = 0; i < 8; ++i) {
            for (std::size_t k = 0; k < 8; ++k) { by_p += g[i] * p(i, k) * g[k]; }
        }
        CHECK(near::relative(a.covariance(g, g), along, 1e-12));
        CHECK(near::relative(along, by_p, 1e-10));
    }
    TEST_CASE("the gain is what the result moves when a reading or an input is read otherwise") {
        const auto c = correlated_case();
        const std::vector<double> g{0.1, 2, -1, 0.5, 0.5, -0.5, 1, 3};
        const auto a = adjusted(c);
        const auto result = [&](const straight_case& at) { return kernel::dot(g, adjusted(at).inputs_moved()); };
        const auto gain = a.gain(g), input_gain = a.input_gain(g);
        for (std::size_t k = 0; k < 8; ++k) {
            auto up = c;
            up.misfit[k] += 1;
            CHECK(near::within(gain[k], result(up) - result(c), 1e-10));
            // An input read as 1 more: every misfit is less by its slope, and the result starts 1 higher.
            auto other = c;
            for (std::size_t l = 0; l < 8; ++l) { other.misfit[l] -= c.j(l, k); }
            CHECK(near::within(input_gain[k], g[k] + result(other) - result(c), 1e-10));
        }
    }
    TEST_CASE("readings make no result more doubtful; two alike are one of doubt v/sqrt 2") {
        auto c = correlated_case();
        c.r = matrix::squares(cheap::reading_doubts);
        const auto a = adjusted(c);
        for (std::size_t i = 0; i < 8; ++i) {
            std::vector<double> g(8);
            g[i] = 1;
            CHECK(a.standard(g) <= a.standard_before(g) * (1 + 1e-12));
        }
        // Each reading twice.
        straight_case twice{c.s, matrix(16, 16), matrix(16, 8), std::vector<double>(16)};
        auto sure = c;
        for (std::size_t k = 0; k < 8; ++k) {
            sure.r(k, k) = c.r(k, k) / 2;
            for (const std::size_t row : {k, k + 8}) {
                twice.r(row, row) = c.r(k, k);
                twice.misfit[row] = c.misfit[k];
                for (std::size_t i = 0; i < 8; ++i) { twice.j(row, i) = c.j(k, i); }
            }
        }
        const auto one = adjusted(sure).covariance(), two = adjusted(twice).covariance();
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::within(two(i, i), one(i, i), 1e-13));
            CHECK(near::within(adjusted(twice).inputs_moved()[i], adjusted(sure).inputs_moved()[i], 1e-11));
        }
    }
    TEST_CASE("wide doubts before do not cancel: the variance stays that of the readings") {
        auto c = correlated_case();
        for (std::size_t i = 0; i < 8; ++i) {
            for (std::size_t k = 0; k < 8; ++k) { c.s(i, k) = i == k ? 1e10 * c.s(i, k) : 0; }
        }
        const matrix one(1, 8, std::vector<double>(c.j.row(3).begin(), c.j.row(3).end()));
        const linear_adjustment a(covariance_root(c.s), reading_root(matrix(1, 1, {6.25e-4})), one, {0.1});
        CHECK(near::relative(a.standard(one.row(0)), 0.025, 1e-8));
    }
    TEST_CASE("sizes that do not fit are refused") {
        const auto c = correlated_case();
        CHECK_THROWS_AS(linear_adjustment(covariance_root(c.s), reading_root(c.r), matrix(8, 7), c.misfit), invalid_input);
        CHECK_THROWS_AS(linear_adjustment(covariance_root(c.s), reading_root(c.r), c.j, {1.0}), invalid_input);
        CHECK_THROWS_AS((void)adjusted(c).gain(std::vector<double>{1.0}), invalid_input);
    }
}
