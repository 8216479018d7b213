#pragma once
/// @file
/// A setup solved backwards: from what is wanted to rod, nut slots, saddle, compensation and tailpiece. Each of them
/// moves the others, so they are set in turn until nothing moves any more. Where no setting reaches a wish, the nearest
/// is told.

#include "../core/when_used.hpp"
#include "../instrument/cut_saddle.hpp"
#include "../neck/wanted.hpp"
#include "../setup/solve.hpp"
#include "../supports/tailpiece_plan.hpp"
#include "settings_ahead.hpp"
#include "shortfalls.hpp"

namespace tautline {

namespace kernel {

/// Most rounds in which rod, slots, saddle and tailpiece are set in turn. Each round leaves less than a quarter of the
/// last error.
inline constexpr int plan_rounds = 24;

/// Whether every string has moved by less than a millionth of a millimetre at nut, saddle and anchor.
template <class R>
[[nodiscard]] bool at_rest(std::span<const basic_bridge_string<R>> was, std::span<const basic_bridge_string<R>> is) {
    const R limit = number<R>(1e-9L);
    const auto same = [&](const basic_point<R>& a, const basic_point<R>& b) {
        return in_all_lanes(abs(R((a.x - b.x).value())) < limit) && in_all_lanes(abs(R((a.z - b.z).value())) < limit);
    };
    for (std::size_t i = 0; i < is.size(); ++i) {
        if (!same(was[i].slot, is[i].slot) || !same(was[i].saddle, is[i].saddle) || !same(was[i].anchor, is[i].anchor)) {
            return false;
        }
    }
    return true;
}

/// The pull of the rod for the wanted relief of the neck as it is strung now.
template <class R>
[[nodiscard]] basic_rod_answer<R> wanted_rod(const basic_wishes<R>& w, const basic_strung_instrument<R>& on,
                                             const basic_setup<R>& s, basic_relief_case<R>& c) {
    c.strings = s.pulls;
    c.crests.clear();
    c.nut = nut_kind_of(on.instrument);
    for (std::size_t n = 0; n < s.fret_x.size(); ++n) {
        c.crests.push_back({s.fret_x[n], kernel::crown_left(on.instrument.frets, static_cast<int>(n) + 1)});
    }
    c.last = std::min(s.fret_x.size(), static_cast<std::size_t>(on.instrument.neck.joint_fret)) - 1;
    return rod_pull_for_relief<R>(s.beam, c, *w.relief, w.most_rod_pull);
}

/// Sets the rod for the wanted relief. Once a search has found a pull that gives it, the next rounds follow the line that
/// the search has shown: what is missing over what the pull did. A round that does not come much closer searches again.
template <class R>
void set_rod(const basic_wishes<R>& w, basic_strung_instrument<R>& on, const basic_setup<R>& s, plan_room<R>& room) {
    auto& rod = room.rod;
    const R is = on.instrument.neck.pull_of_rod().value(), miss = (s.relief->gap - *w.relief).value();
    const R most = w.most_rod_pull.value(), least = on.instrument.neck.rod->two_way() ? R(-most) : number<R>(0);
    if (derivatives_in<R> == 0 && rod.known && in_all_lanes(abs(miss) < max(rod.miss, number<R>(1e-12L)))) {
        const R next = is - miss / rod.slope;
        if (in_all_lanes(least < next) && in_all_lanes(next < most)) {
            on.instrument.neck.rod_pull = force<R>::from_value(next);
            rod.miss = abs(miss) * number<R>(0.5L);
            return;
        }
    }
    const auto found = wanted_rod(w, on, s, room.relief);
    on.instrument.neck.rod_pull = found.pull;
    room.held.rod = found.why;
    const R moved = is - found.pull.value();
    rod.known = found.reachable() && in_all_lanes(number<R>(1e-3L) < abs(moved));
    rod.miss = abs(miss) * number<R>(0.5L);
    rod.slope = rod.known ? R(miss / moved) : number<R>(1);
}

/// The height of the hanger for the wanted down-force, within its allowed heights on the body as found.
template <class R>
[[nodiscard]] basic_anchor_plan<R> wanted_hinge(const basic_wishes<R>& w, const basic_instrument<R>& on,
                                                const basic_setup<R>& s, const length<R>& lowest, const length<R>& highest,
                                                plan_room<R>& room) {
    room.slots.clear();
    for (const auto& b : s.bridge_strings) { room.slots.push_back(b.slot); }
    basic_hinged_tailpiece<R> hung;
    hung.hinge_x = line_place(on) + on.tailpiece->hinge_distance;
    hung.reach = on.tailpiece->reach;
    // From round to round the hanger hardly moves.
    const length<R> from = on.tailpiece->hinge_height - on.saddle.board_line;
    return anchor_for_down_force<basic_hinged_tailpiece<R>, R>(hung, room.slots, s.tail_strings, force<R>(*w.down_force),
                                                               lowest, highest, room.hinge, &from);
}

/// Whether the fret at which the action is told is beyond every nut on the neck.
template <class R>
[[nodiscard]] bool action_is_beyond_nuts(const basic_wishes<R>& w, const basic_instrument<R>& on) {
    const int told = w.action_fret.value_or(12);
    return std::all_of(on.short_strings.begin(), on.short_strings.end(), [&](const auto& s) { return s.fret < told; });
}

/// A place of the saddle, kept within what may be described and within the travel of a single saddle.
template <class R>
[[nodiscard]] length<R> kept_setback(const length<R>& q, const basic_single_saddle<R>* one, held_back::limits& by) {
    const length<R> furthest = length<R>::from_value(number<R>(furthest_setback));
    const bool near_end = one && one->least_setback, far_end = one && one->most_setback;
    const length<R> least = near_end ? max<unit::length, R>(-furthest, *one->least_setback) : length<R>(-furthest);
    const length<R> most = far_end ? min<unit::length, R>(furthest, *one->most_setback) : furthest;
    by.too_near = in_any_lane(q.value() < least.value());
    by.too_far = in_any_lane(most.value() < q.value());
    return max<unit::length, R>(least, min<unit::length, R>(most, q));
}

/// Moves single saddles along: each alone, or a piece of them by the one way that suits its strings best. Its strings keep
/// their places on the piece. The travel of one holds all of them.
template <class R>
void set_singles_in_tune(const basic_setup<R>& s, basic_saddle<R>& saddle, plan_room<R>& room) {
    held_back& held = room.held;
    const std::size_t count = saddle.single.size();
    for (std::size_t first = 0, piece = 0; first < count; ++piece) {
        const std::size_t strings = saddle.pieces.empty() ? 1 : static_cast<std::size_t>(saddle.pieces[piece]);
        const std::size_t end = first + strings;
        length<R> sum{};
        int asking = 0;
        for (std::size_t i = first; i < end; ++i) {
            if (!s.strings[i].octave_setback) { continue; }
            sum += *s.strings[i].octave_setback;
            ++asking;
        }
        // The mean leaves the least sum of squares.
        const length<R> asked = asking > 0 ? length<R>(sum / number<R>(asking)) : length<R>();
        const auto nearer = asked.value() < number<R>(0);
        length<R> by = asked;
        held_back::limits travel;
        for (std::size_t i = first; i < end && asking > 0; ++i) {
            const auto& one = saddle.single[i];
            held_back::limits ends;
            const length<R> may = kept_setback<R>(one.setback + asked, &one, ends) - one.setback;
            by = i == first ? may : length<R>::from_value(select(nearer, max(by, may).value(), min(by, may).value()));
            travel.too_near = travel.too_near || ends.too_near;
            travel.too_far = travel.too_far || ends.too_far;
        }
        for (std::size_t i = first; i < end && asking > 0; ++i) {
            held.single[i].too_near = travel.too_near;
            held.single[i].too_far = travel.too_far;
            saddle.single[i].setback = saddle.single[i].setback + by;
        }
        first = end;
    }
}

/// Moves the saddle along for the octave frets, before the strings draw a turning bridge forward.
template <class R>
void set_in_tune(const basic_setup<R>& s, basic_instrument<R>& on, plan_room<R>& room) {
    auto& saddle = on.saddle;
    held_back& held = room.held;
    held.setback = false;
    if (!saddle.single.empty()) { return set_singles_in_tune(s, saddle, room); }
    const board_lines<R> lines(on);
    const auto line = lines.saddle();
    const auto line_at = [&](const length<R>& y) {
        return length<R>((lines.fanned() ? line.at(y) : line.x) - (s.top ? s.top->forward : length<R>()));
    };
    const auto kept = [&](const length<R>& q) {
        held_back::limits by;
        const length<R> at = kept_setback<R>(q, nullptr, by);
        held.setback = held.setback || by.too_near || by.too_far;
        return at;
    };
    if (s.straight_saddle) {
        const length<R> bass = s.strings.front().y_at_saddle, treble = s.strings.back().y_at_saddle;
        saddle.setback_bass = kept(s.straight_saddle->at(bass) - line_at(bass));
        saddle.setback_treble = kept(s.straight_saddle->at(treble) - line_at(treble));
    } else if (s.strings.size() == 1 && s.strings[0].octave_setback) {
        saddle.setback_bass = saddle.setback_treble = kept(saddle.setback_bass + *s.strings[0].octave_setback);
    }
}

/// One round: sets everything that is wished, from how things stand in `s`. What lies on the body is set in the frame
/// that `s` was solved in. Then the neck is turned, and slots and saddle follow.
template <class R>
void set_once(const basic_wishes<R>& w, const height_targets<R>& targets, const basic_strung_instrument<R>& start,
              const basic_setup<R>& s, neck_turn<R>& neck, basic_strung_instrument<R>& on, plan_room<R>& room) {
    auto& i = on.instrument;
    held_back& held = room.held;
    if (w.relief && i.neck.rod && s.relief) { set_rod(w, on, s, room); }
    if (w.down_force && i.tailpiece) {
        // How a reset changes the hanger's height, which is told from the board's level.
        const length<R> told = neck.base.instrument.tailpiece->hinge_height - start.instrument.tailpiece->hinge_height;
        const length<R> level = told - i.saddle.board_line;
        const auto hung = wanted_hinge<R>(w, i, s, w.hinge_lowest + level, w.hinge_highest + level, room);
        i.tailpiece->hinge_height = hung.height + i.saddle.board_line;
        held.hinge_high = !hung.reachable && in_all_lanes(w.down_force->value() < hung.down.value());
        held.hinge_low = !hung.reachable && !held.hinge_high;
    }
    if (w.in_tune) { set_in_tune(s, i, room); }
    lines_of(s, room.lines);
    if (w.reset) { turn_neck<R>(w, targets, start, s, neck, on, room); }
    neck.leaning(start, room.leaning);
    set_heights<R>(w, targets, s, on, room);
}

/// Lets what follows the saddle follow what was cut from it on the body: what stands out of its slot, and the strings'
/// height over the line that the bridge turns about.
template <class R>
void follow_saddle(const basic_strung_instrument<R>& base, basic_strung_instrument<R>& on) {
    const length<R> by = mean_saddle_height(on) - mean_saddle_height(base);
    move_exposed<R>(base.instrument, by, on.instrument);
    move_height_over_turn<R>(base.instrument, by, on.instrument);
}

/// Sets everything in turn until it rests, starting from `made.start` and `made.untouched`. What held settings back is in
/// the plan's room.
template <class R>
void settle_plan(const basic_wishes<R>& w, basic_setup_plan<R>& made) {
    auto& held = made.room.held;
    held.single.assign(made.start.instrument.saddle.single.size(), {});
    held = {.single = std::move(held.single)};
    const height_targets<R> targets(w, made.untouched, made.kept);
    neck_turn<R> neck(made.start, w.reset, made.base, made.room.turn);
    made.adjusted = neck.base;
    // Rounds ask for octave setbacks at most. Notes, plucks and findings are those of the last. The neck and what the
    // strings are made of stay as they are unless the neck is reset.
    const auto solve_round = [&] {
        follow_saddle<R>(neck.base, made.adjusted);
        if (w.reset) {
            solve_silent(made.adjusted, made.solved, solve_stations);
        } else {
            require_valid(made.adjusted);
            solve_on_beam(made.adjusted, made.solved);
        }
        if (w.in_tune) { sound(made.adjusted.instrument, made.adjusted.stringing, made.solved, sound_part::octaves); }
    };
    if (w.reset) {
        solve_round();
    } else {
        made.solved = made.untouched;
    }
    auto& room = made.room;
    room.set.clear();
    room.rod = {};
    // Derivatives come to rest like values, one or two rounds later.
    for (int round = 0, more = 1 + 2 * derivatives_in<R>; round < plan_rounds && more > 0; ++round) {
        room.was = made.solved.bridge_strings;
        take_settings(made.adjusted.instrument, room.before_round);
        set_once(w, targets, made.start, made.solved, neck, made.adjusted, room);
        // A neck that is turned takes its settings with it.
        const bool leads = !w.reset && derivatives_in<R> == 0 && look_ahead(made.adjusted.instrument, room);
        if (leads) { add_to_settings<R>(room.ahead, made.adjusted.instrument); }
        try {
            solve_round();
        } catch (const invalid_input&) {
            if (!leads) { throw; }
            // Ahead lies what cannot be set.
            for (R& by : room.ahead) { by = -by; }
            add_to_settings<R>(room.ahead, made.adjusted.instrument);
            solve_round();
        }
        if (at_rest<R>(room.was, made.solved.bridge_strings)) { --more; }
    }
    sound_and_find(made.adjusted, made.solved, solve_stations);
    if (!held.single.empty()) { held.at = {held.single.front(), held.single.back()}; }
    if (w.reset) { made.reset = reset_numbers<R>(*w.reset, made.start, made.untouched, neck, made.solved, room.lines); }
}

/// The reset that would give an action which a limit of the saddle prevents, with the saddle at that limit. Nothing where
/// no reset gives it.
template <class R>
[[nodiscard]] std::optional<basic_reset_plan<R>> reset_instead(basic_wishes<R> w, const basic_setup_plan<R>& made,
                                                               const held_back& held) {
    const auto &a = held.at[0], &b = held.at[1];
    const bool low = a.saddle_low || b.saddle_low, high = a.saddle_high || b.saddle_high;
    if (low == high) { return std::nullopt; } // neither, or the saddle would need a longer range than its limits leave
    w.reset.emplace();
    w.reset->saddle_height = low ? w.lowest_saddle : w.highest_saddle;
    if (!w.reset->saddle_height) { return std::nullopt; }
    basic_setup_plan<R> other;
    other.start = made.start;
    other.untouched = made.untouched;
    other.kept = made.kept;
    other.action_fret = made.action_fret;
    settle_plan(w, other);
    tell_changes<R>(w, other, nullptr);
    tell_shortfalls(w, other.room.held, other);
    return missed_action(other) ? std::nullopt : other.reset;
}

/// The turn, in radians, that a reset would take without limits of joint and bolt.
template <class R>
[[nodiscard]] double turn_needed(basic_wishes<R> w, const basic_setup_plan<R>& made) {
    w.reset->least_turn = over<R>(-most_neck_turn);
    w.reset->most_turn = over<R>(most_neck_turn);
    basic_setup_plan<R> other;
    other.start = made.start;
    other.untouched = made.untouched;
    other.kept = made.kept;
    settle_plan(w, other);
    return plain(other.reset->turn).value();
}

/// Refuses wished limits of the saddle that leave a single saddle no height within its travel.
template <class R>
void require_travel(const basic_wishes<R>& w, const basic_saddle<R>& saddle) {
    for (std::size_t i = 0; i < saddle.single.size(); ++i) {
        const auto& one = saddle.single[i];
        const bool low = !w.lowest_saddle || !one.highest || in_all_lanes(w.lowest_saddle->value() <= one.highest->value());
        const bool high =
            !w.highest_saddle || !one.lowest || in_all_lanes(one.lowest->value() <= w.highest_saddle->value());
        if (low && high) { continue; }
        const std::string at = messages::path_of("saddle.single", i, "");
        require_that(low, "wanted.lowest_saddle", messages::joined({"must not be more than ", at, ".highest"}));
        require_that(high, "wanted.highest_saddle", messages::joined({"must not be less than ", at, ".lowest"}));
    }
}

} // namespace kernel

namespace kernel {

/// Empties all that a plan tells, and keeps its memory.
template <class R>
void forget(basic_setup_plan<R>& plan) {
    for (auto* list : {&plan.slot_change, &plan.saddle_height, &plan.saddle_change}) { list->clear(); }
    plan.singles.clear();
    plan.shortfalls.clear();
    plan.remarks.clear();
    plan.saddle_off_arc = plan.setback_change_bass = plan.setback_change_treble = length<R>();
    plan.rod_pull_change = force<R>();
    plan.rod_turns.reset();
    plan.hinge_change.reset();
    plan.adjusters.reset();
    plan.pin_holes.reset();
    plan.pin_places.clear();
    plan.reset.reset();
    plan.reset_instead.reset();
    plan.saddle_at_limit = plan.saddle_below_wood = false;
}

} // namespace kernel

/// Plans a setup in place: sets what is wanted, and tells what that takes and which wishes are not met.
///
/// @param start instrument and strings after all work on board and frets, before anything is set
/// @param w what is wanted; without wishes the start is returned
/// @param made becomes the plan. What it held is overwritten, except what sides without a wish keep, which is given
/// (`kept`); its lists are used again.
/// @param stood the instrument as it stands before values that are planned by hand, which `start` has already; changes
/// then count from it. Null: from `start`
/// @throws invalid_input for what cannot be solved, and for wishes that make no sense on this instrument: heights without
/// the frets they are told at, a down-force without a tailpiece, a break without pins, limits of slot or saddle that
/// contradict
template <class R>
void make_plan(const basic_strung_instrument<R>& start, const std::type_identity_t<basic_wishes<R>>& w,
               basic_setup_plan<R>& made, const std::type_identity_t<basic_instrument<R>>* stood = nullptr) {
    require_valid(w, "wanted");
    const auto& built = start.instrument;
    const int count = built.board.scale.frets;
    require_valid(start);
    require_that(!w.first_fret() || count > 0, w.first_fret_bass ? "wanted.first_fret_bass" : "wanted.first_fret_treble",
                 "must be left out on a board without frets");
    require_that(!(w.action() || w.reset) || count > 1,
                 w.reset         ? "wanted.reset"
                 : w.action_bass ? "wanted.action_bass"
                                 : "wanted.action_treble",
                 "must be left out on a board with fewer than two frets");
    require_that(!w.first_fret() || built.short_strings.empty(),
                 w.first_fret_bass ? "wanted.first_fret_bass" : "wanted.first_fret_treble",
                 "must be left out where a string has a nut of its own: it has no first fret, and slots are cut by hand");
    require_that(!(w.action() || w.reset) || kernel::action_is_beyond_nuts(w, built), "wanted.action_fret",
                 "must be beyond the nuts of short strings, whose action is told there as well");
    if (w.action_fret && *w.action_fret > count) {
        require_that(false, "wanted.action_fret", messages::joined({"must be one of the board's ", count, " frets"}));
    }
    require_that(!w.down_force || built.tailpiece, "wanted.down_force", "must be left out where no tailpiece hangs");
    require_that(!w.down_force || !(built.tailpiece->pressed_height || built.pressing_bar), "wanted.down_force",
                 "must be left out where something presses the strings down behind the saddle: the tailpiece does not hang "
                 "in their pull alone");
    require_that(!w.saddle_break || built.pins, "wanted.saddle_break",
                 "must be left out where there are no pins: a break is wished for to place their holes");
    require_that(!w.adjusters || built.saddle.single.empty(), "wanted.adjusters",
                 "must be left out where each string has its own saddle: each is set alone");
    kernel::require_travel<R>(w, built.saddle);

    kernel::forget(made);
    made.start = start;
    made.wanted = w;
    if (start.stringing.strings.size() == 1) {
        // A single string stands at the bass height; the saddle has no other end.
        made.start.instrument.saddle.height_treble = built.saddle.height_bass;
    }
    solve(start, made.untouched);
    made.action_fret = action_fret(w.action_fret, made.untouched);
    kernel::settle_plan(w, made);
    auto& held = made.room.held;
    if (held.turn_least || held.turn_most) { held.turn_needed = kernel::turn_needed(w, made); }
    kernel::tell_changes<R>(w, made, stood);
    kernel::tell_shortfalls(w, held, made);
    if (!w.reset && kernel::missed_action(made)) { made.reset_instead = kernel::reset_instead<R>(w, made, held); }
}
TAUTLINE_HELD(void make_plan<double>(const strung_instrument&, const wishes&, setup_plan&, const instrument*))

/// The same as a new plan.
template <class R>
[[nodiscard]] basic_setup_plan<R> make_plan(const basic_strung_instrument<R>& start,
                                            const std::type_identity_t<basic_wishes<R>>& w,
                                            const std::type_identity_t<basic_instrument<R>>* stood = nullptr) {
    basic_setup_plan<R> made;
    make_plan(start, w, made, stood);
    return made;
}
TAUTLINE_HELD(setup_plan make_plan<double>(const strung_instrument&, const wishes&, const instrument*))

} // namespace tautline
