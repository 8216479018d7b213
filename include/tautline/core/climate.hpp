#pragma once
/// @file
/// Absolute temperature, relative humidity and moisture content of wood. Each has a type of its own. So 21 degrees on a
/// thermometer are never taken for a difference of 21 kelvin, nor 45 % humidity for 45 % moisture.
///
/// `21 * celsius`, `70 * fahrenheit`, `45 * percent_rh` and `8 * percent_mc` make them; `t / celsius` reads one.

#include <type_traits>

#include "describe.hpp"

namespace tautline {

/// Tags; each also says how messages print its numbers.
struct celsius_tag {};
struct fahrenheit_tag {};
struct percent_rh_tag {};
struct percent_mc_tag {};

template <>
struct kind<celsius_tag> {
    static constexpr const char* name = "temperature";
    static constexpr const char* symbol = "deg C";
    static constexpr long double size = 1;
};
template <>
struct kind<percent_rh_tag> {
    static constexpr const char* name = "relative humidity";
    static constexpr const char* symbol = "% RH";
    static constexpr long double size = 1;
};
template <>
struct kind<percent_mc_tag> {
    static constexpr const char* name = "moisture content";
    static constexpr const char* symbol = "% MC";
    static constexpr long double size = 1;
};

namespace units {
/// `21 * celsius`: a temperature on the thermometer.
inline constexpr celsius_tag celsius{};
/// `70 * fahrenheit`: a temperature on the thermometer.
inline constexpr fahrenheit_tag fahrenheit{};
/// `45 * percent_rh`: relative humidity of air.
inline constexpr percent_rh_tag percent_rh{};
/// `8 * percent_mc`: moisture content of wood.
inline constexpr percent_mc_tag percent_mc{};
} // namespace units

/// A number with a tag, the common base of the three types. Two of them can be compared, but they cannot be added or
/// scaled.
template <class R, class Tag>
class tagged_number {
public:
    using real = R;
    // Not defaulted: g++ 12 crashes on a defaulted one in a member initialiser of a class template.
    constexpr tagged_number() noexcept : number_() {}
    /// From a number in the tag's unit; explicit on purpose.
    [[nodiscard]] static constexpr tagged_number from_number(const R& v) {
        tagged_number n;
        n.number_ = v;
        return n;
    }
    /// From one over another number type.
    template <class S>
    requires(!std::is_same_v<S, R> &&
             std::is_convertible_v<S, R>) constexpr tagged_number(const tagged_number<S, Tag>& other)
        : number_(static_cast<R>(other.in_unit())) {}
    /// The number in the tag's unit.
    [[nodiscard]] constexpr const R& in_unit() const { return number_; }

    /// @{
    /// Comparison by their numbers. `t / celsius` reads the number.
    friend constexpr auto operator<(const tagged_number& a, const tagged_number& b) { return a.number_ < b.number_; }
    friend constexpr auto operator==(const tagged_number& a, const tagged_number& b) { return a.number_ == b.number_; }
    friend constexpr R operator/(const tagged_number& a, Tag) { return a.number_; }
    /// @}

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("", range(), self.number_...);
    }

private:
    static constexpr range_of<Tag> range() {
        if constexpr (std::is_same_v<Tag, celsius_tag>) {
            return {{.low = -273.15L, .high = 2000}};
        } else if constexpr (std::is_same_v<Tag, percent_rh_tag>) {
            return {{.low = 0, .high = 100}};
        } else {
            return {{.low = 0, .high = 300}};
        }
    }
    template <class, class>
    friend class tagged_number;
    R number_;
};

/// A temperature on the thermometer, kept in degrees Celsius: absolute zero to 2000.
template <class R = double>
using absolute_temperature = tagged_number<R, celsius_tag>;
/// Relative humidity of air, 0 to 100 %.
template <class R = double>
using relative_humidity = tagged_number<R, percent_rh_tag>;
/// Water in wood as a share of its oven-dry mass, 0 to 300 %.
template <class R = double>
using moisture_content = tagged_number<R, percent_mc_tag>;

/// Makes a temperature from degrees Celsius; whole numbers become doubles.
template <class S>
requires(!is_quantity<S>::value) [[nodiscard]] constexpr auto operator*(const S& s, celsius_tag) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return absolute_temperature<R>::from_number(static_cast<R>(s));
}
/// Makes a temperature from degrees Fahrenheit, kept in Celsius; whole numbers become doubles.
template <class S>
requires(!is_quantity<S>::value) [[nodiscard]] constexpr auto operator*(const S& s, fahrenheit_tag) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return absolute_temperature<R>::from_number((static_cast<R>(s) - number<R>(32)) * number<R>(5) / number<R>(9));
}
/// Makes a relative humidity from %; whole numbers become doubles.
template <class S>
requires(!is_quantity<S>::value) [[nodiscard]] constexpr auto operator*(const S& s, percent_rh_tag) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return relative_humidity<R>::from_number(static_cast<R>(s));
}
/// Makes a moisture content from %; whole numbers become doubles.
template <class S>
requires(!is_quantity<S>::value) [[nodiscard]] constexpr auto operator*(const S& s, percent_mc_tag) {
    using R = std::conditional_t<std::is_integral_v<S>, double, S>;
    return moisture_content<R>::from_number(static_cast<R>(s));
}
/// A temperature in degrees Fahrenheit.
template <class R>
[[nodiscard]] constexpr R operator/(const absolute_temperature<R>& t, fahrenheit_tag) {
    return t.in_unit() * number<R>(9) / number<R>(5) + number<R>(32);
}
/// The difference of two temperatures.
template <class R>
[[nodiscard]] constexpr temperature_difference<R> operator-(const absolute_temperature<R>& a,
                                                            const absolute_temperature<R>& b) {
    return temperature_difference<R>::from_value(a.in_unit() - b.in_unit());
}

/// The air an instrument lives in.
template <class R = double>
struct basic_climate {
    using real = R;
    absolute_temperature<R> temperature{}; ///< of the air
    relative_humidity<R> humidity{};       ///< of the air

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("temperature", self.temperature...);
        visit("humidity", self.humidity...);
    }
};
using climate = basic_climate<double>;

} // namespace tautline
