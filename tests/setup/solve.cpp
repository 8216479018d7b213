#include <tautline/setup/solve.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("solve") {
    TEST_CASE("one solve agrees with its stages called alone") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        const auto s = solve(strung_instrument{i, strung});
        REQUIRE(s.strings.size() == 8);
        REQUIRE(s.fret_x.size() == 19);

        const auto& low = s.strings[0];
        CHECK(near::relative(low.tension, tension(strung.strings[0].string, low.speaking_length, pitch_of("G2")), 1e-14));
        CHECK(near::relative(low.core_stress, core_stress(strung.strings[0].string, low.tension), 1e-14));
        CHECK(near::relative(s.fret_x[11], 280 * mm, 1e-12));

        force<> sum{};
        for (const auto& one : s.strings) { sum += one.tension; }
        CHECK(near::relative(s.total_tension, sum, 1e-14));

        neck n;
        neck_of(i, n);
        const auto bowed = bend(make_beam(n, solve_stations), s.pulls);
        CHECK(near::relative(s.nut_rise, bowed.nut_rise(), 1e-14));
        // The octave fret's crest under string 1, from its parts.
        const auto y = low.y_at_nut + (low.y_at_saddle - low.y_at_nut) * (s.fret_x[11] / low.line.saddle_x);
        const auto crest = crest_height(i.board, i.frets, 12, y) + deflection_at(bowed, s.fret_x[11]);
        CHECK(near::within(low.crest_z[11], crest, 1e-9 * mm));
        CHECK(near::within(low.heights[11], height_over(low.line, s.fret_x[11], crest), 1e-9 * mm));
    }
    TEST_CASE("forces at each support balance the two sides of the string, and the anchors take the whole pull") {
        const auto s = solve(strung_instrument{demo::four_course(), demo::unison_pairs()});
        for (const auto& one : s.strings) {
            CHECK(near::relative(one.at_saddle.on_support.size(),
                                 support_force_size(one.tension, one.at_saddle.break_angle), 1e-9));
            CHECK(near::relative(one.at_nut.on_support.size(), support_force_size(one.tension, one.at_nut.break_angle),
                                 1e-9));
            // Nut, saddle and both anchors together: a string at rest pulls on nothing as a whole.
            const auto all_forces =
                one.at_nut.on_support + one.at_nut.on_anchor + one.at_saddle.on_support + one.at_saddle.on_anchor;
            CHECK(all_forces.size() < 1e-9 * one.tension);
        }
    }
    TEST_CASE("mirror: an instrument turned bass for treble gives the mirrored setup") {
        auto i = demo::four_course();
        auto strung = demo::unison_pairs();
        const auto s = solve(strung_instrument{i, strung});
        std::reverse(strung.strings.begin(), strung.strings.end());
        std::reverse(i.posts.begin(), i.posts.end());
        for (auto& p : i.posts) { p.across = -p.across; }
        std::swap(i.saddle.height_bass, i.saddle.height_treble);
        std::swap(i.saddle.setback_bass, i.saddle.setback_treble);
        const auto m = solve(strung_instrument{i, strung});
        for (std::size_t k = 0; k < 8; ++k) {
            const auto &a = s.strings[k], &b = m.strings[7 - k];
            CHECK(near::relative(b.tension, a.tension, 1e-12));
            CHECK(near::within(b.heights[11], a.heights[11], 1e-9 * mm));
            CHECK(near::relative(b.at_saddle.down(), a.at_saddle.down(), 1e-9));
            CHECK(near::within(b.at_nut.side_angle, -a.at_nut.side_angle, 1e-9 * rad));
        }
    }
    TEST_CASE("a stiff neck without set leaves every height where geometry puts it") {
        auto i = demo::four_course();
        i.neck.board_modulus = i.neck.back_modulus = 1000 * GPa;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(abs(s.nut_rise) < 0.01 * mm);
        const auto& one = s.strings[7];
        // By hand: slot on the arc at the nut, saddle at its height, crest on the arc at the octave.
        const double y0 = 13, ys = 26, y12 = y0 + (ys - y0) * 280 / 561;
        const auto drop = [](double y) { return 205 - std::sqrt(205.0 * 205 - y * y); };
        const double slot = 1.3 - drop(y0), top = 18 - 12.5, crest = 0.85 - drop(y12);
        CHECK(near::within(one.heights[11] / mm, slot + (top - slot) * 280 / 561 - crest, 0.01));
    }
    TEST_CASE("moments take the string's axis, heights its underside; the nut rides on set and bow") {
        auto i = demo::four_course();
        i.neck.set = {{.x = 0 * mm, .z = 0.4 * mm}, {.x = 140 * mm, .z = -0.2 * mm}, {.x = 280 * mm, .z = 0 * mm}};
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        for (std::size_t k = 0; k < 8; ++k) {
            const auto& one = s.strings[k];
            const auto slack_slot = kernel::surface_height(i.board.surface, length<>(), one.y_at_nut) + 1.3 * mm;
            CHECK(near::within(s.pulls[k].z_nut, slack_slot + one.gauge / 2.0, 1e-9 * mm));
            CHECK(near::within(s.pulls[k].z_saddle, one.line.saddle_z + one.gauge / 2.0, 1e-9 * mm));
            CHECK(near::within(one.line.nut_z, slack_slot + 0.4 * mm + s.nut_rise, 1e-9 * mm));
            CHECK(near::within(s.bridge_strings[k].slot.z, one.line.nut_z + one.gauge / 2.0, 1e-9 * mm));
            CHECK(near::within(s.bridge_strings[k].saddle.z, one.line.saddle_z + one.gauge / 2.0, 1e-9 * mm));
        }
        // The set is in the crests too.
        CHECK(near::within(s.board_points[4].z, deflection_at(s.bow, s.fret_x[4]), 1e-12 * mm));
        CHECK(s.board_relief->gap >
              solve(strung_instrument{demo::four_course(), demo::unison_pairs()}).board_relief->gap + 0.3 * mm);
    }
    TEST_CASE("saddle slots lie on the arc that carries both outer heights") {
        auto i = demo::four_course();
        i.neck.board_modulus = i.neck.back_modulus = 1000 * GPa;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        const double board_line = 12.5;
        CHECK(near::within(s.strings[0].line.saddle_z / mm, 18.5 - board_line, 1e-9));
        CHECK(near::within(s.strings[7].line.saddle_z / mm, 18.0 - board_line, 1e-9));
        const auto drop = [](double y) { return 205 - std::sqrt(205.0 * 205 - y * y); };
        const double y3 = s.strings[3].y_at_saddle / mm, level = 18.5 + (18.0 - 18.5) * (y3 + 26) / 52;
        CHECK(near::within(s.strings[3].line.saddle_z / mm, level - board_line + drop(26) - drop(y3), 1e-9));
    }
    TEST_CASE("second solve into the same setup gives the same numbers, whatever it held") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        setup again;
        auto other = i;
        other.board.scale.frets = 12;
        other.frets.wear.clear();
        other.board.surface = flat_surface();
        solve(strung_instrument{other, strung}, again);
        solve(strung_instrument{i, strung}, again);
        CHECK(demo::leaves_of(again) == demo::leaves_of(solve(strung_instrument{i, strung})));
    }
    TEST_CASE("beam stations: 65 are as good as 2000") {
        const auto i = demo::four_course();
        const auto strung = demo::unison_pairs();
        setup coarse, fine;
        solve(strung_instrument{i, strung}, coarse);
        solve(strung_instrument{i, strung}, fine, 2000);
        CHECK(near::within(coarse.nut_rise, fine.nut_rise, 1e-6 * mm));
        CHECK(near::within(coarse.relief->gap, fine.relief->gap, 1e-6 * mm));
    }
}

TEST_SUITE("solve: bad input") {
    const auto said = [](const instrument& i, const stringing& s) {
        std::string text;
        try {
            (void)solve(strung_instrument{i, s});
        } catch (const invalid_input& e) { text = e.what(); }
        return text;
    };
    const auto contains = [](const std::string& text, std::string_view part) {
        return text.find(part) != std::string::npos;
    };

    TEST_CASE("everything that is wrong is said at once, by path") {
        auto i = demo::four_course();
        i.board.width_at_nut = -32 * mm;
        i.neck.back_modulus = std::nan("") * GPa;
        i.saddle.height_bass = 1e9 * metre * 1e300 * 1e10;
        auto s = demo::unison_pairs();
        s.strings[3].string.core.diameter = 0.0 * mm;
        const auto text = said(i, s);
        CHECK(contains(text, "board.width_at_nut is -32 mm; it must be at least 1 mm"));
        CHECK(contains(text, "neck.back_modulus is"));
        CHECK(contains(text, "saddle.height_bass is"));
        CHECK(contains(text, "strings[3].string.core.diameter is 0 mm"));
    }
    TEST_CASE("contradictions between parts") {
        auto i = demo::four_course();
        auto s = demo::unison_pairs();
        s.strings.pop_back();
        CHECK(contains(said(i, s), "strings must be 8, as the nut has, but there are 7."));
        CHECK(contains(said(i, {}), "strings must hold at least one string."));
        i.posts.clear();
        CHECK(contains(said(i, demo::unison_pairs()), "posts must be one for each of the 8 strings"));
        i = demo::four_course();
        i.tailpiece.reset();
        CHECK(
            contains(said(i, demo::unison_pairs()),
                     "tailpiece must be given, or pins, or a tie_block, or body_bridge: the strings end on one of them."));
        i.tailpiece = demo::four_course().tailpiece;
        i.pins = pins{
            .distance = 20 * mm, .height = 5 * mm, .spread = 50 * mm, .top_thickness = 0 * mm, .saddle_exposed = 0 * mm};
        CHECK(contains(said(i, demo::unison_pairs()), "tailpiece must not be given together with pins."));
        i = demo::four_course();
        i.tailpiece->reach = 200 * mm;
        CHECK(contains(said(i, demo::unison_pairs()), "the bridge would stand beyond the tailpiece"));
        i = demo::four_course();
        i.saddle.board_line = 18.2 * mm;
        CHECK(contains(said(i, demo::unison_pairs()), "saddle.board_line must pass below the saddle"));
        i = demo::four_course();
        i.saddle.radius = 25 * mm;
        CHECK(contains(said(i, demo::unison_pairs()), "saddle.radius must be more than half the spread of the strings."));
        i = demo::four_course();
        i.saddle.setback_bass = -50 * mm;
        i.board.scale.frets = 46; // the last at 520.7 mm of 560
        i.board.board_length = 530 * mm;
        i.frets.wear.clear();
        CHECK(contains(said(i, demo::unison_pairs()), "board.scale.frets must end before the saddle."));
        i.saddle.setback_bass = -38 * mm; // at 522 mm
        CHECK_FALSE(contains(said(i, demo::unison_pairs()), "before the saddle"));
        i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 5 * mm, .behind = -5 * mm, .top_slope = 0 * deg, .bass_foot = 30 * mm, .treble_foot = 30 * mm};
        CHECK(contains(said(i, demo::unison_pairs()), "feet.behind must leave the feet some length along the strings."));
        CHECK(contains(said(i, demo::unison_pairs()), "feet.treble_foot must be on the treble side of the bass foot."));
        i = demo::four_course();
        i.neck.depth_at_nut = 5 * mm;
        CHECK(contains(said(i, demo::unison_pairs()),
                       "neck.depth_at_nut must be more than the thickness of the board there."));
        i = demo::four_course();
        i.neck.joint_fret = 25;
        CHECK(contains(said(i, demo::unison_pairs()), "neck.joint_fret must be one of the board's 19 frets."));
        i = demo::four_course();
        i.neck.depth_at_joint = 5 * mm;
        CHECK(contains(said(i, demo::unison_pairs()), "must be more than the thickness of the board"));
        i = demo::four_course();
        i.neck.rod_pull = 100 * N;
        CHECK(contains(said(i, demo::unison_pairs()), "neck.rod_pull must be 0 where there is no rod."));
        i = demo::four_course();
        i.nut.slot_heights.resize(3);
        CHECK(contains(said(i, demo::unison_pairs()),
                       "nut.slot_heights must be one for all strings or one for each of the 8"));
    }
    TEST_CASE("a neck that would buckle is refused with the load at which it would") {
        auto i = demo::four_course();
        i.neck.board_modulus = 0.2 * GPa;
        i.neck.back_modulus = 0.1 * GPa;
        CHECK(contains(said(i, demo::unison_pairs()), "starts to buckle"));
    }
}

TEST_SUITE("solve: edges of the domain") {
    TEST_CASE("one string, no frets") {
        auto i = demo::four_course();
        i.board.scale.frets = 0;
        i.frets.wear.clear();
        for (auto* spacing : {&i.nut.spacing, &i.saddle.spacing}) {
            spacing->courses = {1};
            spacing->spread = 0.0 * mm;
        }
        i.nut.slot_heights.resize(1);
        i.posts.resize(1);
        stringing s;
        s.strings.push_back({plain_string(music_wire(), 11 * thou), parse_note("E4")});
        const auto out = solve(strung_instrument{i, s});
        REQUIRE(out.strings.size() == 1);
        CHECK(out.fret_x.empty());
        CHECK(!out.relief.has_value());
        CHECK(out.strings[0].heights.empty());
        CHECK(near::relative(out.total_tension, out.strings[0].tension, 1e-15));
        for (const auto& leaf : demo::leaves_of(out)) { CHECK_MESSAGE(std::isfinite(leaf.second), leaf.first); }
    }
    TEST_CASE("a hundred strings") {
        auto i = demo::four_course();
        i.neck.board_modulus = i.neck.back_modulus = 200 * GPa;
        i.board.width_at_nut = 130 * mm;
        i.board.width_at_end = 140 * mm;
        i.board.surface = flat_surface();
        i.saddle.radius.reset();
        for (auto* spacing : {&i.nut.spacing, &i.saddle.spacing}) {
            spacing->courses.assign(100, 1);
            spacing->spread = 120 * mm;
        }
        i.nut.slot_heights = {1.3 * mm};
        i.posts.assign(100, {.along = 50 * mm, .across = 0 * mm, .height = 8 * mm});
        stringing s;
        s.strings.assign(100, {plain_string(music_wire(), 9 * thou), parse_note("E3")});
        const auto out = solve(strung_instrument{i, s});
        REQUIRE(out.strings.size() == 100);
        for (const auto& leaf : demo::leaves_of(out)) { CHECK_MESSAGE(std::isfinite(leaf.second), leaf.first); }
    }
    TEST_CASE("a saddle off the centre line: its arc keeps its middle there, and meets both outer strings' heights") {
        for (const double offset : {0.0, 6.0, -9.0}) {
            auto i = demo::four_course();
            i.saddle.radius = 120 * mm;
            i.saddle.spacing.offset = offset * mm;
            const auto s = solve(strung_instrument{i, demo::unison_pairs()});
            const auto over_soundboard = [&](std::size_t k) {
                return (s.strings[k].line.saddle_z + i.saddle.board_line) / mm;
            };
            const auto y = [&](std::size_t k) { return s.strings[k].y_at_saddle / mm; };
            CHECK(near::within(y(0), offset - 26, 1e-9));
            CHECK(near::within(over_soundboard(0), 18.5, 1e-9));
            CHECK(near::within(over_soundboard(7), 18, 1e-9));
            // The circle by hand, R - sqrt(R^2 - y^2) below its top, and the straight line that tilts it to both heights.
            const auto drop = [](double across) { return 120 - std::sqrt(120 * 120 - across * across); };
            for (std::size_t k = 0; k < 8; ++k) {
                const double t = (y(k) - y(0)) / 52;
                const double straight = 18.5 + drop(y(0)) + (18 + drop(y(7)) - 18.5 - drop(y(0))) * t;
                CHECK(near::within(over_soundboard(k), straight - drop(y(k)), 1e-9));
            }
        }
    }
}
