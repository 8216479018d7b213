#pragma once
/// @file
/// A bridge that is glued to the top and holds the strings by pins: the loads that turn it and shear its glue, and what
/// the saddle bears in its slot.
///
/// Source: statics. The pins take up the pull behind the saddle within the bridge. So the whole bridge bears each
/// string's speaking side only: the pull along the top, at the height of the saddle, turns it toward the nut.

#include <optional>
#include <span>

#include "bridge.hpp"

namespace tautline {

/// A pinned bridge on its top. Strings are given as `basic_bridge_string`; the anchor is the string's axis where its
/// underside meets the edge of its pin hole or of the slot cut for it.
template <class R = double>
struct basic_pinned_bridge {
    using real = R;
    needed<length<R>> top_middle;           ///< height of the middle of the top's thickness under the saddle
    needed<length<R>> saddle_exposed;       ///< how far the saddle stands out of its slot, at least 0
    field<angle<R>> top_slope = angle<R>(); ///< of the top under the bridge; positive where it rises toward the tail

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("top_middle", about_an_instrument(), self.top_middle...);
        visit("saddle_exposed", between(0 * units::mm, 30 * units::mm), self.saddle_exposed...);
        visit("top_slope", between(-30 * units::deg, 30 * units::deg).fair_default("level"), self.top_slope...);
    }
};
using pinned_bridge = basic_pinned_bridge<double>;

/// What the strings do to a pinned bridge.
template <class R = double>
struct basic_pinned_load {
    using real = R;
    moment<R> turning{};        ///< about the middle of the top under the saddle; positive turns it toward the nut
    force<R> shear{};           ///< along the top on the glue, positive toward the nut
    force<R> down{};            ///< of the bridge and its strings on the top, square to it; negative lifts
    force<R> saddle_down{};     ///< force that presses the saddle into its slot
    force<R> saddle_push{};     ///< force that leans the saddle toward the nut
    moment<R> saddle_tipping{}; ///< `saddle_push` times the height that stands out of the slot
    angle<R> saddle_lean{};     ///< the lean of the pull on the saddle from upright; a saddle that leans back by it is
                                ///< not pushed over

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("turning", self.turning...);
        visit("shear", self.shear...);
        visit("down", self.down...);
        visit("saddle_down", self.saddle_down...);
        visit("saddle_push", self.saddle_push...);
        visit("saddle_tipping", self.saddle_tipping...);
        visit("saddle_lean", self.saddle_lean...);
    }
};

namespace kernel {

template <class R>
[[nodiscard]] basic_pinned_load<R> pinned_load(const basic_pinned_bridge<R>& bridge,
                                               std::span<const basic_bridge_string<R>> strings) {
    basic_pinned_load<R> sum;
    const R level = cos(bridge.top_slope), rise = sin(bridge.top_slope);
    for (const auto& s : strings) {
        // Bridge and pins together bear the speaking side alone.
        const auto whole = kernel::pull_along(kernel::direction_between(s.saddle, s.slot), force<R>(s.tension));
        const auto on_saddle =
            whole + kernel::pull_along(kernel::direction_between(s.saddle, s.anchor), force<R>(s.tension));
        sum.turning += (s.saddle.z - bridge.top_middle) * -whole.x;
        sum.shear += whole.down() * rise - whole.x * level;
        sum.down += whole.down() * level + whole.x * rise;
        sum.saddle_down += on_saddle.down();
        sum.saddle_push -= on_saddle.x;
    }
    sum.saddle_tipping = bridge.saddle_exposed * sum.saddle_push;
    sum.saddle_lean = atan2(sum.saddle_push, sum.saddle_down);
    return sum;
}

} // namespace kernel

/// Loads of all strings on a pinned bridge. Refuses a saddle below the top.
template <class R = double>
[[nodiscard]] basic_pinned_load<R> pinned_load(const basic_pinned_bridge<R>& bridge,
                                               std::type_identity_t<std::span<const basic_bridge_string<R>>> strings) {
    require_valid(bridge, "bridge");
    require_that(!strings.empty(), "strings", "must hold at least one string");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        require_valid(strings[i], messages::path_of("strings", i));
        require_that(in_all_lanes(bridge.top_middle.value() < strings[i].saddle.z.value()),
                     messages::path_of("strings", i, "saddle.z"), "must be above the top: the saddle would be inside it");
    }
    return kernel::pinned_load(bridge, strings);
}

/// How far behind the saddle a string must go into the bridge for a wanted break angle.
/// @param drop   from the string on the saddle down to where it goes in, more than 0
/// @param fall   how steeply the speaking side falls toward the nut, from level
/// @param wanted break angle
/// @return nothing where no place behind the saddle gives that angle
[[nodiscard]] auto pin_distance(a_length auto drop, an_angle auto fall, an_angle auto wanted) {
    using R = common_real_t<decltype(drop), decltype(fall), decltype(wanted)>;
    require("drop", drop, more_than(0 * units::mm));
    require("fall", fall, between(-45 * units::deg, 45 * units::deg));
    require("wanted", wanted, between(0 * units::deg, 180 * units::deg));
    const R behind = over<R>(wanted).value() - over<R>(fall).value();
    const bool there = in_all_lanes(number<R>(0) < behind) && in_all_lanes(behind < pi<R>() / number<R>(2));
    return there ? std::optional(over<R>(drop) / tan(behind)) : std::nullopt;
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::LENGTH, messages::ANGLE, messages::ANGLE> pin_distance(Given...)
    TAUTLINE_REFUSED("wanted are a LENGTH, an ANGLE, an ANGLE: pin_distance(9*mm, 1*deg, 25*deg)");

} // namespace tautline
