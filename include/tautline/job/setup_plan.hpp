#pragma once
/// @file
/// What a plan holds: the instrument as it will be set, what that takes, what it gives, and which wishes it does not meet.

#include <string>

#include "../setup/setup.hpp"
#include "../supports/bridge_adjusters.hpp"
#include "../work/reset.hpp"

namespace tautline {

/// A wish that is not met, with what comes nearest.
struct shortfall {
    std::string wish{};     ///< its field of the wishes: "relief", "reset.saddle_height"
    any_quantity wanted{};  ///< what was asked for; none where it is no number
    any_quantity nearest{}; ///< what can be had; none where it is no number
    std::string why{};      ///< what stands in the way, in a sentence
};

/// What a plan says of a wish that it neither sets nor misses: what decides it instead.
struct plan_remark {
    std::string wish{};     ///< its field of the wishes: "first_fret_bass"
    std::string sentence{}; ///< ends with the number's name where there is one
    any_quantity number{};  ///< what would give the wish
};

/// What a neck reset takes and moves. Lengths by geometry, at pitch.
template <class R = double>
struct basic_reset_plan {
    using real = R;
    angle<R> turn{};                     ///< + head back and down
    std::optional<length<R>> heel_cut{}; ///< off the heel at its cap, negative to add there; where its depth is known
    length<R> edge_cut{};                ///< off the face of the joint at its edge, as it is off all of it
    std::optional<length<R>> shim{};     ///< under the bridge end of a pocket whose length is known; negative: its nut end
    length<R> board_line{};              ///< of the bare board over the soundboard at the saddle, strings slack, then
    std::optional<length<R>> wedge{};    ///< under the tongue at the board's end; where the board reaches beyond the joint
    std::optional<interval<R>> octave_before{}; ///< octave fret by lengths alone, between the outer strings; + is sharp
    std::optional<interval<R>> octave_after{};  ///< the same with the saddle where it stands on the body
    angle<R> break_before{};                    ///< over the saddle, mean of the strings, before anything is set
    angle<R> break_after{};                     ///< the same as planned

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("turn", self.turn...);
        visit("heel_cut", self.heel_cut...);
        visit("edge_cut", self.edge_cut...);
        visit("shim", self.shim...);
        visit("board_line", self.board_line...);
        visit("wedge", self.wedge...);
        visit("octave_before", self.octave_before...);
        visit("octave_after", self.octave_after...);
        visit("break_before", self.break_before...);
        visit("break_after", self.break_after...);
    }
};
using reset_plan = basic_reset_plan<double>;

/// Holes for pins that give every string the wanted break: as far behind the saddle as this.
template <class R = double>
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
using pin_range = basic_pin_range<double>;

/// Where one string's own saddle is set, and what that leaves.
template <class R = double>
struct basic_single_setting {
    using real = R;
    length<R> setback{};        ///< beyond the scale length then, along the centre line
    length<R> setback_change{}; ///< + is away from the nut
    /// What the action misses its wish by: + is too high; absent where no action is wished.
    std::optional<length<R>> height_left{};
    /// What the octave fret is off by; absent where the board has none.
    std::optional<interval<R>> octave_left{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("setback", self.setback...);
        visit("setback_change", self.setback_change...);
        visit("height_left", self.height_left...);
        visit("octave_left", self.octave_left...);
    }
};
using single_setting = basic_single_setting<double>;

/// The plan: the instrument as it will be set, what that takes from where it was, and what it gives.
template <class R = double>
struct basic_setup_plan {
    using real = R;
    basic_strung_instrument<R> start; ///< as given: after work on board and frets, before anything is set
    basic_setup<R> untouched;         ///< what that would be if nothing were set
    /// The same once the neck is reset, seen from its board; where it is not, as given. Changes are told from here.
    basic_strung_instrument<R> base;
    basic_strung_instrument<R> adjusted;    ///< as it will be set
    basic_setup<R> solved;                  ///< what that is
    int action_fret = 0;                    ///< where the action is told; 0 on a board without frets
    std::vector<length<R>> slot_change{};   ///< of each nut slot's bottom; negative: cut deeper
    std::vector<length<R>> saddle_height{}; ///< of each saddle slot's bottom over the soundboard
    std::vector<length<R>> saddle_change{}; ///< of each saddle slot from where it was
    length<R> saddle_off_arc{};        ///< greatest height that a round (or straight) saddle top leaves a slot to be cut
    force<R> rod_pull_change{};        ///< + is more pull
    std::optional<R> rod_turns{};      ///< of its nut; where the rod's thread is known
    length<R> setback_change_bass{};   ///< on the body; + is away from the nut
    length<R> setback_change_treble{}; ///< on the body; + is away from the nut
    std::vector<basic_single_setting<R>> singles{};     ///< of each string, where each has its own saddle
    std::optional<length<R>> hinge_change{};            ///< of a tailpiece's hanger; positive is up
    std::optional<basic_adjuster_moves<R>> adjusters{}; ///< of a bridge with thumbwheels or screws
    std::optional<basic_pin_range<R>> pin_holes{};      ///< of a pinned bridge
    std::optional<basic_reset_plan<R>> reset{};         ///< where a reset is wanted
    bool saddle_at_limit = false;                       ///< a limit of the saddle keeps an action from its wish
    /// Where none is wanted and a limit of the saddle keeps the action from its wish: the reset that would give it, the
    /// saddle at that limit. Absent where no limit stops it, and where a reset does not help.
    std::optional<basic_reset_plan<R>> reset_instead{};
    std::vector<shortfall> shortfalls{}; ///< what could not be had
    std::vector<plan_remark> remarks{};  ///< what is decided otherwise

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
        visit("singles", self.singles...);
        visit("hinge_change", self.hinge_change...);
        visit("adjusters", self.adjusters...);
        visit("pin_holes", self.pin_holes...);
        visit("reset", self.reset...);
        visit("reset_instead", self.reset_instead...);
    }
};
using setup_plan = basic_setup_plan<double>;

} // namespace tautline
