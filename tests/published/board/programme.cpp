// Linear programmes against scipy.optimize.linprog (HiGHS).

#include <tautline/board/levelling_plan.hpp>

#include "published/record.hpp"
#include "table.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("sixty random programmes against scipy.optimize.linprog (programmes.txt)" * published::reference_program) {
    table t("programmes.txt");
    int cases = 0, degenerate = 0;
    for (; t.more(); ++cases) {
        const auto n = static_cast<std::size_t>(t.whole()), m = static_cast<std::size_t>(t.whole());
        const int status = t.whole();
        const double value = t.number();
        linear_programme p;
        for (std::size_t j = 0; j < n; ++j) { p.objective.push_back(t.number()); }
        for (std::size_t i = 0; i < m; ++i) {
            p.rows.emplace_back();
            for (std::size_t j = 0; j < n; ++j) { p.rows.back().push_back(t.number()); }
        }
        for (std::size_t i = 0; i < m; ++i) { p.limits.push_back(t.number()); }
        for (std::size_t j = 0; j < n; ++j) { p.free.push_back(t.whole() == 1); }
        CAPTURE(cases);
        const auto r = solve_programme(p);
        CHECK(static_cast<int>(r.end) == static_cast<int>(status == 0   ? programme_end::optimal
                                                          : status == 2 ? programme_end::infeasible
                                                                        : programme_end::unbounded));
        if (status != 0 || r.end != programme_end::optimal) { continue; }
        degenerate += r.degenerate;
        CHECK(published::within("optimum", r.value, value, 1e-8));
        // The value belongs to the x, the x to the limits, and the multipliers prove that nothing is better.
        double at_x = 0, bound = 0;
        for (std::size_t j = 0; j < n; ++j) {
            at_x += p.objective[j] * r.x[j];
            CHECK((p.free[j] || r.x[j] > -1e-8));
        }
        for (std::size_t i = 0; i < m; ++i) {
            double left = 0;
            for (std::size_t j = 0; j < n; ++j) { left += p.rows[i][j] * r.x[j]; }
            CHECK(left <= p.limits[i] + 1e-8);
            CHECK(r.multipliers[i] >= 0);
            bound += r.multipliers[i] * p.limits[i];
        }
        for (std::size_t j = 0; j < n; ++j) {
            double price = 0;
            for (std::size_t i = 0; i < m; ++i) { price += r.multipliers[i] * p.rows[i][j]; }
            CHECK(price >= p.objective[j] - 1e-8);
        }
        CHECK(published::within("value at the solution", at_x, value, 1e-8));
        CHECK(published::within("bound from the multipliers", bound, value, 1e-8));
    }
    CHECK(cases == 60);
    CHECK(degenerate >= 3);
}

TEST_CASE("least total cut of sixteen boards against scipy.optimize.linprog (levellings.txt)" *
          published::reference_program) {
    table t("levellings.txt");
    int cases = 0;
    for (; t.more(); ++cases) {
        levelling job;
        job.crown = 1.2 * mm;
        job.scale.scale_length = t.number() * mm;
        job.scale.frets = t.whole();
        const int lines = t.whole();
        job.one_reference = t.whole() == 1;
        job.fall_away_from = t.whole();
        job.fall_away = t.number() * mm;
        job.relief = t.number() * mm;
        const double total = t.number();
        for (int k = 0; k < lines; ++k) {
            crest_line line{.path = {.x_at_saddle = job.scale.scale_length}};
            line.path.y_at_nut = t.number() * mm;
            line.path.y_at_saddle = t.number() * mm;
            for (int n = 1; n <= job.scale.frets; ++n) { line.crests.push_back({.fret = n, .height = t.number() * mm}); }
            job.lines.push_back(line);
        }
        CAPTURE(cases);
        CHECK(published::within("least total cut", plan_levelling(job).total_cut, total * mm, 1e-8 * mm));
    }
    CHECK(cases == 16);
}
