// Inputs and readings adjusted as two kinds, against n + m stacked observations in exact fractions.

#include <tautline/doubt/reading_tests.hpp>

#include "published/board/table.hpp"
#include "published/record.hpp"

using namespace tautline;

namespace {

matrix read(table& t, std::size_t rows, std::size_t columns) {
    matrix m(rows, columns);
    for (std::size_t i = 0; i < rows; ++i) {
        for (std::size_t j = 0; j < columns; ++j) { m(i, j) = t.number(); }
    }
    return m;
}

std::vector<double> list(table& t, std::size_t count) { return read(t, count, 1).column(0); }

} // namespace

TEST_CASE("twenty-four adjustments as stacked observations in exact fractions, by Python (stacked_adjustments.txt)" *
          published::reference_program) {
    table t("stacked_adjustments.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        const auto n = static_cast<std::size_t>(t.whole()), m = static_cast<std::size_t>(t.whole());
        const matrix s = read(t, n, n), r = read(t, m, m), j = read(t, m, n);
        const linear_adjustment a(covariance_root(s), reading_root(r), j, list(t, m));
        const auto tests = tests_of(a);
        CAPTURE(cases);
        CHECK(published::relative("least sum of squares", tests.square, t.number(), 1e-9));
        const auto moved = a.inputs_moved(), theirs = list(t, n);
        const auto p = a.covariance();
        for (std::size_t i = 0; i < n; ++i) { CHECK(published::within("inputs moved", moved[i], theirs[i], 1e-9)); }
        for (std::size_t i = 0; i < n; ++i) {
            CHECK(published::relative("variances of inputs", p(i, i), t.number(), 1e-9));
        }
        for (std::size_t i = 0; i < n + m; ++i) {
            CHECK(published::within("w, of inputs too", tests.at(i).w, t.number(), 1e-7));
        }
        for (std::size_t i = 0; i < n + m; ++i) {
            CHECK(published::within("redundancies, of inputs too", tests.at(i).redundancy, t.number(), 1e-9));
        }
    }
    CHECK(cases == 24);
}
