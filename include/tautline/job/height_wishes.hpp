#pragma once
/// @file
/// Wished heights: what each string needs for them, and the nut slots and saddle that give them.
///
/// Slots meet a wish at the first fret, the saddle meets a wish for the action, and the line through both meets both
/// together.

#include "../action/saddle_arc.hpp"
#include "../instrument/saddle_top.hpp"
#include "setup_plan.hpp"
#include "wishes.hpp"

namespace tautline {

/// The fret at which the action is told, from 1: the one that was said; else the octave's; else the 12th, or the last on
/// a shorter board. 0 where there are no frets.
template <class R>
[[nodiscard]] int action_fret(const std::optional<int>& said, const basic_setup<R>& s) {
    return said ? *said : s.octave_fret > 0 ? s.octave_fret : std::min(12, static_cast<int>(s.fret_x.size()));
}

namespace kernel {

/// In metres: the greatest heights of slot and saddle and the greatest setback that an instrument may be described with.
inline constexpr double highest_slot = 0.02, highest_saddle_of_all = 0.2, furthest_setback = 0.049;

/// Heights of the saddle slots over the soundboard, with the instrument slack.
template <class R>
void saddle_slots(const basic_strung_instrument<R>& on, const basic_setup<R>& s, std::vector<length<R>>& heights) {
    heights.clear();
    const auto& saddle = on.instrument.saddle;
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        heights.push_back(saddle_height_of<R>(saddle, i, s.strings.front().y_at_saddle, s.strings.back().y_at_saddle,
                                              length<R>(s.strings[i].y_at_saddle)));
    }
}

/// Heights over one fret under both outer strings.
template <class R>
struct outer_heights {
    length<R> bass{}, treble{};

    /// Height under string `i`: between the outer ones in proportion to places at the nut. Where the outermost bass string
    /// does not begin on the bass side of the other there, in proportion to places at the saddle.
    [[nodiscard]] length<R> at(const basic_setup<R>& s, std::size_t i) const {
        const auto between = [&](auto&& place) {
            const length<R> first = place(s.strings.front()), spread = place(s.strings.back()) - first;
            if (!in_all_lanes(number<R>(0) < spread.value())) { return std::optional<R>(); }
            return std::optional<R>(R(ratio<unit::length, R>(place(s.strings[i]) - first, spread)));
        };
        const auto share = between([](const auto& one) { return length<R>(one.y_at_nut); });
        if (share) { return bass + (treble - bass) * *share; }
        const auto at_saddle = between([](const auto& one) { return length<R>(one.y_at_saddle); });
        return bass + (treble - bass) * (at_saddle ? *at_saddle : number<R>(0));
    }
};

/// Heights to be set. An absent one follows from the settings that are kept.
template <class R>
struct height_targets {
    std::size_t fret = 0; ///< index of the action's fret
    std::optional<outer_heights<R>> first{}, action{};
    std::vector<length<R>> kept{}; ///< actions of all strings; given where a reset is wanted and no action is

    height_targets() = default;
    /// @param s    the setup before anything is set: a side without a wish keeps its height
    /// @param keep heights of every string over every fret that are kept; empty: those of `s`
    height_targets(const basic_wishes<R>& w, const basic_setup<R>& s, const std::vector<std::vector<length<R>>>& keep) {
        const int told = action_fret(w.action_fret, s);
        if (told < 1) { return; }
        fret = static_cast<std::size_t>(told - 1);
        const auto is = [&](std::size_t i, std::size_t n) { return keep.empty() ? s.strings[i].heights[n] : keep[i][n]; };
        const auto outer = [&](const auto& bass, const auto& treble, std::size_t n) {
            outer_heights<R> h{is(0, n), is(s.strings.size() - 1, n)};
            const bool alone = s.strings.size() == 1;
            if (treble) { h.treble = *treble; }
            if (alone && treble) { h.bass = *treble; }
            if (bass) { h.bass = *bass; }
            if (alone) { h.treble = h.bass; }
            return h;
        };
        if (w.first_fret()) { first = outer(w.first_fret_bass, w.first_fret_treble, 0); }
        if (w.action() || w.reset) { action = outer(w.action_bass, w.action_treble, fret); }
        if (action && !w.action()) {
            for (std::size_t i = 0; i < s.strings.size(); ++i) { kept.push_back(is(i, fret)); }
        }
    }
    /// Whether slots are to be cut. On a zero fret they are not: its crown decides.
    [[nodiscard]] bool cuts_slots(const basic_strung_instrument<R>& on) const {
        return first && !on.instrument.board.scale.zero_fret;
    }
    /// Wanted action of string `i`.
    [[nodiscard]] length<R> action_at(const basic_setup<R>& s, std::size_t i) const {
        return kept.empty() ? action->at(s, i) : kept[i];
    }
    /// The same, and whether it was raised to half the gauge: a lower string rattles at the softest touch.
    [[nodiscard]] length<R> action_of(const basic_setup<R>& s, std::size_t i, bool& raised) const {
        const length<R> asked = action_at(s, i), least = s.strings[i].gauge * number<R>(0.5L);
        raised = in_any_lane(asked.value() < least.value());
        return max(asked, least);
    }
};

/// Limits of a saddle's height over the soundboard; each may be absent.
template <class R>
struct saddle_limits {
    std::optional<field<length<R>>> lowest{}, highest{};
};

/// A height of the saddle kept within limits and over the board, and which limit held it.
/// @param told height as it is told now
/// @param leaning how much more the height told from the level along the board is than that over the soundboard, which
/// leans away from that level on a neck that was reset
template <class R>
[[nodiscard]] length<R> kept_height(const saddle_limits<R>& within, const length<R>& board_line, const length<R>& told,
                                    const length<R>& leaning, held_back::limits& by) {
    const length<R> h = told - leaning;
    // The strings cannot pass below the board.
    const length<R> board = board_line + length<R>::from_value(number<R>(1e-4L)) - leaning;
    const length<R> highest =
        within.highest ? length<R>(*within.highest) : length<R>::from_value(number<R>(highest_saddle_of_all));
    by.saddle_low = within.lowest && in_any_lane(h.value() < within.lowest->value());
    by.saddle_high = in_any_lane(highest.value() < h.value());
    by.saddle_on_board = in_any_lane(h.value() < board.value()) && !by.saddle_low;
    length<R> kept = max<unit::length, R>(h, board);
    if (within.lowest) { kept = max<unit::length, R>(kept, *within.lowest); }
    return length<R>(min<unit::length, R>(kept, highest) + leaning);
}

/// Raises the single saddles by `change`, each within its own travel and the wished limits.
template <class R>
void raise_singles(const basic_wishes<R>& w, std::span<const length<R>> change, std::span<const length<R>> leaning,
                   basic_saddle<R>& saddle, held_back& held) {
    for (std::size_t i = 0; i < saddle.single.size(); ++i) {
        auto& one = saddle.single[i];
        // Its own travel is told from the same level as its height.
        saddle_limits<R> both{w.lowest_saddle, w.highest_saddle};
        if (one.lowest) {
            const length<R> own = *one.lowest - leaning[i];
            both.lowest = both.lowest ? max<unit::length, R>(*both.lowest, own) : own;
        }
        if (one.highest) {
            const length<R> own = *one.highest - leaning[i];
            both.highest = both.highest ? min<unit::length, R>(*both.highest, own) : own;
        }
        one.height = kept_height<R>(both, saddle.board_line, one.height + change[i], leaning[i], held.single[i]);
    }
}

/// Sets the saddle's outer heights and its arc for tops at `z`, within the limits; heights grow by `change`.
/// @param leaning as in `kept_height`
template <class R>
void shape_saddle(const basic_wishes<R>& w, std::span<const length<R>> y, std::span<const length<R>> z,
                  const outer_heights<R>& change, const outer_heights<R>& leaning, basic_saddle<R>& saddle,
                  held_back& held) {
    const saddle_limits<R> limits{w.lowest_saddle, w.highest_saddle};
    const auto within = [&](const length<R>& told, const length<R>& more, held_back::limits& by) {
        return kept_height<R>(limits, saddle.board_line, told, more, by);
    };
    saddle.height_bass = within(saddle.height_bass + change.bass, leaning.bass, held.at[held_back::bass]);
    saddle.height_treble = within(saddle.height_treble + change.treble, leaning.treble, held.at[held_back::treble]);
    if (y.size() < 3) { return; }
    saddle.radius.reset();
    // A radius of many metres is a straight saddle; one of less than half the spread cannot be cut.
    const length<R> tightest = (y.back() - y.front()) * number<R>(0.75L), flattest = length<R>::from_value(number<R>(20));
    const auto r = kernel::saddle_arc<R>(y, z).radius();
    if (r && in_all_lanes(tightest.value() < r->value()) && in_all_lanes(r->value() < flattest.value())) {
        saddle.radius = *r;
    }
}

/// Where string `i` is to run: from its slot, cut where that is wished, over the wanted action to the saddle.
template <class R>
struct wished_run {
    length<R> nut_z{}, saddle_z{};
    bool raised = false; ///< whether it was raised to an action of half the gauge

    wished_run(const basic_wishes<R>& w, const height_targets<R>& targets, const basic_strung_instrument<R>& on,
               const basic_setup<R>& s, const basic_string_line<R>& line, std::size_t i)
        : nut_z(line.nut_z) {
        const auto& one = s.strings[i];
        const auto& crest_x = s.crest_places(one);
        const length<R> action = one.crest_z[targets.fret] + targets.action_of(s, i, raised);
        if (targets.cuts_slots(on)) {
            const length<R> lowest = line.nut_z - on.instrument.nut.slot_height(i) + w.lowest_slot;
            const length<R> through_both = line_height<R>(crest_x[0], one.crest_z[0] + targets.first->at(s, i),
                                                          crest_x[targets.fret], action, length<R>(line.nut_x));
            nut_z = max(through_both, lowest);
        }
        saddle_z = line_height<R>(length<R>(line.nut_x), nut_z, crest_x[targets.fret], action, length<R>(line.saddle_x));
    }
};

/// Sets slots and saddle for the wanted heights over the crests as they stand now. Where one meets a limit the other
/// still does what it can: the slot follows the saddle that will be there.
/// @param room holds the lines of the strings to the saddle as it stands now, and `leaning` as in `kept_height`, of every
/// string
template <class R>
void set_heights(const basic_wishes<R>& w, const height_targets<R>& targets, const basic_setup<R>& s,
                 basic_strung_instrument<R>& on, plan_room<R>& room) {
    const std::size_t count = s.strings.size();
    auto& saddle = on.instrument.saddle;
    held_back& held = room.held;
    const auto& lines = room.lines;
    const auto& leaning = room.leaning;
    const bool single = !saddle.single.empty();
    const auto limits = [&](std::size_t i) -> held_back::limits& {
        return single ? held.single[i] : held.at[i == 0 ? held_back::bass : held_back::treble];
    };
    const auto is_told = [&](std::size_t i) { return single || i == 0 || i + 1 == count; };
    auto& saddle_z = room.saddle_z;
    saddle_z.clear();
    for (const auto& line : lines) { saddle_z.push_back(line.saddle_z); }
    if (targets.action) {
        auto& y = room.y;
        y.clear();
        for (std::size_t i = 0; i < count; ++i) {
            const wished_run<R> run(w, targets, on, s, lines[i], i);
            if (is_told(i)) { limits(i).half_gauge = run.raised; }
            saddle_z[i] = run.saddle_z;
            y.push_back(s.strings[i].y_at_saddle);
        }
        saddle_slots(on, s, room.before);
        auto& change = room.change;
        change.clear();
        for (std::size_t i = 0; i < count; ++i) { change.push_back(saddle_z[i] - lines[i].saddle_z); }
        if (single) {
            raise_singles<R>(w, change, leaning, saddle, held);
        } else {
            auto& top_z = room.top_z;
            top_z = saddle_z; // of the line that the slots are cut from
            for (std::size_t i = 0; i < count; ++i) { top_z[i] = top_z[i] - saddle.slot_offset(i); }
            shape_saddle<R>(w, y, top_z, {change.front(), change.back()}, {leaning.front(), leaning.back()}, saddle, held);
        }
        saddle_slots(on, s, room.after);
        for (std::size_t i = 0; i < count; ++i) { saddle_z[i] = lines[i].saddle_z + room.after[i] - room.before[i]; }
    }
    if (!targets.cuts_slots(on)) { return; }
    auto& slots = on.instrument.nut.slot_heights;
    if (slots.size() != count) { slots.assign(count, field<length<R>>(slots.front())); }
    for (std::size_t i = 0; i < count; ++i) {
        const auto& line = lines[i];
        const length<R> first = s.strings[i].crest_z[0] + targets.first->at(s, i);
        const length<R> nut_z = line_height<R>(s.crest_places(s.strings[i])[0], first, length<R>(line.saddle_x),
                                               saddle_z[i], length<R>(line.nut_x));
        const length<R> slot = slots[i] + nut_z - line.nut_z, highest = length<R>::from_value(number<R>(highest_slot));
        if (is_told(i)) {
            limits(i).slot_low = in_any_lane(slot.value() < w.lowest_slot.value());
            limits(i).slot_high = in_any_lane(highest.value() < slot.value());
        }
        slots[i] = min<unit::length, R>(max<unit::length, R>(slot, w.lowest_slot), highest);
    }
}

} // namespace kernel
} // namespace tautline
