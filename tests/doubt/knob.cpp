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
    TEST_CASE("ends and a count as somebody types them") {
        const auto typed = [](const char* from, const char* to, const char* count) {
            return knob_between("saddle.height_bass", "length", from, to, count, "vary");
        };
        CHECK(typed("17 mm", "2 cm", "4").values == knob_between("saddle.height_bass", 17 * mm, 20 * mm, 4).values);
        CHECK(typed("17 mm", "2 cm", "100000").values.size() == most_knob_values);
        CHECK_THROWS_WITH((void)typed("17 N", "2 cm", "4"),
                          doctest::Contains("vary, from, is \"17 N\"; it must be a length"));
        CHECK_THROWS_WITH((void)typed("17 mm", "", "4"), doctest::Contains("vary, to, is \"\"; it must be a length"));
        for (const char* count : {"0", "2.5", "-1", "100001"}) {
            CAPTURE(count);
            CHECK_THROWS_WITH((void)typed("17 mm", "2 cm", count),
                              doctest::Contains("it must be a whole number, 1 to 100000."));
        }
        CHECK_THROWS_AS((void)typed("17 mm", "2 cm", "nan"), invalid_input);
    }
    TEST_CASE("knobs together make as many variants as their values multiplied, up to a limit") {
        const knob two = knob_between("a", 1 * mm, 2 * mm, 2), many = knob_between("b", 1 * mm, 2 * mm, 1'000'000),
                   more = knob_between("c", 1 * mm, 2 * mm, 1'000'001);
        CHECK(variants_of(std::vector<knob>{}) == 1);
        CHECK(variants_of(std::vector{two, two, two}) == 8);
        CHECK(variants_of(std::vector{two, many}) == most_variants);
        CHECK_THROWS_WITH((void)variants_of(std::vector{two, more}),
                          "what is varied must make at most 2000000 variants together.");
        CHECK_THROWS_AS((void)variants_of(std::vector{many, many, many, many}), invalid_input); // no count holds that
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
