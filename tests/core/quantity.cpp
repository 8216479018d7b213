#include <tautline/core/quantity.hpp>

#include <random>
#include <string_view>
#include <tuple>
#include <type_traits>

#include <tautline/core/dual.hpp>
#include <tautline/core/units.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

// A field is its quantity, of the same size, and an aggregate of fields stays an aggregate.
struct part {
    field<length<>> width{};
    field<force<>> load{};
};
static_assert(sizeof(field<length<>>) == sizeof(double) && sizeof(field<length<float>>) == sizeof(float));
static_assert(std::is_aggregate_v<part> && sizeof(part) == 2 * sizeof(double));
// What nobody gave is no number, and no zero that passes for a measurement.
static_assert(part{}.width.value() != part{}.width.value() && part{.width = 2 * metre}.width.value() == 2);
static_assert(field<length<float>>{}.value() != field<length<float>>{}.value());
// Numbers that lose nothing, or whose loss the caller chose, go in; a derivative is not thrown away in silence
// (tests/misuse/number_type_of_member.cpp).
static_assert(field<length<float>>(0.5 * metre).value() == 0.5f);
static_assert(field<length<dual<double, 2>>>(0.5 * metre).value().value == 0.5);

// A field beside a unit is its quantity, as any other.
static_assert(std::is_same_v<decltype(field<length<>>(2 * mm) * mm), area<>>);
static_assert(field<length<>>(2 * mm) / mm == 2 && field<force<>>(2 * N) / mm == 2 * N_per_mm);

// A needed member can be made empty, not left out.
struct tube {
    needed<length<>> width;
    field<length<>> wall = 1 * mm;
};
template <class T>
concept can_be_left_out = requires(void (*take)(T)) {
    take({});
};
static_assert(std::is_aggregate_v<tube> && sizeof(tube) == 2 * sizeof(double));
static_assert(can_be_left_out<field<length<>>> && !can_be_left_out<needed<length<>>> && !can_be_left_out<tube>);
static_assert(std::is_default_constructible_v<needed<length<>>> && tube().width.value() != tube().width.value());
static_assert(std::is_same_v<real_of_t<needed<length<float>>>, float> && a_length<needed<length<>>>);

// No two kinds are one type of quantity: each concept takes its own kind, over any number and as a field, and no other.
using kinds =
    std::tuple<unit::length, unit::area, unit::volume, unit::mass, unit::duration, unit::frequency, unit::velocity,
               unit::acceleration, unit::force, unit::stress, unit::density, unit::angle, unit::curvature,
               unit::linear_density, unit::stiffness, unit::compliance, unit::moment, unit::rotational_stiffness,
               unit::second_moment, unit::flexural_rigidity, unit::thermal_expansion, unit::temperature_difference>;
template <class T>
constexpr int kinds_of() {
    return a_length<T> + an_area<T> + a_volume<T> + a_mass<T> + a_duration<T> + a_frequency<T> + a_velocity<T> +
           an_acceleration<T> + a_force<T> + a_stress<T> + a_density<T> + an_angle<T> + a_curvature<T> +
           a_linear_density<T> + a_stiffness<T> + a_compliance<T> + a_moment<T> + a_rotational_stiffness<T> +
           a_second_moment<T> + a_flexural_rigidity<T> + a_thermal_expansion<T> + a_temperature_difference<T>;
}
template <class U>
constexpr bool one_kind() {
    return kinds_of<bu::quantity<U, double>>() == 1 && kinds_of<bu::quantity<U, float>>() == 1 &&
           kinds_of<const bu::quantity<U, dual<double, 3>>&>() == 1 && kinds_of<field<bu::quantity<U, double>>>() == 1;
}
static_assert([]<class... U>(std::tuple<U...>) { return (one_kind<U>() && ...); }(kinds{}));
static_assert(a_length<length<>> && a_length<field<length<float>>&> && !a_length<force<>> && !a_length<double>);
static_assert(!a_length<int> && !a_length<std::nullptr_t> && a_moment<decltype(2 * N * metre)>);
static_assert(an_angle<angle<>> && !an_angle<double> && !a_moment<angle<>>);

// What must not be expressible. Where no sentence is owed the traits tell the truth.
template <class A, class B>
concept add_up = requires(A a, B b) {
    a + b;
};
template <class A, class B>
concept subtract = requires(A a, B b) {
    a - b;
};
template <class A, class B>
concept compare = requires(A a, B b) {
    a < b;
};
template <class A, class B>
concept equate = requires(A a, B b) {
    a == b;
};
static_assert(add_up<length<>, length<>> && compare<length<>, length<>> && equate<length<>, length<>>);
static_assert(!add_up<length<>, force<>> && !subtract<length<>, force<>> && !compare<length<>, force<>>);
static_assert(!equate<length<>, force<>> && !add_up<length<>, double> && !compare<length<>, double>);
static_assert(!add_up<moment<>, length<>> && !compare<stiffness<>, linear_density<>> &&
              !compare<frequency<>, tautline::duration<>>);
static_assert(!add_up<field<length<>>, field<force<>>> && add_up<field<length<>>, field<length<>>>);

// The number type of things.
static_assert(std::is_same_v<real_of_t<const field<length<float>>&>, float>);
static_assert(std::is_same_v<real_of_t<length<dual<double, 2>>>, dual<double, 2>>);
static_assert(std::is_same_v<common_real_t<length<float>, force<double>>, double>);
static_assert(std::is_same_v<common_real_t<length<double>, force<dual<double, 1>>, length<double>>, dual<double, 1>>);
static_assert(std::is_same_v<common_real_t<length<float>>, float>);

/// A free formula and a function beside a model, as headers write them.
constexpr auto pull(a_stiffness auto k, a_length auto x) {
    using R = common_real_t<decltype(k), decltype(x)>;
    return over<R>(k) * over<R>(x);
}
template <class R>
struct basic_spring {
    using real = R;
    field<stiffness<R>> rate{};
};
template <class R>
constexpr force<R> pull(const basic_spring<R>& s, param<length<R>> x) {
    return s.rate * x;
}

template <class R>
void functions_of_quantities() {
    const auto q = [](double v) { return length<R>::from_value(R(v)); };
    const auto is = [](const auto& got, double want) {
        return near::within(static_cast<double>(value_of(got.value())), want, 1e-6 * std::abs(want));
    };
    CHECK(is(min(q(2), q(3)), 2));
    CHECK(is(max(q(2), q(3)), 3));
    CHECK(is(abs(q(-2)), 2));
    CHECK(is(abs(q(2)), 2));
    CHECK(is(select(true, q(2), q(3)), 2));
    CHECK(is(select(is_less(q(3), q(2)), q(2), q(3)), 3));
    CHECK(is(sqrt(q(2) * q(8)), 4));
    CHECK(is(square(q(3)), 9));
    CHECK(is(hypot(q(3), q(4)), 5));
    CHECK(is(atan2(q(-1), q(1)), -std::numbers::pi / 4));
    CHECK(is(atan2(q(1), q(-1)), 3 * std::numbers::pi / 4));
    const angle<R> a = angle<R>::from_value(R(0.5));
    CHECK(near::within(static_cast<double>(value_of(sin(a))), std::sin(0.5), 1e-7));
    CHECK(near::within(static_cast<double>(value_of(cos(a))), std::cos(0.5), 1e-7));
    CHECK(near::within(static_cast<double>(value_of(tan(a))), std::tan(0.5), 1e-7));
    CHECK(near::within(static_cast<double>(value_of(R(ratio(q(3), q(4))))), 0.75, 1e-7));
    CHECK(all_finite(q(1)));
    CHECK_FALSE(all_finite(q(std::nan(""))));
    CHECK_FALSE(all_finite(q(-std::numeric_limits<double>::infinity())));
    // Numbers of every other type beside the quantity.
    CHECK(is(2 * q(3), 6));
    CHECK(is(2.0 * q(3), 6));
    CHECK(is(2.0f * q(3), 6));
    CHECK(is(2.0L * q(3), 6));
    CHECK(is(2U * q(3), 6));
    CHECK(is(q(3) * 2, 6));
    CHECK(is(q(7) / 2, 3.5));
    CHECK(is(q(7) / 2.0, 3.5));
    CHECK(is(-q(3) + q(1), -2));
}

} // namespace

TEST_SUITE("quantity") {
    TEST_CASE("functions and operators for every number type") {
        functions_of_quantities<float>();
        functions_of_quantities<double>();
        functions_of_quantities<long double>();
        functions_of_quantities<dual<double, 2>>();
        functions_of_quantities<dual<dual<double, 1>, 1>>();
    }
    TEST_CASE("a free formula meets in the wider number") {
        CHECK(near::relative(pull(400 * N_per_mm, 2 * mm), 800 * N, 1e-15));
        const auto f = pull(stiffness<dual<double, 1>>::from_value(dual<double, 1>::variable(3, 0)), 2 * metre);
        CHECK(f.value().value == 6);
        CHECK(f.value().partial[0] == 2);
        static_assert(std::is_same_v<decltype(pull(stiffness<float>(), length<double>())), force<double>>);
    }
    TEST_CASE("beside a model, deduction skips a parameter: plain lengths fit a model over anything") {
        const basic_spring<dual<double, 1>> s{.rate =
                                                  stiffness<dual<double, 1>>::from_value(dual<double, 1>::variable(3, 0))};
        CHECK(pull(s, 2 * metre).value().partial[0] == 2);
        const basic_spring<float> f{.rate = 3 * N_per_m};
        CHECK(pull(f, 2 * metre).value() == 6.0f);
    }
    TEST_CASE("a product of quantities is a quantity of the product's kind") {
        std::mt19937 random(2);
        std::uniform_real_distribution<double> value(0.1, 10);
        for (int i = 0; i < 100; ++i) {
            const double l = value(random), f = value(random), m = value(random), t = value(random);
            const length<> x = l * metre;
            CHECK(moment<>(f * N * x).value() == f * l);
            CHECK(near::relative(force<>(m * kg * x / (t * second * (t * second))).value(), m * l / (t * t), 1e-15));
            CHECK(near::relative(stress<>(f * N / (x * x)).value(), f / (l * l), 1e-15));
            CHECK(near::relative(flexural_rigidity<>(f * Pa * (x * x * x * x)).value(), f * l * l * l * l, 1e-15));
            CHECK(linear_density<>(m * kg / x).value() == m / l);
            CHECK(velocity<>(x * (f * Hz)).value() == l * f);
        }
    }
    TEST_CASE("names, symbols and sizes that messages use") {
        CHECK(std::string_view(kind<unit::length>::name) == "length");
        CHECK(std::string_view(kind<unit::linear_density>::name) == "linear_density");
        CHECK(std::string_view(kind<unit::stress>::symbol) == "MPa");
        // The printed unit is the tag of the same spelling.
        CHECK(kind<unit::length>::size == mm.size);
        CHECK(kind<unit::area>::size == mm2.size);
        CHECK(near::relative(double(kind<unit::volume>::size), 1000 * double(mm3.size), 1e-15));
        CHECK(kind<unit::mass>::size == gram.size);
        CHECK(kind<unit::force>::size == N.size);
        CHECK(kind<unit::stress>::size == MPa.size);
        CHECK(kind<unit::angle>::size == deg.size);
        CHECK(kind<unit::linear_density>::size == g_per_m.size);
        CHECK(kind<unit::stiffness>::size == N_per_mm.size);
        CHECK(kind<unit::compliance>::size == mm_per_N.size);
        CHECK(kind<unit::second_moment>::size == mm4.size);
    }
}

TEST_CASE("a needed member is given, assigned and read as its quantity") {
    tube p{.width = 12 * mm};
    CHECK(p.width == 12 * mm);
    p.width = 2 * inch;
    CHECK(p.width / mm == doctest::Approx(50.8));
    tube empty;
    CHECK(empty.wall == 1 * mm);
    CHECK_FALSE(all_finite(empty.width));
    empty.width = p.width;
    CHECK(empty.width == p.width);
}
