#pragma once
/// @file
/// What a job may ask beyond the setup as it is: heights that are wanted, things that lie under the strings.

#include <optional>

#include <tautline/action/height_plan.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/core/describe.hpp>
#include <tautline/supports/bridge_adjusters.hpp>

namespace bench_sheet {

namespace tl = tautline;

/// Heights that are wanted, under the first string and the last; between them in proportion.
struct wanted_heights {
    tl::field<tl::length<>> first_fret_bass{};
    tl::field<tl::length<>> first_fret_treble{};
    tl::field<tl::length<>> action_bass{};
    tl::field<tl::length<>> action_treble{};
    int action_fret = 12;
    /// From the edge the neck turns about down to the heel cap: for the heel cut of a neck reset.
    std::optional<tl::field<tl::length<>>> heel_depth{};
    /// Of all strings on the saddle: how high the tailpiece must hang for it, between the two heights it may have over the
    /// soundboard's plane.
    std::optional<tl::field<tl::force<>>> down_force{};
    tl::field<tl::length<>> hinge_lowest = -40 * tl::units::mm;
    tl::field<tl::length<>> hinge_highest = 20 * tl::units::mm;
    /// Over the saddle: how far behind it the pins' holes must let the strings in.
    std::optional<tl::field<tl::angle<>>> saddle_break{};
    /// Of a bridge that is raised by two wheels or screws.
    std::optional<tl::bridge_adjusters> adjusters{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        constexpr auto some = tl::more_than_up_to(0 * tl::units::mm, 30 * tl::units::mm);
        visit("first_fret_bass", some, self.first_fret_bass...);
        visit("first_fret_treble", some, self.first_fret_treble...);
        visit("action_bass", some, self.action_bass...);
        visit("action_treble", some, self.action_treble...);
        visit("action_fret", tl::between(2, 240), self.action_fret...);
        visit("heel_depth", tl::more_than_up_to(0 * tl::units::mm, 300 * tl::units::mm), self.heel_depth...);
        visit("down_force", tl::more_than_up_to(0 * tl::units::N, 5000 * tl::units::N), self.down_force...);
        visit("hinge_lowest", tl::between(-150 * tl::units::mm, 150 * tl::units::mm), self.hinge_lowest...);
        visit("hinge_highest", tl::between(-150 * tl::units::mm, 150 * tl::units::mm), self.hinge_highest...);
        visit("saddle_break", tl::more_than_up_to(0 * tl::units::deg, 90 * tl::units::deg), self.saddle_break...);
        visit("adjusters", self.adjusters...);
    }
};

/// A flat thing under the strings: a pickup, a guard, the end of the board.
struct named_object {
    std::string name{};
    tl::flat_object shape{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", self.name...);
        tl::flat_object::describe(visit, self.shape...);
    }
};

} // namespace bench_sheet
