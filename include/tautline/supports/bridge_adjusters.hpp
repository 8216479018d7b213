#pragma once
/// @file
/// The two thumbwheels or screws that raise a floating bridge's saddle: how far each must go.
///
/// Source: plane geometry; the saddle moves as a stiff bar.

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// Two adjusters under a saddle.
template <class R = double>
struct basic_bridge_adjusters {
    using real = R;
    needed<length<R>> bass;         ///< place of the bass adjuster across, from the centre line
    needed<length<R>> treble;       ///< place of the treble adjuster, more than the bass one's
    needed<length<R>> thread_pitch; ///< rise for each whole turn

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass", about_an_instrument(), self.bass...);
        visit("treble", about_an_instrument(), self.treble...);
        visit("thread_pitch", between(0.05 * units::mm, 5 * units::mm), self.thread_pitch...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(bass.value() < treble.value())) {
            report("treble", "must be on the treble side of the bass adjuster");
        }
    }
};
using bridge_adjusters = basic_bridge_adjusters<double>;

/// How far to move both adjusters. Turns are rises divided by the thread's pitch.
template <class R = double>
struct basic_adjuster_moves {
    using real = R;
    length<R> bass{};   ///< + is up
    length<R> treble{}; ///< + is up
    R bass_turns{};     ///< + is up
    R treble_turns{};   ///< + is up

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("bass", self.bass...);
        visit("treble", self.treble...);
        visit("bass_turns", self.bass_turns...);
        visit("treble_turns", self.treble_turns...);
    }
};

/// How far both adjusters must rise so that the saddle rises by `bass_lift` under the outer bass string and by
/// `treble_lift` under the outer treble string.
/// @param bass_string,treble_string places across, bass first
template <class R = double>
[[nodiscard]] basic_adjuster_moves<R> adjuster_moves(const basic_bridge_adjusters<R>& adjusters,
                                                     param<length<R>> bass_string, param<length<R>> bass_lift,
                                                     param<length<R>> treble_string, param<length<R>> treble_lift) {
    require_valid(adjusters, "adjusters");
    require("bass_string", bass_string, any_finite<unit::length>());
    require("treble_string", treble_string, any_finite<unit::length>());
    require("bass_lift", bass_lift, between(-50 * units::mm, 50 * units::mm));
    require("treble_lift", treble_lift, between(-50 * units::mm, 50 * units::mm));
    require_that(in_all_lanes(bass_string.value() < treble_string.value()), "treble_string",
                 "must be on the treble side of the bass string");
    const R slope = ratio(treble_lift - bass_lift, treble_string - bass_string);
    basic_adjuster_moves<R> moves;
    moves.bass = bass_lift + slope * (adjusters.bass - bass_string);
    moves.treble = bass_lift + slope * (adjusters.treble - bass_string);
    moves.bass_turns = ratio(moves.bass, adjusters.thread_pitch);
    moves.treble_turns = ratio(moves.treble, adjusters.thread_pitch);
    return moves;
}

} // namespace tautline
