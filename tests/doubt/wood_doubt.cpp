#include <tautline/doubt/wood_doubt.hpp>

#include <tautline/instrument/ready_made.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a wood's name brings its doubt into the budget") {
    const auto wenge = modulus_doubt(woods::named("wenge"), "neck.back_modulus");
    CHECK(wenge.name == "modulus of wenge");
    CHECK(wenge.standard.as<stress<>>() == 4 * GPa);
    CHECK_THROWS_WITH((void)modulus_doubt(woods::named("plum"), "neck.back_modulus"),
                      "wood must be one whose modulus is known, and of plum none was found.");

    auto order = ready_made::flat_top();
    order.instrument.neck.back_modulus = *woods::named("sapele").modulus();
    const strung_instrument on{order.instrument, string_up(order.strings, order.a4)};
    // Twice the doubt of the wood's name is twice the doubt of the bow.
    const std::vector<doubt> named{modulus_doubt(woods::named("sapele"), "neck.back_modulus")};
    std::vector<doubt> doubled = named;
    doubled[0].standard = 2 * *woods::named("sapele").modulus_standard();
    const auto once = propagate(on, named), twice = propagate(on, doubled);
    const auto *rise = find_result(once, "nut_rise"), *rise_twice = find_result(twice, "nut_rise");
    REQUIRE(rise);
    REQUIRE(rise_twice);
    CHECK(std::abs(rise->contributions[0]) > 0.02 * rise->value.si());
    CHECK(near::relative(rise_twice->contributions[0], 2 * rise->contributions[0], 1e-12));
}
