#include <tautline/instrument/ordered_string.hpp>

#include <doctest/doctest.h>

#include <tautline/core/leaves.hpp>
#include <tautline/strings/tension.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::string wrong(const ordered_string& s) {
    std::string text;
    for (const problem& p : validate(s, "strings[0]")) { text += p.sentence() + "\n"; }
    return text;
}
const ordered_string plain{.note = "E4", .gauge = 11 * thou};
const ordered_string wound{.note = "G2", .gauge = 39 * thou, .core = 18 * thou, .wrap = "phosphor bronze"};

} // namespace

TEST_SUITE("ordered strings") {
    TEST_CASE("an order makes the string that its names say") {
        CHECK(wrong(plain).empty());
        CHECK(wrong(wound).empty());
        const auto p = made_string(plain);
        CHECK(p.core.diameter == 11 * thou);
        CHECK(p.layers.empty());
        CHECK(p.core.material.name == music_wire().name);
        const auto w = made_string(wound);
        CHECK(near::within(gauge(w), 39 * thou, 1e-9 * mm));
        CHECK(w.core.diameter == 18 * thou);
        REQUIRE(w.layers.size() == 1);
        CHECK(w.layers[0].material.name == phosphor_bronze().name);
    }
    TEST_CASE("what is wrong is told with key, value and what would be right") {
        auto s = plain;
        s.note = "H4";
        CHECK(wrong(s).find("strings[0].note is \"H4\"; it must be a letter A to G") == 0);
        s = plain;
        s.material = "cheese";
        CHECK(wrong(s).find("strings[0].material is \"cheese\"; it must be one of: music wire, ") == 0);
        s = wound;
        s.wrap = "tin";
        CHECK(wrong(s).find("strings[0].wrap is \"tin\"; it must be one of: ") == 0);
        s = wound;
        s.core = 40 * thou;
        CHECK(wrong(s) == "strings[0].core must be less than the string's gauge.\n");
        s = plain;
        s.wrap = "nickel";
        CHECK(wrong(s).find("strings[0].core must be given: a wound string needs both a core") == 0);
        s = plain;
        s.core = 8 * thou;
        CHECK(wrong(s).find("strings[0].wrap must be given: ") == 0);
        CHECK(wrong(ordered_string()).find("strings[0].note is not given; it must be text.") == 0);
        CHECK(wrong(ordered_string()).find("strings[0].gauge is not given, or not a number; it must be at least 0.1 mm") !=
              std::string::npos);
    }
    TEST_CASE("strings are strung up together, or all that is wrong is told") {
        const auto set = string_up<double>({wound, plain}, 430 * Hz);
        REQUIRE(set.strings.size() == 2);
        CHECK(set.standard.a4 == 430 * Hz);
        CHECK(set.strings[0].pitch == parse_note("G2"));
        try {
            ordered_string misnamed;
            misnamed.note = "X";
            (void)string_up<double>({ordered_string(), wound, misnamed}, 440 * Hz);
            FAIL("refused");
        } catch (const invalid_input& e) {
            CHECK(e.problems().size() == 3); // two missing, one more gauge; the note of the last waits for its gauge
            CHECK(e.problems().front().field == "strings[0].note");
            CHECK(e.problems().back().field == "strings[2].gauge");
        }
    }
    TEST_CASE("the order of a list and the numbers that are said") {
        std::vector<std::string> told;
        const auto report = [&](std::string_view path, std::string_view rule, std::string_view value = {}) {
            told.push_back(problem{std::string(path), std::string(value), std::string(rule)}.sentence());
        };
        auto list =
            std::vector<ordered_string>{wound, {.note = "D3", .gauge = 26 * thou}, {.note = "A3", .gauge = 16 * thou}};
        list[0].number.text = "3";
        list[2].number.text = "1";
        report_order<double>({1, 1, 1}, list, "strings", report);
        CHECK(told.empty());
        list[1].number.text = "3";
        report_order<double>({1, 1, 1}, list, "strings", report);
        REQUIRE(told.size() == 1);
        CHECK(told[0] == "strings[1].number is \"3\"; it must be 2: the list stands bass first, and this is string 2 (D3); "
                         "there are strings 1 (A3) to 3 (G2).");
        told.clear();
        std::reverse(list.begin(), list.end());
        report_order<double>({1, 1, 1}, list, "strings", report);
        REQUIRE(told.size() == 1);
        CHECK(told[0].find("strings must stand bass first") == 0);
        // Courses that do not fit the list are told elsewhere.
        told.clear();
        report_order<double>({1, 1}, list, "strings", report);
        for (auto& order : list) { order.number.text.clear(); }
        report_order<double>({0, 3}, list, "strings", report);
        CHECK(told.empty());
    }
    TEST_CASE("over dual numbers the gauge moves the string as its differences do") {
        using D = dual<double, 1>;
        auto seeded = over<D>(wound);
        seeded.gauge = length<D>::from_value(D::variable(length<>(wound.gauge).value(), 0));
        const auto mass = mass_per_length(made_string(seeded)).value();
        auto up = wound, down = wound;
        up.gauge = wound.gauge + 1e-6 * mm;
        down.gauge = wound.gauge - 1e-6 * mm;
        const double slope = (mass_per_length(made_string(up)) - mass_per_length(made_string(down))).value() / 2e-9;
        CHECK(mass.value == mass_per_length(made_string(wound)).value());
        CHECK(near::relative(mass.partial[0], slope, 1e-6));
    }
}
