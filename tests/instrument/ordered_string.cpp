#include <tautline/instrument/ordered_string.hpp>

#include <cmath>

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
    TEST_CASE("a weighed string has the mass of the balance, and the stiffness of its construction") {
        auto s = wound;
        s.weight = 4.9 * gram;
        s.weight_length = 1000 * mm;
        REQUIRE(wrong(s) == "");
        const auto made = made_string(s);
        CHECK(near::relative(mass_per_length(made), 4.9 * g_per_m, 1e-14));
        CHECK(axial_stiffness(made) == axial_stiffness(made_string(wound)));
        CHECK(core_bending_stiffness(made) > 0 * N_mm2);
        s.weight_length.reset();
        CHECK(wrong(s).find("strings[0].weight_length must be given: ") == 0);
        s.weight.reset();
        s.weight_length = 1000 * mm;
        CHECK(wrong(s).find("strings[0].weight must be given: ") == 0);
        // Weight alone does not say how stiff a wound string is.
        s.weight = 4.9 * gram;
        s.core.reset();
        CHECK(wrong(s).find("strings[0].core must be given: ") == 0);
        CHECK(wrong(s).find("say nothing of the core: measure it where the wrap ends") != std::string::npos);
    }
    TEST_CASE("a weight that cannot be that of the string is asked about, with both figures") {
        auto s = plain;
        s.weight_length = 1000 * mm;
        // Steel of 11 thou: pi/4 (0.2794 mm)^2 7850 kg/m3 = 0.4813 g/m.
        s.weight = 4.8 * gram;
        CHECK(wrong(s).find("strings[0].weight must be otherwise: it comes to 4.8 g/m, but gauge, core and materials to "
                            "0.4812") == 0);
        s.weight = 0.2 * gram;
        CHECK(wrong(s).find("strings[0].weight must be otherwise") == 0);
        for (const double fine : {0.25, 0.48, 0.95}) {
            s.weight = fine * gram;
            CHECK(wrong(s) == "");
        }
    }
    TEST_CASE("a string by its packet pulls what the packet says, at the packet's scale and note") {
        for (const ordered_string& one : {plain, wound}) {
            auto s = one;
            s.packet_pull = one.core ? 130 * N : 75 * N;
            s.packet_scale = 648 * mm;
            REQUIRE(wrong(s) == "");
            CHECK(near::relative(tension<double>(made_string(s), 648 * mm, pitch_of(parse_note(one.note))),
                                 force<>(*s.packet_pull), 1e-12));
            // Another note of the packet than that of the string: half the pitch, four times the mass.
            auto lower = s;
            lower.packet_note = one.core ? "A1" : "E3";
            lower.packet_pull = *s.packet_pull * (one.core ? 0.4 : 0.3);
            REQUIRE(wrong(lower) == "");
            CHECK(near::relative(tension<double>(made_string(lower), 648 * mm, pitch_of(parse_note(lower.packet_note))),
                                 force<>(*lower.packet_pull), 1e-12));
        }
        auto s = plain;
        s.packet_pull = 75 * N;
        CHECK(wrong(s).find("strings[0].packet_scale must be given: ") == 0);
        s.packet_scale = 648 * mm;
        s.packet_note = "H4";
        CHECK(wrong(s).find("strings[0].packet_note is \"H4\"; it must be a letter A to G") == 0);
        s.packet_note = "";
        s.packet_pull = 75 * lbf;
        CHECK(wrong(s).find("strings[0].packet_pull must be otherwise: ") == 0);
        s.packet_pull.reset();
        CHECK(wrong(s).find("strings[0].packet_pull must be given: ") == 0);
        s.packet_scale.reset();
        s.packet_note = "E4";
        CHECK(wrong(s) == "strings[0].packet_note must be left out without packet_pull.\n");
        s.packet_pull = 75 * N;
        s.packet_scale = 648 * mm;
        s.weight = 0.48 * gram;
        s.weight_length = 1000 * mm;
        CHECK(wrong(s).find("strings[0].packet_pull must be left out beside weight") == 0);
    }
    TEST_CASE("a hexagonal core is told across its flats") {
        auto s = wound;
        s.core.reset();
        s.core_flats = 18 * thou;
        REQUIRE(wrong(s) == "");
        const auto made = made_string(s);
        // sqrt(3)/2 of the square across the flats, against pi/4 of a circle: geometry.
        CHECK(near::relative(core_area(made) / core_area(made_string(wound)), std::sqrt(0.75) / (std::acos(-1.0) / 4),
                             1e-12));
        CHECK(near::within(gauge(made), 39 * thou, 1e-9 * mm));
        s.core = 18 * thou;
        CHECK(wrong(s).find("strings[0].core_flats must be left out beside core") == 0);
        s.core.reset();
        s.core_flats = 34 * thou; // over its corners 39.26 thou
        CHECK(wrong(s).find("strings[0].core_flats must be less: over its corners") == 0);
        s.core_flats = 33 * thou;
        CHECK(wrong(s) == "");
    }
    TEST_CASE("two wraps, a ground one and a flat one keep the gauge, and weigh what geometry says") {
        auto two = wound;
        two.inner_wrap = "nylon";
        two.inner_wire = 3 * thou;
        REQUIRE(wrong(two) == "");
        const auto of_two = made_string(two);
        REQUIRE(of_two.layers.size() == 2);
        CHECK(near::within(gauge(of_two), 39 * thou, 1e-9 * mm));
        CHECK(of_two.layers[0].material.name == nylon().name);
        CHECK(near::within(length<>(of_two.layers[1].thickness), 7.5 * thou, 1e-9 * mm));
        CHECK(mass_per_length(of_two) < mass_per_length(made_string(wound)));
        two.inner_wire = 11 * thou;
        CHECK(wrong(two).find("strings[0].core must be less: core and inner wrap leave no room") == 0);
        two.inner_wire.reset();
        CHECK(wrong(two).find("strings[0].inner_wire must be given") == 0);

        auto ground = wound;
        ground.ground = 2 * thou;
        REQUIRE(wrong(ground) == "");
        const auto of_ground = made_string(ground);
        CHECK(near::within(gauge(of_ground), 39 * thou, 1e-9 * mm));
        CHECK(near::within(length<>(of_ground.layers[0].thickness), 12.5 * thou, 1e-9 * mm));
        // Filled more densely than round wire, less than solid.
        const auto solid = core_area(made_string(wound)) * music_wire().mass_density +
                           (square(39 * thou) - square(18 * thou)) * (std::acos(-1.0) / 4) * phosphor_bronze().mass_density;
        CHECK(mass_per_length(made_string(wound)) < mass_per_length(of_ground));
        CHECK(mass_per_length(of_ground) < solid);

        auto flat = wound;
        flat.ribbon_width = 20 * thou;
        REQUIRE(wrong(flat) == "");
        // Flat wire that touches leaves no room: close to a solid tube (a turn advances by its width, so it leans a
        // little).
        CHECK(near::relative(mass_per_length(made_string(flat)), solid, 1e-6));
        flat.ribbon_width = 3 * mm;
        CHECK(wrong(flat).find("strings[0].ribbon_width must be less than once around") == 0);
        flat.ribbon_width = 20 * thou;
        flat.ground = 1 * thou;
        CHECK(wrong(flat).find("strings[0].ground must be left out beside ribbon_width") == 0);
        for (const char* key : {"inner_wrap", "inner_wire", "ground", "ribbon_width"}) {
            auto s = plain;
            if (std::string_view(key) == "inner_wrap") { s.inner_wrap = "nylon"; }
            if (std::string_view(key) == "inner_wire") { s.inner_wire = 3 * thou; }
            if (std::string_view(key) == "ground") { s.ground = 1 * thou; }
            if (std::string_view(key) == "ribbon_width") { s.ribbon_width = 10 * thou; }
            CHECK(wrong(s) ==
                  messages::joined({"strings[0].", key, " must be left out on a plain string, which has no wrap.\n"}));
        }
    }
    TEST_CASE("nylon, fluorocarbon and gut are strings of their own gauge, also by near and short names") {
        for (const auto& [said, meant] : {std::pair{"Nylon", "nylon"}, std::pair{"PVDF", "fluorocarbon"},
                                          std::pair{"catgut", "gut"}, std::pair{"fluorcarbon", "fluorocarbon"}}) {
            const ordered_string s{.note = "E4", .gauge = 0.7 * mm, .material = said};
            REQUIRE(wrong(s) == "");
            CHECK(made_string(s).core.material.name == meant);
        }
        auto s = wound;
        s.wrap = "bronze";
        CHECK(wrong(s).find("strings[0].wrap is \"bronze\"; it must be one of: ") == 0);
        CHECK(wrong(s).find("say which bronze it is") != std::string::npos);
    }
    TEST_CASE("over dual numbers weight, length and packet move the mass as their differences do") {
        using D = dual<double, 1>;
        auto s = plain;
        s.packet_pull = 75 * N;
        s.packet_scale = 648 * mm;
        auto seeded = over<D>(s);
        seeded.packet_pull = force<D>::from_value(D::variable(75, 0));
        const auto at = [&](double pull) {
            s.packet_pull = pull * N;
            return mass_per_length(made_string(s)).value();
        };
        CHECK(near::relative(mass_per_length(made_string(seeded)).value().partial[0], (at(75.001) - at(74.999)) / 0.002,
                             1e-8));
    }
}
