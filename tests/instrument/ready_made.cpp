#include <tautline/instrument/ready_made.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include <doctest/doctest.h>
#include <tautline/setup/finding_sentence.hpp>
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
            CAPTURE(sentence_of(f, s.names));
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
            CHECK(string.heights.at(string.frets_behind) < 1.35 * mm);
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
    const auto slotted = ready_made::slotted_nylon();
    CHECK(slotted.instrument.tie_block.has_value());
    CHECK(slotted.instrument.headstock.slot_start.has_value());
    for (const auto& post : slotted.instrument.posts) { CHECK(post.roller.has_value()); }
    const auto zero = ready_made::zero_fret_guitar();
    CHECK(zero.instrument.board.scale.zero_fret);
    CHECK(std::count_if(zero.instrument.posts.begin(), zero.instrument.posts.end(),
                        [](const tuner_post& p) { return p.guide.has_value(); }) == 4);
    const auto banjo = ready_made::five_string_banjo();
    REQUIRE(banjo.instrument.short_strings.size() == 1);
    CHECK(banjo.instrument.short_strings[0].fret == 5);
    CHECK(banjo.instrument.tailpiece->pressed_height.has_value());
    const auto fanned = ready_made::fanned_bass();
    CHECK(fanned.strings.size() == 5);
    CHECK(fanned.instrument.board.scale.fan.has_value());
    CHECK(fanned.instrument.saddle.single.size() == 5);
}

TEST_CASE("every guide of a ready-made instrument is lifted, and no string lies on its slot's edge") {
    for_each_one([](const ordered_instrument& o) {
        const setup s = solve(string_up(o));
        for (std::size_t i = 0; i < s.strings.size(); ++i) {
            if (!s.strings[i].at_guide) { continue; }
            const auto up = s.strings[i].at_guide->on_support.z;
            CHECK(tautline::abs(up) / N == doctest::Approx(up / N)); // never downward
            if (o.instrument.posts[i].guide) { CHECK(up > 0.5 * N); }
        }
    });
}

TEST_CASE("two strings of the fanned bass by hand: plane geometry on paper") {
    // Outer strings: B0 from y = -19 at the nut to -36 at the saddle, G2 from 19 to 36, before compensation. Seen from
    // above the B0 string is 894 mm long and runs 17 mm outward: it goes along by sqrt(894^2 - 17^2); G2 likewise of 848
    // mm.
    const double along_b = std::sqrt(894.0 * 894 - 17 * 17), along_g = std::sqrt(848.0 * 848 - 17 * 17);
    // Of each, fret 8 lies 1 - 2^(-8/12) of the way from nut to saddle, square across from one string to the other.
    const double share8 = 1 - std::exp2(-8.0 / 12);
    const double ahead = (along_b - along_g) * share8; // the B0 string begins so much further from the bridge
    // x = 0 is where the line through both nut points meets the centre line, which lies midway between them.
    const double nut_b = -ahead / 2, nut_g = ahead / 2;
    const auto o = ready_made::fanned_bass();
    const setup s = solve(string_up(o));
    const auto &b = s.strings.front(), &g = s.strings.back();
    CHECK(b.y_at_nut / mm == doctest::Approx(-19));
    CHECK(g.y_at_saddle / mm == doctest::Approx(36));
    CHECK(b.line.nut_x / mm == doctest::Approx(nut_b));
    CHECK(g.line.nut_x / mm == doctest::Approx(nut_g));
    CHECK(b.line.saddle_x / mm == doctest::Approx(nut_b + along_b + 9.5));
    CHECK(g.line.saddle_x / mm == doctest::Approx(nut_g + along_g + 3.5));
    // The outer strings are set back along the centre line to the same place across, so that they leave their lines by a
    // hair; a fret's line joins its places on the uncompensated strings, and the crossing moves along it.
    for (const int fret : {1, 8, 12, 22}) {
        const double share = 1 - std::exp2(-fret / 12.0);
        const double x_b = nut_b + along_b * share, y_b = -19 - 17 * share;
        const double x_g = nut_g + along_g * share, y_g = 19 + 17 * share;
        // Where the string's line from (nut_b, -19) with its own slope meets the line of the fret.
        const auto crossing = [&](double x0, double y0, double slope) {
            const double lean = (x_g - x_b) / (y_g - y_b); // along for one across
            // x = x_b + (y - y_b) lean and y = y0 + (x - x0) slope.
            return (x_b + (y0 - x0 * slope - y_b) * lean) / (1 - slope * lean);
        };
        const auto n = static_cast<std::size_t>(fret) - 1;
        CHECK(b.crest_x[n] / mm == doctest::Approx(crossing(nut_b, -19, -17 / (along_b + 9.5))).epsilon(1e-9));
        CHECK(g.crest_x[n] / mm == doctest::Approx(crossing(nut_g, 19, 17 / (along_g + 3.5))).epsilon(1e-9));
        // The crossing is nearly the place on the uncompensated string: 17 mm of run over a metre.
        CHECK(std::abs(b.crest_x[n] / mm - x_b) < 0.05);
    }
    CHECK(b.crest_x[7] / mm == doctest::Approx(g.crest_x[7] / mm)); // the eighth stands square
    // Speaking lengths: along, across and up, the saddle's height over the nut's from measures alone.
    const auto speaking = [](double along, double up) { return std::sqrt(along * along + 17 * 17 + up * up); };
    const double arc = 400 - std::sqrt(400.0 * 400 - 19 * 19); // the board falls so at the outer strings
    CHECK(b.speaking_length / mm == doctest::Approx(speaking(along_b + 9.5, 12.3 - 7.5 - 1.8 + arc)));
    CHECK(g.speaking_length / mm == doctest::Approx(speaking(along_g + 3.5, 11.7 - 7.5 - 1.6 + arc)));
    // Pitch is f = sqrt(T / mu) / 2 L.
    const double f = s.strings.front().pitch / Hz, mu = b.mass_per_length / kg_per_m, l = b.speaking_length / metre;
    CHECK(b.tension / N == doctest::Approx(4 * mu * l * l * f * f));
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
