// Straight adjustments: flows, levelling, and a calibration line, against what others computed from the same readings.

#include <array>

#include <tautline/doubt/suspicions.hpp>

#include "published/record.hpp"

using namespace tautline;

namespace {

/// Inputs hardly known before: what is left of that in a result is below a part in 10^9.
constexpr double hardly_known = 1e5;

matrix diagonal(std::size_t n, double value) {
    matrix m(n, n);
    for (std::size_t i = 0; i < n; ++i) { m(i, i) = value; }
    return m;
}

} // namespace

TEST_CASE("Narasimhan and Jordache, Data Reconciliation and Gross Error Detection (2000), first example: flows about an "
          "exchanger with a bypass" *
          published::from_memory) {
    // x1 = x6 = x2 + x3, x4 = x2, x5 = x3: two unknowns, x2 and x3, six flows read, all of variance 1.
    const matrix j(6, 2, {1, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 1});
    const std::vector<double> read{101.91, 64.45, 34.65, 64.20, 36.44, 98.88};
    const linear_adjustment a(covariance_root(diagonal(2, hardly_known * hardly_known)), reading_root(matrix::identity(6)),
                              j, read);
    const auto flows = j * a.inputs_moved();
    const std::array<double, 6> printed{100.22, 64.50, 35.72, 64.50, 35.72, 100.22};
    for (std::size_t k = 0; k < 6; ++k) { CHECK(published::within("reconciled flow", flows[k], printed[k], 5e-3)); }
}
TEST_CASE("the same flows: tests recomputed from the readings by numpy" * published::reference_program) {
    const matrix j(6, 2, {1, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 1});
    const std::vector<double> read{101.91, 64.45, 34.65, 64.20, 36.44, 98.88};
    const linear_adjustment a(covariance_root(diagonal(2, hardly_known * hardly_known)), reading_root(matrix::identity(6)),
                              j, read);
    const auto tests = tests_of(a);
    CHECK(published::within("sum of squares", tests.square, 6.4075, 6e-5));
    const std::array<double, 6> w{2.070, -0.061, -1.310, -0.367, 0.882, -1.641};
    for (std::size_t k = 0; k < 6; ++k) {
        CHECK(published::within("w of a flow", tests.readings[k].w, w[k], 5e-4));
        CHECK(published::within("redundancy of a flow", tests.readings[k].redundancy, 2.0 / 3, 1e-8));
    }
    CHECK(suspicions_of(tests).empty());
}
TEST_CASE("the same flows with the first read as an input: the same answer" * published::own_computation) {
    // x1 and x2 are read inputs, the four others results of them: x3 = x5 = x1 - x2, x4 = x2, x6 = x1.
    const std::vector<double> read{101.91, 64.45, 34.65, 64.20, 36.44, 98.88};
    const matrix j(4, 2, {1, -1, 0, 1, 1, -1, 1, 0});
    const std::vector<double> as_read{read[0] - read[1], read[1], read[0] - read[1], read[0]};
    std::vector<double> misfit(4);
    for (std::size_t k = 0; k < 4; ++k) { misfit[k] = read[k + 2] - as_read[k]; }
    const linear_adjustment a(covariance_root(matrix::identity(2)), reading_root(matrix::identity(4)), j, misfit);
    const auto moved = a.inputs_moved();
    const auto tests = tests_of(a);
    CHECK(published::within("first flow", read[0] + moved[0], 100.22, 5e-3));
    CHECK(published::within("second flow", read[1] + moved[1], 64.50, 5e-3));
    CHECK(published::within("sum of squares", tests.square, 6.4075, 6e-5));
    CHECK(published::within("chance of so much with 4 degrees", tests.chance, chi_square_tail(6.4075, 4), 1e-5));
    const std::array<double, 6> w{2.070, -0.061, -1.310, -0.367, 0.882, -1.641};
    for (std::size_t k = 0; k < 6; ++k) {
        CHECK(published::within("w of a flow, inputs first", tests.at(k).w, w[k], 5e-4));
        CHECK(published::within("redundancy of a flow, inputs first", tests.at(k).redundancy, 2.0 / 3, 1e-12));
    }
}

TEST_CASE("output of a geodetic adjustment (vrmapper.com/gama/1doutput.html): levelling, four legs both ways" *
          published::seen) {
    // Heights of 4, 3, 2 over a = 1000 m; each leg to 5 mm. Metres.
    const matrix j(8, 3, {1, 0, 0, -1, 1, 0, 0, -1, 1, 0, 0, -1, 0, 0, 1, 0, 1, -1, 1, -1, 0, -1, 0, 0});
    const std::vector<double> legs{-1.22500, -0.84800, 1.34200, 0.72000, -0.72400, -1.33500, 0.84200, 1.23100};
    const linear_adjustment a(covariance_root(diagonal(3, 1e6)), reading_root(diagonal(8, 25e-6)), j, legs);
    const auto heights = a.inputs_moved();
    const auto p = a.covariance();
    const std::array<double, 3> printed{998.77513, 997.93325, 999.27487}, sd{3.1, 3.5, 3.1};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(published::within("height, m", 1000 + heights[i], printed[i], 6e-6));
        CHECK(published::within("its standard deviation, mm", 1000 * std::sqrt(p(i, i)), sd[i], 0.05));
    }
    const auto tests = tests_of(a);
    CHECK(published::within("weighted squares [pvv], mm2", 25 * tests.square, 146.625, 5e-3));
    CHECK(published::within("deviation a posteriori, mm", std::sqrt(25 * tests.square / 5), 5.42, 5e-3));
    double most = 0;
    std::size_t where = 0;
    for (std::size_t k = 0; k < 8; ++k) {
        if (std::abs(tests.readings[k].w) > most) { most = std::abs(tests.readings[k].w), where = k; }
    }
    CHECK(published::within("largest |w|", most, 1.68, 0.01));
    CHECK(where == 5);
}
TEST_CASE("the same levelling: recomputed from the readings by numpy and scipy" * published::reference_program) {
    const matrix j(8, 3, {1, 0, 0, -1, 1, 0, 0, -1, 1, 0, 0, -1, 0, 0, 1, 0, 1, -1, 1, -1, 0, -1, 0, 0});
    const std::vector<double> legs{-1.22500, -0.84800, 1.34200, 0.72000, -0.72400, -1.33500, 0.84200, 1.23100};
    const linear_adjustment a(covariance_root(diagonal(3, 1e6)), reading_root(diagonal(8, 25e-6)), j, legs);
    const auto tests = tests_of(a);
    for (const auto& leg : tests.readings) { CHECK(published::within("redundancy of a leg", leg.redundancy, 0.625, 1e-6)); }
    CHECK(published::within("chi-square of 5", tests.square, 5.865, 5e-4));
    CHECK(published::within("chance of more", chi_square_tail(tests.square, 5), 0.320, 5e-4));
}

TEST_CASE("JCGM 100 H.3: a thermometer's correction as a line through 11 readings (results from memory)" *
          published::from_memory) {
    const std::array<double, 11> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511};
    const std::vector<double> b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160};
    matrix j(11, 2);
    for (std::size_t k = 0; k < 11; ++k) {
        j(k, 0) = 1;
        j(k, 1) = t[k] - 20;
    }
    // Doubts of the readings from their own scatter: a first adjustment with 1 tells it.
    const auto with = [&](double s) {
        return linear_adjustment(covariance_root(diagonal(2, 1e4)), reading_root(diagonal(11, s * s)), j, b);
    };
    const double s = std::sqrt(with(1e-3).square() * 1e-6 / 9);
    const auto a = with(s);
    const auto line = a.inputs_moved();
    const auto p = a.covariance();
    CHECK(published::within("scatter, deg C", s, 0.0035, 5e-5));
    CHECK(published::within("correction at 20 deg C", line[0], -0.1712, 5e-5));
    CHECK(published::within("its uncertainty", std::sqrt(p(0, 0)), 0.0029, 5e-5));
    CHECK(published::within("slope", line[1], 0.00218, 5e-6));
    CHECK(published::within("its uncertainty, a degree", std::sqrt(p(1, 1)), 0.00067, 5e-6));
    CHECK(published::within("their correlation", p(0, 1) / std::sqrt(p(0, 0) * p(1, 1)), -0.930, 5e-4));
    const std::vector<double> at_30{1, 10};
    CHECK(published::within("correction at 30 deg C", line[0] + 10 * line[1], -0.1494, 5e-5));
    CHECK(published::within("its uncertainty at 30 deg C", a.standard(at_30), 0.0041, 5e-5));
}
