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
        is("6.5e2 mm", 650 * mm);
        is("12E-3 in", 12 * thou);
        is("-3e+1 mm", -30 * mm);
        is("12/8 in", 1.5 * inch); // a fraction alone may be of any size
        is("1 15/16 in", 1.9375 * inch);
        is("0 5/64 in", 5.0 / 64 * inch);
    }
    TEST_CASE("a fraction that cannot be meant is told as one") {
        CHECK_THROWS_WITH(
            (void)quantity_from_text<length<>>("5 12/8 in"),
            doctest::Contains("; a fraction behind a number must be less than 1 and the number whole, as in 25 "
                              "1/2."));
        CHECK(about_fractions("12 furlongs").empty());
        CHECK(about_fractions("12 N/mm").empty());
        CHECK(about_fractions("/8").empty());
    }
    TEST_CASE("what is not a quantity of the kind is not taken for one") {
        for (const char* text : {"",           " ",           "12",
                                 "mm",         "12 furlongs", "twelve mm",
                                 "1/0 in",     "1 1/0 in",    "1..2 mm",
                                 "1 2 mm",     "12 mm mm",    "--3 mm",
                                 "1e mm",      "nan mm",      "inf mm",
                                 "1e100 mm",   "e3 mm",       "1e-+3 mm",
                                 "1e3 1/2 mm", "1e1/2 mm",    "1/2e3 mm",
                                 "1e2.5 mm",   "12 N",        "5/ in",
                                 "/5 in",      "1 /2 in",     "9999999999999999999 mm",
                                 "12 MM",      "1.5 7/8 in",  "5 12/8 in",
                                 "22 9/8 in",  "3 8/8 in",    "2. 1/2 in",
                                 "1.5-7/8 in", "5 1.5/2 in",  "5 1/2.5 in"}) {
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
    TEST_CASE("every kind is read in the unit that messages print it in") {
        const auto read = []<class U>(U) {
            const std::string text = "2.5 " + std::string(kind<U>::symbol);
            const auto got = parse_quantity<bu::quantity<U, double>>(text);
            REQUIRE_MESSAGE(got.has_value(), text);
            CHECK(near::relative(got->value(), 2.5 * static_cast<double>(kind<U>::size), 1e-15));
            CHECK(std::string_view(spelling::of<U>::list[0].spelled).find(' ') != 0);
        };
        read(unit::length()), read(unit::area()), read(unit::volume()), read(unit::mass()), read(unit::duration());
        read(unit::frequency()), read(unit::velocity()), read(unit::acceleration()), read(unit::force());
        read(unit::stress()), read(unit::density()), read(unit::angle()), read(unit::curvature());
        read(unit::linear_density()), read(unit::stiffness()), read(unit::compliance()), read(unit::moment());
        read(unit::rotational_stiffness()), read(unit::second_moment()), read(unit::flexural_rigidity());
        read(unit::thermal_expansion()), read(unit::temperature_difference());
        // A unit that begins with a figure is no fraction of an inch.
        CHECK(near::relative(*parse_quantity<curvature<>>("3 1/m"), 3 * per_metre, 1e-15));
        CHECK(near::relative(*parse_quantity<curvature<>>("3 1/2 1/m"), 3.5 * per_metre, 1e-15));
        CHECK(near::relative(*parse_quantity<length<>>("3 1/2 m"), 3.5 * metre, 1e-15));
        CHECK(!parse_quantity<length<>>("3 1/ m"));
    }
    TEST_CASE("a text that is no quantity is told with the units that are understood") {
        CHECK(near::relative(quantity_from_text<length<>>("25 1/2 in"), 25.5 * inch, 1e-15));
        static_assert(quantity_from_text<force<>>("16 N").value() == 16);
        CHECK_THROWS_WITH((void)quantity_from_text<force<>>("16"),
                          "force is \"16\"; it must be a number with its unit (N, lbf, kgf).");
        CHECK_THROWS_WITH((void)quantity_from_text<force<>>("16 mm", "pull"),
                          "pull is \"16 mm\"; it must be a number with its unit (N, lbf, kgf).");
        CHECK_THROWS_WITH((void)quantity_from_text<rotational_stiffness<>>("", ""),
                          "rotational stiffness is \"\"; it must be a number with its unit (N m/rad).");
        CHECK_THROWS_WITH((void)quantity_from_text<linear_density<>>("1 g", "mass_per_length"),
                          doctest::Contains("mass_per_length is \"1 g\""));
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
