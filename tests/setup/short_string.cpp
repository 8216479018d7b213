// A string that begins at a nut of its own on the neck: against an instrument whose scale begins there, and on a neck that
// bends.
#include <cmath>

#include <doctest/doctest.h>
#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>
#include <tautline/setup/tightest.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The ready-made banjo on a neck that does not bend, its short string beginning so many frets up.
ordered_instrument stiff_banjo(int fret = 5) {
    auto o = ready_made::five_string_banjo();
    o.instrument.neck.board_modulus = o.instrument.neck.back_modulus = 400 * GPa;
    o.instrument.neck.rod_pull = 0 * N;
    o.instrument.neck.depth_at_nut = 60 * mm;
    o.instrument.neck.depth_at_joint = 60 * mm;
    o.instrument.short_strings[0].fret = fret;
    return o;
}
/// Its short string alone, on a board that begins at its nut.
ordered_instrument from_there(const ordered_instrument& o) {
    ordered_instrument alone = o;
    instrument& i = alone.instrument;
    const double left = std::exp2(-o.instrument.short_strings[0].fret / 12.0), begins = 668 * (1 - left);
    i.board.scale.scale_length = 668 * left * mm;
    i.board.scale.frets = 22 - o.instrument.short_strings[0].fret;
    i.board.board_length = (490 - begins) * mm;
    i.neck.joint_fret = 20 - o.instrument.short_strings[0].fret;
    i.neck.rod.reset();
    i.short_strings.clear();
    i.nut = {.spacing = {.spread = 0 * mm, .courses = {1}, .offset = o.instrument.short_strings[0].across},
             .slot_heights = {o.instrument.nut.slot_heights[0]}};
    i.headstock = {.pitch = 0 * deg, .face_start = 0 * mm, .face_drop = 0 * mm};
    i.posts = {{.along = 18 * mm, .across = -21 * mm, .height = 0 * mm}};
    i.saddle.spacing = {.spread = 0 * mm, .courses = {1}, .offset = -21 * mm};
    i.saddle.setback_treble = i.saddle.setback_bass;
    i.saddle.height_treble = i.saddle.height_bass;
    i.feet.reset();
    alone.strings = {o.strings[0]};
    return alone;
}

} // namespace

TEST_SUITE("a string with a nut of its own") {
    TEST_CASE("it is the string of an instrument whose scale begins there, fret for fret") {
        for (const int fret : {3, 5, 7}) {
            CAPTURE(fret);
            auto banjo = stiff_banjo(fret);
            banjo.instrument.posts[0].height = 0 * mm;
            const setup all = solve(string_up(banjo)), alone = solve(string_up(from_there(banjo)));
            const auto &one = all.strings[0], &other = alone.strings[0];
            const auto behind = static_cast<std::size_t>(fret);
            REQUIRE(one.frets_behind == behind);
            CHECK(near::within(one.line.nut_x, 668 * (1 - std::exp2(-fret / 12.0)) * mm, 1e-9 * mm));
            CHECK(near::within(one.speaking_length, other.speaking_length, 1e-3 * mm));
            CHECK(near::relative(one.tension, other.tension, 1e-5));
            CHECK(near::relative(one.at_nut.down(), other.at_nut.down(), 1e-2)); // what the stiff neck bends still
            for (std::size_t n = 0; n < other.heights.size(); ++n) {
                CHECK(near::within(one.heights[behind + n], other.heights[n], 0.02 * mm));
                CHECK(near::within(one.notes[behind + n].error.cents(), other.notes[n].error.cents(), 0.1));
                CHECK(near::relative(one.notes[behind + n].pitch, other.notes[n].pitch, 1e-4));
            }
            for (std::size_t n = 0; n < other.clearances.size(); ++n) {
                const std::size_t here = n == 0 ? 0 : behind + n;
                CHECK(near::within(one.clearances[here].gap, other.clearances[n].gap, 0.02 * mm));
                CHECK(one.clearances[here].fret_number() == other.clearances[n].fret_number() + fret);
                CHECK(near::relative(one.plucks[here].pull, other.plucks[n].pull, 0.03));
            }
            REQUIRE(one.octave_setback);
            REQUIRE(other.octave_setback);
            CHECK(near::within(*one.octave_setback, *other.octave_setback, 0.2 * mm));
        }
    }
    TEST_CASE("frets behind its nut have no numbers, all others have") {
        const setup s = solve(string_up(ready_made::five_string_banjo()));
        std::size_t without = 0;
        for_each_leaf(s, [&](std::string_view path, const auto& x) {
            if (any_of(x).is_number()) { return; }
            ++without;
            CHECK_MESSAGE(path.starts_with("strings[0]."), std::string(path));
        });
        // Five heights and notes of five numbers each; five least clearances of two and plucks of three.
        CHECK(without == 5 + 5 * 5 + 5 * 2 + 5 * 3);
        for (std::size_t fret = 0; fret <= 22; ++fret) { CHECK(s.strings[0].has_fret(fret) == (fret == 0 || fret > 5)); }
        CHECK(s.first_string_at(5) == 1);
        CHECK(s.first_string_at(6) == 0);
        REQUIRE(tightest(s.strings[0]));
        CHECK(s.strings[0].has_fret(*tightest(s.strings[0])));
        REQUIRE(soonest_to_buzz(s.strings[0]));
        CHECK(s.strings[0].has_fret(*soonest_to_buzz(s.strings[0])));
        CHECK(s.names.name(0) == "string 5 (G4)");
        CHECK(both_ends_moved(string_up(ready_made::five_string_banjo()), s, 0).has_value());
    }
    TEST_CASE("its pull does not bend the neck before its nut, and bends it beyond") {
        auto o = ready_made::five_string_banjo();
        o.instrument.neck.rod_pull = 0 * N;
        const setup before = solve(string_up(o));
        o.strings[0].note = "A4";
        const setup after = solve(string_up(o));
        std::vector<double> moved;
        for (std::size_t n = 0; n < 18; ++n) { moved.push_back((after.crests[n].z - before.crests[n].z) / mm); }
        const auto bend = [&](std::size_t a, std::size_t b, std::size_t c) {
            const double xa = before.fret_x[a] / mm, xb = before.fret_x[b] / mm, xc = before.fret_x[c] / mm;
            return (moved[c] - moved[b]) / (xc - xb) - (moved[b] - moved[a]) / (xb - xa);
        };
        // Frets 1 to 4 before its nut; 6 to 16 beyond. The long strings' lever changes with the rise, by next to nothing.
        CHECK(std::abs(bend(0, 1, 3)) < 0.02 * std::abs(bend(6, 10, 15)));
        CHECK(bend(6, 10, 15) > 0);
    }
    TEST_CASE("nut and peg together bear what it pulls") {
        const setup s = solve(string_up(ready_made::five_string_banjo()));
        const auto& one = s.strings[0];
        const auto u = direction_between<double>(s.bridge_strings[0].slot, s.bridge_strings[0].saddle);
        const auto all = one.at_nut.on_support + one.at_nut.on_anchor;
        CHECK(near::within(all.x, u.x * one.tension, 1e-9 * N));
        CHECK(near::within(all.z, u.z * one.tension, 1e-9 * N));
        CHECK(near::within(s.posts[0].x, s.bridge_strings[0].slot.x - 18 * mm, 1e-9 * mm));
        CHECK(one.at_nut.down() > 5 * N);
    }
    TEST_CASE("what is wrong with it is named") {
        instrument i = ready_made::five_string_banjo().instrument;
        i.short_strings[0].fret = 20;
        CHECK(validate(i).front().sentence() == "short_strings[0].fret must be before the joint and before the last fret.");
        i.short_strings[0].fret = 5;
        i.short_strings.push_back(i.short_strings[0]);
        CHECK(validate(i).front().field == "saddle.spacing");
        auto o = ready_made::five_string_banjo();
        o.strings.pop_back();
        CHECK(validate(o).front().sentence() == "strings must be 5, as the nut and short_strings have, but there are 4.");
    }
    TEST_CASE("its nut on the wrong side: it crosses all the others over the board, and that is said") {
        auto on = string_up(ready_made::five_string_banjo());
        const auto crossing = [&] {
            std::vector<finding> all;
            for (const finding& f : solve(on).findings) {
                if (f.kind == finding_kind::strings_cross && f.part == "board") { all.push_back(f); }
            }
            return all;
        };
        CHECK(crossing().empty());
        on.instrument.short_strings[0].across = 15.8 * mm;
        const auto all = crossing();
        REQUIRE(all.size() == 1);
        CHECK(all[0].severity == severity::warning);
        CHECK(all[0].string_index == std::size_t{0});
        CHECK(all[0].other_index == std::size_t{1});
        CHECK(all[0].beside[0].si() == 4);
        CHECK(sentence_of(all[0], solve(on).names) == "Two strings cross over the board: string 5 (G4); and string 4 (D3). "
                                                      "So do 3 other pairs. See the side on which "
                                                      "a string begins at its own nut: across is negative to the bass.");
        // Between the first two long strings it crosses one.
        const auto s = solve(on);
        const double at = 668 * (1 - std::exp2(-5 / 12.0)) / 670;
        const auto there = [&](std::size_t k) {
            return s.strings[k].y_at_nut + (s.strings[k].y_at_saddle - s.strings[k].y_at_nut) * at;
        };
        on.instrument.short_strings[0].across = (there(1) + there(2)) / 2.0;
        const auto one = crossing();
        REQUIRE(one.size() == 1);
        CHECK(one[0].beside[0].si() == 1);
    }
}
