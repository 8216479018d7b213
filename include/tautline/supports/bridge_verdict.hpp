#pragma once
/// @file
/// One answer to whether a floating bridge stays where it stands: where the strings' resultant meets the top, and whether
/// the bridge may lift, tip or slide.

#include "floating_bridge.hpp"

namespace tautline {

/// What may happen to a floating bridge while its strings are tuned up and let down. Friction at the saddle may be
/// anything from nothing to its most; friction at the feet is taken at its least. For a pack: what may happen in any of
/// its lanes.
template <class R = double>
struct basic_bridge_verdict {
    using real = R;
    basic_bridge_summary<R> states{}; ///< forces and margins in each state of friction at the saddle
    basic_side_point<R> resultant;    ///< where the resultant meets the top when nothing rubs at the saddle
    basic_side_point<R> foremost;     ///< the place nearest to the nut, of all states
    basic_side_point<R> rearmost;     ///< the place nearest to the tailpiece, of all states
    bool lifts = false;               ///< nothing presses the bridge on the top; the places above then mean nothing
    bool tips_toward_nut = false;     ///< the resultant may pass the front edge of the feet
    bool tips_toward_tail = false;    ///< the resultant may pass the back edge of the feet
    bool slides_toward_nut = false;   ///< the feet may slide toward the nut
    bool slides_toward_tail = false;  ///< the feet may slide toward the tailpiece

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("states", self.states...);
        visit("resultant", self.resultant...);
        visit("foremost", self.foremost...);
        visit("rearmost", self.rearmost...);
        visit("lifts", self.lifts...);
        visit("tips_toward_nut", self.tips_toward_nut...);
        visit("tips_toward_tail", self.tips_toward_tail...);
        visit("slides_toward_nut", self.slides_toward_nut...);
        visit("slides_toward_tail", self.slides_toward_tail...);
    }

    /// Whether the bridge may tip either way.
    [[nodiscard]] constexpr bool tips() const { return tips_toward_nut || tips_toward_tail; }
    /// Whether the feet may slide either way.
    [[nodiscard]] constexpr bool slides() const { return slides_toward_nut || slides_toward_tail; }
    /// Whether the bridge can neither lift nor tip nor slide.
    [[nodiscard]] constexpr bool stands() const { return !lifts && !tips() && !slides(); }
};
using bridge_verdict = basic_bridge_verdict<double>;

namespace kernel {

/// A place on the top; `along` is counted from the feet's front edge on the line of the top.
template <class R>
[[nodiscard]] basic_side_point<R> place_on_top(const basic_floating_bridge<R>& bridge, const length<R>& along) {
    const length<R> width_x = bridge.back_edge.x - bridge.front_edge.x, width_z = bridge.back_edge.z - bridge.front_edge.z;
    const R share = ratio(along, hypot(width_x, width_z));
    return {.x = bridge.front_edge.x + width_x * share, .z = bridge.front_edge.z + width_z * share};
}

} // namespace kernel

/// Where the resultant of the strings meets the top in one state of a floating bridge. The strings must press the bridge:
/// a `down` that is not more than 0 throws `invalid_input`. The bridge stands where the place lies between the feet's
/// edges and tips where it lies outside. Source: plane statics, `x_saddle + H F_x/D` on a level top.
template <class R = double>
[[nodiscard]] basic_side_point<R> resultant_on_top(const basic_floating_bridge<R>& bridge,
                                                   const basic_bridge_footing<R>& footing) {
    require_valid(bridge, "bridge");
    require("down", footing.down, more_than(0 * units::N));
    require("front_margin", footing.front_margin, any_finite<unit::length>());
    return kernel::place_on_top(bridge, footing.front_margin);
}

/// Where the resultant meets the top, and whether the bridge may lift, tip or slide.
/// @param strings as `bridge_summary` takes them
/// Source: plane statics. The bridge tips where the resultant passes an edge of the feet. It slides where the resultant
/// leans from the square to the top by more than the feet's least friction holds.
template <class R = double>
[[nodiscard]] basic_bridge_verdict<R> verdict_of(const basic_floating_bridge<R>& bridge,
                                                 std::type_identity_t<std::span<const basic_bridge_string<R>>> strings) {
    basic_bridge_verdict<R> v;
    v.states = bridge_summary(bridge, strings);
    const R zero = number<R>(0);
    length<R> nearest = v.states.even.front_margin, farthest = nearest;
    for (const auto* s : {&v.states.even, &v.states.tail_slack, &v.states.tail_tight}) {
        const auto pressed = zero < s->down.value();
        nearest = min(nearest, s->front_margin);
        farthest = max(farthest, s->front_margin);
        const auto slides = pressed && bridge.foot.least < s->friction_needed;
        v.lifts = v.lifts || !in_all_lanes(pressed);
        v.tips_toward_nut = v.tips_toward_nut || in_any_lane(pressed && s->front_margin.value() < zero);
        v.tips_toward_tail = v.tips_toward_tail || in_any_lane(pressed && s->back_margin.value() < zero);
        v.slides_toward_nut = v.slides_toward_nut || in_any_lane(slides && s->push.value() < zero);
        v.slides_toward_tail = v.slides_toward_tail || in_any_lane(slides && zero < s->push.value());
    }
    v.resultant = kernel::place_on_top(bridge, v.states.even.front_margin);
    v.foremost = kernel::place_on_top(bridge, nearest);
    v.rearmost = kernel::place_on_top(bridge, farthest);
    return v;
}

} // namespace tautline
