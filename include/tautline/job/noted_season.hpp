#pragma once
/// @file
/// The season as it is noted at the bench: the air that an instrument was measured in, and the driest and the dampest it
/// will live in.

#include "../setup/noted_air.hpp"
#include "../setup/season.hpp"

namespace tautline {

/// A season as noted. The effect of 1 % of moisture is given where two visits showed it (`season_of_visits`).
template <class R = double>
struct basic_noted_season {
    using real = R;
    basic_noted_air<R> measured_in{}; ///< the air that the instrument was measured in, after weeks in it
    basic_noted_air<R> dry{};         ///< the driest air it will live in
    basic_noted_air<R> damp{};        ///< the dampest air it will live in
    /// Share of its length by which the board grows more than the back for 1 % of moisture; absent: nobody measured it.
    std::optional<R> bow{};
    /// Rise of the saddle over the board's line for 1 % of moisture; absent: nobody measured it.
    std::optional<field<length<R>>> top{};
    R stiffness = basic_season_response<R>{}.stiffness; ///< share by which the neck's bending stiffness grows for 1 %
    /// Share of its width by which the board grows across the grain for 1 % of moisture; absent: that of its wood.
    std::optional<R> across{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("measured_in", self.measured_in...);
        visit("dry", self.dry...);
        visit("damp", self.damp...);
        visit("bow", between(-2e-4, 2e-4), self.bow...);
        visit("top", between(-0.5 * units::mm, 0.5 * units::mm), self.top...);
        visit("stiffness", between(-0.05, 0.05).fair_default("softer wood less a larger section"), self.stiffness...);
        visit("across", between(0, 0.01), self.across...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (is_valid(measured_in) && is_valid(dry) && is_valid(damp)) { season().rules(report); }
    }
    /// The season that was noted. A coefficient that was not measured is 0.
    [[nodiscard]] basic_season<R> season() const {
        return {.measured_in = measured_in.climate(),
                .dry = dry.climate(),
                .damp = damp.climate(),
                .response = {
                    .bow = bow.value_or(number<R>(0)), .top = top ? length<R>(*top) : length<R>(), .stiffness = stiffness}};
    }
};
using noted_season = basic_noted_season<double>;

} // namespace tautline
