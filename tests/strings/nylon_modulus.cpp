#include <tautline/strings/nylon_modulus.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("nylon: the slow modulus makes the slope of every string the same, and is a third below the quick one at most") {
    for (const double mpa : {70.0, 114.0, 205.0}) {
        const auto s = plain_string(nylon(nylon_slow_modulus(mpa * MPa)), 0.7 * mm);
        const auto pull = mpa * MPa * (0.49 * std::numbers::pi / 4 * mm2);
        CHECK(near::relative(1 / strain<double>(s, pull), nylon_stretch_slope, 1e-12));
        const double share = nylon_slow_modulus(mpa * MPa) / nylon_quick_modulus(mpa * MPa);
        CHECK(share > 0.5);
        CHECK(share < 1);
    }
    CHECK(nylon_quick_modulus(0 * MPa) == 4.5 * GPa);
    CHECK_THROWS_WITH((void)nylon_slow_modulus(0 * MPa),
                      "tensile stress is 0 MPa; it must be more than 0 MPa and at most 400 MPa.");
    CHECK_THROWS_WITH((void)nylon_quick_modulus(401 * MPa),
                      "tensile stress is 401 MPa; it must be at least 0 MPa and at most 400 MPa.");
}
