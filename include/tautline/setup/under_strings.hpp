#pragma once
/// @file
/// What lies under the strings of a solved setup: how far they clear it, open and pressed, and the tilt that lays it
/// along them.

#include <string>
#include <vector>

#include "../action/object_clearance.hpp"
#include "setup.hpp"

namespace tautline {

/// A flat thing under the strings, with its name: a pickup, a guard, the end of the board.
template <class R = double>
struct basic_named_object {
    using real = R;
    std::string name{};         ///< what it is called
    basic_flat_object<R> shape; ///< where it lies
    /// Wished least clearance with each string pressed at the last fret; absent: no wish.
    std::optional<field<length<R>>> gap{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("name", any_text, self.name...);
        basic_flat_object<R>::describe(visit, self.shape...);
        visit("gap", between(0 * units::mm, 50 * units::mm), self.gap...);
    }
};
using named_object = basic_named_object<double>;

/// How an object lies under all strings, and how it should.
template <class R = double>
struct basic_object_seat {
    using real = R;
    length<R> open{};                   ///< least clearance under the open strings
    std::optional<length<R>> pressed{}; ///< the same with each string pressed at the last fret; absent without frets
    angle<R> along{};                   ///< rise toward the bridge that would lie along the strings
    angle<R> across{};                  ///< rise toward the treble side that would lie along the strings

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("open", self.open...);
        visit("pressed", self.pressed...);
        visit("along", self.along...);
        visit("across", self.across...);
    }
};
using object_seat = basic_object_seat<double>;

/// How an object lies under the strings of a solved setup, which must have at least one.
template <class R>
[[nodiscard]] basic_object_seat<R> under_strings(const basic_setup<R>& s, const basic_named_object<R>& object) {
    require_that(!s.strings.empty(), "strings", "must hold at least one string");
    basic_object_seat<R> seat;
    std::vector<basic_string_line<R>> lines;
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        const auto& one = s.strings[i];
        lines.push_back(one.line);
        const length<R> open = object_clearance(object.shape, one.line).least();
        seat.open = i == 0 ? open : min(seat.open, open);
        if (s.fret_x.empty()) { continue; }
        const auto pressed = pressed_line<R>(one.line, s.crest_places(one).back(), one.crest_z.back());
        const length<R> gap = object_clearance(object.shape, pressed).least();
        seat.pressed = i == 0 ? gap : min(*seat.pressed, gap);
    }
    const auto tilt = parallel_tilt<R>(object.shape, lines);
    seat.along = tilt.along;
    seat.across = tilt.across;
    return seat;
}

} // namespace tautline
