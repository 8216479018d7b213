#include <tautline/doubt/what_readings_do.hpp>

#include "cheap_neck.hpp"
#include "near.hpp"

using namespace tautline;

namespace {

using cheap::slopes;
const std::vector<double> misfit{0.05, -0.02, 0.01, 0.1, -0.05, 0.03, 0.02, 0.2};
const std::vector<double> asked{0.1, 1, -0.5, 0.5, 0.2, -0.5, 0.4, -1};

} // namespace

TEST_SUITE("what readings do") {
    TEST_CASE("contributions of inputs and readings squared sum to the variance") {
        const auto a = cheap::adjusted(misfit);
        double sum = 0;
        for (const double c : contributions_to<double>(a, asked)) { sum += c * c; }
        CHECK(near::relative(std::sqrt(sum), a.standard(asked), 1e-12));
    }
    TEST_CASE("contributions of what errs together: with the correlations they are the variance") {
        auto s = matrix::squares(cheap::input_doubts), r = matrix::squares(cheap::reading_doubts);
        s(3, 4) = s(4, 3) = 0.7 * cheap::input_doubts[3] * cheap::input_doubts[4];
        r(3, 4) = r(4, 3) = 0.5 * cheap::reading_doubts[3] * cheap::reading_doubts[4];
        const linear_adjustment a(covariance_root(s), reading_root(r), slopes(), misfit);
        const auto c = contributions_to<double>(a, asked);
        double sum = 2 * 0.7 * c[3] * c[4] + 2 * 0.5 * c[11] * c[12];
        for (const double x : c) { sum += x * x; }
        CHECK(near::relative(std::sqrt(sum), a.standard(asked), 1e-12));
    }
    TEST_CASE("worked out once for many results, the same as for each") {
        const auto a = cheap::adjusted(misfit);
        const contribution_map map(a);
        auto other = asked;
        other[1] = 0;
        for (const auto& slopes_of_one : {asked, other}) {
            const auto each = contributions_to<double>(a, slopes_of_one), mapped = map.to(slopes_of_one);
            REQUIRE(each.size() == mapped.size());
            for (std::size_t i = 0; i < each.size(); ++i) { CHECK(near::within(mapped[i], each[i], 1e-13)); }
        }
        CHECK_THROWS_AS((void)map.to(std::vector<double>(3)), invalid_input);
    }
    TEST_CASE("without a reading: as the adjustment that never had it") {
        const auto a = cheap::adjusted(misfit);
        const auto tests = tests_of(a);
        const double with = kernel::dot(asked, a.inputs_moved());
        for (std::size_t out = 0; out < 8; ++out) {
            auto doubts = cheap::reading_doubts, left = misfit;
            doubts[out] = 1e6;
            const linear_adjustment none(covariance_root(matrix::squares(cheap::input_doubts)),
                                         reading_root(matrix::squares(doubts)), slopes(), left);
            const auto w = without_reading<double>(a, tests, asked, 8 + out);
            CHECK(near::within(w.standard, none.standard(asked), 1e-9));
            CHECK(near::within(with + w.change, kernel::dot(asked, none.inputs_moved()), 1e-8));
            // An input as if it had not been read: of a very wide doubt.
            auto own = cheap::input_doubts;
            own[out] = 1e5;
            const linear_adjustment wide(covariance_root(matrix::squares(own)),
                                         reading_root(matrix::squares(cheap::reading_doubts)), slopes(), misfit);
            const auto i = without_reading<double>(a, tests, asked, out);
            CHECK(near::within(i.standard, wide.standard(asked), 1e-6));
            CHECK(near::within(with + i.change, kernel::dot(asked, wide.inputs_moved()), 1e-6));
        }
        CHECK_THROWS_AS((void)without_reading<double>(a, tests, asked, 16), invalid_input);
    }
    TEST_CASE("what was learnt: the share of doubt left, and what readings decide") {
        const auto all = learnt_of(cheap::adjusted(misfit));
        const auto p = cheap::adjusted(misfit).covariance();
        for (std::size_t i = 0; i < 8; ++i) {
            CHECK(near::relative(all[i].standard, std::sqrt(p(i, i)), 1e-12));
            CHECK(near::relative(all[i].left * cheap::input_doubts[i], all[i].standard, 1e-12));
            // A = 1 - P/S where inputs do not err together.
            CHECK(near::within(all[i].decided, 1 - p(i, i) / (cheap::input_doubts[i] * cheap::input_doubts[i]), 1e-10));
        }
    }
    TEST_CASE("two inputs of one sum are only found together, one that nothing reads was not learnt") {
        const linear_adjustment a(covariance_root(matrix::squares(std::vector<double>{1, 1, 1})),
                                  reading_root(matrix(1, 1, {1e-4})), matrix(1, 3, {1, 1, 0}), {0.3});
        const auto all = learnt_of(a);
        CHECK(all[0].together == std::vector<std::size_t>{1});
        CHECK(all[1].together == std::vector<std::size_t>{0});
        CHECK(all[2].together.empty());
        CHECK(all[2].left == 1);
        CHECK(all[2].decided == 0);
        CHECK(near::within(all[0].left, std::sqrt(0.5), 1e-3));
        CHECK(near::within(all[0].decided, 0.5, 1e-3));
    }
}
