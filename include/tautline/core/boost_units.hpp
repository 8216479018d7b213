#pragma once
/// @file
/// Included by name only: conversion of quantities to and from Boost.Units' own units, for a program that uses those.
///
/// `from_boost(q)` takes a quantity of any system of Boost.Units that converts to SI: `2 * bu::si::newton`, or one in
/// `bu::us::foot`. `to_boost(pull)` gives one of `boost::units::si`. The number type stays. Only lengths, masses,
/// times, temperature differences, angles and products of whole powers of these can be converted.

#include <boost/units/systems/si/base.hpp>

#include "kinds.hpp"

namespace tautline {

namespace kernel {

/// The power of a base dimension in a list of Boost.Units.
template <class Dimensions, class Base>
struct boost_power {
    static constexpr long value = 0;
};
template <class Base, long N, long D, class Rest, class Of>
struct boost_power<bu::list<bu::dim<Base, bu::static_rational<N, D>>, Rest>, Of> {
    static_assert(D == 1, "only whole powers of units have a KIND here");
    static constexpr long value = std::is_same_v<Base, Of> ? N : boost_power<Rest, Of>::value;
};

/// Whether a list of Boost.Units has only base dimensions that this library knows.
template <class Dimensions>
struct boost_known : std::true_type {};
template <class Base, class Power, class Rest>
struct boost_known<bu::list<bu::dim<Base, Power>, Rest>>
    : std::bool_constant<(std::is_same_v<Base, bu::length_base_dimension> ||
                          std::is_same_v<Base, bu::mass_base_dimension> || std::is_same_v<Base, bu::time_base_dimension> ||
                          std::is_same_v<Base, bu::temperature_base_dimension> ||
                          std::is_same_v<Base, bu::plane_angle_base_dimension>)&&boost_known<Rest>::value> {};

template <class D>
using unit_of_boost =
    unit::si<int(boost_power<D, bu::length_base_dimension>::value), int(boost_power<D, bu::mass_base_dimension>::value),
             int(boost_power<D, bu::time_base_dimension>::value),
             int(boost_power<D, bu::temperature_base_dimension>::value),
             int(boost_power<D, bu::plane_angle_base_dimension>::value)>;

/// A base unit of Boost.Units' SI to a power.
template <class Dimension, int N>
struct boost_factor {
    using type = typename bu::power_typeof_helper<bu::unit<Dimension, bu::si::system>, bu::static_rational<N>>::type;
};
template <class Dimension>
struct boost_factor<Dimension, 0> {
    using type = bu::si::dimensionless;
};
template <class... Units>
using boost_product = decltype((... * std::declval<Units>()));

template <class U>
struct boost_unit;
template <int M, int KG, int S, int K, int RAD>
struct boost_unit<unit::si<M, KG, S, K, RAD>> {
    using type = boost_product<typename boost_factor<bu::length_base_dimension::dimension_type, M>::type,
                               typename boost_factor<bu::mass_base_dimension::dimension_type, KG>::type,
                               typename boost_factor<bu::time_base_dimension::dimension_type, S>::type,
                               typename boost_factor<bu::temperature_base_dimension::dimension_type, K>::type,
                               typename boost_factor<bu::plane_angle_base_dimension::dimension_type, RAD>::type>;
};

} // namespace kernel

/// A quantity in units of Boost.Units as one of this library, over the same number type.
template <class Dimensions, class System, class R>
[[nodiscard]] constexpr bu::quantity<kernel::unit_of_boost<Dimensions>, R>
from_boost(const bu::quantity<bu::unit<Dimensions, System>, R>& q) {
    static_assert(kernel::boost_known<Dimensions>::value,
                  "only what is made of lengths, masses, times, temperature differences and angles has a KIND here");
    const bu::quantity<bu::unit<Dimensions, bu::si::system>, R> in_si(q);
    return bu::quantity<kernel::unit_of_boost<Dimensions>, R>::from_value(in_si.value());
}

/// A quantity of this library as one in Boost.Units' SI units, over the same number type.
template <class U, class R>
[[nodiscard]] constexpr auto to_boost(const bu::quantity<U, R>& q) {
    return bu::quantity<typename kernel::boost_unit<U>::type, R>::from_value(q.value());
}

} // namespace tautline
