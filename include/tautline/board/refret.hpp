#pragma once
/// @file
/// From old frets to new: what the change of crown height means for nut, action and bridge.

#include "fret_wire.hpp"
#include "removal.hpp"

namespace tautline {

/// What changes when new frets replace the old ones on the same surface.
template <class R = double>
struct basic_refret_change {
    length<R> crown_rise_at_first{};  ///< of the crest of fret 1
    length<R> crown_rise_at_action{}; ///< of the crest of the fret where action is quoted
    /// Change of the action there if nothing else is done; negative when the new crown is taller.
    length<R> action_change{};
    length<R> nut_rise{};    ///< rise of the nut's slots that keeps their height over the first fret
    length<R> saddle_rise{}; ///< rise of the saddle that keeps the action after the nut was raised
};

/// Compares old frets with their wear and new ones. `action_fret` is 1 to the last fret; `nut_to_saddle` is more than
/// its distance from the nut. Throws `invalid_input` otherwise.
template <class R = double>
[[nodiscard]] basic_refret_change<R> refret_change(const basic_scale<R>& s, const std::type_identity_t<basic_frets<R>>& old,
                                                   const std::type_identity_t<basic_frets<R>>& fresh, int action_fret,
                                                   param<length<R>> nut_to_saddle) {
    require_valid(s, "scale");
    kernel::require_one_scale(s);
    require_valid(old, "old");
    require_valid(fresh, "fresh");
    if (action_fret < 1 || action_fret > s.frets) {
        messages::refuse("action_fret", messages::count_text(action_fret),
                         messages::joined({"must be one of the board's frets, 1 to ", s.frets}));
    }
    const auto rise = [&](int n) { return length<R>(kernel::crown_left(fresh, n) - kernel::crown_left(old, n)); };
    basic_refret_change<R> change{.crown_rise_at_first = rise(1), .crown_rise_at_action = rise(action_fret)};
    // A zero fret carries the string, and it is of the same wire, unworn, unless its crown is told.
    change.nut_rise = s.zero_fret ? rise(0) : rise(1);
    change.action_change = -change.crown_rise_at_action;
    if (s.zero_fret) {
        const R share = ratio<unit::length, R>(kernel::fret_position(s, action_fret), nut_to_saddle);
        change.action_change += change.nut_rise * R(number<R>(1) - share);
    }
    change.saddle_rise = saddle_drop_keeping_action(change.crown_rise_at_action, change.nut_rise,
                                                    kernel::fret_position(s, action_fret), nut_to_saddle);
    return change;
}

} // namespace tautline
