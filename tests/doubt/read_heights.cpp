#include <tautline/doubt/read_heights.hpp>

#include <doctest/doctest.h>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("read heights") {
    TEST_CASE("heights at pitch are told, with what is suspected; other readings and states are not") {
        reconciliation said;
        said.inputs.resize(2);
        const auto read = [&](const char* path, std::string_view state, const any_quantity& value, int fret) {
            reconciled_reading one;
            one.path = path;
            one.state = state;
            one.value = value;
            one.standard = 0.05 * mm;
            one.string_index = 3;
            one.fret = fret;
            said.readings.push_back(one);
        };
        read("relief.gap", pitch_state, 0.2 * mm, 0);
        read("strings[3].heights[11]", pitch_state, 2.4 * mm, 12);
        read("strings[3].heights[0]", slack_state, 0.6 * mm, 1);
        read("strings[3].heights[0]", pitch_state, 0.5 * mm, 1);
        suspicion one;
        one.places = {5}; // behind two inputs the fourth reading
        said.suspicions.push_back(one);
        const auto heights = heights_read(said);
        REQUIRE(heights.size() == 2);
        CHECK(heights[0].string_index == 3);
        CHECK(heights[0].fret == 12);
        CHECK(heights[0].height == 2.4 * mm);
        CHECK(heights[0].give_or_take / mm == doctest::Approx(0.1).epsilon(1e-12));
        CHECK_FALSE(heights[0].disagrees);
        CHECK(heights[1].fret == 1);
        CHECK(heights[1].disagrees);
    }
}
