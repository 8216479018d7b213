#pragma once
/// @file
/// What a plan holds: the instrument as it will be set, what that takes, what it gives, and which wishes it does not
/// meet.

#include <string>

#include "../setup/setup.hpp"
#include "../supports/bridge_adjusters.hpp"
#include "../work/reset.hpp"
#include "plan_room.hpp"
#include "wishes.hpp"

namespace tautline {

/// A wish that is not met, with what comes nearest.
struct shortfall {
    std::string wish{};     ///< its field of the wishes: "relief", "reset.saddle_height"
    any_quantity wanted{};  ///< what was wished; absent where it is no number
    any_quantity nearest{}; ///< what can be had; absent where it is no number
    std::string why{};      ///< what stands in the way, in a sentence
    /// Place of its string in the instrument's list, from 0, where that lies between the outer ones, which the wish is of.
    std::optional<std::size_t> string_index{};
};

/// What a plan says of a wish that it neither sets nor misses: what else decides it.
struct plan_remark {
    std::string wish{};     ///< its field of the wishes: "first_fret_bass"
    std::string sentence{}; ///< the remark; where there is a number it ends with the number's name
    any_quantity number{};  ///< the number that would meet the wish
};

/// What a neck reset takes and moves. Lengths are by geometry, at pitch.
template <class R = double>
struct basic_reset_plan {
    using real = R;
    angle<R> turn{};                     ///< positive: head back and down
    std::optional<length<R>> heel_cut{}; ///< off the heel at its cap, negative: add there; where its depth is known
    length<R> edge_cut{};                ///< off the face of the joint at its edge
    std::optional<length<R>> shim{};     ///< under the bridge end of a pocket of known length; negative: its nut end
    length<R> board_line{};              ///< of the bare board over the soundboard at the saddle, slack, after all work
    std::optional<length<R>> wedge{};    ///< under the tongue at the board's end; where the board passes the joint
    std::optional<interval<R>> octave_before{}; ///< error of the octave fret by lengths alone, between the outer strings;
                                                ///< positive is sharp
    std::optional<interval<R>> octave_after{};  ///< the same with the saddle where it stands on the body
    angle<R> break_before{};                    ///< break over the saddle before anything is set, mean of the strings
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

/// Where the holes for pins must be to give every string the wanted break, from the saddle back.
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

/// Where the hole of one string's pin must be for the wanted break.
template <class R = double>
struct basic_pin_place {
    using real = R;
    length<R> behind_saddle{}; ///< from where the string leaves the saddle back to the edge of its hole
    length<R> distance{};      ///< the same from the end of the scale length, as `pins.distance` is told

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("behind_saddle", self.behind_saddle...);
        visit("distance", self.distance...);
    }
};
using pin_place = basic_pin_place<double>;

/// Where one string's own saddle is set, and what that leaves.
template <class R = double>
struct basic_single_setting {
    using real = R;
    length<R> setback{};        ///< how far it then lies beyond the scale length, along the centre line
    length<R> setback_change{}; ///< positive is away from the nut
    /// How far the action misses its wish; positive is too high. Absent where no action is wished.
    std::optional<length<R>> height_left{};
    /// Remaining error of the octave fret; absent where the board has none.
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

/// A plan: the instrument as it will be set, what that takes from where it was, and what it gives.
template <class R = double>
struct basic_setup_plan {
    using real = R;
    basic_strung_instrument<R> start; ///< as given: after work on board and frets, before anything is set
    basic_setup<R> untouched;         ///< setup of the start: what it would be if nothing were set
    basic_wishes<R> wanted{};         ///< what it was made for
    /// Given: heights of every string over every fret that sides without a wish keep. Empty: those of `untouched`.
    std::vector<std::vector<length<R>>> kept{};
    /// The start after the neck is reset, seen from its board; without a reset, the start as given. Changes count from
    /// here, and besides from how the instrument stood before planned values, where that was given.
    basic_strung_instrument<R> base;
    basic_strung_instrument<R> adjusted;                ///< the instrument as it will be set
    basic_setup<R> solved;                              ///< its solved setup
    int action_fret = 0;                                ///< fret at which the action is told; 0 on a board without frets
    std::vector<length<R>> slot_change{};               ///< change of each nut slot's bottom; negative: cut deeper
    std::vector<length<R>> saddle_height{};             ///< height of each saddle slot's bottom over the soundboard
    std::vector<length<R>> saddle_change{};             ///< change of each saddle slot from where it was
    length<R> saddle_off_arc{};                         ///< greatest height by which a round or straight top misses a slot
    force<R> rod_pull_change{};                         ///< positive is more pull
    std::optional<R> rod_turns{};                       ///< turns of its nut; given where the rod's thread is known
    length<R> setback_change_bass{};                    ///< on the body; + is away from the nut
    length<R> setback_change_treble{};                  ///< on the body; + is away from the nut
    std::vector<basic_single_setting<R>> singles{};     ///< for each string, where each has its own saddle
    std::optional<length<R>> hinge_change{};            ///< change of a tailpiece's hanger; positive is up
    std::optional<basic_adjuster_moves<R>> adjusters{}; ///< of a bridge with thumbwheels or screws
    std::optional<basic_pin_range<R>> pin_holes{};      ///< given for a pinned bridge with a wanted break
    std::vector<basic_pin_place<R>> pin_places{};       ///< the same for each string
    std::optional<basic_reset_plan<R>> reset{};         ///< given where a reset is wanted
    bool saddle_at_limit = false;                       ///< whether a limit of the saddle keeps an action from its wish
    bool saddle_below_wood = false; ///< whether the saddle would have to go below the wood of the bridge that it stands in
    /// The reset that would give the action, with the saddle at the limit that keeps it from its wish. Given where no
    /// reset is wanted. Absent where no limit stops the saddle, or where a reset does not help.
    std::optional<basic_reset_plan<R>> reset_instead{};
    std::vector<shortfall> shortfalls{}; ///< wishes that are not met
    std::vector<plan_remark> remarks{};  ///< wishes that something else decides
    kernel::plan_room<R> room;           ///< what planning works with; the next plan into this one uses it again

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
        visit("pin_places", self.pin_places...);
        visit("reset", self.reset...);
        visit("reset_instead", self.reset_instead...);
    }
};
using setup_plan = basic_setup_plan<double>;

} // namespace tautline
