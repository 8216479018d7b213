#include <tautline/instrument/ready_made.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include <doctest/doctest.h>
#include <tautline/setup/solve.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {
template <class Check>
void for_each_one(Check&& check) {
    for (const auto& one : ready_made::all()) {
        CAPTURE(std::string(one.name));
        check(one.make());
    }
}
} // namespace

TEST_CASE("every ready-made instrument is valid and solves without a warning") {
    for_each_one([](const ordered_instrument& o) {
        CHECK(validate(o).empty());
        const setup s = solve(string_up(o));
        for (const finding& f : s.findings) {
            CAPTURE(f.sentence);
            CHECK(f.severity == severity::note);
        }
    });
}

TEST_CASE("every ready-made instrument could be played: action, seats, tension, share of strength and relief are usual") {
    // Common practice, no source: wide bounds, for figures that were mistyped.
    for_each_one([](const ordered_instrument& o) {
        const setup s = solve(string_up(o));
        REQUIRE(s.relief);
        CHECK(s.relief->gap > 0.03 * mm);
        CHECK(s.relief->gap < 0.5 * mm);
        for (const auto& string : s.strings) {
            CHECK(string.heights.at(11) > 1.2 * mm);
            CHECK(string.heights.at(11) < 4.2 * mm);
            CHECK(string.heights.front() < 1.3 * mm);
            CHECK(string.at_nut.down() > 5 * N);
            CHECK(string.at_saddle.down() > 5 * N);
            CHECK(string.tension > 45 * N);
            CHECK(string.tension < 250 * N);
            REQUIRE(string.octave_setback);
            CHECK(tautline::abs(*string.octave_setback) < 10 * mm);
        }
    });
}

TEST_CASE("a ready-made instrument is found by its name, each name once, and by no other") {
    std::set<std::string> names;
    for (const auto& one : ready_made::all()) {
        names.insert(std::string(one.name));
        REQUIRE(ready_made::find_instrument(one.name) != nullptr);
        CHECK((ready_made::find_instrument(one.name)->make == one.make));
    }
    CHECK(names.size() == ready_made::all().size());
    CHECK(ready_made::find_instrument("") == nullptr);
    CHECK(ready_made::find_instrument("flat_to") == nullptr);
    CHECK((ready_made::find_instrument("flat_top")->make == ready_made::flat_top));
}

TEST_CASE("each is of its kind") {
    const auto cittern = ready_made::ten_string_cittern();
    CHECK(cittern.strings.size() == 10);
    CHECK(cittern.instrument.nut.spacing.courses == std::vector<int>(5, 2));
    CHECK(cittern.instrument.tailpiece.has_value());
    CHECK(cittern.instrument.feet.has_value());
    CHECK(ready_made::flat_top().instrument.pins.has_value());
    CHECK(ready_made::octave_mandolin().instrument.tailpiece.has_value());
    const auto nylon = ready_made::nylon_strung();
    CHECK(nylon.instrument.pins.has_value());
    CHECK_FALSE(nylon.instrument.saddle.radius.has_value());
    for (const auto& s : nylon.strings) { CHECK(s.material == "nylon"); }
}

TEST_CASE("an ordered instrument tells all that is wrong with it, by path") {
    auto thin = ready_made::flat_top();
    thin.instrument.board.thickness = -1 * mm;
    const auto wrong = validate(thin);
    REQUIRE(wrong.size() == 1);
    CHECK(wrong.front().field == "board.thickness");
    CHECK_THROWS_AS(static_cast<void>(string_up(thin)), invalid_input);

    auto lacking = ready_made::flat_top();
    lacking.strings.pop_back();
    const auto told = validate(lacking);
    REQUIRE(told.size() == 1);
    CHECK(told.front().sentence() == "strings must be 6, as the nut has, but there are 5.");

    auto turned = ready_made::flat_top();
    std::reverse(turned.strings.begin(), turned.strings.end());
    const auto list = validate(turned);
    REQUIRE(list.size() == 1);
    CHECK(list.front().field == "strings");
    CHECK(list.front().allowed.find("bass first") != std::string::npos);
}

TEST_CASE("an ordered instrument is strung at its own pitch of A4") {
    auto o = ready_made::ten_string_cittern();
    const setup at_440 = solve(string_up(o));
    o.a4 = 415 * Hz;
    const setup at_415 = solve(string_up(o));
    for (std::size_t i = 0; i < at_440.strings.size(); ++i) {
        CHECK(at_415.strings[i].pitch / at_440.strings[i].pitch == doctest::Approx(415.0 / 440));
    }
}
