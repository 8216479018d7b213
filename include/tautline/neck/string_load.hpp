#pragma once
/// @file
/// The load of strings on a neck: the pull of each, and the moment of all together.
///
/// Source: statics of straight lines.

#include <span>

#include "neck.hpp"

namespace tautline {

/// One string's pull on the neck.
///
/// Heights are those of the straight, unloaded neck. The nut rides on the neck, so the string's end moves with the
/// neck's set and bow.
template <class R = double>
struct basic_string_pull {
    using real = R;
    needed<force<R>> pull;                ///< the tension's component along x
    needed<length<R>> z_nut;              ///< of the string's axis where it leaves the nut
    needed<length<R>> z_saddle;           ///< of the string's axis at the saddle
    field<length<R>> x_nut = length<R>(); ///< 0 but for a nut that was moved
    needed<length<R>> x_saddle;           ///< where the string meets the saddle
    /// Whether the string ends at a nut of its own on the neck. Then the neck between that nut and the head bears none
    /// of its pull. For `nut_kind::slanted` only.
    bool own_nut = false;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("pull", between(0 * units::N, 5000 * units::N), self.pull...);
        visit("z_nut", between(-50 * units::mm, 200 * units::mm), self.z_nut...);
        visit("z_saddle", between(-200 * units::mm, 500 * units::mm), self.z_saddle...);
        visit("x_nut", between(-100 * units::mm, 1500 * units::mm).fair_default("places are told from the nut"),
              self.x_nut...);
        visit("x_saddle", between(1 * units::mm, 4000 * units::mm), self.x_saddle...);
        visit("own_nut", self.own_nut...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(x_nut.value() < x_saddle.value())) { report("x_saddle", "must be further than the nut"); }
    }
};
using string_pull = basic_string_pull<double>;

namespace kernel {

/// All strings together. Their moment about z = 0 is linear in x and in the nut's rise.
template <class R>
struct string_load {
    force<R> pull{};      ///< sum T
    moment<R> at_zero{};  ///< of the unloaded lines at x = 0
    force<R> per_x{};     ///< change of the moment for each unit of x
    force<R> nut_share{}; ///< moment at x = 0 for each unit the nut rises
    bu::quantity<unit::stiffness, R> nut_share_per_x{};

    /// Multiplies the pull of all strings by `share`.
    constexpr void scale(const R& share) {
        pull = pull * share;
        at_zero = at_zero * share;
        per_x = per_x * share;
        nut_share = nut_share * share;
        nut_share_per_x = nut_share_per_x * share;
    }
};

template <class R>
[[nodiscard]] constexpr string_load<R> gather(std::span<const basic_string_pull<R>> strings) {
    string_load<R> all_strings;
    for (const auto& s : strings) {
        const length<R> span = s.x_saddle - s.x_nut;
        const R slope = ratio(s.z_saddle - s.z_nut, span);
        const auto fall = s.pull / span;
        all_strings.pull += s.pull;
        all_strings.at_zero += s.pull * (s.z_nut - s.x_nut * slope);
        all_strings.per_x += s.pull * slope;
        all_strings.nut_share += fall * s.x_saddle;
        all_strings.nut_share_per_x += -fall;
    }
    return all_strings;
}

/// The load of strings behind a slanted nut. The set lifts each end at its own place.
template <class R>
[[nodiscard]] constexpr string_load<R> gather_slanted(std::span<const basic_string_pull<R>> strings,
                                                      const std::vector<basic_permanent_bow_mark<R>>& set) {
    string_load<R> all_strings;
    for (const auto& s : strings) {
        const length<R> z_nut = s.z_nut + permanent_bow_at<R>(set, length<R>(s.x_nut));
        const R slope = ratio(s.z_saddle - z_nut, s.x_saddle - s.x_nut);
        all_strings.pull += s.pull;
        all_strings.at_zero += s.pull * (z_nut - s.x_nut * slope);
        all_strings.per_x += s.pull * slope;
    }
    return all_strings;
}

} // namespace kernel

} // namespace tautline
