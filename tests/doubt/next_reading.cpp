#include <tautline/doubt/next_reading.hpp>

#include <algorithm>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

using cheap::slopes;
const std::vector<double> result{0, 0, 0, 0.5, 0.5, -1, 0.5, -1};

/// With the readings of these numbers taken.
linear_adjustment with(const std::vector<std::size_t>& taken) {
    matrix j(taken.size(), 8);
    std::vector<double> doubts;
    for (std::size_t k = 0; k < taken.size(); ++k) {
        for (std::size_t i = 0; i < 8; ++i) { j(k, i) = slopes()(taken[k], i); }
        doubts.push_back(cheap::reading_doubts[taken[k]]);
    }
    return {covariance_root(matrix::squares(cheap::input_doubts)), reading_root(matrix::squares(doubts)), j,
            std::vector<double>(taken.size())};
}
std::vector<possible_reading> possible() {
    std::vector<possible_reading> all;
    const matrix j = slopes();
    for (std::size_t k = 0; k < 8; ++k) {
        all.push_back({std::vector<double>(j.row(k).begin(), j.row(k).end()), cheap::reading_doubts[k], 0});
    }
    return all;
}

} // namespace

TEST_SUITE("next reading") {
    TEST_CASE("what each would gain is what it gains when it is taken, the best first, then with it taken") {
        const auto now = with({0});
        const auto list = next_readings<double>(now, result, possible(), 3);
        REQUIRE(list.size() == 3);
        std::vector<std::size_t> taken{0};
        for (const auto& next : list) {
            double best = 1e9;
            for (std::size_t k = 0; k < 8; ++k) {
                if (std::find(taken.begin() + 1, taken.end(), k) != taken.end()) { continue; } // none is told twice
                auto more = taken;
                more.push_back(k);
                best = std::min(best, with(more).standard(result));
            }
            const double before = with(taken).standard(result);
            taken.push_back(next.reading);
            CHECK(near::relative(next.standard, with(taken).standard(result), 1e-10));
            CHECK(near::relative(next.share, 1 - std::pow(next.standard / before, 2), 1e-8));
            CHECK(near::relative(next.standard, best, 1e-10));
        }
    }
    TEST_CASE("information is half the logarithm of how much smaller the region of doubt becomes") {
        const auto one = next_readings<double>(with({0}), result, possible(), 1).front();
        const auto determinant = [](const linear_adjustment& a) {
            double d = 1;
            for (std::size_t i = 0; i < 8; ++i) { d *= a.factor()(i, i); }
            return d;
        };
        CHECK(near::within(one.information, std::log(determinant(with({0, one.reading})) / determinant(with({0}))), 1e-10));
    }
    TEST_CASE("of readings that gain alike the easier is told") {
        auto all = possible();
        all.push_back(all[3]);
        all[3].effort = 5;
        all.push_back(all[8]);
        all[8].standard *= 1.01;
        const auto hard = next_readings<double>(with({}), result, std::vector{all[3], all[8], all[9]}, 1);
        CHECK(hard.front().reading == 2); // as easy as the second and gains more
        all[9].effort = 6;
        const auto easy = next_readings<double>(with({}), result, std::vector{all[3], all[8], all[9]}, 1);
        CHECK(easy.front().reading == 1);
    }
    TEST_CASE("what gains nothing is not told, and no reading twice") {
        const std::vector<possible_reading> none{{std::vector<double>(8), 1, 0}};
        CHECK(next_readings<double>(with({}), result, none, 3).empty());
        auto list = next_readings<double>(with({}), result, possible(), 20);
        CHECK(list.size() <= 8);
        std::vector<bool> seen(8);
        for (const auto& r : list) {
            CHECK_FALSE(seen[r.reading]);
            seen[r.reading] = true;
        }
        CHECK(next_readings<double>(with({}), std::vector<double>(8), possible(), 1).empty());
        CHECK_THROWS_AS((void)next_readings<double>(with({}), result, std::vector<possible_reading>{{result, 0, 0}}, 1),
                        invalid_input);
    }
}
