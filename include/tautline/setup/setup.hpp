#pragma once
/// @file
/// The whole at once: what an instrument under its strings does, string by string and fret by fret.

#include <optional>
#include <vector>

#include "../action/clearance.hpp"
#include "../action/height.hpp"
#include "../neck/bow.hpp"
#include "../neck/relief.hpp"
#include "../supports/bridge.hpp"
#include "finding.hpp"
#include "instrument.hpp"

namespace tautline {

/// Force on a support and the angles that make it, for one string.
template <class R>
struct basic_string_setup {
    using real = R;
    length<R> gauge{};
    frequency<R> pitch{};
    linear_density<R> mass_per_length{};
    length<R> speaking_length{};
    force<R> tension{};
    stress<R> core_stress{};
    std::optional<R> share_of_strength{}; ///< core stress over the wire's least strength, where that is known
    length<R> y_at_nut{};
    length<R> y_at_saddle{};
    basic_string_line<R> line{};                        ///< underside under load
    std::vector<length<R>> crest_z{};                   ///< crests under this string under load, fret 1 first
    std::vector<length<R>> heights{};                   ///< open string over each crest, fret 1 first
    std::vector<basic_least_clearance<R>> clearances{}; ///< pressed at 0 (open), 1, ...: least gap over the frets ahead
    basic_support_load<R> at_nut{};
    basic_support_load<R> at_saddle{};

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
        visit("crest_z", self.crest_z...);
        visit("heights", self.heights...);
        visit("clearances", self.clearances...);
        visit("at_nut", self.at_nut...);
        visit("at_saddle", self.at_saddle...);
    }
};
using string_setup = basic_string_setup<double>;

/// A solved setup. Every array that solving needs lives here: a second solve into the same setup does not allocate for
/// them.
template <class R>
struct basic_setup {
    using real = R;
    std::vector<basic_string_setup<R>> strings{}; ///< bass first
    std::vector<length<R>> fret_x{};              ///< fret 1 first
    force<R> total_tension{};
    length<R> nut_rise{}; ///< of the nut under load, from where it was slack
    /// Along the centre line over the crests, fret 1 to the joint's fret; absent with fewer than 3 frets.
    std::optional<basic_relief<R>> relief{};
    /// The same of the board itself, as if all frets were of one height: what the neck does, uneven frets left out.
    std::optional<basic_relief<R>> board_relief{};
    force<R> down_force{};                    ///< of all strings on the saddle
    force<R> push_along{};                    ///< of all strings on the saddle, toward the tail
    std::optional<angle<R>> tailpiece_rise{}; ///< angle of a hinged tailpiece above the strings' plane
    std::vector<finding> findings{};

    // What the solution was made with; drawings and further questions start from here.
    basic_neck<R> neck{};
    basic_neck_beam<R> beam{};
    basic_bow<R> bow{};
    std::vector<basic_string_pull<R>> pulls{};
    std::vector<basic_crest<R>> crests{};       ///< along the centre line
    std::vector<basic_crest<R>> board_points{}; ///< of the bare board under them
    std::vector<basic_point<R>> nut_points{};
    std::vector<basic_tail_string<R>> tail_strings{};
    std::vector<basic_support_load<R>> saddle_loads{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("fret_x", self.fret_x...);
        visit("total_tension", self.total_tension...);
        visit("nut_rise", self.nut_rise...);
        visit("relief", self.relief...);
        visit("board_relief", self.board_relief...);
        visit("down_force", self.down_force...);
        visit("push_along", self.push_along...);
        visit("tailpiece_rise", self.tailpiece_rise...);
    }
};
using setup = basic_setup<double>;

} // namespace tautline
