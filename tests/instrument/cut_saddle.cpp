#include <doctest/doctest.h>
#include <tautline/instrument/cut_saddle.hpp>
#include <tautline/instrument/ready_made.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("a saddle that is cut") {
    TEST_CASE("its mean height is that of the slots, by hand") {
        auto on = string_up(ready_made::nylon_strung());
        auto& saddle = on.instrument.saddle;
        saddle.radius.reset();
        saddle.height_bass = 12 * mm;
        saddle.height_treble = 10 * mm;
        CHECK(near::within(kernel::mean_saddle_height(on), 11 * mm, 1e-9 * mm));
        // Six places across: -1, -0.6, -0.2 and so on of half the spread h. The arc stands over its chord by
        // (h^2 - y^2)/2r, nearly.
        saddle.radius = field<length<>>(400 * mm);
        const double h = saddle.spacing.spread / mm / 2, mean_square = (1 + 0.36 + 0.04) / 3;
        CHECK(near::within(kernel::mean_saddle_height(on), (11 + h * h * (1 - mean_square) / 800) * mm, 2e-3 * mm));
    }
    TEST_CASE("what stands out and the height over the turn move with it, and end at 0") {
        auto from = ready_made::nylon_strung().instrument;
        from.tie_block.reset();
        from.pins = pins{
            .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 3 * mm};
        from.soundboard = soundboard{.sink_stiffness = 200 * N_per_mm,
                                     .turn_stiffness = 300 * N_m_per_rad,
                                     .saddle_ahead = 4 * mm,
                                     .saddle_height = 11 * mm};
        auto to = from;
        kernel::move_exposed<double>(from, -2 * mm, to);
        kernel::move_height_over_turn<double>(from, -2 * mm, to);
        CHECK(near::within(to.pins->saddle_exposed, 1 * mm, 1e-12 * mm));
        CHECK(near::within(*to.soundboard->saddle_height, 9 * mm, 1e-12 * mm));
        kernel::move_exposed<double>(from, -4 * mm, to);
        CHECK(to.pins->saddle_exposed == 0 * mm);
        to.soundboard.reset();
        kernel::move_height_over_turn<double>(from, -2 * mm, to);
        CHECK_FALSE(to.soundboard);
    }
}
