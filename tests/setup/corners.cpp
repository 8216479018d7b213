#include "corners.hpp"

#include <tautline/setup/fret_overhang.hpp>
#include <tautline/setup/tuning_up.hpp>
#include <tautline/setup/under_strings.hpp>

#include "demo.hpp"

using namespace tautline;
using namespace tautline::units;
using corners::each_number;

namespace {

/// Strings over a bridge that holds them, on a top that gives and turns, with a rod.
strung_instrument pinned() {
    strung_instrument s{demo::four_course(), demo::unison_pairs()};
    s.instrument.tailpiece.reset();
    s.instrument.pins =
        pins{.distance = 20 * mm, .height = 6 * mm, .spread = 54 * mm, .top_thickness = 3 * mm, .saddle_exposed = 4 * mm};
    s.instrument.soundboard = soundboard{.sink_stiffness = 300 * N_per_mm,
                                         .turn_stiffness = 500 * N_m_per_rad,
                                         .saddle_ahead = 3 * mm,
                                         .saddle_height = 12 * mm};
    s.instrument.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
    s.instrument.neck.rod_pull = 400 * N;
    return s;
}
/// Strings over a bridge that stands on feet, on a board whose thickness was measured.
strung_instrument floating() {
    strung_instrument s{demo::four_course(), demo::unison_pairs()};
    s.instrument.feet =
        bridge_feet{.ahead = 5 * mm, .behind = 8 * mm, .top_slope = 0 * deg, .bass_foot = -34 * mm, .treble_foot = 34 * mm};
    s.instrument.soundboard = soundboard{.sink_stiffness = 500 * N_per_mm};
    s.instrument.board.thickness_at_end = 5 * mm;
    s.instrument.board.thickness_off_line = {
        {.x = 0 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = -0.2 * mm}, {.x = 400 * mm, .z = 0 * mm}};
    s.instrument.neck.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 140 * mm, .z = -0.15 * mm}, {.x = 280 * mm, .z = 0 * mm}};
    s.instrument.neck.joint_stiffness = 20000 * N_m_per_rad;
    return s;
}

} // namespace

TEST_CASE("corners: an instrument is solved, or says why not, wherever one of its numbers lies") {
    each_number("solve, pinned", pinned(), [](const strung_instrument& on) { return solve(on); });
    each_number("solve, floating", floating(), [](const strung_instrument& on) { return solve(on); });
}
TEST_CASE("corners: what lies under the strings, wherever it lies") {
    const auto s = solve(pinned());
    const named_object pickup{"pickup", {.x = 480 * mm, .z = -4 * mm, .extent = 20 * mm}};
    each_number("under_strings", pickup, [&](const named_object& at) { return under_strings(s, at); });
}
TEST_CASE("corners: both ends moved and tuning up, wherever a number of the instrument lies") {
    each_number("both_ends_moved", pinned(), [](const strung_instrument& on) {
        const auto moved = both_ends_moved(on, solve(on), 0);
        return moved ? std::vector<double>{moved->setback.value(), moved->nut_advance.value(),
                                           moved->root_mean_square.cents()}
                     : std::vector<double>{};
    });
    each_number("tuning_up_of", pinned(), [](const strung_instrument& on) {
        const auto t = tuning_up_of(on, solve(on));
        return t ? std::vector<double>{t->most_moved.cents()} : std::vector<double>{};
    });
}
TEST_CASE("corners: fret ends and loose slots, in any air and however tightly filled") {
    const climate here{.temperature = 21 * celsius, .humidity = 45 * percent_rh};
    corners::everywhere<double, double, double>("fret_overhang_in", [&](auto across, auto temperature, auto humidity) {
        return fret_overhang_in(demo::four_course().board, across, here,
                                {.temperature = temperature * celsius, .humidity = humidity * percent_rh});
    });
    auto s = floating();
    s.instrument.neck.slots = neck_slots{.depth = 2 * mm};
    corners::everywhere<double>("loose_slots_of", [&](auto bearing) {
        auto at = s;
        at.instrument.neck.slots->bearing = bearing;
        return loose_slots_of(at);
    });
}
