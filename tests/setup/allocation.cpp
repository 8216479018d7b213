// A warm solve into an existing setup allocates nothing: every allocation of this program is counted here.

#include <algorithm>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made_bent.hpp>
#include <tautline/neck/wood_by_name.hpp>

#include "counted_allocations.hpp"
#include "demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a warm solve allocates nothing") {
    auto i = demo::four_course();
    i.feet = bridge_feet{.ahead = 40 * mm,
                         .behind = 40 * mm,
                         .top_slope = 0 * deg,
                         .bass_foot = -30 * mm,
                         .treble_foot = 30 * mm,
                         .friction = {0.9, 1}};
    i.soundboard = soundboard{.sink_stiffness = 400 * N_per_mm,
                              .turn_stiffness = 3000 * N_m_per_rad,
                              .saddle_ahead = 0 * mm,
                              .saddle_height = 0 * mm};
    i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm};
    i.neck.rod_pull = 200 * N;
    i.neck.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 140 * mm, .z = -0.1 * mm}, {.x = 280 * mm, .z = 0 * mm}};
    strung_instrument on{i, demo::unison_pairs()};
    setup s;
    solve(on, s, 200);
    const auto before = s.down_force;
    REQUIRE(s.findings.empty());
    on.instrument.saddle.height_bass = 18.6 * mm;
    const std::size_t counted = allocations;
    solve(on, s, 200);
    const std::size_t now = allocations;
    CHECK(now == counted);
    CHECK(s.down_force != before);
    auto* seen = new int(0); // the count does count
    CHECK(allocations > now);
    delete seen;
}

TEST_CASE("nor does one of strings with nuts of their own") {
    const auto o = ready_made::five_string_banjo();
    strung_instrument on{o.instrument, string_up(o.strings, o.a4)};
    setup s;
    solve(on, s);
    const auto before = s.down_force;
    on.instrument.saddle.height_bass += 0.1 * mm;
    const std::size_t counted = allocations;
    solve(on, s);
    CHECK(allocations == counted);
    CHECK(s.down_force != before);
}

TEST_CASE("nor does one of a neck whose fret slots are loose") {
    auto o = ready_made::flat_top();
    o.instrument.neck.slots = neck_slots{.depth = 2.5 * mm};
    o.instrument.neck.slots->bearing = 0.5;
    strung_instrument on{o.instrument, string_up(o.strings, o.a4)};
    setup s;
    solve(on, s);
    REQUIRE(std::any_of(s.findings.begin(), s.findings.end(),
                        [](const finding& f) { return f.kind == finding_kind::slots_loose; }));
    on.instrument.saddle.height_bass += 0.1 * mm;
    const std::size_t counted = allocations;
    solve(on, s);
    CHECK(allocations == counted);
}

TEST_CASE("nor does one that finds much: sentences are made on request") {
    auto i = demo::four_course();
    i.neck.board_wood = "ebony"; // which of several is not said
    i.neck.back_wood = "wenge";  // whose sources disagree
    i.neck.board_modulus = woods::find_modulus("ebony")->modulus;
    i.neck.back_modulus = woods::find_modulus("wenge")->modulus;
    for (auto& w : i.frets.wear) { w = 0.5 * mm; }
    i.frets.wear[9] = 0 * mm; // fret 10 stands proud
    std::swap(i.posts[0], i.posts[3]);
    strung_instrument on{i, demo::unison_pairs()};
    on.stringing.strings[7].pitch = parse_note("A5");
    setup s;
    solve(on, s);
    const auto found = s.findings.size();
    const auto has = [&](finding_kind kind) {
        return std::any_of(s.findings.begin(), s.findings.end(), [&](const finding& f) { return f.kind == kind; });
    };
    CHECK(found > 10);
    for (const auto kind : {finding_kind::wood_by_name, finding_kind::strings_cross, finding_kind::core_over_strength,
                            finding_kind::pressed_string_touches}) {
        CAPTURE(static_cast<int>(kind));
        CHECK(has(kind));
    }
    on.instrument.saddle.height_bass += 0.1 * mm;
    const std::size_t counted = allocations;
    solve(on, s);
    CHECK(allocations == counted);
    CHECK(s.findings.size() > 10);
}
