#pragma once
/// @file
/// What the strings do at the saddle: break angle and down-force of each string, and of all together.
///
/// Source: statics as in break_angle.hpp.

#include "break_angle.hpp"
#include "tailpiece.hpp"

namespace tautline {

/// One string over a bridge: its axis at the slot, on the saddle and at the tailpiece.
template <class R = double>
struct basic_bridge_string {
    using real = R;
    basic_point<R> slot{};    ///< where its axis leaves the nut or the last fret
    basic_point<R> saddle{};  ///< where its axis crosses the saddle
    basic_point<R> anchor{};  ///< where its axis meets tailpiece or pin
    needed<force<R>> tension; ///< of the speaking length, at least 0

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("slot", self.slot...);
        visit("saddle", self.saddle...);
        visit("anchor", self.anchor...);
        visit("tension", between(0 * units::N, 5000 * units::N), self.tension...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(slot.x.value() < saddle.x.value())) { report("saddle.x", "must be beyond the nut"); }
        if (!in_all_lanes(saddle.x.value() < anchor.x.value())) {
            report("anchor.x", "must be beyond the saddle: the bridge stands beyond the tailpiece");
        }
    }
};
using bridge_string = basic_bridge_string<double>;

/// What one string does at a saddle with a fixed point behind it: a pin hole's edge, a tie block, a rigid tailpiece.
template <class R = double>
[[nodiscard]] basic_support_load<R> saddle_load(const basic_point<R>& nut_point, const basic_point<R>& saddle_point,
                                                const basic_point<R>& anchor, param<force<R>> tension) {
    return support_load(nut_point, saddle_point, anchor, tension);
}

namespace kernel {

/// Loads of all strings at a saddle in front of a hinged tailpiece; returns the angle at which the tailpiece stands.
/// `slots[i]` is the axis of string i at the nut.
template <class R>
angle<R> saddle_loads(const basic_hinged_tailpiece<R>& tail, std::span<const basic_point<R>> slots,
                      std::span<const basic_tail_string<R>> strings, std::span<basic_support_load<R>> loads) {
    const angle<R> rise = kernel::tailpiece_rise(tail, strings);
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const auto& s = strings[i];
        loads[i] =
            kernel::support_load<R>(slots[i], s.saddle, bar_point<R>(tail, rise.value(), s.across), s.tension, s.tension);
    }
    return rise;
}

} // namespace kernel

/// Loads of all strings at a saddle in front of a hinged tailpiece, written into `loads`, one for each string.
/// @return the angle at which the tailpiece stands
template <class R = double>
angle<R> saddle_loads(const basic_hinged_tailpiece<R>& tail, std::type_identity_t<std::span<const basic_point<R>>> slots,
                      std::type_identity_t<std::span<const basic_tail_string<R>>> strings,
                      std::type_identity_t<std::span<basic_support_load<R>>> loads) {
    require_that(slots.size() == strings.size() && loads.size() == strings.size(), "slots, strings and loads",
                 "must have one entry for each string");
    const angle<R> rise = tailpiece_rise(tail, strings); // checks what it is given
    for (std::size_t i = 0; i < strings.size(); ++i) {
        loads[i] = saddle_load<R>(slots[i], strings[i].saddle, kernel::bar_point<R>(tail, rise.value(), strings[i].across),
                                  strings[i].tension);
    }
    return rise;
}

} // namespace tautline
