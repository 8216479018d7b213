#include <tautline/core/linear_programme.hpp>

#include <algorithm>
#include <random>

#include "near.hpp"

using namespace tautline;

namespace {

/// The best corner of two variables by trying every pair of limits, the axes included; none: no corner is allowed.
struct corner {
    bool any = false;
    double value = 0;
};
corner best_corner(linear_programme p) {
    for (const auto& axis : {std::vector<double>{-1, 0}, std::vector<double>{0, -1}}) {
        p.rows.push_back(axis);
        p.limits.push_back(0);
    }
    corner best;
    for (std::size_t i = 0; i < p.rows.size(); ++i) {
        for (std::size_t j = i + 1; j < p.rows.size(); ++j) {
            const auto &a = p.rows[i], &b = p.rows[j];
            const double det = a[0] * b[1] - a[1] * b[0];
            if (std::abs(det) < 1e-12) { continue; }
            const double x = (p.limits[i] * b[1] - a[1] * p.limits[j]) / det;
            const double y = (a[0] * p.limits[j] - p.limits[i] * b[0]) / det;
            bool allowed = true;
            for (std::size_t k = 0; k < p.rows.size(); ++k) {
                allowed = allowed && p.rows[k][0] * x + p.rows[k][1] * y <= p.limits[k] + 1e-9;
            }
            const double value = p.objective[0] * x + p.objective[1] * y;
            if (allowed && (!best.any || value > best.value)) { best = {true, value}; }
        }
    }
    return best;
}

} // namespace

TEST_CASE("programme: property, the best corner of two variables by enumeration") {
    std::mt19937 random(17);
    std::uniform_int_distribution<int> whole(-4, 6);
    int optimal = 0, infeasible = 0;
    for (int i = 0; i < 500; ++i) {
        linear_programme p{.objective = {double(whole(random)), double(whole(random))}};
        for (int k = 0; k < 6; ++k) {
            p.rows.push_back({double(whole(random)), double(whole(random))});
            p.limits.push_back(whole(random));
        }
        p.rows.push_back({1, 1}); // bounded, so that the best is a corner
        p.limits.push_back(20);
        const auto by_hand = best_corner(p);
        const auto r = solve_programme(p);
        CHECK((r.end == programme_end::optimal) == by_hand.any);
        if (!by_hand.any) {
            CHECK(r.end == programme_end::infeasible);
            ++infeasible;
            continue;
        }
        ++optimal;
        CHECK(near::within(r.value, by_hand.value, 1e-8));
    }
    CHECK(optimal > 50);
    CHECK(infeasible > 20);
}

TEST_CASE("programme: unbounded, infeasible, no rows, no variables") {
    CHECK(solve_programme({.objective = {1, 0}, .rows = {{0, 1}}, .limits = {1}}).end == programme_end::unbounded);
    CHECK(solve_programme({.objective = {1}, .rows = {{1}}, .limits = {-1}}).end == programme_end::infeasible);
    CHECK(solve_programme({.objective = {-1}, .rows = {{1}}, .limits = {-1}, .free = {true}}).end ==
          programme_end::unbounded);
    CHECK(solve_programme({.objective = {1}, .rows = {{1}}, .limits = {-1}, .free = {true}}).value == -1);
    CHECK(solve_programme({.objective = {-1}}).end == programme_end::optimal);
    CHECK(solve_programme({.objective = {1}}).end == programme_end::unbounded);
    CHECK(solve_programme({}).end == programme_end::optimal);
    CHECK(solve_programme({.objective = {}, .rows = {{}}, .limits = {-1}}).end == programme_end::infeasible);
}

TEST_CASE("programme: says whether other places are as good, and whether the corner is overdetermined") {
    const auto one = solve_programme({.objective = {2, 1}, .rows = {{1, 0}, {0, 1}}, .limits = {3, 4}});
    CHECK(one.unique);
    CHECK_FALSE(one.degenerate);
    CHECK(one.multipliers == std::vector<double>{2, 1});
    CHECK(one.tight.size() == 2);
    const auto edge = solve_programme({.objective = {1, 1}, .rows = {{1, 1}}, .limits = {3}});
    CHECK(near::within(edge.value, 3, 1e-12));
    CHECK_FALSE(edge.unique);
    const auto over = solve_programme({.objective = {2, 1}, .rows = {{1, 0}, {0, 1}, {1, 1}}, .limits = {3, 4, 7}});
    CHECK(over.degenerate);
    CHECK(near::within(over.value, 10, 1e-12));
}

TEST_CASE("programme: the example on which the steepest rule goes round in circles ends by Bland's rule (Chvatal, Linear "
          "Programming, ch. 3, from memory)") {
    const auto r = solve_programme({.objective = {10, -57, -9, -24},
                                    .rows = {{0.5, -5.5, -2.5, 9}, {0.5, -1.5, -0.5, 1}, {1, 0, 0, 0}},
                                    .limits = {0, 0, 1}});
    CHECK(r.end == programme_end::optimal);
    CHECK(near::within(r.value, 1, 1e-9));
}

TEST_CASE("programme: a wider number gives the same best, closer") {
    // 7x + 11y under 3x + 7y <= 10, 5x + 2y <= 8: both limits meet in the best, x = 36/29, y = 26/29.
    const auto best = [](auto one) {
        using R = decltype(one);
        return solve_programme(
            basic_linear_programme<R>{.objective = {7, 11}, .rows = {{3, 7}, {5, 2}}, .limits = {10, 8}});
    };
    CHECK(near::within(best(1.0).x[0], 36.0 / 29, 1e-14));
    CHECK(std::abs(best(1.0L).x[0] - 36.0L / 29) < 1e-17L);
    CHECK(std::abs(best(1.0L).value - 538.0L / 29) < 1e-15L);
}
