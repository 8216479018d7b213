#include <tautline/neck/modulus_method.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a modulus is brought down once where its method has no loss, and never where it has") {
    using enum modulus_method;
    for (const auto m : {constant_moment, tap_tone, sound_speed}) {
        CHECK(is_free_of_shear(m));
        // The neck's factor raises it again, to what was measured.
        CHECK(near::relative(as_bending_tests_give(m, 13.2 * GPa) * pure_bending::factor, 13.2 * GPa, 1e-14));
    }
    for (const auto m : {three_point, compression, not_told}) {
        CHECK_FALSE(is_free_of_shear(m));
        CHECK(as_bending_tests_give(m, 13.2 * GPa) == 13.2 * GPa);
    }
    CHECK_THROWS_WITH((void)as_bending_tests_give(tap_tone, 0 * GPa), "modulus is 0 MPa; it must be more than 0 MPa.");
}
