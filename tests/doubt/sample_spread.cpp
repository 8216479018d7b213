#include <tautline/doubt/sample_spread.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("spread of a sample") {
    TEST_CASE("a normal doubt through a result that is nearly straight: mean, deviation and middle 95 %") {
        const strung_instrument on{demo::four_course(), demo::unison_pairs()};
        const std::vector<doubt> doubts{{"saddle.height_bass", 0.1 * mm, {{"saddle.height_bass"}}}};
        const std::vector<std::string> outputs{"strings[0].heights[11]", "relief.gap"};
        const auto table = sweep_sample(on, doubts, 4000, 11, outputs);
        const auto s = spread_of(table, 0);
        const auto results = propagate(on, doubts);
        const auto* r = find_result(results, outputs[0]);
        REQUIRE(r);
        // Of 4000 the mean is off by 1/63 of a deviation, the deviation itself by 1/89: each within four of these.
        CHECK(near::within(s.mean.si(), r->value.si(), 4 * r->standard().si() / 63));
        CHECK(near::within(s.standard.si(), r->standard().si(), 4 * r->standard().si() / 89));
        CHECK(near::within(s.high.si() - s.low.si(), 2 * 1.96 * r->standard().si(), 0.2 * r->standard().si()));
        CHECK_THROWS_AS((void)spread_of(table, 2), invalid_input);
    }
    TEST_CASE("the numbers one can count: mean, deviation, ends; rows that were refused do not count") {
        sweep_table t;
        t.outputs = {{"x", "length"}};
        t.rows = 5;
        t.numbers = {1, 2, std::numeric_limits<double>::quiet_NaN(), 3, 4};
        const auto s = spread_of(t, 0);
        CHECK(near::within(s.mean.si(), 2.5, 1e-12));
        CHECK(near::within(s.standard.si(), std::sqrt(5.0 / 3), 1e-12));
        CHECK(s.low.si() == 1);
        CHECK(s.high.si() == 3); // the place 0.975 of 3 begins
        t.numbers = {1, NAN, NAN, NAN, NAN};
        CHECK_FALSE(spread_of(t, 0).mean.has_value());
    }
}
