// A warm solve into an existing setup allocates nothing: every allocation of this program is counted here.

#include <doctest/doctest.h>

#include "counted_allocations.hpp"
#include "demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a warm solve allocates nothing, as long as there is nothing to find fault with") {
    auto i = demo::four_course();
    i.feet = bridge_feet{.ahead = 40 * mm,
                         .behind = 40 * mm,
                         .top_slope = 0 * deg,
                         .bass_foot = -30 * mm,
                         .treble_foot = 30 * mm,
                         .friction = {0.6, 0.7}};
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
    REQUIRE(s.findings.empty()); // their sentences are the one thing that is put together anew
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
