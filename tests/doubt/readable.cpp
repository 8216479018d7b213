#include <tautline/doubt/readable.hpp>

#include <set>

#include "near.hpp"
#include "read_case.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("readable") {
    TEST_CASE("every path is found by itself, with places in its brackets, and no other is") {
        std::set<readable> seen;
        for (const auto& row : kernel::readables) {
            std::string path;
            for (const char* c = row.path; *c != '\0'; ++c) {
                path += *c;
                if (*c == '[') { path += '7'; }
            }
            const auto thing = find_readable(path);
            REQUIRE_MESSAGE(thing.has_value(), path);
            CHECK(thing->what == row.what);
            CHECK(seen.insert(row.what).second);
            CHECK_FALSE(find_readable(path + "x").has_value());
        }
        CHECK(seen.size() == 12);
        CHECK_FALSE(find_readable("relief").has_value());
        CHECK_FALSE(find_readable("strings[0]").has_value());
        CHECK_FALSE(find_readable("strings[].heights[]").has_value());
        CHECK_FALSE(find_readable("").has_value());
    }
    TEST_CASE("each has a usual doubt, and the kind that the solved setup has it in") {
        auto model = read_case::cittern();
        const auto solved = solve(model.at_pitch);
        for (const auto& row : kernel::readables) {
            CHECK_MESSAGE(usual_standard(row.path, 1e-3).value_or(0) > 0, row.path);
            CHECK_MESSAGE(usual_doubt_of(row.path)->pattern == row.path, row.path);
            for_each_leaf(solved, [&](std::string_view path, const auto& x) {
                if (kernel::fits(row.path, path)) { CHECK(std::string(kind_name_of(x)) == row.kind); }
            });
        }
    }
    TEST_CASE("in words, strings by the trade's numbers") {
        string_names names;
        const auto model = read_case::cittern();
        name_strings(model.at_pitch.instrument, model.at_pitch.stringing, names);
        CHECK(readable_words("relief.gap", names) == "relief");
        CHECK(readable_words("strings[0].heights[11]", names) ==
              "height over fret 12 of course 5 (D2), its bass-side string");
        CHECK(readable_words("strings[9].notes[4].error", names) ==
              "note at fret 5 of course 1 (D4), its treble-side string");
        CHECK(readable_words("strings[9].at_nut.break_angle") == "break at the nut of strings[9]");
        CHECK(readable_words("neck.depth_at_nut") == "neck.depth_at_nut");
    }
}
TEST_SUITE("usual doubts") {
    TEST_CASE("the nearest above a path that the table speaks of, whichever is more: amount or share") {
        CHECK(usual_standard("frets.wire.crown_height", 1e-3) == 0.01e-3);
        CHECK(usual_standard("neck.back_modulus", 10e9) == 0.22 * 10e9);
        CHECK(usual_standard("neck.rod_pull", 1000).value() == doctest::Approx(150));
        CHECK(usual_standard("neck.rod_pull", 0) == 50);
        CHECK(usual_standard("gauges[3].zero", 0) == 0.01e-3);
        CHECK(usual_standard("strings[2].weight", 4e-3) == 0.25e-3); // a kitchen scale shows whole grams
        CHECK(usual_standard("strings[2].packet_pull", 80).value() == doctest::Approx(1.2));
        CHECK_FALSE(usual_standard("no.such.thing", 1).has_value());
    }
    TEST_CASE("inputs in words, and their path where the table has none") {
        const string_names names{{2, 2}, {*find_note("E2"), *find_note("E2"), *find_note("A2"), *find_note("A2")}};
        CHECK(input_in_words("saddle.board_line") == "board's line at the saddle");
        CHECK(input_in_words("frets.wear[4]") == "wear of fret 5");
        CHECK(input_in_words("frets.zero_crown") == "crown of the zero fret");
        CHECK(input_in_words("nut.slot_heights[3]", names) == "nut slot of course 1 (A2), its treble-side string");
        CHECK(input_in_words("strings[2].core", names) == "core of course 1 (A2), its bass-side string");
        CHECK(input_in_words("frets.wire.crown_height") == "crowns of the frets (crown height)");
        CHECK(input_in_words("headstock.pitch") == "headstock.pitch");
    }
    TEST_CASE("inputs of the table are numbers of some ready-made instrument, those by a share are positive by nature") {
        std::set<std::string> met;
        const auto meet = [&](const auto& model) {
            for_each_leaf(model, [&](std::string_view path, const auto&) {
                if (const auto u = usual_doubt_of(path)) { met.insert(std::string(u->pattern)); }
            });
        };
        for (const auto& one : ready_made::all()) {
            const auto o = one.make();
            meet(o); // strings as they are ordered
            meet(read_instrument{{o.instrument, string_up(o.strings, o.a4)}, {}, {}, {}, {}});
        }
        auto seasoned = read_case::flat_top();
        seasoned.season = read_season{.measured_in = {.celsius = 21, .humidity = 45}};
        seasoned.states[0].air = noted_air{.celsius = 21, .humidity = 60};
        meet(seasoned);
        meet(read_case::cittern());
        // What none of these has: single saddles that fan, bars over strings, slots cut apart, a board told by its edges,
        // bars, slots and a traced back.
        auto rare = ready_made::solid_body_bass().instrument;
        rare.board.scale.fan = two_scales{.bass_scale = 870 * mm, .treble_scale = 820 * mm};
        rare.saddle.single = {single_saddle{.height = 15 * mm, .setback = 5 * mm}};
        rare.neck.set_bass = rare.neck.set_treble = {{.x = 0 * mm, .z = 0 * mm}};
        rare.frets.wear_bass = rare.frets.wear_treble = {0.1 * mm};
        rare.frets.zero_crown = 0.9 * mm;
        rare.neck.slots = neck_slots{.depth = 2 * mm};
        rare.neck.inserts = {insert()};
        rare.neck.traced = {traced_back{.x = 0 * mm, .profile = {{.y = 0 * mm, .depth = 15 * mm}}}};
        rare.pressing_bar = pressing_bar{.distance = 20 * mm, .height = 1 * mm};
        meet(rare);
        auto cut = ready_made::octave_mandolin().instrument;
        cut.saddle.slot_offsets.assign(8, 0 * mm);
        meet(cut);
        rare.board.scale.fan = fan_by_places<double>({45 * mm}, {44 * mm}, 5 * mm);
        meet(rare);
        ordered_instrument bought;
        bought.strings = {{.note = "E2",
                           .gauge = 1 * mm,
                           .wrap = "nickel",
                           .core_flats = 0.4 * mm,
                           .inner_wrap = "nylon",
                           .inner_wire = 0.05 * mm,
                           .ground = 0.02 * mm,
                           .weight = 5 * gram,
                           .weight_length = 900 * mm},
                          {.note = "E4", .gauge = 0.25 * mm, .packet_pull = 70 * N, .packet_scale = 650 * mm}};
        meet(bought);
        for (const auto& row : kernel::usual_doubts) {
            const std::string pattern = row.pattern;
            CHECK(row.give_or_take + row.share > 0);
            bool read = false;
            for (const auto& thing : kernel::readables) { read = read || thing.path == pattern; }
            if (read) { continue; }
            if (pattern == "neck.joint_stiffness" || pattern == "soundboard.turn_stiffness") { continue; } // none has one
            CHECK_MESSAGE(met.count(pattern) == 1, pattern);
        }
    }
}
TEST_SUITE("reading") {
    TEST_CASE("readings are made of quantities: paths, SI, half of give or take") {
        const auto h = height_read(5, 12, 2.5 * mm, 0.1 * mm).when("slack").with("rule");
        CHECK(h.path == "strings[5].heights[11]");
        CHECK(near::within(h.value.si(), 2.5e-3, 1e-18));
        CHECK(near::within(h.standard.si(), 0.05e-3, 1e-18));
        CHECK(h.state == "slack");
        CHECK(h.gauge == "rule");
        CHECK(h.value.kind() == "length");
        CHECK(note_read(0, 3, 4 * cents, 2 * cents).path == "strings[0].notes[2].error");
        CHECK(note_read(0, 3, 4 * cents, 2 * cents).standard == any_quantity(1 * cents));
        CHECK(saddle_break_read(1, 10 * deg).path == "strings[1].at_saddle.break_angle");
        CHECK(nut_break_read(1, 10 * deg).path == "strings[1].at_nut.break_angle");
        CHECK(setback_read(2, 1 * mm).path == "strings[2].octave_setback");
        CHECK(gap_read(2, {.x = 400 * mm, .z = 0 * mm, .extent = 0 * mm}, 1 * mm).path == "strings[2].gap");
        CHECK(relief_read(1 * mm).state == "at pitch");
        for (const auto& r : {relief_read(1 * mm), top_drop_read(1 * mm), top_sink_read(1 * mm),
                              line_at_saddle_read(1 * mm), nut_drop_read(1 * mm), tailpiece_read(1 * deg)}) {
            CHECK(find_readable(r.path).has_value());
        }
        CHECK_THROWS_AS((void)height_read(0, 0, 1 * mm), invalid_input);
        CHECK_THROWS_AS((void)note_read(0, 0, 1 * cents), invalid_input);
    }
    TEST_CASE("a reading counts with its own doubt and the model's, in squares; not stated, with the usual one") {
        CHECK(near::relative(standard_of(relief_read(0.3 * mm)), std::hypot(0.025e-3, 0.01e-3), 1e-12));
        CHECK(near::relative(standard_of(relief_read(0.3 * mm, 0.08 * mm)), std::hypot(0.04e-3, 0.01e-3), 1e-12));
        CHECK(near::relative(standard_of(nut_drop_read(2 * mm, 0.02 * mm)), std::hypot(0.01e-3, 0.02e-3), 1e-12));
        auto sure = relief_read(0.3 * mm, 0.08 * mm);
        sure.model = 0 * mm;
        CHECK(near::relative(standard_of(sure), 0.04e-3, 1e-12));
        CHECK_THROWS_AS((void)standard_of(reading_of("no.such", 1 * mm)), invalid_input);
    }
}
