#pragma once
/// @file
/// A setup backwards: from what is wanted to rod, nut slots, saddle, compensation and tailpiece. Each of them moves the
/// others, so they are set in turn until nothing moves any more; what no setting reaches is told with the nearest that
/// does.

#include "../action/height_plan.hpp"
#include "../action/saddle_arc.hpp"
#include "../neck/wanted.hpp"
#include "../supports/tailpiece_plan.hpp"
#include "outcome.hpp"

namespace tautline {

namespace kernel {

/// Rounds in which rod, slots, saddle and tailpiece are set in turn; each round leaves under a tenth of what was left.
inline constexpr int plan_rounds = 8;

/// The rod's pull for the wanted relief of the neck as it is strung now.
template <class R>
[[nodiscard]] basic_rod_answer<R> wanted_rod(const basic_wishes<R>& w, const basic_strung_instrument<R>& on,
                                             const basic_setup<R>& s) {
    basic_relief_case<R> c;
    c.strings = s.pulls;
    for (std::size_t n = 0; n < s.fret_x.size(); ++n) {
        c.crests.push_back({s.fret_x[n], kernel::crown_left(on.instrument.frets, static_cast<int>(n) + 1)});
    }
    c.last = std::min(s.fret_x.size(), static_cast<std::size_t>(on.instrument.neck.joint_fret)) - 1;
    return rod_pull_for_relief<R>(s.beam, c, *w.relief, w.most_rod_pull);
}

/// The saddle's outer heights and its arc for tops at `z`, kept within the limits; heights grow by `change`.
template <class R>
void shape_saddle(const basic_wishes<R>& w, std::span<const length<R>> y, std::span<const length<R>> z,
                  const length<R>& bass_change, const length<R>& treble_change, basic_saddle<R>& saddle) {
    const auto within = [&](const length<R>& h) {
        // The strings cannot run under the board.
        length<R> kept = max<unit::length, R>(h, saddle.board_line + length<R>::from_value(number<R>(1e-4L)));
        if (w.lowest_saddle) { kept = max<unit::length, R>(kept, *w.lowest_saddle); }
        if (w.highest_saddle) { kept = min<unit::length, R>(kept, *w.highest_saddle); }
        return kept;
    };
    saddle.height_bass = within(saddle.height_bass + bass_change);
    saddle.height_treble = within(saddle.height_treble + treble_change);
    if (y.size() < 3) { return; }
    saddle.radius.reset();
    // A radius of many metres is a straight saddle; one below half the spread cannot be cut.
    const length<R> tightest = (y.back() - y.front()) * number<R>(0.75L), flattest = length<R>::from_value(number<R>(20));
    const auto r = kernel::saddle_arc<R>(y, z).radius();
    if (r && all(tightest.value() < r->value()) && all(r->value() < flattest.value())) { saddle.radius = *r; }
}

/// Slots and saddle for the wanted heights over the crests as they stand now. Where one of them meets a limit the other
/// still does what it can: the slot follows the saddle that will be there.
template <class R>
void set_heights(const basic_wishes<R>& w, const basic_setup<R>& s, basic_strung_instrument<R>& on) {
    auto& slots = on.instrument.nut.slot_heights;
    const std::size_t count = s.strings.size();
    if (slots.size() != count) { slots.assign(count, field<length<R>>(slots.front())); }
    const auto fret = static_cast<std::size_t>(w.action_fret) - 1;
    std::vector<length<R>> y, z, change;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& one = s.strings[i];
        const length<R> first = one.crest_z[0] + wished_at(s, i, *w.first_fret_bass, *w.first_fret_treble);
        // A string lower than half its gauge rattles at the softest touch: nobody is served with less.
        const length<R> action = one.crest_z[fret] + max<unit::length, R>(wished_at(s, i, *w.action_bass, *w.action_treble),
                                                                          one.gauge * number<R>(0.5L));
        const length<R> nut_z = line_height<R>(s.fret_x[0], first, s.fret_x[fret], action, length<R>(one.line.nut_x));
        const length<R> lowest = one.line.nut_z - slots[i] + w.lowest_slot;
        const length<R> begins = on.instrument.board.scale.zero_fret ? length<R>(one.line.nut_z) : max(nut_z, lowest);
        z.push_back(
            line_height<R>(length<R>(one.line.nut_x), begins, s.fret_x[fret], action, length<R>(one.line.saddle_x)));
        y.push_back(one.y_at_saddle);
        change.push_back(z.back() - one.line.saddle_z);
    }
    const auto before = saddle_slots(on, s);
    shape_saddle<R>(w, y, z, change.front(), change.back(), on.instrument.saddle);
    if (on.instrument.board.scale.zero_fret) { return; } // its crown is what it is
    const auto after = saddle_slots(on, s);
    for (std::size_t i = 0; i < count; ++i) {
        const auto& one = s.strings[i];
        const length<R> first = one.crest_z[0] + wished_at(s, i, *w.first_fret_bass, *w.first_fret_treble);
        const length<R> saddle_z = one.line.saddle_z + after[i] - before[i];
        const length<R> nut_z =
            line_height<R>(s.fret_x[0], first, length<R>(one.line.saddle_x), saddle_z, length<R>(one.line.nut_x));
        slots[i] = max<unit::length, R>(slots[i] + nut_z - one.line.nut_z, w.lowest_slot);
    }
}

template <class R>
[[nodiscard]] basic_anchor_plan<R> wanted_hinge(const basic_wishes<R>& w, const basic_strung_instrument<R>& on,
                                                const basic_setup<R>& s) {
    std::vector<basic_point<R>> slots;
    for (const auto& b : s.bridge_strings) { slots.push_back(b.slot); }
    const auto& i = on.instrument;
    const length<R> top = i.saddle.board_line;
    basic_hinged_tailpiece<R> hung;
    hung.hinge_x = i.board.scale.scale_length + i.tailpiece->hinge_distance;
    hung.reach = i.tailpiece->reach;
    return anchor_for_down_force(hung, slots, s.tail_strings, *w.down_force, w.hinge_lowest - top, w.hinge_highest - top);
}

/// The saddle moved along for the octave frets.
template <class R>
void set_in_tune(const basic_setup<R>& s, basic_strung_instrument<R>& on) {
    auto& saddle = on.instrument.saddle;
    const length<R> line = on.instrument.board.scale.scale_length;
    const auto kept = [](const length<R>& q) {
        const length<R> far = length<R>::from_value(number<R>(0.049L));
        return max<unit::length, R>(-far, min<unit::length, R>(far, q));
    };
    if (s.straight_saddle) {
        saddle.setback_bass = kept(s.straight_saddle->at(s.strings.front().y_at_saddle) - line);
        saddle.setback_treble = kept(s.straight_saddle->at(s.strings.back().y_at_saddle) - line);
    } else if (s.strings.size() == 1 && s.strings[0].octave_setback) {
        saddle.setback_bass = saddle.setback_treble = kept(saddle.setback_bass + *s.strings[0].octave_setback);
    }
}

/// One round: everything that is wished set from how things stand in `s`.
template <class R>
void set_once(const basic_wishes<R>& w, const basic_setup<R>& s, basic_strung_instrument<R>& on) {
    if (w.relief && on.instrument.neck.rod && s.relief) { on.instrument.neck.rod_pull = wanted_rod(w, on, s).pull; }
    if (w.heights()) { set_heights(w, s, on); }
    if (w.down_force && on.instrument.tailpiece) {
        on.instrument.tailpiece->hinge_height = wanted_hinge(w, on, s).height + on.instrument.saddle.board_line;
    }
    if (w.in_tune) { set_in_tune(s, on); }
}

} // namespace kernel

/// Plans a setup.
///
/// @param start instrument and strings after all work on board and frets, as they would stand if nothing were set
/// @param w     what is wanted; nothing wanted gives the start back
/// @throws invalid_input for what cannot be solved and for wishes that make no sense on this instrument (heights without
///         the frets they are told at, a down-force without a tailpiece, a break without pins, a slot or saddle limit that
///         contradicts)
template <class R>
[[nodiscard]] basic_setup_plan<R> make_plan(const basic_strung_instrument<R>& start,
                                            const std::type_identity_t<basic_wishes<R>>& w) {
    require_valid(w, "wanted");
    const auto& built = start.instrument;
    if (auto found = validate(built, start.strung); !found.empty()) { throw invalid_input(std::move(found)); }
    require_that(!w.heights() || (w.action_fret <= built.board.scale.frets), "wanted.action_fret",
                 messages::joined({"must be one of the board's ", built.board.scale.frets, " frets"}));
    require_that(!w.down_force || built.tailpiece, "wanted.down_force", "must be left out where no tailpiece hangs");
    require_that(!w.saddle_break || built.pins, "wanted.saddle_break", "must be left out where there are no pins");

    basic_setup_plan<R> made;
    made.start = made.set = start;
    solve(built, start.strung, made.untouched);
    made.solved = made.untouched;
    for (int round = 0; round < kernel::plan_rounds; ++round) {
        kernel::set_once(w, made.solved, made.set);
        solve(made.set.instrument, made.set.strung, made.solved);
    }
    kernel::tell_changes(w, made);
    kernel::tell_shortfalls(w, made);
    return made;
}

} // namespace tautline
