#include <tautline/neck/moisture.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const climate shop{.temperature = 21 * celsius, .humidity = 45 * percent_rh};
const climate winter{.temperature = 21 * celsius, .humidity = 22 * percent_rh};
const climate summer{.temperature = 26 * celsius, .humidity = 75 * percent_rh};
const moving_board board{.width = 54 * mm, .thickness = 6 * mm, .across = 0.0030, .down = 0.0019, .fretted_in = shop};
} // namespace

TEST_CASE("a dry winter shrinks the board under its frets, a damp summer grows it over them") {
    const auto dry = board_in(board, winter), damp = board_in(board, summer), same = board_in(board, shop);
    CHECK(dry.fret_ends > 0 * mm);
    CHECK(damp.fret_ends < 0 * mm);
    CHECK(near::within(same.fret_ends, 0 * mm, 1e-12 * mm));
    CHECK(near::within(54 * mm - dry.width, 2.0 * dry.fret_ends, 1e-12 * mm));
    const double change = equilibrium_moisture(winter) / percent_mc - equilibrium_moisture(shop) / percent_mc;
    CHECK(near::relative(dry.width - 54 * mm, 54 * mm * (0.0030 * change), 1e-9));
    CHECK(near::relative(dry.thickness - 6 * mm, 6 * mm * (0.0019 * change), 1e-9));
    CHECK(near::within(dry.fret_ends, 0.29 * mm, 0.03 * mm));
}

TEST_CASE("property: moister with more humidity, a little drier when warmer") {
    double last = -1;
    for (int h = 0; h <= 95; h += 5) {
        const climate air{.temperature = 20 * celsius, .humidity = h * percent_rh};
        const double m = equilibrium_moisture(air) / percent_mc;
        CHECK(m > last);
        if (h > 10) {
            const climate warm{.temperature = 30 * celsius, .humidity = h * percent_rh};
            CHECK(equilibrium_moisture(warm) / percent_mc < m);
        }
        last = m;
    }
    CHECK(equilibrium_moisture(climate{.temperature = 20 * celsius, .humidity = 0 * percent_rh}) / percent_mc == 0);
}

TEST_CASE("a board that moves more along the grain than its back wants to be longer when damp") {
    CHECK(near::relative(board_strain(6e-5, 4e-5, 7 * percent_mc, 10 * percent_mc), 6e-5, 1e-9));
    CHECK(board_strain(6e-5, 4e-5, 10 * percent_mc, 7 * percent_mc) < 0);
    CHECK_THROWS_AS((void)board_strain(0.1, 0.0, 10 * percent_mc, 7 * percent_mc), invalid_input);
}

TEST_CASE("number types and bad input") {
    using D = dual<double, 1>;
    auto air = over<D>(shop);
    air.humidity = D::variable(45, 0) * percent_rh;
    const auto at = [](double h) {
        return equilibrium_moisture(climate{.temperature = 21 * celsius, .humidity = h * percent_rh}) / percent_mc;
    };
    CHECK(near::relative(equilibrium_moisture(air).in_unit().partial[0], (at(45.001) - at(44.999)) / 0.002, 1e-6));
    CHECK(near::relative(static_cast<double>(equilibrium_moisture(over<float>(shop)) / percent_mc), at(45), 1e-5));
    CHECK_THROWS_AS((void)equilibrium_moisture(climate{.temperature = 90 * celsius, .humidity = 45 * percent_rh}),
                    invalid_input);
    CHECK_THROWS_AS((void)equilibrium_moisture(climate{.temperature = 20 * celsius, .humidity = 101 * percent_rh}),
                    invalid_input);
    CHECK_THROWS_AS((void)equilibrium_moisture(climate{.temperature = std::nan("") * celsius, .humidity = 50 * percent_rh}),
                    invalid_input);
    // The range is the document's: the handbook's table begins at 30 deg F.
    for (const double t : {-1.2, 60.0}) {
        CHECK_NOTHROW((void)equilibrium_moisture(climate{.temperature = t * celsius, .humidity = 45 * percent_rh}));
    }
    CHECK_THROWS_WITH((void)equilibrium_moisture(climate{.temperature = -1.3 * celsius, .humidity = 45 * percent_rh}),
                      "climate.temperature in deg C is -1.3; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_AS((void)equilibrium_moisture(climate{.temperature = 60.1 * celsius, .humidity = 45 * percent_rh}),
                    invalid_input);
    auto frozen = board;
    frozen.fretted_in.temperature = -10 * celsius;
    CHECK_THROWS_WITH((void)board_in(frozen, shop),
                      "board.fretted_in.temperature in deg C is -10; it must be at least -1.2 and at most 60.");
    CHECK_THROWS_AS((void)board_in(board, frozen.fretted_in), invalid_input);
    // Room temperature: up to 96 % of humidity wood stays below the 25 % where movement ends.
    CHECK_NOTHROW((void)board_in(board, climate{.temperature = 20 * celsius, .humidity = 96 * percent_rh}));
    CHECK_THROWS_AS((void)board_in(board, climate{.temperature = 20 * celsius, .humidity = 100 * percent_rh}),
                    invalid_input);
    CHECK_THROWS_AS((void)board_strain(6e-5, 4e-5, 7 * percent_mc, 30 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)board_strain(6e-5, 4e-5, std::nan("") * percent_mc, 10 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)movement(0 * mm, 0.002, 6 * percent_mc, 8 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)movement(10 * mm, 0.02, 6 * percent_mc, 8 * percent_mc), invalid_input);
    CHECK_THROWS_AS((void)movement(10 * mm, 0.002, 6 * percent_mc, 28 * percent_mc), invalid_input);
    auto bad = board;
    bad.width = 0 * mm;
    CHECK_THROWS_AS((void)board_in(bad, shop), invalid_input);
}
