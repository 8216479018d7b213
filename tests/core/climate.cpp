#include <tautline/core/climate.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("thermometers: Fahrenheit and Celsius meet where they should") {
    CHECK(near::within((32 * fahrenheit) / celsius, 0.0, 1e-12));
    CHECK(near::within((212 * fahrenheit) / celsius, 100.0, 1e-12));
    CHECK(near::within((-40 * celsius) / fahrenheit, -40.0, 1e-12));
    CHECK(near::within((70.5 * fahrenheit) / fahrenheit, 70.5, 1e-12));
    CHECK(20 * celsius < 70 * fahrenheit);
    CHECK(near::within(25 * celsius - 20 * celsius, 5 * kelvin, 1e-12 * kelvin));
}

TEST_CASE("temperatures, humidities and moisture contents do not mix") {
    static_assert(!std::is_convertible_v<double, absolute_temperature<>>);
    static_assert(!std::is_convertible_v<relative_humidity<>, moisture_content<>>);
    static_assert(!std::is_convertible_v<temperature_difference<>, absolute_temperature<>>);
    static_assert(std::is_convertible_v<absolute_temperature<double>, absolute_temperature<dual<double, 1>>>);
}

TEST_CASE("a climate is checked and carried to other numbers") {
    const climate air{.temperature = 21 * celsius, .humidity = 45 * percent_rh};
    CHECK(validate(air).empty());
    CHECK_THROWS_WITH(require_valid(climate{.temperature = -300 * celsius, .humidity = 45 * percent_rh}, "air"),
                      "air.temperature is -300 deg C; it must be at least -273.15 deg C and at most 2000 deg C.");
    CHECK_THROWS_WITH(require_valid(climate{.temperature = 20 * celsius, .humidity = 120 * percent_rh}, "air"),
                      "air.humidity is 120 % RH; it must be at least 0 % RH and at most 100 % RH.");
    CHECK_FALSE(validate(climate{.temperature = std::nan("") * celsius}).empty());
    using D = dual<double, 2>;
    CHECK(over<D>(air).humidity.in_unit().value == 45);
}
