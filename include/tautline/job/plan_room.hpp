#pragma once
/// @file
/// What making a plan works with: lists that are kept for the next plan, and what limited a setting.

#include <array>
#include <vector>

#include "../neck/wanted.hpp"
#include "../setup/setup.hpp"
#include "../supports/tailpiece_plan.hpp"

namespace tautline::kernel {

/// What limited a setting in the last round, for both outer strings. Only values count.
struct held_back {
    enum side { bass, treble };
    struct limits {
        bool half_gauge = false;                      ///< the action would be less than half the gauge
        bool slot_low = false, slot_high = false;     ///< limits of the slot
        bool saddle_low = false, saddle_high = false; ///< limits of the saddle
        bool saddle_on_board = false;                 ///< the string would lie under the board
        bool too_near = false, too_far = false;       ///< ends of a single saddle's travel along the strings
        [[nodiscard]] bool saddle() const { return saddle_low || saddle_high || saddle_on_board; }
    };
    std::array<limits, 2> at{};
    std::vector<limits> single{};               ///< of every string, where each has its own saddle
    rod_shortfall rod = rod_shortfall::none;    ///< why the rod does not give the wanted relief
    bool hinge_low = false, hinge_high = false; ///< the hanger is at one end of its range
    bool setback = false;                       ///< the saddle is as far along as it may be described
    bool turn_least = false, turn_most = false; ///< the neck is at one end of its range
    double turn_needed = 0;                     ///< turn that it would make without that range, in radians
};

/// What the search for a rod's pull has shown for the rounds that follow.
template <class R>
struct rod_search {
    bool known = false;     ///< whether the rest is
    R slope = number<R>(1); ///< change of the relief for each newton
    R miss = number<R>(0);  ///< half of what was missing last; a round with more searches again
};

/// What turning a neck works with.
template <class R>
struct turn_room {
    std::vector<length<R>> lines{}; ///< the line of the saddle under each string
    basic_instrument<R> before;     ///< the instrument at the turn before
};

/// Lists that the rounds of a plan fill and read. They keep their memory, so that a plan into a plan that was made before
/// allocates none of them again.
template <class R>
struct plan_room {
    held_back held{};                                       ///< what limited the settings
    std::vector<basic_bridge_string<R>> was{};              ///< the strings over the saddle before a round
    std::vector<basic_string_line<R>> lines{};              ///< the strings' lines
    std::vector<length<R>> leaning{};                       ///< see `kept_height`
    std::vector<length<R>> y{};                             ///< places across at the saddle
    std::vector<length<R>> change{}, before{}, after{};     ///< of the saddle slots
    rod_search<R> rod{};                                    ///< of a rod that is set
    turn_room<R> turn;                                      ///< of a neck that is reset
    std::vector<length<R>> saddle_z{}, top_z{};             ///< heights at the saddle
    std::vector<basic_point<R>> slots{};                    ///< axes at the nut
    std::vector<R> before_round{}, set{}, moved{}, ahead{}; ///< settings, see `look_ahead`
    anchor_room<R, basic_hinged_tailpiece<R>> hinge{};      ///< for the search for a hanger's height
    basic_relief_case<R> relief{};                          ///< for the search for a rod's pull
};

} // namespace tautline::kernel
