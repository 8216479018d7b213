#pragma once
/// @file
/// What is wanted of a setup, and between which limits it may be sought.

#include <optional>

#include "../core/describe.hpp"
#include "../core/units.hpp"
#include "../neck/rod_setting.hpp"
#include "../supports/bridge_adjusters.hpp"

namespace tautline {

/// Wishes; each may be left out. Heights are under the first string and the last, between them in proportion.
template <class R = double>
struct basic_wishes {
    using real = R;
    std::optional<field<length<R>>> relief{};          ///< straightedge on fret 1 and the joint's fret; negative: back-bow
    std::optional<field<length<R>>> first_fret_bass{}; ///< crest to string; the four heights all or none
    std::optional<field<length<R>>> first_fret_treble{}; ///< the same under the last string
    std::optional<field<length<R>>> action_bass{};       ///< crest to string at `action_fret`
    std::optional<field<length<R>>> action_treble{};     ///< the same under the last string
    int action_fret = 12;                                ///< where the action is measured
    std::optional<field<force<R>>> down_force{};   ///< of all strings on the saddle, by the height the tailpiece hangs at
    std::optional<field<angle<R>>> saddle_break{}; ///< of every string over the saddle, by where the pins' holes are
    bool in_tune = false; ///< the saddle moved so that octave frets are as near in tune as a straight one can be

    field<force<R>> most_rod_pull{force<R>::from_value(number<R>(3000))}; ///< what the rod may bear
    std::optional<basic_rod_screw<R>> rod_screw{};                        ///< to tell turns of the rod's nut
    field<length<R>> lowest_slot{};                   ///< least height of a nut slot's bottom over the board
    std::optional<field<length<R>>> lowest_saddle{};  ///< least height of a saddle slot over the soundboard
    std::optional<field<length<R>>> highest_saddle{}; ///< greatest height of a saddle slot over the soundboard
    field<length<R>> hinge_lowest{length<R>::from_value(number<R>(-0.04L))}; ///< of a tailpiece over the soundboard's plane
    field<length<R>> hinge_highest{length<R>::from_value(number<R>(0.02L))}; ///< of a tailpiece over the soundboard's plane
    std::optional<basic_bridge_adjusters<R>> adjusters{}; ///< of a bridge that is raised by wheels or screws
    std::optional<field<length<R>>> heel_depth{}; ///< from the edge a neck turns about down to the heel cap, for a reset

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto some = more_than_up_to(0 * units::mm, 30 * units::mm);
        const auto place = between(-150 * units::mm, 150 * units::mm);
        visit("relief", between(-5 * units::mm, 5 * units::mm), self.relief...);
        visit("first_fret_bass", some, self.first_fret_bass...);
        visit("first_fret_treble", some, self.first_fret_treble...);
        visit("action_bass", some, self.action_bass...);
        visit("action_treble", some, self.action_treble...);
        visit("action_fret", between(2, 240), self.action_fret...);
        visit("down_force", more_than_up_to(0 * units::N, 5000 * units::N), self.down_force...);
        visit("saddle_break", more_than_up_to(0 * units::deg, 90 * units::deg), self.saddle_break...);
        visit("in_tune", self.in_tune...);
        visit("most_rod_pull", more_than_up_to(0 * units::N, 100000 * units::N), self.most_rod_pull...);
        visit("rod_screw", self.rod_screw...);
        visit("lowest_slot", between(-2 * units::mm, 20 * units::mm), self.lowest_slot...);
        visit("lowest_saddle", more_than_up_to(0 * units::mm, 200 * units::mm), self.lowest_saddle...);
        visit("highest_saddle", more_than_up_to(0 * units::mm, 200 * units::mm), self.highest_saddle...);
        visit("hinge_lowest", place, self.hinge_lowest...);
        visit("hinge_highest", place, self.hinge_highest...);
        visit("adjusters", self.adjusters...);
        visit("heel_depth", more_than_up_to(0 * units::mm, 300 * units::mm), self.heel_depth...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const int heights = first_fret_bass.has_value() + first_fret_treble.has_value() + action_bass.has_value() +
                            action_treble.has_value();
        if (heights != 0 && heights != 4) {
            report("action_bass", "must come with first_fret_bass, first_fret_treble and action_treble: all four or none");
        }
        if (!all(hinge_lowest.value() < hinge_highest.value())) {
            report("hinge_lowest", "must be less than hinge_highest");
        }
        if (lowest_saddle && highest_saddle && !all(lowest_saddle->value() < highest_saddle->value())) {
            report("lowest_saddle", "must be less than highest_saddle");
        }
    }
    /// Whether heights are wished.
    [[nodiscard]] bool heights() const { return action_bass.has_value(); }
};
using wishes = basic_wishes<double>;

} // namespace tautline
