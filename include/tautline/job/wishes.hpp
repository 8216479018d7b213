#pragma once
/// @file
/// What is wanted of a setup, and the limits within which it is sought.

#include <optional>

#include "../action/neck_reset.hpp"
#include "../neck/rod_setting.hpp"
#include "../supports/bridge_adjusters.hpp"

namespace tautline {

/// A neck reset that is wanted, or possible. The neck turns so that the wanted action comes with the saddle at its wanted
/// height; each outer saddle slot takes the difference.
template <class R = double>
struct basic_reset_wish {
    using real = R;
    /// Mean height of the outer saddle slots over the soundboard; absent: as found. It is kept within the saddle's
    /// limits.
    std::optional<field<length<R>>> saddle_height{};
    std::optional<field<length<R>>> heel_depth{};    ///< from the edge the neck turns about down to the heel cap
    std::optional<field<length<R>>> pocket_length{}; ///< length of the pocket of a neck that is shimmed
    field<length<R>> leave = length<R>();            ///< taken off the whole face of the joint when it is planed square
    field<angle<R>> least_turn{over<R>(-most_neck_turn)}; ///< least turn that bolt or heel bear; negative: head forward
    field<angle<R>> most_turn{over<R>(most_neck_turn)};   ///< greatest turn that bolt or heel bear; positive: head back
    /// From the board's surface on the centre line down to the edge that the neck turns about; absent: to its underside.
    std::optional<field<length<R>>> edge_depth{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto deep = more_than_up_to(0 * units::mm, 300 * units::mm);
        const auto turn = between(-most_neck_turn, most_neck_turn);
        visit("saddle_height", between(0.1 * units::mm, 200 * units::mm), self.saddle_height...);
        visit("heel_depth", deep, self.heel_depth...);
        visit("pocket_length", deep, self.pocket_length...);
        visit("leave", between(0 * units::mm, 20 * units::mm).fair_default("only the wedge is cut"), self.leave...);
        visit("least_turn", turn.fair_default("more is no reset"), self.least_turn...);
        visit("most_turn", turn.fair_default("more is no reset"), self.most_turn...);
        visit("edge_depth", between(0 * units::mm, 100 * units::mm), self.edge_depth...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(least_turn.value() <= most_turn.value())) {
            report("least_turn", "must not be more than most_turn");
        }
    }
};
using reset_wish = basic_reset_wish<double>;

/// What is wished; each wish may be left out. Heights are under both outer strings, and in proportion between them.
///
/// Each of the four heights may be wished alone. A wish at the first fret moves the nut's slots, a wish for the action
/// moves the saddle; without a wish the slots or the saddle stay. Where only one side is wished, the other keeps the
/// height over that fret that it had before. A single string takes the bass wish, or the treble one where only that is
/// given.
template <class R = double>
struct basic_wishes {
    using real = R;
    std::optional<field<length<R>>> relief{};          ///< straightedge on fret 1 and the joint's fret; negative: back-bow
    std::optional<field<length<R>>> first_fret_bass{}; ///< crest to string at fret 1, under the outermost bass string
    std::optional<field<length<R>>> first_fret_treble{}; ///< the same under the outermost treble string
    std::optional<field<length<R>>>
        action_bass{}; ///< crest to string at the action's fret, under the outermost bass string
    std::optional<field<length<R>>> action_treble{}; ///< the same under the outermost treble string
    std::optional<int> action_fret{}; ///< fret of the action; absent: the octave's, or 12 where no fret is for that
    std::optional<field<force<R>>> down_force{};   ///< of all strings on the saddle, by the height the tailpiece hangs at
    std::optional<field<angle<R>>> saddle_break{}; ///< of every string over the saddle, by the place of the pins' holes
    bool in_tune = false; ///< the saddle moved so that octave frets are as near in tune as a straight one can be

    field<force<R>> most_rod_pull{force<R>::from_value(number<R>(3000))}; ///< greatest pull that the rod may bear
    std::optional<basic_rod_screw<R>> rod_screw{};                        ///< needed to tell turns of the rod's nut
    field<length<R>> lowest_slot = length<R>();       ///< least height of a nut slot's bottom over the board
    std::optional<field<length<R>>> lowest_saddle{};  ///< least height of a saddle slot over the soundboard
    std::optional<field<length<R>>> highest_saddle{}; ///< greatest height of a saddle slot over the soundboard
    field<length<R>> hinge_lowest{length<R>::from_value(number<R>(-0.04L))}; ///< lowest hanger over the soundboard's plane
    field<length<R>> hinge_highest{length<R>::from_value(number<R>(0.02L))}; ///< highest hanger over the soundboard's plane
    std::optional<basic_bridge_adjusters<R>> adjusters{};                    ///< wheels or screws that raise the bridge
    std::optional<basic_reset_wish<R>> reset{};                              ///< absent: the neck stays as it is joined

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
        visit("down_force", between(0.1 * units::N, 5000 * units::N), self.down_force...);
        visit("saddle_break", between(0.1 * units::deg, 90 * units::deg), self.saddle_break...);
        visit("in_tune", self.in_tune...);
        visit("most_rod_pull",
              between(0.1 * units::N, 100000 * units::N).fair_default("common practice; the maker of the rod knows better"),
              self.most_rod_pull...);
        visit("rod_screw", self.rod_screw...);
        visit("lowest_slot", between(-2 * units::mm, 20 * units::mm).fair_default("no deeper than the board"),
              self.lowest_slot...);
        visit("lowest_saddle", between(0.1 * units::mm, 200 * units::mm), self.lowest_saddle...);
        visit("highest_saddle", between(0.1 * units::mm, 200 * units::mm), self.highest_saddle...);
        visit("hinge_lowest", place.fair_default("common practice"), self.hinge_lowest...);
        visit("hinge_highest", place.fair_default("common practice"), self.hinge_highest...);
        visit("adjusters", self.adjusters...);
        visit("reset", self.reset...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(hinge_lowest.value() < hinge_highest.value())) {
            report("hinge_lowest", "must be less than hinge_highest");
        }
        if (lowest_saddle && highest_saddle && !in_all_lanes(lowest_saddle->value() < highest_saddle->value())) {
            report("lowest_saddle", "must be less than highest_saddle");
        }
    }
    /// Whether a height at the first fret is wished.
    [[nodiscard]] bool first_fret() const { return first_fret_bass || first_fret_treble; }
    /// Whether an action is wished.
    [[nodiscard]] bool action() const { return action_bass || action_treble; }
};
using wishes = basic_wishes<double>;

} // namespace tautline
