#pragma once
/// @file
/// What a job may ask beyond the setup as it is: heights that are wanted, things that lie under the strings.

#include <optional>

#include <tautline/action/height_plan.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/core/describe.hpp>

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

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        constexpr auto some = tl::more_than_up_to(0 * tl::units::mm, 30 * tl::units::mm);
        visit("first_fret_bass", some, self.first_fret_bass...);
        visit("first_fret_treble", some, self.first_fret_treble...);
        visit("action_bass", some, self.action_bass...);
        visit("action_treble", some, self.action_treble...);
        visit("action_fret", tl::between(2, 240), self.action_fret...);
        visit("heel_depth", tl::more_than_up_to(0 * tl::units::mm, 300 * tl::units::mm), self.heel_depth...);
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
