#include <type_traits>

#include <boost/units/cmath.hpp>
#include <boost/units/systems/cgs/length.hpp>
#include <boost/units/systems/si.hpp>

#include <doctest/doctest.h>
#include <tautline/core/boost_units.hpp>
#include <tautline/core/dual.hpp>
#include <tautline/core/units.hpp>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

template <class Unit>
using boosts = boost::units::quantity<Unit>;

// Each kind becomes Boost's unit of that kind, and comes back as itself.
template <class Kind>
constexpr bool comes_back() {
    return std::is_same_v<decltype(from_boost(to_boost(Kind()))), Kind>;
}
static_assert(comes_back<length<>>() && comes_back<force<>>() && comes_back<stress<>>() && comes_back<linear_density<>>() &&
              comes_back<flexural_rigidity<>>() && comes_back<rotational_stiffness<>>() &&
              comes_back<thermal_expansion<>>() && comes_back<compliance<>>() && comes_back<length<float>>() &&
              comes_back<force<dual<double, 2>>>());
static_assert(std::is_same_v<decltype(to_boost(1 * mm)), boosts<bu::si::length>>);
static_assert(std::is_same_v<decltype(to_boost(1 * N)), boosts<bu::si::force>>);
static_assert(std::is_same_v<decltype(to_boost(1 * MPa)), boosts<bu::si::pressure>>);
static_assert(std::is_same_v<decltype(to_boost(1 * Hz)), boosts<bu::si::frequency>>);
static_assert(std::is_same_v<decltype(to_boost(1 * deg)), boosts<bu::si::plane_angle>>);
static_assert(std::is_same_v<decltype(to_boost(1 * kg_per_m3)), boosts<bu::si::mass_density>>);
static_assert(std::is_same_v<decltype(to_boost(1 * kelvin)), boosts<bu::si::temperature>>);

} // namespace

TEST_CASE("quantities of Boost.Units: into a formula and out of it") {
    const boosts<bu::si::length> speaking_length = 0.64 * bu::si::meter;
    const boosts<bu::si::frequency> pitch = 330.0 * bu::si::hertz;
    const auto pull = tension(0.4 * g_per_m, from_boost(speaking_length), from_boost(pitch));
    CHECK(pull == tension(0.4 * g_per_m, 640 * mm, 330 * Hz));
    const boosts<bu::si::force> out = to_boost(pull);
    CHECK(out / bu::si::newton == pull / N);
}
TEST_CASE("quantities of Boost.Units: another system is carried to SI") {
    const boosts<bu::cgs::length> gauge = 0.03 * bu::cgs::centimeter;
    CHECK(from_boost(gauge) / mm == doctest::Approx(0.3));
    const auto half = boosts<bu::si::plane_angle>(0.5 * bu::si::radian);
    CHECK(from_boost(half) == 0.5 * rad);
}
TEST_CASE("quantities of Boost.Units: its functions stand beside the library's, which are nearer for its own quantities") {
    CHECK(abs(-2 * mm) == 2 * mm);
    CHECK(sqrt(4 * mm2) / mm == doctest::Approx(2));
    CHECK(hypot(3 * mm, 4 * mm) / mm == doctest::Approx(5));
    CHECK(sin(30 * deg) == doctest::Approx(0.5));
    CHECK(nearest_music_wire_gauge(11 * thou) == nearest_music_wire_gauge(0.2794 * mm));
    CHECK(abs(-2.0 * bu::si::meter) == 2.0 * bu::si::meter);
}
