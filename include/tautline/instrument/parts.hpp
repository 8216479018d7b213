#pragma once
/// @file
/// The parts of an instrument, described by what is measured on them.

#include <optional>
#include <vector>

#include "../action/intonation.hpp"
#include "../board/spacing.hpp"
#include "../supports/friction.hpp"
#include "neck_measures.hpp"
#include "saddle.hpp"

namespace tautline {

/// The nut: where the strings cross it and how deep their slots are.
template <class R = double>
struct basic_nut {
    using real = R;
    basic_spacing<R> spacing{}; ///< where the strings cross it, without those that have nuts of their own
    /// Height of each slot's bottom over the bare board under that string, bass first; a single value serves all strings.
    /// For a string with a nut of its own it is the slot there.
    std::vector<field<length<R>>> slot_heights{};
    /// Friction of string in slot. Published values scatter. The default is that of metal on wood: no source was found
    /// for steel on dry bone.
    basic_friction<R> friction = over<R>(published_friction::metal_on_wood);

    /// Height of the slot's bottom of string `i`, counted from 0, bass first.
    [[nodiscard]] constexpr const field<length<R>>& slot_height(std::size_t i) const {
        return slot_heights[slot_heights.size() == 1 ? 0 : i];
    }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("spacing", self.spacing...);
        visit("slot_heights", between(-2 * units::mm, 20 * units::mm), self.slot_heights...);
        visit("friction", self.friction...);
    }
};
using nut = basic_nut<double>;

/// A string that begins at a nut of its own on the neck, such as the short fifth string of a banjo. Its slot is listed
/// with the nut's slots, its peg with the posts.
template <class R = double>
struct basic_short_string {
    using real = R;
    int fret = not_counted;   ///< the fret at which its nut stands; it can be pressed only further up
    needed<length<R>> across; ///< where it crosses its nut, from the centre line, bass negative

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("fret", between(1, 240), self.fret...);
        visit("across", between(-200 * units::mm, 200 * units::mm), self.across...);
    }
};
using short_string = basic_short_string<double>;

/// A tailpiece at the end of the body, behind a floating bridge. It swings on its hanger, or a screw or a bracket presses
/// its strings' end down and holds it there.
template <class R = double>
struct basic_tailpiece {
    using real = R;
    needed<length<R>> hinge_distance; ///< from the saddle's line (scale length) back to the hinge it hangs on
    needed<length<R>> hinge_height;   ///< of the hinge over the soundboard's plane at the saddle; negative below it
    needed<length<R>> reach;          ///< from the hinge forward to where the strings leave it
    needed<length<R>> spread;         ///< between the outermost strings on it
    /// For a tailpiece that is pressed down: height over the soundboard's plane at which the strings leave it. Absent: it
    /// hangs in the pull of the strings.
    std::optional<field<length<R>>> pressed_height{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("hinge_distance", between(0.1 * units::mm, 1000 * units::mm), self.hinge_distance...);
        visit("hinge_height", between(-150 * units::mm, 150 * units::mm), self.hinge_height...);
        visit("reach", between(0.1 * units::mm, 1000 * units::mm), self.reach...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
        visit("pressed_height", between(-150 * units::mm, 150 * units::mm), self.pressed_height...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (pressed_height && !in_all_lanes(abs(length<R>(*pressed_height - hinge_height)).value() < reach.value())) {
            report("pressed_height", "must be within the tailpiece's reach of hinge_height: it turns about its hinge");
        }
        if (!in_all_lanes(is_less<unit::length, R>(reach, hinge_distance))) {
            report("reach", "must be less than hinge_distance: the bridge would stand beyond the tailpiece");
        }
    }
};
using tailpiece = basic_tailpiece<double>;

/// A bar fixed to the body behind the saddle. The strings run under it on their way to a tailpiece or into the body.
template <class R = double>
struct basic_pressing_bar {
    using real = R;
    needed<length<R>> distance; ///< from the saddle's line (scale length) back to the bar
    needed<length<R>> height;   ///< of the bar's underside over the soundboard's plane (a solid body: over its face)

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("distance", between(0.1 * units::mm, 500 * units::mm), self.distance...);
        visit("height", between(-50 * units::mm, 150 * units::mm), self.height...);
    }
};
using pressing_bar = basic_pressing_bar<double>;

/// Bridge pins, which hold the strings at a fixed place behind the saddle.
template <class R = double>
struct basic_pins {
    using real = R;
    /// From the saddle's line (scale length) back to the edge of the hole, where the string leaves it.
    needed<length<R>> distance;
    needed<length<R>> height;         ///< of that edge over the soundboard; the string's underside lies on it
    needed<length<R>> spread;         ///< between the outermost strings there
    needed<length<R>> top_thickness;  ///< of the soundboard under the bridge; the turning moment is about its middle
    needed<length<R>> saddle_exposed; ///< how far the saddle stands out of its slot
    /// Slope of the soundboard under the bridge against the board's line; positive where it rises toward the tail.
    field<angle<R>> top_slope = angle<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("distance", between(0.1 * units::mm, 300 * units::mm), self.distance...);
        visit("height", between(-50 * units::mm, 150 * units::mm), self.height...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
        visit("top_thickness", between(0 * units::mm, 20 * units::mm), self.top_thickness...);
        visit("saddle_exposed", between(0 * units::mm, 30 * units::mm), self.saddle_exposed...);
        visit("top_slope", between(-30 * units::deg, 30 * units::deg).fair_default("it runs along the board's line"),
              self.top_slope...);
    }
};
using pins = basic_pins<double>;

/// A tie block behind the saddle. The strings go through holes along it and are tied back over it.
template <class R = double>
struct basic_tie_block {
    using real = R;
    needed<length<R>> distance;       ///< from the saddle's line (scale length) back to the block's front face
    needed<length<R>> hole_height;    ///< of the middle of the holes there, over the soundboard
    needed<length<R>> hole_diameter;  ///< of the holes; a string lies against the upper edge of its hole
    needed<length<R>> spread;         ///< between the outermost strings there
    needed<length<R>> top_thickness;  ///< of the soundboard under the bridge; the turning moment is about its middle
    needed<length<R>> saddle_exposed; ///< how far the saddle stands out of its slot
    /// How far its own loop lifts a string before the block; 0 where loops are tied clear of the string.
    field<length<R>> loop_lift = length<R>();
    /// Slope of the soundboard under the bridge against the board's line; positive where it rises toward the tail.
    field<angle<R>> top_slope = angle<R>();

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("distance", between(0.1 * units::mm, 100 * units::mm), self.distance...);
        visit("hole_height", between(-20 * units::mm, 50 * units::mm), self.hole_height...);
        visit("hole_diameter", between(0.1 * units::mm, 10 * units::mm), self.hole_diameter...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
        visit("top_thickness", between(0 * units::mm, 20 * units::mm), self.top_thickness...);
        visit("saddle_exposed", between(0 * units::mm, 30 * units::mm), self.saddle_exposed...);
        visit("loop_lift", between(0 * units::mm, 10 * units::mm).fair_default("loops tied clear of the string"),
              self.loop_lift...);
        visit("top_slope", between(-30 * units::deg, 30 * units::deg).fair_default("it runs along the board's line"),
              self.top_slope...);
    }
    /// Height of the holes' upper edge over the soundboard, plus the lift of the loops.
    [[nodiscard]] constexpr length<R> upper_edge() const {
        return hole_height + hole_diameter * number<R>(0.5L) + loop_lift;
    }
};
using tie_block = basic_tie_block<double>;

/// A bridge on a solid body, or one whose strings end at a bar on the body or run through the body. The body bears all
/// loads and nothing gives. Heights that elsewhere are told over the soundboard are then over the body's face.
template <class R = double>
struct basic_body_bridge {
    using real = R;
    /// From the saddle's line (scale length) back to where the string leaves its hole or the edge that it runs over.
    needed<length<R>> distance;
    needed<length<R>> height; ///< of that place over the body's face; the string's underside lies on it
    needed<length<R>> spread; ///< between the outermost strings there

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("distance", between(0.1 * units::mm, 300 * units::mm), self.distance...);
        visit("height", between(-50 * units::mm, 150 * units::mm), self.height...);
        visit("spread", between(0 * units::mm, 300 * units::mm), self.spread...);
    }
};
using body_bridge = basic_body_bridge<double>;

/// The feet of a floating bridge on the soundboard.
template <class R = double>
struct basic_bridge_feet {
    using real = R;
    needed<length<R>> ahead;       ///< from the saddle's line (scale length) forward to the front edge of the feet
    needed<length<R>> behind;      ///< from the saddle's line back to the back edge of the feet
    needed<angle<R>> top_slope;    ///< of the soundboard there; positive where it rises toward the tail
    needed<length<R>> bass_foot;   ///< middle of the bass foot, across
    needed<length<R>> treble_foot; ///< middle of the treble foot, across
    basic_friction<R> friction = over<R>(published_friction::wood_on_wood); ///< of the feet on the soundboard

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("ahead", between(-50 * units::mm, 100 * units::mm), self.ahead...);
        visit("behind", between(-50 * units::mm, 100 * units::mm), self.behind...);
        visit("top_slope", between(-30 * units::deg, 30 * units::deg), self.top_slope...);
        visit("bass_foot", between(-150 * units::mm, 150 * units::mm), self.bass_foot...);
        visit("treble_foot", between(-150 * units::mm, 150 * units::mm), self.treble_foot...);
        visit("friction", self.friction...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(number<R>(0) < (ahead + behind).value())) {
            report("behind", "must leave the feet some length along the strings");
        }
        if (!in_all_lanes(bass_foot.value() < treble_foot.value())) {
            report("treble_foot", "must be on the treble side of the bass foot");
        }
    }
};
using bridge_feet = basic_bridge_feet<double>;

/// How the instrument is played, and how the ends of a sounding string hold it. These are habits and calibrations; none
/// has a published value. They move intonation and buzz: measure them or try them out on the instrument in hand.
template <class R = double>
struct basic_playing {
    using real = R;
    basic_finger_press<R> finger{};                                             ///< how strings are pressed
    field<length<R>> pluck_from_saddle{length<R>::from_value(number<R>(0.1L))}; ///< from the saddle to the plucked place
    R nut_end = number<R>(0.5L);    ///< end factor: 0 hinged, 1/2 running on over an edge, 1 clamped
    R fret_end = number<R>(0.5L);   ///< the same at a fret
    R saddle_end = number<R>(0.5L); ///< the same at the saddle

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("finger", self.finger...);
        visit("pluck_from_saddle", between(0.1 * units::mm, 1000 * units::mm).fair_default("a habit; no source"),
              self.pluck_from_saddle...);
        visit("nut_end", between(0, 1).fair_default("half way from hinged to clamped"), self.nut_end...);
        visit("fret_end", between(0, 1).fair_default("half way from hinged to clamped"), self.fret_end...);
        visit("saddle_end", between(0, 1).fair_default("half way from hinged to clamped"), self.saddle_end...);
    }
};
using playing = basic_playing<double>;

} // namespace tautline
