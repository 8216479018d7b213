#include <tautline/action/coupling.hpp>

#include <vector>

#include <tautline/core/dual.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

// An invented top that sinks 0.005 mm for each newton under strings with a break of about 15 degrees.
struct soft_top {
    std::vector<double> gains{0.25, 0.26, 0.27, 0.26, 0.24, 0.25};
    std::vector<stiffness<double>> springs{};
    std::vector<force<double>> tensions{};
    string_table<compliance<double>> table{6};
    explicit soft_top(double give = 0.005) {
        for (int i = 0; i < 6; ++i) {
            springs.push_back((20000.0 + 3000 * i) / 0.8 * N_per_m);
            tensions.push_back((70.0 + 5 * i) * N);
        }
        add_shared_give(table, gains, give * mm_per_N);
    }
};

} // namespace

TEST_CASE("a top that does not give leaves the strings alone") {
    const auto m = tuning_coupling(soft_top(0).table, soft_top().springs, soft_top().tensions);
    for (std::size_t i = 0; i < 6; ++i) {
        for (std::size_t j = 0; j < 6; ++j) { CHECK(m.at(i, j) == (i == j ? 1.0 : 0.0)); }
    }
}

TEST_CASE("with one shared motion the coupling is that of springs on one platform") {
    // String j pulled tighter by dT_j presses the platform down; each other string slackens by its spring.
    const soft_top a;
    const auto m = tuning_coupling(a.table, a.springs, a.tensions);
    const double give = 0.005e-3;
    for (std::size_t j = 0; j < 6; ++j) {
        double holding = 1 / give; // platform and all strings but j hold against the pull of j
        for (std::size_t k = 0; k < 6; ++k) {
            if (k != j) { holding += a.gains[k] * a.gains[k] * a.springs[k].value(); }
        }
        for (std::size_t i = 0; i < 6; ++i) {
            if (i == j) { continue; }
            const double slack = -a.springs[i].value() * a.gains[i] * a.gains[j] / holding;
            CHECK(near::relative(m.at(i, j), slack * ratio(a.tensions[j], a.tensions[i]), 1e-9));
            CHECK(m.at(i, j) < -0.002); // of the usual size
            CHECK(m.at(i, j) > -0.02);
        }
        CHECK(m.at(j, j) == doctest::Approx(1));
    }
}

TEST_CASE("motions that turn add to those that sink") {
    soft_top a;
    const auto before = tuning_coupling(a.table, a.springs, a.tensions).at(0, 5);
    std::vector<length<double>> levers;
    for (int i = 0; i < 6; ++i) { levers.push_back((12 + i) * mm); }
    add_shared_turn(a.table, levers, 1500 * N_m_per_rad);
    CHECK(near::relative(a.table.at(1, 2), 0.26 * 0.27 * 0.005 * mm_per_N + 0.013 * 0.014 / 1500 * 1000 * mm_per_N, 1e-12));
    CHECK(tuning_coupling(a.table, a.springs, a.tensions).at(0, 5) < before);
}

TEST_CASE("property: a stiffer top couples less, and fewer rounds settle") {
    const std::vector<interval<double>> flat(6, -40 * cents);
    double last = -1;
    int passes = 100;
    for (const double give : {0.05, 0.02, 0.005, 0.001}) {
        const soft_top a(give);
        const auto m = tuning_coupling(a.table, a.springs, a.tensions);
        CHECK(m.at(0, 1) > last);
        last = m.at(0, 1);
        const auto settled = tuning_passes(m, flat);
        CHECK(settled.settled);
        CHECK(settled.worst / cents <= 1);
        CHECK(settled.passes <= passes);
        passes = settled.passes;
    }
    CHECK(passes <= 2); // a stiff top settles in a round or two
}

TEST_CASE("one string settles in one round, a tuned set in none, and a hopeless one gives up") {
    const string_table<double> alone = [] {
        string_table<double> t(1);
        t.at(0, 0) = 1;
        return t;
    }();
    CHECK(tuning_passes(alone, std::vector<interval<double>>{30 * cents}).passes == 1);
    CHECK(tuning_passes(alone, std::vector<interval<double>>{0.5 * cents}).passes == 0);
    string_table<double> mad(2);
    mad.at(0, 0) = mad.at(1, 1) = 1;
    mad.at(0, 1) = mad.at(1, 0) = -1.5;
    const auto r = tuning_passes(mad, std::vector<interval<double>>(2, 10 * cents), 1 * cents, 7);
    CHECK_FALSE(r.settled);
    CHECK(r.passes == 7);
}

TEST_CASE("a dual carries the derivative of the coupling with respect to the give") {
    using D = dual<double, 1>;
    const soft_top a;
    string_table<compliance<D>> table(6);
    std::vector<D> gains;
    std::vector<stiffness<D>> springs;
    std::vector<force<D>> tensions;
    for (std::size_t i = 0; i < 6; ++i) {
        gains.emplace_back(a.gains[i]);
        springs.push_back(over<D>(a.springs[i]));
        tensions.push_back(over<D>(a.tensions[i]));
    }
    add_shared_give(table, gains, compliance<D>::from_value(D::variable(5e-6, 0)));
    const auto at = [](double give) {
        const soft_top b(give * 1e3);
        return tuning_coupling(b.table, b.springs, b.tensions).at(2, 4);
    };
    const double h = 1e-9;
    CHECK(near::relative(tuning_coupling(table, springs, tensions).at(2, 4).partial[0],
                         (at(5e-6 + h) - at(5e-6 - h)) / (2 * h), 1e-6));
}

TEST_CASE("bad input is named") {
    soft_top a;
    CHECK_THROWS_AS(add_shared_give(a.table, std::vector<double>(5), 0.001 * mm_per_N), invalid_input);
    CHECK_THROWS_AS(add_shared_give(a.table, a.gains, -0.001 * mm_per_N), invalid_input);
    CHECK_THROWS_AS(add_shared_turn(a.table, std::vector<length<double>>(6), 0 * N_m_per_rad), invalid_input);
    a.springs[3] = 0 * N_per_m;
    CHECK_THROWS_WITH((void)tuning_coupling(a.table, a.springs, a.tensions),
                      "springs[3] is 0 N/mm; it must be more than 0 N/mm.");
    CHECK_THROWS_AS((void)tuning_coupling(string_table<compliance<double>>(0), {}, {}), invalid_input);
    CHECK_THROWS_AS((void)tuning_passes(string_table<double>(2), std::vector<interval<double>>(3)), invalid_input);
}

TEST_CASE("each table and each string is looked at") {
    soft_top a;
    CHECK_THROWS_WITH(add_shared_turn(a.table, std::vector<length<double>>(5), 1500 * N_m_per_rad),
                      "levers must have one entry for each string.");
    a.tensions[2] = 0 * N;
    CHECK_THROWS_WITH((void)tuning_coupling(a.table, a.springs, a.tensions),
                      "tensions[2] is 0 N; it must be more than 0 N.");
    soft_top b;
    b.table.at(0, 1) = std::nan("") * mm_per_N;
    CHECK_THROWS_WITH((void)tuning_coupling(b.table, b.springs, b.tensions),
                      "shortening is not a number; it must be a finite number.");
    const string_table<double> two(2);
    std::vector<interval<double>> start(2, 10 * cents);
    CHECK_THROWS_WITH((void)tuning_passes(two, start, 0 * cents), "tolerance is 0 cents; it must be more than 0 cents.");
    start[1] = 1300 * cents;
    CHECK_THROWS_WITH((void)tuning_passes(two, start),
                      "start[1] is 1300 cents; it must be at least -1200 cents and at most 1200 cents.");
}
