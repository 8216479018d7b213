#pragma once
/// @file
/// Neck set: where the line of the frets points at the bridge, and how the neck must be turned for it to point elsewhere.
///
/// Source: plane geometry; the neck turns as a stiff body about the edge where it meets the body.

#include <span>

#include "../core/line_fit.hpp"
#include "height.hpp"

namespace tautline {

/// How a neck is joined.
template <class R>
struct basic_neck_joint {
    using real = R;
    field<length<R>> x{};             ///< the edge about which the neck turns, along the strings
    field<length<R>> z{};             ///< its height
    field<length<R>> heel_depth{};    ///< from that edge down to the heel cap; for a glued or bolted heel
    field<length<R>> pocket_length{}; ///< of a neck pocket along the strings; 0 when there is none
    field<length<R>> saddle_x{};      ///< place of the saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", any_finite<unit::length>(), self.x...);
        visit("z", any_finite<unit::length>(), self.z...);
        visit("heel_depth", between(0 * units::mm, 300 * units::mm), self.heel_depth...);
        visit("pocket_length", between(0 * units::mm, 300 * units::mm), self.pocket_length...);
        visit("saddle_x", any_finite<unit::length>(), self.saddle_x...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!all(x.value() < saddle_x.value())) { report("saddle_x", "must be beyond the joint"); }
    }
};
using neck_joint = basic_neck_joint<double>;

/// The straight line nearest to the crests.
template <class R>
struct basic_sighted_line {
    using real = R;
    length<R> at_nut{}; ///< its height at x = 0
    R slope{};          ///< rise toward the bridge

    /// Height of the line at a place along the board.
    [[nodiscard]] constexpr length<R> at(const length<R>& x) const { return at_nut + slope * x; }
};

/// What a reset takes. Positive: the head goes back and down, the line of the frets rises at the bridge.
template <class R>
struct basic_neck_set {
    using real = R;
    length<R> points_at{}; ///< height of the line of the frets at the saddle as found
    angle<R> turn{};       ///< to turn the neck by
    length<R> heel_cut{};  ///< to take off at the heel cap, running out to nothing at the edge; negative: to add there
    length<R> shim{};      ///< under the bridge end of the pocket; negative: under its nut end

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("points_at", self.points_at...);
        visit("turn", self.turn...);
        visit("heel_cut", self.heel_cut...);
        visit("shim", self.shim...);
    }
};

/// The line of the crests, by least squares.
/// @param crest_x,crest_z crests on the centre line, in the state that is to be judged (at pitch, or slack); at least two
template <class R>
[[nodiscard]] basic_sighted_line<R> sighted_line(std::span<const length<R>> crest_x,
                                                 std::type_identity_t<std::span<const length<R>>> crest_z) {
    require_that(crest_x.size() == crest_z.size() && crest_x.size() >= 2, "crest_x and crest_z",
                 "must have one entry for each fret, and at least two");
    for (std::size_t i = 0; i < crest_x.size(); ++i) {
        if (!all_finite(crest_x[i]) || !all_finite(crest_z[i])) {
            require(messages::path_of("crest_x", i), crest_x[i], any_finite<unit::length>());
            require(messages::path_of("crest_z", i), crest_z[i], any_finite<unit::length>());
        }
        if (i > 0 && !all(crest_x[i - 1].value() < crest_x[i].value())) {
            require_that(false, messages::path_of("crest_x", i), "must lie beyond the fret before it");
        }
    }
    const auto line = line_through<R>(
        crest_x.size(), [&](std::size_t i) { return crest_x[i].value(); },
        [&](std::size_t i) { return crest_z[i].value(); });
    return {length<R>::from_value(line.offset), line.slope};
}

/// Where the line of the frets should point at the saddle for a wanted action: below the saddle's top by what the string
/// rises.
/// @param saddle_top height of the saddle under the string
/// @param over_nut  height of the slot's bottom above the line of the crests
/// @param action    wanted height over the crest at `at_x`
template <class R>
[[nodiscard]] length<R> points_for_action(const basic_neck_joint<R>& joint, param<length<R>> saddle_top,
                                          param<length<R>> over_nut, param<length<R>> action, param<length<R>> at_x) {
    require_valid(joint, "joint");
    require("saddle_top", saddle_top, any_finite<unit::length>());
    require("over_nut", over_nut, any_finite<unit::length>());
    require("action", action, more_than(0 * units::mm));
    require("at_x", at_x, more_than(0 * units::mm));
    return saddle_top - over_nut - ratio(joint.saddle_x, at_x) * (action - over_nut);
}

/// How to reset a neck so that the line of the frets points at a wanted height at the saddle.
template <class R>
[[nodiscard]] basic_neck_set<R> neck_set(const basic_neck_joint<R>& joint, const basic_sighted_line<R>& line,
                                         param<length<R>> wanted_at_saddle) {
    require_valid(joint, "joint");
    require("wanted_at_saddle", wanted_at_saddle, any_finite<unit::length>());
    const length<R> dx = joint.saddle_x - joint.x, dz = wanted_at_saddle - joint.z;
    require_that(all(abs(dz).value() < dx.value()), "wanted_at_saddle",
                 "must be nearer to level: no neck is set so steeply");
    basic_neck_set<R> set;
    set.points_at = line.at(joint.saddle_x);
    // Turning keeps the line's distance from the edge it turns about.
    const R secant = sqrt(R(number<R>(1) + line.slope * line.slope));
    const length<R> distance = (line.at(joint.x) - joint.z) / secant;
    const R now = atan2(line.slope, number<R>(1));
    const R wanted = atan2(dz, dx).value() - asin(R(ratio(distance, hypot(dx, dz))));
    set.turn = angle<R>::from_value(wanted - now);
    set.heel_cut = tan(set.turn) * joint.heel_depth;
    set.shim = tan(set.turn) * joint.pocket_length;
    return set;
}

} // namespace tautline
