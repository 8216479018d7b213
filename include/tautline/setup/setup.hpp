#pragma once
/// @file
/// All results at once: what an instrument does under its strings, string by string and fret by fret.

#include <optional>
#include <vector>

#include "../action/clearance.hpp"
#include "../action/height.hpp"
#include "../action/moved_ends.hpp"
#include "../action/pluck.hpp"
#include "../action/straight_saddle.hpp"
#include "../core/line_fit.hpp"
#include "../instrument/strung_instrument.hpp"
#include "../neck/bow.hpp"
#include "../neck/relief.hpp"
#include "../supports/bridge.hpp"
#include "../supports/floating_bridge.hpp"
#include "../supports/pinned_bridge.hpp"
#include "finding.hpp"

namespace tautline {

/// What a string's construction alone tells; it is computed once for a solve.
template <class R = double>
struct basic_string_measures {
    using real = R;
    linear_density<R> slack_mass{};      ///< mass per length where the string is wound
    linear_density<R> core_mass{};       ///< where the core runs bare
    force<R> axial_stiffness{};          ///< force for each unit of strain
    area<R> core_area{};                 ///< cross-section of the core
    std::optional<stress<R>> strength{}; ///< least strength of its core, where that is known
};
using string_measures = basic_string_measures<double>;

/// One string of a solved setup: its pull, its line, its clearances and its notes.
template <class R = double>
struct basic_string_setup {
    using real = R;
    length<R> gauge{};                    ///< outer diameter
    frequency<R> pitch{};                 ///< of the open string
    linear_density<R> mass_per_length{};  ///< at pitch, stretched
    length<R> speaking_length{};          ///< from nut to saddle
    force<R> tension{};                   ///< at pitch
    stress<R> core_stress{};              ///< tension over the core's section
    std::optional<R> share_of_strength{}; ///< core stress over the wire's least strength, where that is known
    length<R> y_at_nut{};                 ///< off the centre line, bass negative
    length<R> y_at_saddle{};              ///< off the centre line, bass negative
    basic_string_line<R> line;            ///< the string's underside under load
    /// Places along x where it crosses each fret, fret 1 first, on fanned frets. Empty where all strings cross at
    /// `fret_x`.
    std::vector<length<R>> crest_x{};
    std::vector<length<R>> crest_z{}; ///< heights of the crests under this string under load, fret 1 first
    /// Height of the open string over each crest, fret 1 first. Here and below, frets behind the string's own nut have
    /// numbers that are not given.
    std::vector<length<R>> heights{};
    std::vector<basic_least_clearance<R>> clearances{}; ///< least gap over the frets ahead, pressed at 0 (open), 1, ...
    basic_support_load<R> at_nut{};                     ///< break angles and forces at the nut
    /// The same at its guide on the head, or at the edge of its slot there; absent where neither is on its way.
    std::optional<basic_support_load<R>> at_guide{};
    basic_support_load<R> at_saddle{};          ///< break angles and forces at the saddle
    basic_interval_range<R> nut_dead_band{};    ///< how far friction in the slot lets the pitch stay behind the tuner
    basic_interval_range<R> saddle_dead_band{}; ///< the same through friction on the saddle
    /// What it sounds pressed at each fret, fret 1 first. `tension` of each is the open string's `tension` above and what
    /// the stretch adds; pitch and error are reckoned from the pull at which the stiff string sounds its open pitch.
    std::vector<basic_pressed_note<R>> notes{};
    /// How much further back the saddle must go under this string to bring its octave fret in tune; negative: forward.
    /// Absent where the board has no octave fret, or where no place near enough does it.
    std::optional<length<R>> octave_setback{};
    std::vector<basic_clean_pluck<R>> plucks{}; ///< hardest pluck that stays clean, pressed at 0 (open), 1, ...
    std::size_t frets_behind = 0; ///< frets behind a nut of its own, with the one at that nut; 0 for other strings

    /// Whether the string can be pressed at a fret, counted from 1; 0 is the open string.
    [[nodiscard]] constexpr bool has_fret(std::size_t fret) const { return fret == 0 || fret > frets_behind; }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("gauge", self.gauge...);
        visit("pitch", self.pitch...);
        visit("mass_per_length", self.mass_per_length...);
        visit("speaking_length", self.speaking_length...);
        visit("tension", self.tension...);
        visit("core_stress", self.core_stress...);
        visit("share_of_strength", self.share_of_strength...);
        visit("y_at_nut", self.y_at_nut...);
        visit("y_at_saddle", self.y_at_saddle...);
        visit("line", self.line...);
        visit("crest_x", self.crest_x...);
        visit("crest_z", self.crest_z...);
        visit("heights", self.heights...);
        visit("clearances", self.clearances...);
        visit("at_nut", self.at_nut...);
        visit("at_guide", self.at_guide...);
        visit("at_saddle", self.at_saddle...);
        visit("nut_dead_band", self.nut_dead_band...);
        visit("saddle_dead_band", self.saddle_dead_band...);
        visit("notes", self.notes...);
        visit("octave_setback", self.octave_setback...);
        visit("plucks", self.plucks...);
    }
};
using string_setup = basic_string_setup<double>;

/// A solved setup. All arrays that solving needs are members, so a second solve into the same setup does not allocate
/// them again.
template <class R = double>
struct basic_setup {
    using real = R;
    std::vector<basic_string_setup<R>> strings{}; ///< bass first
    std::vector<length<R>> fret_x{};              ///< places of the frets on the centre line, fret 1 first
    force<R> total_tension{};                     ///< sum of all strings' tensions
    length<R> nut_rise{};                         ///< rise of the nut from its place with strings slack and rod loose
    /// Relief of the crests on the centre line, from fret 1 to the joint's fret; absent with fewer than 3 frets.
    std::optional<basic_relief<R>> relief{};
    /// Relief of the board itself, as if all frets were equally high: what the neck does, without uneven frets.
    std::optional<basic_relief<R>> board_relief{};
    std::optional<basic_relief<R>>
        bass_relief{}; ///< along the outermost bass string; given on fanned frets, or where edges or fret ends are told
    std::optional<basic_relief<R>> treble_relief{}; ///< the same along the outermost treble string
    force<R> down_force{};                          ///< of all strings on the saddle
    force<R> push_along{};                          ///< of all strings on the saddle, toward the tail
    /// Load of all strings on the soundboard: the down-force under a floating bridge, the speaking sides alone where the
    /// bridge holds the strings' ends, then square to the soundboard. Negative lifts. Absent on a solid body, which has no
    /// soundboard.
    std::optional<force<R>> top_force{};
    std::optional<angle<R>> tailpiece_rise{};  ///< angle of a hinged tailpiece above the plane of the soundboard
    std::optional<force<R>> tailpiece_press{}; ///< square to its strings' end, the force that holds it pressed down
    std::optional<basic_support_force<R>>
        bar_force{};                      ///< of all strings on a pressing bar behind the saddle; upward: they lift it
    basic_support_force<R> anchor_pull{}; ///< of all strings on what they end on
    std::optional<basic_bridge_summary<R>> standing{}; ///< how a floating bridge stands, where its feet are known
    std::optional<basic_pinned_load<R>> pinned{};      ///< load on a bridge with pins or a tie block
    std::optional<basic_top_give<R>> top{};            ///< how far the saddle gives, where the top's stiffness is known
    /// Height over the soundboard's plane at which the line of the crests under load passes the saddle. Absent with fewer
    /// than 2 frets.
    std::optional<length<R>> line_at_saddle{};
    /// The one straight saddle that suits the strings' octave frets best; absent where fewer than two strings ask for a
    /// place.
    std::optional<basic_straight_saddle<R>> straight_saddle{};
    std::vector<finding> findings{}; ///< what the repairer should know
    string_names names{};            ///< what the strings are called

    // What the solution was made with. Drawings and further questions start from here.
    std::vector<int> fret_steps{};                    ///< which step of the octave each fret is for, fret 1 first
    std::vector<int> own_steps{};                     ///< the same ahead of the last string's own nut, from its open note
    int octave_fret = 0;                              ///< fret of the octave, found by its pitch; 0: there is none
    std::vector<basic_string_measures<R>> measures{}; ///< what each string's construction tells
    std::vector<length<R>> asked_y{};                 ///< places across where octave frets ask for a straight saddle
    std::vector<length<R>> asked_x{};                 ///< places along that they ask for
    basic_neck<R> neck;                               ///< the neck as the beam takes it
    basic_neck_beam<R> beam{};                        ///< steps and stiffness of the beam
    basic_bow<R> bow{};                               ///< bow of that beam under the strings
    std::vector<basic_string_pull<R>> pulls{};        ///< pulls of the strings on the neck
    std::vector<basic_crest<R>> crests{};             ///< crests on the centre line
    std::vector<basic_crest<R>> board_points{};       ///< points of the bare board under them
    std::vector<R> fret_leans{};                      ///< of fanned frets: how far along x for each unit of y
    std::vector<basic_crest<R>> crests_along{};       ///< crests under the outer string whose relief was taken last
    std::vector<basic_point<R>> posts{};              ///< where strings leave their posts, which rise with the neck
    std::vector<basic_point<R>> behind_nut{};         ///< what strings meet first behind the nut: a guide or the post
    std::vector<basic_tail_string<R>> tail_strings{}; ///< the strings from saddle, or pressing bar, to the tailpiece
    std::vector<basic_bridge_string<R>> bridge_strings{}; ///< the strings over the saddle; a pressing bar may be the anchor
    std::vector<basic_point<R>> string_ends{};            ///< where strings end behind the saddle

    /// The outermost string on the bass side that can be pressed at a fret, counted from 1.
    [[nodiscard]] std::size_t first_string_at(std::size_t fret) const {
        std::size_t i = 0;
        while (i + 1 < strings.size() && !strings[i].has_fret(fret)) { ++i; }
        return i;
    }
    /// Places of a string's crests along x, fret 1 first: the string's own on fanned frets, else those of all strings.
    [[nodiscard]] const std::vector<length<R>>& crest_places(const basic_string_setup<R>& string) const {
        return fret_leans.empty() ? fret_x : string.crest_x;
    }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("fret_x", self.fret_x...);
        visit("total_tension", self.total_tension...);
        visit("nut_rise", self.nut_rise...);
        visit("relief", self.relief...);
        visit("board_relief", self.board_relief...);
        visit("bass_relief", self.bass_relief...);
        visit("treble_relief", self.treble_relief...);
        visit("down_force", self.down_force...);
        visit("push_along", self.push_along...);
        visit("top_force", self.top_force...);
        visit("tailpiece_rise", self.tailpiece_rise...);
        visit("tailpiece_press", self.tailpiece_press...);
        visit("bar_force", self.bar_force...);
        visit("anchor_pull", self.anchor_pull...);
        visit("standing", self.standing...);
        visit("pinned", self.pinned...);
        visit("top", self.top...);
        visit("line_at_saddle", self.line_at_saddle...);
        visit("straight_saddle", self.straight_saddle...);
    }
};
using setup = basic_setup<double>;

} // namespace tautline
