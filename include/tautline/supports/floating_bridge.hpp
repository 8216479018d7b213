#pragma once
/// @file
/// A bridge that only the strings' down-force holds on the top: whether it stands, whether it slides, and how much each
/// foot bears.
///
/// Source: plane statics. Tipping depends on where the resultant of the string forces meets the plane of the feet;
/// sliding depends on the resultant's slope against that plane. With friction at the saddle the tension behind it may
/// differ from that before it (friction.hpp).

#include <cstddef>
#include <span>

#include "bridge.hpp"
#include "friction.hpp"

namespace tautline {

/// A place in the upright plane along the strings.
template <class R = double>
struct basic_side_point {
    using real = R;
    needed<length<R>> x; ///< along the strings
    needed<length<R>> z; ///< up from the soundboard

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument(), self.x...);
        visit("z", about_an_instrument(), self.z...);
    }
};
using side_point = basic_side_point<double>;

/// The feet of a floating bridge, and friction at saddle and feet. The line from front to back edge gives the slope of
/// the top.
template <class R = double>
struct basic_floating_bridge {
    using real = R;
    basic_side_point<R> front_edge; ///< edge of the feet toward the nut, on the top
    basic_side_point<R> back_edge;  ///< edge toward the tailpiece, on the top
    needed<length<R>> bass_foot;    ///< middle of the bass foot, across; less than the treble foot's
    needed<length<R>> treble_foot;  ///< middle of the treble foot
    basic_friction<R> saddle{};     ///< friction of the strings on the saddle
    basic_friction<R> foot{};       ///< friction of the feet on the top

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("front_edge", self.front_edge...);
        visit("back_edge", self.back_edge...);
        visit("bass_foot", about_an_instrument(), self.bass_foot...);
        visit("treble_foot", about_an_instrument(), self.treble_foot...);
        visit("saddle", self.saddle...);
        visit("foot", self.foot...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(front_edge.x.value() < back_edge.x.value())) {
            report("back_edge", "must be farther from the nut than the front edge");
        }
        if (!in_all_lanes(bass_foot.value() < treble_foot.value())) {
            report("treble_foot", "must be on the treble side of the bass foot");
        }
    }
};
using floating_bridge = basic_floating_bridge<double>;

/// How the bridge stands in one state of friction at the saddle. "Along" and "square to" refer to the sloping top.
template <class R = double>
struct basic_bridge_footing {
    using real = R;
    force<R> down{};          ///< square to the top; 0 or less: nothing holds the bridge
    force<R> push{};          ///< along the top, positive toward the tailpiece
    length<R> front_margin{}; ///< from the feet's front edge to the resultant; negative: it tips toward the nut
    length<R> back_margin{};  ///< from the resultant to the back edge; negative: it tips toward the tailpiece
    R friction_needed{};      ///< |push| / down: the feet slide where their coefficient of friction is less
    force<R> bass_load{};     ///< on the bass foot
    force<R> treble_load{};   ///< on the treble foot
    angle<R> best_lean{};     ///< from square to the top, the lean at which the bridge would stand in line with the pull;
                              ///< positive when its upper end leans back toward the tailpiece

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("down", self.down...);
        visit("push", self.push...);
        visit("front_margin", self.front_margin...);
        visit("back_margin", self.back_margin...);
        visit("friction_needed", self.friction_needed...);
        visit("bass_load", self.bass_load...);
        visit("treble_load", self.treble_load...);
        visit("best_lean", self.best_lean...);
    }
};
using bridge_footing = basic_bridge_footing<double>;

/// The states that bound what friction at the saddle can do.
template <class R = double>
struct basic_bridge_summary {
    using real = R;
    basic_bridge_footing<R> even{};       ///< equal tension on both sides of the saddle
    basic_bridge_footing<R> tail_slack{}; ///< as little tension behind the saddle as friction allows: just tuned up
    basic_bridge_footing<R> tail_tight{}; ///< as much tension behind the saddle as friction allows: just let down

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("even", self.even...);
        visit("tail_slack", self.tail_slack...);
        visit("tail_tight", self.tail_tight...);
    }

    /// The least margin against tipping in all three states; negative where the bridge may tip.
    [[nodiscard]] constexpr length<R> tip_margin() const {
        return min(min(min(even.front_margin, even.back_margin), min(tail_slack.front_margin, tail_slack.back_margin)),
                   min(tail_tight.front_margin, tail_tight.back_margin));
    }
    /// The most friction that the feet need in any of the three states.
    [[nodiscard]] constexpr R friction_needed() const {
        return max(even.friction_needed, max(tail_slack.friction_needed, tail_tight.friction_needed));
    }
};

namespace kernel {

/// How the bridge stands; `ratio_beyond(i)` is the tension of string i behind the saddle divided by that before it.
template <class R, class RatioBeyond>
[[nodiscard]] basic_bridge_footing<R> bridge_footing(const basic_floating_bridge<R>& bridge,
                                                     std::span<const basic_bridge_string<R>> strings,
                                                     RatioBeyond&& ratio_beyond) {
    const length<R> width_x = bridge.back_edge.x - bridge.front_edge.x, width_z = bridge.back_edge.z - bridge.front_edge.z;
    const length<R> width = hypot(width_x, width_z);
    const R tx = ratio(width_x, width), tz = ratio(width_z, width);
    force<R> down{}, push{};
    moment<R> along{}, across{}; // about the front edge, and about the bass foot
    for (const auto& s : strings) {
        const basic_support_force<R> f =
            kernel::support_force<R>(s.slot, s.saddle, s.anchor, s.tension, ratio_beyond(s) * s.tension);
        const force<R> square = tz * f.x - tx * f.z, slide = tx * f.x + tz * f.z;
        const length<R> dx = s.saddle.x - bridge.front_edge.x, dz = s.saddle.z - bridge.front_edge.z;
        const length<R> place = tx * dx + tz * dz, height = tx * dz - tz * dx;
        down += square;
        push += slide;
        along += place * square + height * slide;
        across += (s.saddle.y - bridge.bass_foot) * square + height * f.y;
    }
    basic_bridge_footing<R> footing;
    footing.down = down;
    footing.push = push;
    // Where nothing presses there is no such place: the margins are then those of a resultant at the front edge.
    const auto pressed = number<R>(0) < down.value();
    const force<R> divisor = select(pressed, down, force<R>::from_value(number<R>(1)));
    const auto there = [&](const R& r) { return select(pressed, r, number<R>(0)); };
    footing.front_margin = length<R>::from_value(there(along.value() / divisor.value()));
    footing.back_margin = width - footing.front_margin;
    footing.friction_needed = there(ratio(abs(push), divisor));
    footing.treble_load = across / (bridge.treble_foot - bridge.bass_foot);
    footing.bass_load = down - footing.treble_load;
    footing.best_lean = angle<R>::from_value(atan2(R(-push.value()), down.value()));
    return footing;
}

template <class R>
[[nodiscard]] basic_bridge_summary<R> bridge_summary(const basic_floating_bridge<R>& bridge,
                                                     std::span<const basic_bridge_string<R>> strings) {
    const auto slipping = [&](const R& sign) {
        return [&bridge, sign](const basic_bridge_string<R>& s) {
            const auto bend = kernel::break_angle(kernel::direction_between(s.saddle, s.slot),
                                                  kernel::direction_between(s.saddle, s.anchor));
            return kernel::capstan_ratio<R>(sign * bridge.saddle.most, bend);
        };
    };
    return {bridge_footing(bridge, strings, [](const auto&) { return number<R>(1); }),
            bridge_footing(bridge, strings, slipping(number<R>(-1))),
            bridge_footing(bridge, strings, slipping(number<R>(1)))};
}

} // namespace kernel

/// How a floating bridge stands under its strings, with friction at the saddle between nothing and its most in either
/// direction. All strings are taken at the same limit of friction together. Wherever the push along the top is smaller
/// than the down-force, that is the worst of all mixtures.
/// @param strings at least one; slot, saddle and anchor of each lie in this order along x
template <class R = double>
[[nodiscard]] basic_bridge_summary<R>
bridge_summary(const basic_floating_bridge<R>& bridge,
               std::type_identity_t<std::span<const basic_bridge_string<R>>> strings) {
    require_valid(bridge, "bridge");
    require_that(!strings.empty(), "strings", "must hold at least one string");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        require_valid(strings[i], messages::path_of("strings", i));
        const R along = ratio(strings[i].saddle.x - bridge.front_edge.x, bridge.back_edge.x - bridge.front_edge.x);
        const length<R> below = bridge.front_edge.z + along * (bridge.back_edge.z - bridge.front_edge.z);
        require_that(in_all_lanes(below.value() < strings[i].saddle.z.value()), messages::path_of("strings", i, "saddle.z"),
                     "must be above the top that the feet stand on");
    }
    return kernel::bridge_summary(bridge, strings);
}

/// Whether the feet stay where they are at their least friction; false also where nothing presses the bridge down.
template <class R = double>
[[nodiscard]] bool feet_hold(const basic_floating_bridge<R>& bridge, const basic_bridge_summary<R>& summary) {
    return in_all_lanes(number<R>(0) < summary.tail_slack.down.value()) &&
           in_all_lanes(summary.friction_needed() <= bridge.foot.least);
}

} // namespace tautline
