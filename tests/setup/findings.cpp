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
    TEST_CASE("a setup in order has none") { CHECK(solve(demo::four_course(), demo::unison_pairs()).findings.empty()); }

    TEST_CASE("a string tuned too high: a warning, then a stop") {
        auto strung = demo::unison_pairs();
        strung.strings[7].pitch = parse_note("A4");
        auto s = solve(demo::four_course(), strung);
        // 40 % of strength at E4 becomes (4/3)^2 of it a fourth higher: 72 %, still below the warning.
        CHECK(count(s, finding_kind::core_near_strength) == 0);
        strung.strings[7].pitch = parse_note("B4");
        s = solve(demo::four_course(), strung);
        REQUIRE(count(s, finding_kind::core_near_strength) == 1);
        CHECK(first(s, finding_kind::core_near_strength).string == 8);
        CHECK(!any_stop(s.findings));
        strung.strings[7].pitch = parse_note("D#5");
        s = solve(demo::four_course(), strung);
        REQUIRE(count(s, finding_kind::core_over_strength) == 1);
        CHECK(any_stop(s.findings));
        CHECK(first(s, finding_kind::core_over_strength).number.as<double>() > 1);
    }
    TEST_CASE("a core of unknown strength is noted") {
        auto strung = demo::unison_pairs();
        strung.strings[0].string.core.material = brass();
        const auto s = solve(demo::four_course(), strung);
        CHECK(count(s, finding_kind::strength_unknown) == 1);
        CHECK(first(s, finding_kind::strength_unknown).string == 1);
    }
    TEST_CASE("a tailpiece hung above the saddle lifts the strings off it") {
        auto i = demo::four_course();
        i.tailpiece->hinge_height = 60 * mm;
        const auto s = solve(i, demo::unison_pairs());
        CHECK(count(s, finding_kind::lifts_off_saddle) == 8);
        CHECK(any_stop(s.findings));
        CHECK(first(s, finding_kind::lifts_off_saddle).number.as<force<>>() < 0 * N);
    }
    TEST_CASE("a headstock pitched forward lifts the strings out of the nut") {
        auto i = demo::four_course();
        i.headstock.pitch = -20 * deg;
        i.headstock.face_drop = -8 * mm;
        CHECK(count(solve(i, demo::unison_pairs()), finding_kind::lifts_off_nut) == 8);
    }
    TEST_CASE("a high fret stops the frets before it") {
        auto i = demo::four_course();
        for (auto& w : i.frets.wear) { w = 0.5 * mm; }
        i.frets.wear[9] = 0.0 * mm; // fret 10 stands half a millimetre proud
        const auto s = solve(i, demo::unison_pairs());
        REQUIRE(count(s, finding_kind::pressed_string_touches) > 0);
        for (const auto& f : s.findings) {
            REQUIRE(f.kind == finding_kind::pressed_string_touches);
            CHECK(f.fret == 10);
            CHECK(f.number.as<length<>>() <= 0 * mm);
        }
        CHECK(s.findings.front().sentence.find("touches fret 10") != std::string::npos);
    }
    TEST_CASE("a saddle far too low lays the open strings on the frets") {
        auto i = demo::four_course();
        i.saddle.height_bass = i.saddle.height_treble = 12.6 * mm;
        i.nut.slot_heights = {0.2 * mm};
        CHECK(count(solve(i, demo::unison_pairs()), finding_kind::open_string_touches) == 8);
    }
    TEST_CASE("a rod pulled hard puts the neck into back-bow") {
        auto i = demo::four_course();
        i.neck.rod = truss_rod{.x_from = -20 * mm, .x_to = 280 * mm, .z_ends = -20 * mm, .dip = 0 * mm};
        i.neck.rod_pull = 4000 * N;
        const auto s = solve(i, demo::unison_pairs());
        REQUIRE(count(s, finding_kind::back_bow) == 1);
        CHECK(s.board_relief->gap < 0 * mm);
    }
    TEST_CASE("strings spread wider than the board") {
        auto i = demo::four_course();
        i.nut.spacing.spread = 34 * mm;
        CHECK(count(solve(i, demo::unison_pairs()), finding_kind::string_off_board) == 2);
    }
    TEST_CASE("a floating bridge stands, tips or slides by its feet") {
        auto i = demo::four_course();
        i.feet = bridge_feet{
            .ahead = 30 * mm, .behind = 30 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
        auto s = solve(i, demo::unison_pairs());
        CHECK(count(s, finding_kind::bridge_tips) == 0);
        CHECK(count(s, finding_kind::bridge_slides) == 0);
        // Narrow feet: friction may tip it; feet altogether behind the pull: it does not stand.
        i.feet->ahead = i.feet->behind = 6 * mm;
        s = solve(i, demo::unison_pairs());
        REQUIRE(count(s, finding_kind::bridge_tips) == 1);
        CHECK(first(s, finding_kind::bridge_tips).severity == severity::note);
        i.feet->ahead = -30 * mm;
        i.feet->behind = 40 * mm;
        s = solve(i, demo::unison_pairs());
        REQUIRE(count(s, finding_kind::bridge_tips) == 1);
        CHECK(first(s, finding_kind::bridge_tips).severity == severity::stop);
        i.feet->friction = friction{0.01, 0.02};
        s = solve(i, demo::unison_pairs());
        CHECK(count(s, finding_kind::bridge_slides) == 1);
    }
    TEST_CASE("the strength of the wire divides warning from stop, and three quarters of it nothing from a warning") {
        const auto at_share = [](double wanted) {
            auto strung = demo::unison_pairs();
            strung.strings[7].pitch = parse_note("D5");
            const auto i = demo::four_course();
            // The share goes as the square of the pitch, but for the stretch of the string: two rounds meet it.
            for (int k = 0; k < 3; ++k) {
                const double share = *solve(i, strung).strings[7].share_of_strength;
                strung.standard.a4 = strung.standard.a4 * std::sqrt(wanted / share);
            }
            auto s = solve(i, strung);
            CHECK(near::relative(*s.strings[7].share_of_strength, wanted, 1e-4));
            std::erase_if(s.findings, [](const finding& f) { return f.string != 8; });
            return s.findings;
        };
        const auto over = at_share(1.02), just = at_share(0.98), near_it = at_share(0.76), below = at_share(0.74);
        REQUIRE(over.size() == 1);
        CHECK(over[0].kind == finding_kind::core_over_strength);
        CHECK(over[0].severity == severity::stop);
        CHECK(over[0].limit.as<double>() == 1.0);
        CHECK(over[0].sentence == "String 8: its core bears 102 % of the wire's least strength; it is expected to break.");
        for (const auto& found : {just, near_it}) {
            REQUIRE(found.size() == 1);
            CHECK(found[0].kind == finding_kind::core_near_strength);
            CHECK(found[0].severity == severity::warning);
            CHECK(found[0].limit.as<double>() == 0.75);
        }
        CHECK(below.empty());
    }
}
