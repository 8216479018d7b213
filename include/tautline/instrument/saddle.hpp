#pragma once
/// @file
/// The saddle: one top for all strings, or a saddle of its own for each string.

#include <optional>
#include <vector>

#include "../board/spacing.hpp"
#include "../supports/friction.hpp"

namespace tautline {

/// The saddle of one string, and how far its screws or its slot let it move.
template <class R = double>
struct basic_single_saddle {
    using real = R;
    needed<length<R>> height;                  ///< of its slot's bottom over the soundboard (a solid body: over its face)
    needed<length<R>> setback;                 ///< how far it lies beyond the scale length, along the centre line
    std::optional<field<length<R>>> lowest{};  ///< least height it can be set to
    std::optional<field<length<R>>> highest{}; ///< greatest height it can be set to
    std::optional<field<length<R>>> least_setback{}; ///< the setback nearest to the nut that it can be set to
    std::optional<field<length<R>>> most_setback{};  ///< the setback furthest from the nut that it can be set to

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        const auto tall = between(0.1 * units::mm, 200 * units::mm);
        const auto back = between(-50 * units::mm, 50 * units::mm);
        visit("height", tall, self.height...);
        visit("setback", back, self.setback...);
        visit("lowest", tall, self.lowest...);
        visit("highest", tall, self.highest...);
        visit("least_setback", back, self.least_setback...);
        visit("most_setback", back, self.most_setback...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (lowest && highest && !in_all_lanes(lowest->value() <= highest->value())) {
            report("lowest", "must not be more than highest");
        }
        if (least_setback && most_setback && !in_all_lanes(least_setback->value() <= most_setback->value())) {
            report("least_setback", "must not be more than most_setback");
        }
    }
};
using single_saddle = basic_single_saddle<double>;

/// The saddle: the top of a bridge, over the soundboard (a solid body: over its face). Heights are those of the bottoms
/// of the string slots, under the outermost strings. Where each string has a saddle of its own, heights and setbacks at
/// bass and treble and the radius are not part of it.
template <class R = double>
struct basic_saddle {
    using real = R;
    basic_spacing<R> spacing{}; ///< where the strings cross it
    /// Each string's own saddle, bass first. Empty: one top for all strings, given by two heights, two setbacks and an
    /// arc.
    std::vector<basic_single_saddle<R>> single{};
    /// Single saddles that move along together, such as the halves of a saddle in two pieces: how many strings each piece
    /// carries, bass first. A piece moves along by one way and does not turn. Empty: each string's saddle moves alone.
    std::vector<int> pieces{};
    needed<length<R>> height_bass;   ///< over the soundboard, under the outermost bass string
    needed<length<R>> height_treble; ///< over the soundboard, under the outermost treble string
    /// Radius of the arc of the saddle's top; absent: straight from bass to treble.
    std::optional<field<length<R>>> radius{};
    /// For one top whose slots are not cut alike, such as the two of a course: how far the bottom of each string's slot
    /// lies over the line of heights and arc, bass first; negative is deeper. Empty: all lie on that line.
    std::vector<field<length<R>>> slot_offsets{};
    /// How far the saddle lies beyond the scale length at the outermost bass string, along the centre line. On fanned
    /// frets it counts from the line of the saddles before compensation; along the string's own line it is the same
    /// within 1 %.
    needed<length<R>> setback_bass;
    needed<length<R>> setback_treble; ///< the same at the outermost treble string
    /// Height over the soundboard at which the line of the bare board, carried on to the saddle, passes; the strings are
    /// slack.
    needed<length<R>> board_line;
    /// Friction of string on saddle. The default is that of the nut, which is too much for a metal saddle: on one the
    /// measured friction is at most 0.17 for plain and 0.26 for wound strings
    /// (`published_friction::plain_steel_on_saddle`, `wound_steel_on_saddle`).
    basic_friction<R> friction = over<R>(published_friction::metal_on_wood);

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("spacing", self.spacing...);
        visit("single", self.single...);
        visit("pieces", between(1, 12), self.pieces...);
        // Where strings have their own saddles there is no one top for all.
        if (const bool one_top = (... && self.single.empty()); one_top) {
            visit("height_bass", between(0.1 * units::mm, 200 * units::mm), self.height_bass...);
            visit("height_treble", between(0.1 * units::mm, 200 * units::mm), self.height_treble...);
            visit("radius", between(1 * units::mm, 1e9 * units::mm), self.radius...);
            visit("slot_offsets", between(-5 * units::mm, 5 * units::mm), self.slot_offsets...);
            visit("setback_bass", between(-50 * units::mm, 50 * units::mm), self.setback_bass...);
            visit("setback_treble", between(-50 * units::mm, 50 * units::mm), self.setback_treble...);
        }
        visit("board_line", between(-50 * units::mm, 150 * units::mm), self.board_line...);
        visit("friction", self.friction...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const auto count = static_cast<std::size_t>(string_count(spacing));
        if (!single.empty()) {
            report_single(count, report);
            return;
        }
        report_offsets(count, report);
        if (!pieces.empty()) { report("pieces", "must be left out where the strings have no single saddles"); }
        if (radius &&
            !in_all_lanes(number<R>(0.5L) * (spacing.spread.value() + 2 * abs(spacing.offset.value())) < radius->value())) {
            report("radius", "must be more than half the spread of the strings");
        }
        if (!in_all_lanes(is_less<unit::length, R>(board_line, min<unit::length, R>(height_bass, height_treble)))) {
            report("board_line", "must pass below the saddle: the strings would lie under the board");
        }
    }

    /// How far the slot of string `i` lies over the line of the top; `i` counts from 0, bass first.
    [[nodiscard]] constexpr length<R> slot_offset(std::size_t i) const {
        return slot_offsets.empty() ? length<R>() : length<R>(slot_offsets[i]);
    }

private:
    template <class Report>
    void report_offsets(std::size_t count, Report&& report) const {
        if (slot_offsets.empty()) { return; }
        if (slot_offsets.size() != count) {
            report("slot_offsets", messages::joined({"must be one for each of the ", count, " strings, but there are ",
                                                     slot_offsets.size()}));
            return;
        }
        for (const std::size_t i : {std::size_t(0), count - 1}) {
            if (in_all_lanes(slot_offsets[i].value() == number<R>(0))) { continue; }
            report(messages::path_of("slot_offsets", i), "must be 0 mm: the heights are told under the outermost strings");
        }
        for (std::size_t i = 0; i < count; ++i) {
            const length<R> least = min<unit::length, R>(height_bass, height_treble) + slot_offsets[i];
            if (in_all_lanes(is_less<unit::length, R>(board_line, least))) { continue; }
            report(messages::path_of("slot_offsets", i), "must leave the string over the board's line");
        }
    }
    template <class Report>
    void report_single(std::size_t count, Report&& report) const {
        if (single.size() != count) {
            report("single",
                   messages::joined({"must be one for each of the ", count, " strings, but there are ", single.size()}));
        }
        for (std::size_t i = 0; i < single.size(); ++i) {
            if (!in_all_lanes(is_less<unit::length, R>(board_line, single[i].height))) {
                report(messages::path_of("single", i, "height"),
                       "must be more than board_line: the string would lie under the board");
            }
        }
        std::size_t carried = 0;
        for (const int strings : pieces) { carried += static_cast<std::size_t>(strings); }
        if (!pieces.empty() && carried != count) {
            report("pieces", messages::joined({"must carry ", count, " strings in all, but they carry ", carried}));
        }
    }
};
using saddle = basic_saddle<double>;

/// A saddle made of single saddles, bass first.
/// @param crossed where the strings cross it
template <class R>
[[nodiscard]] basic_saddle<R> single_saddles(const basic_spacing<R>& crossed, std::vector<basic_single_saddle<R>> single,
                                             param<length<R>> board_line) {
    auto s = basic_saddle<R>();
    s.spacing = crossed;
    s.single = std::move(single);
    s.board_line = board_line;
    return s;
}

} // namespace tautline
