#pragma once
/// @file
/// An air as it is noted at the bench, and which airs wood's moisture is reckoned for.

#include "../neck/moisture.hpp"

namespace tautline {

/// An air as a thermometer and a hygrometer show it.
template <class R = double>
struct basic_noted_air {
    using real = R;
    R celsius = not_given<R>();  ///< degrees
    R humidity = not_given<R>(); ///< relative, in per cent

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("celsius", between(-1.2, 60), self.celsius...);
        visit("humidity", between(1, 99), self.humidity...);
    }
    /// The same as a climate.
    [[nodiscard]] basic_climate<R> climate() const {
        return {.temperature = absolute_temperature<R>::from_number(celsius),
                .humidity = relative_humidity<R>::from_number(humidity)};
    }
};
using noted_air = basic_noted_air<double>;

namespace kernel {

/// What keeps a moisture content from being reckoned with, in a sentence; nothing where it is 4 to 20 %.
template <class R>
[[nodiscard]] const char* wrong_moisture(const R& percent) {
    const bool fits = in_all_lanes(number<R>(4) <= percent) && in_all_lanes(percent <= number<R>(20));
    return fits ? nullptr : "must leave 4 to 20 % of moisture in the wood";
}

} // namespace kernel

} // namespace tautline
