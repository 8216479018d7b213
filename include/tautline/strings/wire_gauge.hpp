#pragma once
/// @file
/// Numbered wire sizes of standards: American wire gauge and the music wire gauge of the United States.

#include <array>
#include <optional>

#include "../core/invalid_input.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Diameter of an American wire gauge, `0.005 in * 92^((36 - n)/39)`; 0 is number 0, -1 is 00, -2 is 000, -3 is 0000.
/// `number` -3 to 56, else `invalid_input`. Source: ASTM B258 as defined in GNU units 2.22.
[[nodiscard]] constexpr length<double> awg_diameter(int number) {
    require_that(number >= -3 && number <= 56, "AWG number", "must be -3 (0000) to 56", number);
    return length<double>::from_value(0.005 * 25.4e-3 * exp2((36.0 - number) / 39 * log2(92.0)));
}

namespace kernel {

/// Thousandths of an inch of the music wire gauges 6/0 (-5), ... 1/0 (0), 1, ... 26.
inline constexpr std::array music_wire_gauge_thou{4,  5,  6,  7,  8,  9,  10, 11, 12, 13, 14, 16, 18, 20, 22, 24,
                                                  26, 29, 31, 33, 35, 37, 39, 41, 43, 45, 47, 49, 51, 55, 59, 63};

} // namespace kernel

/// Diameter of a music wire gauge: 0 is number 0, -1 is 2/0, ... -5 is 6/0. `number` -5 to 26, else `invalid_input`.
/// Source: US music wire gauge, a table quoted from Machinery's Handbook.
[[nodiscard]] constexpr length<double> music_wire_gauge_diameter(int number) {
    require_that(number >= -5 && number <= 26, "music wire gauge", "must be -5 (6/0) to 26", number);
    return kernel::music_wire_gauge_thou[static_cast<std::size_t>(number + 5)] * units::thou;
}

/// The music wire gauge nearest to a diameter > 0. Beyond the ends of the table it is the first or the last gauge.
[[nodiscard]] constexpr int nearest_music_wire_gauge(const length<double>& diameter) {
    require("diameter", diameter, more_than(0 * units::mm));
    int best = -5;
    for (int n = -5; n <= 26; ++n) {
        if (abs(music_wire_gauge_diameter(n) - diameter) < abs(music_wire_gauge_diameter(best) - diameter)) { best = n; }
    }
    return best;
}

} // namespace tautline
