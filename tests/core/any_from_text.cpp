#include <doctest/doctest.h>
#include <tautline/core/any_from_text.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("any from text") {
    TEST_CASE("a text is a quantity of the kind it is wanted as, or nothing") {
        CHECK(parse_any("length", "12 thou")->as<length<>>() / thou == doctest::Approx(12).epsilon(1e-15));
        CHECK(parse_any("force", "70 N")->as<force<>>() == 70 * N);
        CHECK(parse_any("angle", "14 deg")->as<angle<>>() == 14 * deg);
        CHECK(parse_any("interval", "-3")->as<interval<>>().cents() == -3);
        CHECK(parse_any("interval", "-3 cents")->as<interval<>>().cents() == -3);
        CHECK_FALSE(parse_any("interval", "-3 mm"));
        CHECK(parse_any("number", " 0.35 ")->as<double>() == 0.35);
        CHECK(parse_any("number", "1/2")->as<double>() == 0.5);
        CHECK(parse_any("number", "1e-3")->as<double>() == 1e-3);
        CHECK(parse_any("number", "-2.5E+10 ")->as<double>() == -2.5e10);
        CHECK(parse_any("interval", "1e1")->as<interval<>>().cents() == 10);
        CHECK(parse_any("number", "1e99")->as<double>() == doctest::Approx(1e99).epsilon(1e-15));
        for (const char* text : {"", "12", "12 N", "mm", "12 mm mm", "nan mm", "inf mm", "0x10 mm"}) {
            CHECK_MESSAGE(!parse_any("length", text), text);
        }
        for (const char* text : {"", "three", "3 cents", "nan", "inf", "1e", "1e400"}) {
            CHECK_MESSAGE(!parse_any("number", text), text);
        }
        CHECK_FALSE(parse_any("hat size", "7"));
        CHECK(parse_any("second_moment", "5000 mm^4")->si() == doctest::Approx(5e-9).epsilon(1e-14));
    }
    TEST_CASE("a measured one of a kind that is known at run time only") {
        const auto q = parse_any_measured("length", "0.30 ± 0.05 mm");
        REQUIRE(q);
        CHECK(q->best.as<length<>>() / mm == doctest::Approx(0.3));
        CHECK(q->give_or_take.as<length<>>() / mm == doctest::Approx(0.05));
        CHECK_FALSE(parse_any_measured("length", "0.30 mm")->give_or_take.has_value());
        // Said to be sure is not the same as nothing said.
        CHECK(parse_any_measured("length", "0.30 ± 0 mm")->give_or_take.si() == 0);
        for (const char* text : {"-3 ± 2", "-3 ± 2 cents", "-3 cents +- 2 cents", " -3 +/- 2"}) {
            CAPTURE(text);
            const auto off = parse_any_measured("interval", text);
            REQUIRE(off);
            CHECK(off->best.as<interval<>>().cents() == -3);
            CHECK(off->give_or_take.as<interval<>>().cents() == 2);
        }
        CHECK_FALSE(parse_any_measured("interval", "4 cents")->give_or_take.has_value());
        CHECK(parse_any_measured("number", "3 ± 0.5")->give_or_take.si() == 0.5);
        for (const char* text : {"", "3 ±", "± 2", "3 ± -1", "3 ± 2 mm", "3 ± 2 cents more", "mm"}) {
            CHECK_MESSAGE(!parse_any_measured("interval", text), text);
        }
        CHECK_FALSE(parse_any_measured("length", "2 cents"));
        CHECK_FALSE(parse_any_measured("hat size", "7 ± 1"));
    }
    TEST_CASE("a text that is none is a mistake, told with what is to be typed") {
        CHECK(any_from_text("force", "70 N", "pull") == any_quantity(70 * N));
        CHECK_THROWS_WITH((void)any_from_text("force", "70", "pull"),
                          "pull is \"70\"; it must be a force with its unit (N, lbf, kgf).");
        CHECK_THROWS_WITH((void)any_from_text("number", "wide", "share"), "share is \"wide\"; it must be a number.");
    }
    TEST_CASE("what is typed for it, in words") {
        CHECK(typed_as("force") == "a force with its unit (N, lbf, kgf)");
        CHECK(typed_as("angle").starts_with("an angle with its unit (deg"));
        CHECK(typed_as("linear_density").starts_with("a linear density with"));
        CHECK(typed_as("interval") == "a number of cents");
        CHECK(typed_as("number") == "a number");
    }
}
