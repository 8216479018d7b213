#include <tautline/core/quantity_text.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("quantity_text") {
    TEST_CASE("lengths as rules, calipers and drawings write them") {
        const auto is = [](std::string_view text, length<> want) {
            const auto got = parse_quantity<length<>>(text);
            REQUIRE_MESSAGE(got.has_value(), text);
            CHECK(near::relative(*got, want, 1e-14));
        };
        is("25 1/2 in", 25.5 * inch);
        is("25-1/2 in", 25.5 * inch);
        is("25.5\"", 25.5 * inch);
        is("5/64 in", 5.0 / 64 * inch);
        is(".012 in", 12 * thou);
        is("12 thou", 12 * thou);
        is("43mm", 43 * mm);
        is("  43  mm ", 43 * mm);
        is("-0.3 mm", -0.3 * mm);
        is("+0.3 mm", 0.3 * mm);
        is("64 cm", 640 * mm);
        is("0.65 m", 650 * mm);
    }
    TEST_CASE("what is not a quantity of the kind is not taken for one") {
        for (const char* text : {"",          " ",      "12",       "mm",      "12 furlongs",
                                 "twelve mm", "1/0 in", "1 1/0 in", "1..2 mm", "1 2 mm",
                                 "12 mm mm",  "--3 mm", "1e3 mm",   "nan mm",  "inf mm",
                                 "12 N",      "5/ in",  "/5 in",    "1 /2 in", "9999999999999999999 mm",
                                 "12 MM"}) {
            CHECK_MESSAGE(!parse_quantity<length<>>(text), text);
        }
    }
    TEST_CASE("other kinds have their own units") {
        CHECK(near::relative(*parse_quantity<force<>>("16 lbf"), 16 * lbf, 1e-15));
        CHECK(near::relative(*parse_quantity<angle<>>("9.5 deg"), 9.5 * deg, 1e-15));
        CHECK(near::relative(*parse_quantity<angle<>>("9.5°"), 9.5 * deg, 1e-15));
        CHECK(near::relative(*parse_quantity<stress<>>("10.9 GPa"), 10900 * MPa, 1e-15));
        CHECK(near::relative(*parse_quantity<linear_density<>>("0.401 g/m"), 0.401 * g_per_m, 1e-15));
        CHECK(near::relative(*parse_quantity<frequency<>>("440 Hz"), 440 * Hz, 1e-15));
        CHECK(!parse_quantity<force<>>("16 mm"));
    }
    TEST_CASE("measured values carry how far they may be off") {
        const auto is = [](std::string_view text, length<> best, length<> doubt) {
            const auto got = parse_measured<length<>>(text);
            REQUIRE_MESSAGE(got.has_value(), text);
            CHECK(near::relative(got->best, best, 1e-14));
            CHECK(near::relative(got->give_or_take, doubt, 1e-14));
        };
        is("43 mm", 43 * mm, 0 * mm);
        is("43 ± 0.1 mm", 43 * mm, 0.1 * mm);
        is("43 mm ± 0.1 mm", 43 * mm, 0.1 * mm);
        is("0.3 mm +- 0.05", 0.3 * mm, 0.05 * mm);
        is("25 1/2 in +/- 1/64 in", 25.5 * inch, 1.0 / 64 * inch);
        is("12 thou ± 0.01 mm", 12 * thou, 0.01 * mm);
        is("-0.1 ± 0.02 mm", -0.1 * mm, 0.02 * mm);
        for (const char* text :
             {"43 ± 0.1", "43 ± mm", "± 0.1 mm", "43 mm ± -0.1 mm", "43 N ± 0.1 mm", "43 mm ± 0.1 ± 0.1 mm", "43 mm +"}) {
            CHECK_MESSAGE(!parse_measured<length<>>(text), text);
        }
    }
    TEST_CASE("reading works in constant expressions") {
        static_assert(parse_quantity<length<>>("25 1/2 in")->value() > 0.6476);
        static_assert(!parse_quantity<length<>>("25 1/2"));
    }
    TEST_CASE("printing") {
        CHECK(fixed_text(1.849 * mm, mm, 2) == "1.85");
        CHECK(fixed_text(-0.001 * mm, mm, 2) == "0.00");
        CHECK(fixed_text(-0.006 * mm, mm, 2) == "-0.01");
        CHECK(inch_fraction_text(25.5 * inch) == "25 1/2");
        CHECK(inch_fraction_text(5.0 / 64 * inch) == "5/64");
        CHECK(inch_fraction_text(-0.125 * inch) == "-1/8");
        CHECK(inch_fraction_text(0 * mm) == "0");
        CHECK(inch_fraction_text(0.9999 * inch) == "1");
        CHECK(inch_fraction_text(25.3 * inch, 16) == "25 5/16");
        CHECK(inch_fraction_text(0.3 * inch, 128) == "19/64"); // 38 parts of 128
        CHECK(inch_fraction_text(0.4 * inch, 1) == "0");
        CHECK_THROWS_AS((void)inch_fraction_text(1 * inch, 10), invalid_input);
    }
    TEST_CASE("a fraction printed and read again is the nearest 64th") {
        std::mt19937 random(7);
        std::uniform_real_distribution<double> anywhere(-40, 40);
        for (int i = 0; i < 500; ++i) {
            const auto q = anywhere(random) * inch;
            const auto again = parse_quantity<length<>>(inch_fraction_text(q) + " in");
            REQUIRE(again.has_value());
            CHECK(std::abs((*again - q) / inch) <= 0.5 / 64 + 1e-12);
        }
    }
}
