#include <tautline/core/unit.hpp>

#include <type_traits>

#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

template <class Wanted, class Given>
constexpr bool product_is(const Given&) {
    return std::is_same_v<Wanted, Given>;
}

// Products, quotients and roots are of the kinds that mechanics gives them.
static_assert(product_is<moment<>>(2 * N * (3 * metre)) && product_is<force<>>(6 * N_m / (3 * metre)));
static_assert(product_is<stress<>>(2 * N / (1 * mm2)) && product_is<area<>>(2 * metre * (3 * metre)));
static_assert(product_is<flexural_rigidity<>>(1 * Pa * (1 * mm4)) && product_is<curvature<>>(1 * N_m / (1 * N_m2)));
static_assert(product_is<rotational_stiffness<>>(1 * N_m / (1 * rad)) && product_is<moment<>>(1 * N_m_per_rad * (1 * rad)));
static_assert(product_is<frequency<>>(1.0 / (1 * second)) && product_is<curvature<>>(1.0 / (1 * metre)));
static_assert(product_is<linear_density<>>(1 * kg_per_m3 * (1 * mm2)) && product_is<density<>>(1 * kg_per_m / (1 * mm2)));
static_assert(product_is<velocity<>>(sqrt(1 * N / (1 * kg_per_m))) && product_is<length<>>(sqrt(1 * mm2)));
static_assert(product_is<force<>>(1 * kg * (1 * metre_per_second2)) && product_is<force<>>(-(2 * N)) &&
              product_is<force<>>(+(2 * N)));
static_assert(product_is<length<dual<double, 2>>>(over<dual<double, 2>>(1 * metre) * 2));

// What has no unit is a number.
static_assert(std::is_convertible_v<decltype(1 * mm / (1 * mm)), double> && 6 * mm / (3 * mm) == 2.0);
static_assert(std::is_convertible_v<decltype(1 * N * (1 * metre) / (1 * N_m)), double>);
static_assert(product_is<length<>>(1 * mm / (1 * mm) * (1 * mm)) && product_is<length<>>(1 * mm * (1 * mm / (1 * mm))));
static_assert(product_is<curvature<>>(1 * mm / (1 * mm) / (1 * metre)) &&
              product_is<length<>>(1 * mm / (1 * mm / (1 * mm))));

// No kind becomes another, not even when asked aloud.
static_assert(!std::is_convertible_v<force<>, length<>> && !std::is_constructible_v<length<>, force<>>);
static_assert(!std::is_constructible_v<length<>, double> && std::is_constructible_v<length<float>, length<double>>);
static_assert(sizeof(length<>) == sizeof(double) && std::is_same_v<length<>::unit_type, unit::si<1>>);

} // namespace
