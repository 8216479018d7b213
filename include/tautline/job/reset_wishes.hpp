#pragma once
/// @file
/// A wanted neck reset within a plan: the turn that brings the saddle to its wanted height, and what that takes.
///
/// The neck turns for the mean of the outer strings; each outer saddle slot takes the difference. Where its range limits
/// the turn, the saddle takes the rest.

#include "height_wishes.hpp"

namespace tautline::kernel {

/// Mean of the values at both outer strings.
template <class R>
[[nodiscard]] length<R> mean_of(const length<R>& bass, const length<R>& treble) {
    return (bass + treble) * number<R>(0.5L);
}
/// The line midway between the outer strings, as they run now.
template <class R>
[[nodiscard]] basic_string_line<R> middle_line(std::span<const basic_string_line<R>> lines) {
    const auto &a = lines.front(), &b = lines.back();
    basic_string_line<R> m;
    m.nut_x = mean_of<R>(a.nut_x, b.nut_x);
    m.nut_z = mean_of<R>(a.nut_z, b.nut_z);
    m.saddle_x = mean_of<R>(a.saddle_x, b.saddle_x);
    m.saddle_z = mean_of<R>(a.saddle_z, b.saddle_z);
    return m;
}
/// Place of a fret along, midway between its crests under the outer strings.
template <class R>
[[nodiscard]] length<R> crest_midway(const basic_setup<R>& s, std::size_t n) {
    return mean_of<R>(s.crest_places(s.strings.front())[n], s.crest_places(s.strings.back())[n]);
}
template <class R>
void lines_of(const basic_setup<R>& s, std::vector<basic_string_line<R>>& lines) {
    lines.clear();
    for (const auto& one : s.strings) { lines.push_back(one.line); }
}

/// A neck that is reset: the angle of its turn, and the instrument so turned but otherwise as at the start.
template <class R>
struct neck_turn {
    basic_reset<R> now;
    basic_strung_instrument<R>& base;
    turn_room<R>& room;

    /// @param turned becomes the instrument so turned
    neck_turn(const basic_strung_instrument<R>& start, const std::optional<basic_reset_wish<R>>& wish,
              basic_strung_instrument<R>& turned, turn_room<R>& kept)
        : base(turned), room(kept) {
        base = start;
        if (!wish) { return; }
        now.turn = within(*wish, angle<R>());
        now.leave = wish->leave;
        now.edge_depth = wish->edge_depth;
        kernel::after_reset<R>(start, now, room.lines, base);
    }
    [[nodiscard]] static angle<R> within(const basic_reset_wish<R>& wish, const angle<R>& turn) {
        return min<unit::angle, R>(max<unit::angle, R>(turn, wish.least_turn), wish.most_turn);
    }
    /// How much more the heights of the saddle slots told from the level along the board are than those over the
    /// soundboard: for the outer strings, or for each string that has its own saddle.
    void leaning(const basic_strung_instrument<R>& start, std::vector<length<R>>& each) const {
        const auto &is = base.instrument.saddle, &was = start.instrument.saddle;
        each.clear();
        if (is.single.empty()) {
            each.push_back(is.height_bass - was.height_bass);
            each.push_back(is.height_treble - was.height_treble);
        }
        for (std::size_t i = 0; i < is.single.size(); ++i) { each.push_back(is.single[i].height - was.single[i].height); }
    }
    /// Turns the neck to `turn` in all. What was set on the body keeps its difference from where it then begins.
    void turn_to(const basic_strung_instrument<R>& start, const angle<R>& turn, basic_instrument<R>& set) {
        now.turn = turn;
        room.before = base.instrument;
        const auto& before = room.before;
        kernel::after_reset<R>(start, now, room.lines, base);
        const auto& after = base.instrument;
        const auto carry = [](field<length<R>>& q, const length<R>& from, const length<R>& to) { q = q + (to - from); };
        if (set.saddle.single.empty()) {
            carry(set.saddle.height_bass, before.saddle.height_bass, after.saddle.height_bass);
            carry(set.saddle.height_treble, before.saddle.height_treble, after.saddle.height_treble);
            carry(set.saddle.setback_bass, before.saddle.setback_bass, after.saddle.setback_bass);
            carry(set.saddle.setback_treble, before.saddle.setback_treble, after.saddle.setback_treble);
        }
        for (std::size_t i = 0; i < set.saddle.single.size(); ++i) {
            auto& one = set.saddle.single[i];
            const auto& was = before.saddle.single[i];
            const length<R> up = one.height - was.height, back = one.setback - was.setback;
            one = after.saddle.single[i]; // with its travel
            one.height = one.height + up;
            one.setback = one.setback + back;
        }
        set.saddle.board_line = after.saddle.board_line;
        if (set.tailpiece) {
            carry(set.tailpiece->hinge_distance, before.tailpiece->hinge_distance, after.tailpiece->hinge_distance);
            carry(set.tailpiece->hinge_height, before.tailpiece->hinge_height, after.tailpiece->hinge_height);
            set.tailpiece->pressed_height = after.tailpiece->pressed_height;
        }
        set.pins = after.pins;
        set.tie_block = after.tie_block;
        set.pressing_bar = after.pressing_bar;
        set.body_bridge = after.body_bridge;
        set.feet = after.feet;
    }
};

/// Turns the neck so that the wanted action comes with the outer saddle slots at their wanted mean height.
/// @param room holds the lines of the strings; their ends on the saddle are moved with the body
template <class R>
void turn_neck(const basic_wishes<R>& w, const height_targets<R>& targets, const basic_strung_instrument<R>& start,
               const basic_setup<R>& s, neck_turn<R>& neck, basic_strung_instrument<R>& on, plan_room<R>& room) {
    auto& lines = room.lines;
    held_back& held = room.held;
    const auto& wish = *w.reset;
    const std::size_t last = s.strings.size() - 1;
    const wished_run<R> bass(w, targets, on, s, lines.front(), 0), treble(w, targets, on, s, lines.back(), last);

    const auto& saddle = on.instrument.saddle;
    const auto& found = start.instrument.saddle;
    neck.leaning(start, room.leaning);
    const auto& leaning = room.leaning;
    const auto is = outer_saddle_heights(saddle), was = outer_saddle_heights(found);
    const length<R> bass_needs = is.bass + bass.saddle_z - lines.front().saddle_z - leaning.front();
    const length<R> treble_needs = is.treble + treble.saddle_z - lines.back().saddle_z - leaning.back();
    // Both outer slots must fit within the limits about their mean.
    const length<R> apart = abs(length<R>(bass_needs - treble_needs)) * number<R>(0.5L);
    length<R> mean = wish.saddle_height ? length<R>(*wish.saddle_height) : mean_of<R>(was.bass, was.treble);
    if (w.highest_saddle) { mean = min<unit::length, R>(mean, *w.highest_saddle - apart); }
    if (w.lowest_saddle) { mean = max<unit::length, R>(mean, *w.lowest_saddle + apart); }

    basic_reset_case<R> c;
    c.joint = joint_of<R>(on.instrument, length<R>(), wish.edge_depth);
    c.string = middle_line<R>(lines);
    c.string.nut_z = mean_of(bass.nut_z, treble.nut_z);
    c.fret_x = crest_midway(s, targets.fret);
    c.crest_z = mean_of(s.strings.front().crest_z[targets.fret], s.strings.back().crest_z[targets.fret]);
    auto wanted = c.string;
    wanted.saddle_z = mean_of(bass.saddle_z, treble.saddle_z);
    const length<R> action = kernel::string_height<R>(wanted, c.fret_x) - c.crest_z;
    c.string.saddle_z =
        c.string.saddle_z + mean + mean_of(leaning.front(), leaning.back()) - mean_of<R>(is.bass, is.treble);
    const angle<R> range = over<R>(angle<double>(2.2 * most_neck_turn));
    const angle<R> more = kernel::turn_for_action<R>(c, action, -range, range).turn;

    const angle<R> needed = neck.now.turn + more, turn = neck_turn<R>::within(wish, needed);
    held.turn_least = in_any_lane(needed.value() < wish.least_turn.value());
    held.turn_most = in_any_lane(wish.most_turn.value() < needed.value());
    for (auto& line : lines) {
        const auto there =
            kernel::seen_after_turn<R>(c.joint, angle<R>(turn - neck.now.turn), {.x = line.saddle_x, .z = line.saddle_z});
        line.saddle_x = there.x;
        line.saddle_z = there.z;
    }
    neck.turn_to(start, turn, on.instrument);
}

/// The numbers of the reset: what it takes and moves.
/// @param before the setup before anything was set; `after` is the one as planned
/// @param lines becomes the strings' lines before
template <class R>
[[nodiscard]] basic_reset_plan<R> reset_numbers(const basic_reset_wish<R>& wish, const basic_strung_instrument<R>& start,
                                                const basic_setup<R>& before, const neck_turn<R>& neck,
                                                const basic_setup<R>& after, std::vector<basic_string_line<R>>& lines) {
    basic_reset_plan<R> r;
    const auto& board = start.instrument.board;
    const auto joint = joint_of<R>(start.instrument, neck.now.leave, neck.now.edge_depth);
    r.turn = neck.now.turn;
    if (wish.heel_depth) { r.heel_cut = heel_cut<R>(joint, r.turn, *wish.heel_depth); }
    r.edge_cut = neck.now.leave;
    if (wish.pocket_length) { r.shim = pocket_shim<R>(r.turn, length<R>(*wish.pocket_length)); }
    r.board_line = neck.base.instrument.saddle.board_line;
    if (one_answer(is_less<unit::length, R>(joint.x, board.board_length))) {
        r.wedge = tongue_wedge<R>(joint, r.turn, board.board_length);
    }
    if (before.octave_fret > 0) {
        const auto n = static_cast<std::size_t>(before.octave_fret - 1);
        lines_of(before, lines);
        basic_reset_case<R> c;
        c.joint = joint_of<R>(start.instrument, length<R>(), neck.now.edge_depth);
        c.string = middle_line<R>(lines);
        c.fret_x = crest_midway(before, n);
        c.crest_z = mean_of(before.strings.front().crest_z[n], before.strings.back().crest_z[n]);
        r.octave_before = length_error_after_turn<R>(c, angle<R>());
        c.joint.leave = neck.now.leave;
        r.octave_after = length_error_after_turn<R>(c, r.turn);
    }
    const auto mean_break = [](const basic_setup<R>& s) {
        angle<R> sum{};
        for (const auto& one : s.strings) { sum += one.at_saddle.break_angle; }
        return angle<R>(sum / static_cast<double>(s.strings.size()));
    };
    r.break_before = mean_break(before);
    r.break_after = mean_break(after);
    return r;
}

} // namespace tautline::kernel
