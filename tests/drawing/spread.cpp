// Labels moved apart.
#include <random>

#include <doctest/doctest.h>

#include <spread.hpp>

using drawing::spread_apart;

TEST_CASE("labels with room stay, others part about their middle") {
    CHECK(spread_apart({}, 3).empty());
    CHECK(spread_apart({1, 5, 9}, 3) == std::vector<double>{1, 5, 9});
    CHECK(spread_apart({0, 0}, 2) == std::vector<double>{-1, 1});
    CHECK(spread_apart({0, 0, 0, 40}, 2) == std::vector<double>{-2, 0, 2, 40});
}
TEST_CASE("no other arrangement lies nearer") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> place(0, 60), nudge(-0.5, 0.5);
    for (int round = 0; round < 200; ++round) {
        std::vector<double> wanted(2 + random() % 20);
        for (double& w : wanted) { w = place(random); }
        std::sort(wanted.begin(), wanted.end());
        const auto at = spread_apart(wanted, 3);
        const auto cost = [&](const std::vector<double>& x) {
            double sum = 0;
            for (std::size_t i = 0; i < x.size(); ++i) { sum += (x[i] - wanted[i]) * (x[i] - wanted[i]); }
            return sum;
        };
        REQUIRE(at.size() == wanted.size());
        for (std::size_t i = 1; i < at.size(); ++i) { CHECK(at[i] - at[i - 1] >= 3 - 1e-9); }
        for (int other = 0; other < 50; ++other) {
            std::vector<double> x = at;
            for (std::size_t i = 0; i < x.size(); ++i) {
                x[i] += nudge(random);
                if (i > 0) { x[i] = std::max(x[i], x[i - 1] + 3); }
            }
            CHECK(cost(at) <= cost(x) + 1e-9);
        }
        const auto inside = drawing::spread_within(wanted, 3, 0, 70);
        for (std::size_t i = 0; i < inside.size(); ++i) { CHECK((inside[i] >= -1e-9 && inside[i] <= 70 + 1e-9)); }
    }
}
