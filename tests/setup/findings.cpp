#include <tautline/instrument/ready_made_bent.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/findings.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

int count(const setup& s, finding_kind kind) {
    return static_cast<int>(
        std::count_if(s.findings.begin(), s.findings.end(), [&](const finding& f) { return f.kind == kind; }));
}
const finding& first(const setup& s, finding_kind kind) {
    return *std::find_if(s.findings.begin(), s.findings.end(), [&](const finding& f) { return f.kind == kind; });
}

} // namespace

TEST_SUITE("findings") {
    TEST_CASE("a setup in order has none") {
        CHECK(solve(strung_instrument{demo::four_course(), demo::unison_pairs()}).findings.empty());
    }

    TEST_CASE("a string tuned too high: a warning, then a stop") {
        auto strung = demo::unison_pairs();
        strung.strings[7].pitch = parse_note("G#4");
        auto s = solve(strung_instrument{demo::four_course(), strung});
        // 40 % of strength at E4 becomes (5/4)^2 of it a third higher: 64 %, still below the warning.
        CHECK(count(s, finding_kind::core_near_strength) == 0);
        strung.strings[7].pitch = parse_note("B4");
        s = solve(strung_instrument{demo::four_course(), strung});
        REQUIRE(count(s, finding_kind::core_near_strength) == 1);
        CHECK(first(s, finding_kind::core_near_strength).string_index == 7u);
        CHECK(!any_stop(s.findings));
        strung.strings[7].pitch = parse_note("D#5");
        s = solve(strung_instrument{demo::four_course(), strung});
        REQUIRE(count(s, finding_kind::core_over_strength) == 1);
        CHECK(any_stop(s.findings));
        CHECK(first(s, finding_kind::core_over_strength).number.as<double>() > 1);
    }
    TEST_CASE("a core of unknown strength is noted") {
        auto strung = demo::unison_pairs();
        strung.strings[0].string.core.material = brass();
        const auto s = solve(strung_instrument{demo::four_course(), strung});
        CHECK(count(s, finding_kind::strength_unknown) == 1);
        CHECK(first(s, finding_kind::strength_unknown).string_index == 0u);
    }
    TEST_CASE("a tailpiece hung above the saddle lifts the strings off it") {
        auto i = demo::four_course();
        i.tailpiece->hinge_height = 60 * mm;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(count(s, finding_kind::lifts_off_saddle) == 8);
        CHECK(any_stop(s.findings));
        CHECK(first(s, finding_kind::lifts_off_saddle).number.as<force<>>() < 0 * N);
    }
    TEST_CASE("a headstock pitched forward lifts the strings out of the nut") {
        auto i = demo::four_course();
        i.headstock.pitch = -20 * deg;
        i.headstock.face_drop = -8 * mm;
        CHECK(count(solve(strung_instrument{i, demo::unison_pairs()}), finding_kind::lifts_off_nut) == 8);
    }
    TEST_CASE("a high fret stops the frets before it") {
        auto i = demo::four_course();
        for (auto& w : i.frets.wear) { w = 0.5 * mm; }
        i.frets.wear[9] = 0.0 * mm; // fret 10 stands half a millimetre proud
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(count(s, finding_kind::pressed_string_touches) > 0);
        for (const auto& f : s.findings) {
            REQUIRE(f.kind == finding_kind::pressed_string_touches);
            CHECK(f.fret == 10);
            CHECK(f.number.as<length<>>() <= 0 * mm);
        }
        CHECK(sentence_of(s.findings.front(), s.names).find("touches fret 10") != std::string::npos);
    }
    TEST_CASE("a saddle far too low lays the open strings on the frets") {
        auto i = demo::four_course();
        i.saddle.height_bass = i.saddle.height_treble = 12.6 * mm;
        i.nut.slot_heights = {0.2 * mm};
        CHECK(count(solve(strung_instrument{i, demo::unison_pairs()}), finding_kind::open_string_touches) == 8);
    }
    TEST_CASE("a rod pulled hard puts the neck into back-bow") {
        auto i = demo::four_course();
        i.neck.rod = truss_rod{.x_from = -20 * mm, .x_to = 280 * mm, .z_ends = -20 * mm, .dip = 0 * mm};
        i.neck.rod_pull = 4000 * N;
        const auto s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(count(s, finding_kind::back_bow) == 1);
        CHECK(s.board_relief->gap < 0 * mm);
    }
    TEST_CASE("strings spread wider than the board") {
        auto i = demo::four_course();
        i.nut.spacing.spread = 34 * mm;
        CHECK(count(solve(strung_instrument{i, demo::unison_pairs()}), finding_kind::string_off_board) == 2);
    }
    TEST_CASE("a floating bridge stands, tips or slides by its feet") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 30 * mm, .behind = 30 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        auto s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(count(s, finding_kind::bridge_tips) == 0);
        // It slides where the feet hold less than the strings ask for: settled, or while they are tuned up and let down.
        const double settled = s.standing->even.friction_needed, tuned = s.standing->friction_needed();
        CHECK(tuned == std::max(s.standing->tail_slack.friction_needed, s.standing->tail_tight.friction_needed));
        REQUIRE(tuned > settled + 0.2);
        for (const double holds : {0.9 * settled, 1.1 * settled, 0.9 * tuned, 1.1 * tuned}) {
            i.feet->friction = friction{holds, 2 * holds};
            s = solve(strung_instrument{i, demo::unison_pairs()});
            CHECK(count(s, finding_kind::bridge_slides) == (holds < tuned ? 1 : 0));
            if (holds >= tuned) { continue; }
            const auto& slides = first(s, finding_kind::bridge_slides);
            CHECK(slides.severity == (holds < settled ? severity::warning : severity::note));
            CHECK(slides.number.as<double>() == (holds < settled ? settled : tuned));
        }
        // Narrow feet: friction may tip it; feet altogether behind the pull: it does not stand.
        i.feet->ahead = i.feet->behind = 6 * mm;
        s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(count(s, finding_kind::bridge_tips) == 1);
        CHECK(first(s, finding_kind::bridge_tips).severity == severity::note);
        i.feet->ahead = -30 * mm;
        i.feet->behind = 40 * mm;
        s = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(count(s, finding_kind::bridge_tips) == 1);
        CHECK(first(s, finding_kind::bridge_tips).severity == severity::stop);
        i.feet->friction = friction{0.01, 0.02};
        s = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(count(s, finding_kind::bridge_slides) == 1);
    }
    TEST_CASE("the strength of the wire divides warning from stop, and three quarters of it nothing from a warning") {
        string_names names;
        const auto at_share = [&](double wanted) {
            auto strung = demo::unison_pairs();
            strung.strings[7].pitch = parse_note("D5");
            const auto i = demo::four_course();
            // The share goes as the square of the pitch, but for the stretch of the string: two rounds meet it.
            for (int k = 0; k < 3; ++k) {
                const double share = *solve(strung_instrument{i, strung}).strings[7].share_of_strength;
                strung.standard.a4 = strung.standard.a4 * std::sqrt(wanted / share);
            }
            auto s = solve(strung_instrument{i, strung});
            CHECK(near::relative(*s.strings[7].share_of_strength, wanted, 1e-4));
            names = s.names;
            std::erase_if(s.findings, [](const finding& f) { return f.string_index != 7u; });
            return s.findings;
        };
        const auto over = at_share(1.02), just = at_share(0.98), near_it = at_share(0.71), below = at_share(0.69);
        REQUIRE(over.size() == 1);
        CHECK(over[0].kind == finding_kind::core_over_strength);
        CHECK(over[0].severity == severity::stop);
        CHECK(over[0].limit.as<double>() == 1.0);
        CHECK(sentence_of(over[0], names) ==
              "Course 1 (D5), its treble-side string: its core bears 102 % of the wire's least "
              "strength; it is expected to break.");
        for (const auto& found : {just, near_it}) {
            REQUIRE(found.size() == 1);
            CHECK(found[0].kind == finding_kind::core_near_strength);
            CHECK(found[0].severity == severity::warning);
            CHECK(found[0].limit.as<double>() == 0.70);
        }
        CHECK(below.empty());
    }
    TEST_CASE("a re-entrant tuning is asked about once, by position across the board") {
        auto i = demo::four_course();
        auto strung = demo::unison_pairs();
        for (const std::size_t k : {0u, 1u}) {
            strung.strings[k] = {plain_string(music_wire(), 9 * thou), parse_note("G4")};
        }
        const auto s = solve(strung_instrument{i, strung});
        REQUIRE(count(s, finding_kind::re_entrant_tuning) == 1);
        const finding& f = first(s, finding_kind::re_entrant_tuning);
        CHECK(f.severity == severity::note);
        CHECK(f.string_index == 0u);
        CHECK(near::relative(f.number.as<frequency<>>(), pitch_of("G4"), 1e-12));
        CHECK(near::relative(f.limit.as<frequency<>>(), pitch_of("D3"), 1e-12));
        CHECK(sentence_of(f, s.names) ==
              "A re-entrant tuning: course 4 (G4) sounds higher than its neighbour on the treble side, "
              "course 3 (D3). If that "
              "is not meant, see to the order of the list and to the octaves.");
        // An octave within a course is none, whichever of its strings is the higher one.
        strung = demo::unison_pairs();
        strung.strings[0] = {plain_string(music_wire(), 14 * thou), parse_note("G3")};
        CHECK(count(solve(strung_instrument{i, strung}), finding_kind::re_entrant_tuning) == 0);
    }
    TEST_CASE("a set that is listed treble first is told, one that falls in part is asked about") {
        auto i = demo::four_course();
        auto strung = demo::unison_pairs();
        CHECK_FALSE(is_listed_treble_first(i.nut.spacing.courses, strung.strings));
        std::reverse(strung.strings.begin(), strung.strings.end());
        CHECK(is_listed_treble_first(i.nut.spacing.courses, strung.strings));
        auto s = solve(strung_instrument{i, strung});
        REQUIRE(count(s, finding_kind::listed_treble_first) == 1);
        CHECK(count(s, finding_kind::re_entrant_tuning) == 0);
        CHECK(first(s, finding_kind::listed_treble_first).severity == severity::warning);
        CHECK(sentence_of(first(s, finding_kind::listed_treble_first), s.names) ==
              "The strings must stand bass first, but each sounds lower than the one before: turn the list round, so that "
              "string 1, the highest, stands last.");
        strung.strings[6].pitch = strung.strings[7].pitch = strung.strings[5].pitch; // the last two alike
        CHECK_FALSE(is_listed_treble_first(i.nut.spacing.courses, strung.strings));
        s = solve(strung_instrument{i, strung});
        CHECK(count(s, finding_kind::listed_treble_first) == 0);
        CHECK(count(s, finding_kind::re_entrant_tuning) == 1);
        // Two strings may be tuned either way: that is asked.
        const std::vector<tuned_string> two{{plain_string(music_wire(), 9 * thou), parse_note("A4")},
                                            {plain_string(music_wire(), 14 * thou), parse_note("D4")}};
        CHECK_FALSE(is_listed_treble_first({1, 1}, two));
        CHECK_FALSE(is_listed_treble_first({1, 1, 1}, two)); // one is missing: that is told otherwise
    }
    TEST_CASE("gauges that stand the other way round than the notes are asked about") {
        auto i = demo::four_course();
        auto strung = demo::unison_pairs();
        for (std::size_t k = 0; k < 8; ++k) {
            strung.strings[k].string = plain_string(music_wire(), (9 + 2 * static_cast<double>(k / 2)) * thou);
        }
        CHECK(count(solve(strung_instrument{i, strung}), finding_kind::gauges_against_notes) == 1);
        strung.strings[7].string = strung.strings[6].string = plain_string(music_wire(), 9 * thou);
        CHECK(count(solve(strung_instrument{i, strung}), finding_kind::gauges_against_notes) == 0);
    }
    TEST_CASE("posts: mirrored ones are refused, strings that cross are asked about") {
        auto i = demo::four_course();
        CHECK(count(solve(strung_instrument{i, demo::unison_pairs()}), finding_kind::strings_cross) == 0);
        auto crossed = i;
        std::swap(crossed.posts[0], crossed.posts[3]); // on one side, the far one for the near one
        const auto s = solve(strung_instrument{crossed, demo::unison_pairs()});
        REQUIRE(count(s, finding_kind::strings_cross) == 1);
        CHECK(first(s, finding_kind::strings_cross).string_index == 0u);
        CHECK(first(s, finding_kind::strings_cross).other_index == 1u);
        CHECK(sentence_of(first(s, finding_kind::strings_cross), s.names)
                  .starts_with("Two strings cross between the nut and their posts: course 4 (G2), its bass-side "
                               "string; and course 4 (G2), its treble-side string."));
        // Places on posts are measured to a millimetre: a crossing within that is none.
        const auto in_order = solve(strung_instrument{i, demo::unison_pairs()});
        const auto with_second_string_beyond_first_post = [&](const length<>& by) {
            auto close = i;
            const length<> nut = in_order.strings[1].y_at_nut, wanted = in_order.posts[0].y - by;
            close.posts[1].across = nut + (wanted - nut) * (in_order.posts[1].x / in_order.posts[0].x);
            return count(solve(strung_instrument{close, demo::unison_pairs()}), finding_kind::strings_cross);
        };
        CHECK(with_second_string_beyond_first_post(-0.5 * mm) == 0);
        CHECK(with_second_string_beyond_first_post(0.8 * mm) == 0);
        CHECK(with_second_string_beyond_first_post(1.2 * mm) == 1);
        for (auto& p : i.posts) { p.across = -1 * p.across; }
        const auto problems = validate(i);
        REQUIRE(problems.size() == 1);
        CHECK(problems[0].field == "posts");
        i.posts[0].across =
            -1 * i.posts[0].across; // one on its own side: strange, but it is not the whole that is mirrored
        CHECK(validate(i).empty());
        CHECK(count(solve(strung_instrument{i, demo::unison_pairs()}), finding_kind::strings_cross) == 1);
    }
    TEST_CASE("strings that would lie inside each other: the free space was told where centres count") {
        const auto strung = demo::unison_pairs();
        const auto solved = [&](const instrument& i) { return solve(strung_instrument{i, strung}); };
        const auto thick = [&](const setup& s, std::size_t k) {
            return length<>((s.strings[k].gauge + s.strings[k + 1].gauge) / 2);
        };
        auto i = demo::four_course();
        CHECK(count(solved(i), finding_kind::strings_overlap) == 0);
        // At the saddle alone, in every course: the thickest pair is told.
        i.saddle.spacing.course_gap = 0.2 * mm;
        auto s = solved(i);
        REQUIRE(count(s, finding_kind::strings_overlap) == 1);
        const finding f = first(s, finding_kind::strings_overlap);
        CHECK(f.severity == severity::stop);
        CHECK(f.string_index == 0u);
        CHECK(f.other_index == 1u);
        CHECK(f.part == "saddle");
        CHECK(near::within(f.number.as<length<>>(), thick(s, 0) - 0.2 * mm, 0.001 * mm));
        CHECK(f.beside[0].si() == 4);
        const std::string told = sentence_of(f, s.names);
        CHECK(told.starts_with("Two neighbouring strings would lie "));
        CHECK(told.find(
                  " mm inside each other at the saddle, which cannot be: course 4 (G2), its bass-side string; and course 4 "
                  "(G2), its treble-side string. So do 3 other pairs. Perhaps the free space") != std::string::npos);
        // With equal gaps the same number is free space, and fits.
        i.saddle.spacing.rule = spacing_rule::equal_gaps;
        CHECK(count(solved(i), finding_kind::strings_overlap) == 0);
        // Touching strings lie beside each other; a little less is too little. The thinnest pair is told last.
        i = demo::four_course();
        i.nut.spacing.course_gap = thick(s, 0) + 1e-6 * mm;
        CHECK(count(solved(i), finding_kind::strings_overlap) == 0);
        i.nut.spacing.course_gap = thick(s, 0) - 0.01 * mm;
        s = solved(i);
        REQUIRE(count(s, finding_kind::strings_overlap) == 1);
        CHECK(first(s, finding_kind::strings_overlap).part == "nut");
        CHECK(first(s, finding_kind::strings_overlap).beside[0].si() == 1);
        CHECK(sentence_of(first(s, finding_kind::strings_overlap), s.names).find("string. Perhaps") != std::string::npos);
    }
    TEST_CASE("strings of a fan and one with a nut of its own are looked at where both have begun") {
        for (const auto& o : {ready_made::fanned_bass(), ready_made::five_string_banjo()}) {
            auto model = string_up(o);
            CHECK(count(solve(model), finding_kind::strings_overlap) == 0);
            auto& at_saddle = model.instrument.saddle.spacing;
            at_saddle.spread = 0.3 * mm * (string_count(at_saddle) - 1.0);
            const auto s = solve(model);
            REQUIRE(count(s, finding_kind::strings_overlap) == 1);
            CHECK(first(s, finding_kind::strings_overlap).part == "saddle");
        }
        // The short string's nut moved against the fourth string, where that one passes.
        const auto banjo = ready_made::five_string_banjo();
        auto model = string_up(banjo);
        const auto before = solve(model);
        const auto& passing = before.strings[1];
        const double share =
            (before.strings[0].line.nut_x - passing.line.nut_x) / (passing.line.saddle_x - passing.line.nut_x);
        const length<> there = passing.y_at_nut + (passing.y_at_saddle - passing.y_at_nut) * share;
        model.instrument.short_strings[0].across = there - 0.3 * mm;
        const auto s = solve(model);
        REQUIRE(count(s, finding_kind::strings_overlap) == 1);
        const finding f = first(s, finding_kind::strings_overlap);
        CHECK(f.part == "nut");
        CHECK(f.string_index == 0u);
        CHECK(near::within(f.number.as<length<>>(), (s.strings[0].gauge + s.strings[1].gauge) / 2 - 0.3 * mm, 0.001 * mm));
        model.instrument.short_strings[0].across = there - (s.strings[0].gauge + s.strings[1].gauge) / 2 - 0.01 * mm;
        CHECK(count(solve(model), finding_kind::strings_overlap) == 0);
    }
    TEST_CASE("each at its limit: what it says of which string and fret, and how bad it is") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 30 * mm, .behind = 30 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        i.saddle.friction = friction{0.1, 0.2}; // draws no bridge along while it is tuned
        const auto sound = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(sound.findings.empty());
        // The only finding of the setup after a change.
        const auto found = [&](const auto& change) {
            auto s = sound;
            change(s, s.strings[2]);
            fill_findings(i, s);
            return s.findings;
        };
        const auto only = [&](const auto& change) {
            const auto list = found(change);
            REQUIRE(list.size() == 1);
            return list.front();
        };
        const auto is = [&](const finding& f, finding_kind kind, severity how, std::optional<int> string,
                            std::optional<int> fret, std::string_view sentence) {
            CHECK(f.kind == kind);
            CHECK(f.severity == how);
            CHECK(f.string_index == string);
            CHECK(f.fret == fret);
            CHECK(sentence_of(f, sound.names) == sentence);
        };
        using S = setup;
        using T = string_setup;
        is(only([](S&, T& t) {
               t.share_of_strength.reset();
               t.core_stress = 500 * MPa;
           }),
           finding_kind::strength_unknown, severity::note, 2, {},
           "Course 3 (D3), its bass-side string: no strength is known for its core, which bears 500 MPa.");
        is(only([](S&, T& t) { t.share_of_strength = 0.70; }), finding_kind::core_near_strength, severity::warning, 2, {},
           "Course 3 (D3), its bass-side string: its core bears 70 % of the wire's least strength; it may break when tuned "
           "or bent.");
        is(only([](S&, T& t) { t.share_of_strength = 1; }), finding_kind::core_over_strength, severity::stop, 2, {},
           "Course 3 (D3), its bass-side string: its core bears 100 % of the wire's least strength; it is expected to "
           "break.");
        CHECK(found([](S&, T& t) { t.at_nut.on_support.z = 0 * N; }).size() == 1);
        const auto off_nut = only([](S&, T& t) { t.at_nut.on_support.z = 1 * N; });
        is(off_nut, finding_kind::lifts_off_nut, severity::warning, 2, {},
           "Course 3 (D3), its bass-side string: nothing presses it into its nut slot (down-force -1.0 N).");
        CHECK(off_nut.limit.as<force<>>() == 0 * N);
        const auto off_saddle = only([](S&, T& t) { t.at_saddle.on_support.z = 2 * N; });
        is(off_saddle, finding_kind::lifts_off_saddle, severity::stop, 2, {},
           "Course 3 (D3), its bass-side string: nothing presses it onto the saddle (down-force -2.0 N).");
        CHECK(off_saddle.limit.as<force<>>() == 0 * N);
        CHECK(found([](S&, T& t) { t.at_saddle.on_support.z = 0 * N; }).size() == 1);
        const auto open = only([](S&, T& t) { t.clearances[0] = {.gap = 0 * mm, .fret = 7}; });
        is(open, finding_kind::open_string_touches, severity::warning, 2, 7,
           "Course 3 (D3), its bass-side string: open, it touches fret 7 (clearance 0 mm).");
        CHECK(open.limit.as<length<>>() == 0 * mm);
        is(only([](S&, T& t) { t.clearances[4] = {.gap = -0.1 * mm, .fret = 7}; }), finding_kind::pressed_string_touches,
           severity::warning, 2, 7,
           "Course 3 (D3), its bass-side string: pressed at fret 4, it touches fret 7 (clearance -0.1 mm).");
        // The board is 32 mm wide at the nut.
        CHECK(found([](S&, T& t) { t.y_at_nut = -16 * mm; }).empty());
        CHECK(found([](S&, T& t) { t.heights[11] = 12 * mm; }).empty());
        const auto far_off = only([](S&, T& t) { t.heights[11] = 54.2 * mm; });
        is(far_off, finding_kind::out_of_reach, severity::warning, 2, 12,
           "Course 3 (D3), its bass-side string: it stands 54.2 mm over fret 12, farther than any is set: measure "
           "saddle and board line again.");
        CHECK(far_off.number.as<length<>>() == 54.2 * mm);
        const auto wide = only([](S&, T& t) { t.y_at_nut = -16.5 * mm; });
        is(wide, finding_kind::string_off_board, severity::warning, 2, {},
           "Course 3 (D3), its bass-side string: it stands 16.5 mm from the centre line at the nut, beyond the edge of the "
           "board.");
        CHECK(wide.limit.as<length<>>() == 16 * mm);
        CHECK(found([](S& s, T&) { s.standing->tail_slack.front_margin = 0 * mm; }).empty());
        const auto tips = only([](S& s, T&) { s.standing->tail_slack.front_margin = -1 * mm; });
        is(tips, finding_kind::bridge_tips, severity::note, {}, {},
           "Friction on the saddle can tip the bridge while tuning: see that it stands upright.");
        CHECK(tips.number.as<length<>>() == -1 * mm);
        CHECK(tips.limit.as<length<>>() == 0 * mm);
        const auto falls = only([](S& s, T&) {
            s.standing->even.back_margin = -1 * mm;
            s.standing->tail_tight.back_margin = -2 * mm;
        });
        is(falls, finding_kind::bridge_tips, severity::stop, {}, {},
           "The strings' pull falls outside the bridge's feet: it does not stand.");
        CHECK(falls.number.as<length<>>() == -1 * mm);
        const double least = i.feet->friction.least;
        CHECK(found([&](S& s, T&) { s.standing->even.friction_needed = least; }).empty());
        const auto slides = only([&](S& s, T&) { s.standing->even.friction_needed = 0.31; });
        is(slides, finding_kind::bridge_slides, severity::warning, {}, {},
           "The bridge's feet may slide on the soundboard: they need a friction of 0.31 and may have 0.3.");
        CHECK(slides.number.as<double>() == 0.31);
        CHECK(slides.limit.as<double>() == least);
        const auto drawn = only([&](S& s, T&) { s.standing->tail_slack.friction_needed = 0.7654; });
        is(drawn, finding_kind::bridge_slides, severity::note, {}, {},
           "Friction on the saddle can draw the bridge's feet along while tuning: they then need a friction of 0.77 and "
           "may "
           "have 0.3. See that it stands in its place once all are in tune.");
        CHECK(drawn.number.as<double>() == 0.7654);
        CHECK(found([](S& s, T&) { s.board_relief->gap = 0 * mm; }).empty());
        const auto back = only([](S& s, T&) { s.board_relief = basic_relief<double>{-0.05 * mm, 200 * mm, 6}; });
        is(back, finding_kind::back_bow, severity::warning, {}, 7,
           "The neck stands in back-bow under load: relief -0.05 mm at fret 7.");
        CHECK(back.limit.as<length<>>() == 0 * mm);
        CHECK_FALSE(any_stop({off_nut, tips}));
        CHECK(any_stop({tips, falls}));
    }
}
