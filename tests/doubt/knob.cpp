#include <tautline/doubt/knob.hpp>

#include <doctest/doctest.h>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("knob") {
    TEST_CASE("equal steps, both ends included") {
        const knob k = knob_between("saddle.height_bass", 17 * mm, 20 * mm, 4);
        REQUIRE(k.values.size() == 4);
        for (std::size_t i = 0; i < 4; ++i) {
            CHECK(k.values[i].as<length<>>() / mm == doctest::Approx(17 + static_cast<double>(i)).epsilon(1e-14));
        }
        CHECK(k.values.back().as<length<>>() == 20 * mm);
        const knob one = knob_between("saddle.height_bass", 17 * mm, 20 * mm, 1);
        REQUIRE(one.values.size() == 1);
        CHECK(one.values[0] == any_quantity(17 * mm));
        CHECK_THROWS_AS((void)knob_between("saddle.height_bass", 17 * mm, 20 * N, 2), invalid_input);
    }
    TEST_CASE("values as somebody types them") {
        const knob k = knob_through("standard.a4", "frequency", "432 Hz, 440 Hz ,0.415 kHz", "a4");
        CHECK(k.path == "standard.a4");
        REQUIRE(k.values.size() == 3);
        CHECK(k.values[0] == any_quantity(432 * Hz));
        CHECK(k.values[1] == any_quantity(440 * Hz));
        CHECK(k.values[2].si() == doctest::Approx(415).epsilon(1e-14));
        CHECK(knob_through("neck.back_exponent", "number", "1e-1", "roundness").values.at(0).si() == 0.1);
        CHECK_THROWS_WITH((void)knob_through("standard.a4", "frequency", "440 Hz,", "a4"),
                          "a4 is \"\"; it must be a frequency with its unit (Hz, kHz).");
        CHECK_THROWS_WITH((void)knob_through("standard.a4", "frequency", "", "a4"),
                          "a4 is \"\"; it must be a frequency with its unit (Hz, kHz).");
        CHECK_THROWS_WITH((void)knob_through("standard.a4", "frequency", "440 Hz, 12 mm", "a4"),
                          "a4 is \"12 mm\"; it must be a frequency with its unit (Hz, kHz).");
    }
}
