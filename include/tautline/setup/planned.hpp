#pragma once
/// @file
/// What a plan holds: the instrument as it will be set, what that takes, what it gives, and which wishes it does not meet.

#include <string>

#include "../action/neck_set.hpp"
#include "../supports/bridge_adjusters.hpp"
#include "tolerance.hpp"

namespace tautline {

/// A wish that is not met, with what comes nearest.
struct shortfall {
    std::string wish{};      ///< its field of the wishes: "relief"
    finding_value wanted{};  ///< what was asked for
    finding_value nearest{}; ///< what can be had
    std::string why{};       ///< what stands in the way, in a sentence
};

/// Holes for pins that give every string the wanted break: as far behind the saddle as this.
template <class R>
struct basic_pin_range {
    using real = R;
    length<R> nearest{};  ///< hole nearest to the saddle
    length<R> farthest{}; ///< hole furthest from the saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("nearest", self.nearest...);
        visit("farthest", self.farthest...);
    }
};

/// The plan: the instrument as it will be set, what that takes from where it was, and what it gives.
template <class R = double>
struct basic_setup_plan {
    using real = R;
    basic_strung_instrument<R> start{};     ///< as given: after work on board and frets, before anything is set
    basic_setup<R> untouched{};             ///< what that would be if nothing were set
    basic_strung_instrument<R> set{};       ///< as it will be set
    basic_setup<R> solved{};                ///< what that is
    std::vector<length<R>> slot_change{};   ///< of each nut slot's bottom; negative: cut deeper
    std::vector<length<R>> saddle_height{}; ///< of each saddle slot's bottom over the soundboard
    std::vector<length<R>> saddle_change{}; ///< of each saddle slot from where it was
    length<R> saddle_off_arc{};        ///< greatest height that a round (or straight) saddle top leaves a slot to be cut
    force<R> rod_pull_change{};        ///< + is more pull
    std::optional<R> rod_turns{};      ///< of its nut; where the rod's thread is known
    length<R> setback_change_bass{};   ///< + is away from the nut
    length<R> setback_change_treble{}; ///< + is away from the nut
    std::optional<length<R>> hinge_change{};            ///< of a tailpiece's hanger; positive is up
    std::optional<basic_adjuster_moves<R>> adjusters{}; ///< of a bridge with thumbwheels or screws
    std::optional<basic_pin_range<R>> pin_holes{};      ///< of a pinned bridge
    /// Instead of all saddle changes: the neck turned.
    std::optional<basic_neck_set<R>> neck_reset{};
    std::vector<shortfall> shortfalls{}; ///< what could not be had

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("slot_change", self.slot_change...);
        visit("saddle_height", self.saddle_height...);
        visit("saddle_change", self.saddle_change...);
        visit("saddle_off_arc", self.saddle_off_arc...);
        visit("rod_pull_change", self.rod_pull_change...);
        visit("rod_turns", self.rod_turns...);
        visit("setback_change_bass", self.setback_change_bass...);
        visit("setback_change_treble", self.setback_change_treble...);
        visit("hinge_change", self.hinge_change...);
        visit("adjusters", self.adjusters...);
        visit("pin_holes", self.pin_holes...);
        visit("neck_reset", self.neck_reset...);
    }
};
using setup_plan = basic_setup_plan<double>;

} // namespace tautline
