#include <tautline/supports/bridge_adjusters.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("adjusters outside the strings move more than the strings rise, inside less, and the strings' lifts come back") {
    const bridge_adjusters wide{.bass = -40 * mm, .treble = 36 * mm, .thread_pitch = 0.7 * mm};
    const auto m = adjuster_moves(wide, -18 * mm, 0.5 * mm, 17 * mm, -0.2 * mm);
    const auto at = [&](double y) { return m.bass + (y + 40) / 76 * (m.treble - m.bass); };
    CHECK(near::within(at(-18), 0.5 * mm, 1e-9 * mm));
    CHECK(near::within(at(17), -0.2 * mm, 1e-9 * mm));
    CHECK(m.bass > 0.5 * mm);
    CHECK(m.treble < -0.2 * mm);
    CHECK(near::within(m.bass_turns * 0.7 * mm, m.bass, 1e-9 * mm));
    CHECK(near::within(m.treble_turns * 0.7 * mm, m.treble, 1e-9 * mm));
}

TEST_CASE("the same lift on both sides is the same at both adjusters") {
    const bridge_adjusters a{.bass = -30 * mm, .treble = 25 * mm, .thread_pitch = 1 * mm};
    const auto m = adjuster_moves(a, -18 * mm, 0.3 * mm, 18 * mm, 0.3 * mm);
    CHECK(near::within(m.bass, 0.3 * mm, 1e-12 * mm));
    CHECK(near::within(m.treble_turns, 0.3, 1e-12));
}

TEST_CASE("bad input is named") {
    const bridge_adjusters a{.bass = -30 * mm, .treble = 25 * mm, .thread_pitch = 1 * mm};
    CHECK_THROWS_WITH((void)adjuster_moves(a, 18 * mm, 0 * mm, -18 * mm, 0 * mm),
                      "treble_string must be on the treble side of the bass string.");
    CHECK_THROWS_AS((void)adjuster_moves<double>({.bass = 30 * mm, .treble = 25 * mm, .thread_pitch = 1 * mm}, -18 * mm,
                                                 0 * mm, 18 * mm, 0 * mm),
                    invalid_input);
    CHECK_THROWS_AS((void)adjuster_moves<double>({.bass = -30 * mm, .treble = 25 * mm, .thread_pitch = 0 * mm}, -18 * mm,
                                                 0 * mm, 18 * mm, 0 * mm),
                    invalid_input);
}
