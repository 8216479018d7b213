#pragma once
/// @file
/// An air as it is noted at the bench, and the range in which wood's moisture can be computed.

#include "../neck/moisture.hpp"

namespace tautline {

/// An air as a thermometer and a hygrometer show it.
template <class R = double>
struct basic_noted_air {
    using real = R;
    R celsius = not_given<R>();  ///< temperature in degrees Celsius
    R humidity = not_given<R>(); ///< relative humidity in per cent

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("celsius", between(-1.2, 60), self.celsius...);
        visit("humidity", between(1, 99), self.humidity...);
    }
    /// The same air as a climate.
    [[nodiscard]] basic_climate<R> climate() const {
        return {.temperature = absolute_temperature<R>::from_number(celsius),
                .humidity = relative_humidity<R>::from_number(humidity)};
    }
};
using noted_air = basic_noted_air<double>;

namespace kernel {

/// What is wrong with a moisture content, in a sentence; null where it is 4 to 20 %, the range that is reckoned with.
template <class R>
[[nodiscard]] const char* wrong_moisture(const R& percent) {
    const bool fits = in_all_lanes(number<R>(4) <= percent) && in_all_lanes(percent <= number<R>(20));
    return fits ? nullptr : "must leave 4 to 20 % of moisture in the wood";
}

} // namespace kernel

} // namespace tautline
