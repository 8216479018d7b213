#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/fret_overhang.hpp>

#include <doctest/doctest.h>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr climate air_of(double humidity, double temperature = 21) {
    return {.temperature = temperature * celsius, .humidity = humidity * percent_rh};
}
board a_board() { return ready_made::flat_top().instrument.board; }

} // namespace

TEST_SUITE("fret overhang") {
    TEST_CASE("half of what the board loses on each side, by the handbook's table of moisture") {
        // Wood Handbook, table 4-2, at 70 deg F: 50 % of relative humidity leaves 9.2 % of moisture, 30 % 6.2 %. Flat-sawn
        // sugar maple moves by 0.00353 for 1 % (table 13-5): 50 mm lose 0.53 mm, 0.26 mm on each side.
        auto b = a_board();
        b.width_at_end = 50 * mm;
        const auto out = fret_overhang_in(b, 0.00353, air_of(50), air_of(30));
        CHECK(near::within(out.at_end.value(), 0.5 * 50e-3 * 0.00353 * (9.2 - 6.2), 0.01e-3));
        // The same board as it is told without the instrument, on its other measure.
        const moving_board moving{
            .width = 50 * mm, .thickness = 6 * mm, .across = 0.00353, .down = 0.002, .fretted_in = air_of(50)};
        CHECK(near::within(out.at_end.value(), board_in(moving, air_of(30)).fret_ends.value(), 1e-12));
    }
    TEST_CASE("in proportion to the width, nothing in the same air, the other way in the damp") {
        const auto b = a_board();
        const auto dry = fret_overhang_in(b, 0.0025, air_of(45), air_of(30)),
                   damp = fret_overhang_in(b, 0.0025, air_of(45), air_of(60)),
                   same = fret_overhang_in(b, 0.0025, air_of(45), air_of(45));
        CHECK(same.at_nut == 0 * mm);
        CHECK(same.at_end == 0 * mm);
        CHECK(dry.at_nut > 0 * mm);
        CHECK(damp.at_nut < 0 * mm);
        CHECK(near::relative(dry.at_end / dry.at_nut, b.width_at_end / b.width_at_nut, 1e-12));
        // There and back: what one air takes the other gives, as seen from the board in the first.
        const auto one = fret_overhang_in(b, 0.0025, air_of(45), air_of(35)),
                   rest = fret_overhang_in(b, 0.0025, air_of(35), air_of(30));
        CHECK(near::within((one.at_end + rest.at_end).value(), dry.at_end.value(), 1e-9));
        CHECK(near::within(dry.at_end.value(), -fret_overhang_in(b, 0.0025, air_of(30), air_of(45)).at_end.value(), 1e-9));
    }
    TEST_CASE("what cannot be is refused by its name") {
        const auto b = a_board();
        CHECK_THROWS_WITH_AS((void)fret_overhang_in(b, -0.001, air_of(45), air_of(30)),
                             doctest::Contains("movement coefficient"), invalid_input);
        CHECK_THROWS_AS((void)fret_overhang_in(b, std::nan(""), air_of(45), air_of(30)), invalid_input);
        CHECK_THROWS_AS((void)fret_overhang_in(b, 0.002, air_of(45), air_of(30, 90)), invalid_input);
        CHECK_THROWS_AS((void)fret_overhang_in(b, 0.002, air_of(45), air_of(100)), invalid_input);
    }
}
