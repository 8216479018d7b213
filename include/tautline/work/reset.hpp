#pragma once
/// @file
/// What a neck reset does to everything that is measured from the board. The frame follows the board, so all that stays
/// on the body (saddle, what the strings end on, feet, what lies under the strings) is measured anew from it.
///
/// Source: plane geometry of action/neck_reset.hpp. The heights of the saddle and of the strings' ends are still told
/// from the level of the soundboard under the saddle. That level runs along the board's line.

#include <span>
#include <vector>

#include "../action/neck_reset.hpp"
#include "../action/object_clearance.hpp"
#include "../instrument/saddle_line.hpp"
#include "../instrument/saddle_top.hpp"
#include "../instrument/string_ends.hpp"
#include "../instrument/strung_instrument.hpp"
#include "../instrument/top_slope.hpp"

namespace tautline {

/// How a neck is reset.
template <class R = double>
struct basic_reset {
    using real = R;
    needed<angle<R>> turn; ///< by how much the neck turns; positive: head back and down
    field<length<R>> leave =
        0 * units::mm; ///< taken off the whole face of the joint, which brings the neck nearer to the bridge
    /// From the board's surface on the centre line down to the edge that the neck turns about; absent: the board's
    /// thickness there.
    std::optional<field<length<R>>> edge_depth{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("turn", between(-most_neck_turn, most_neck_turn), self.turn...);
        visit("leave", between(0 * units::mm, 20 * units::mm).fair_default("only the wedge is cut"), self.leave...);
        visit("edge_depth", between(0 * units::mm, 100 * units::mm), self.edge_depth...);
    }
};
using reset = basic_reset<double>;

namespace kernel {

/// The joint of an instrument's neck, with the edge that the neck turns about.
template <class R>
[[nodiscard]] basic_neck_joint<R> joint_of(const basic_instrument<R>& i, const length<R>& leave,
                                           const std::optional<field<length<R>>>& edge_depth) {
    basic_neck_joint<R> joint;
    joint.x = joint_place(i);
    joint.z = -(edge_depth ? length<R>(*edge_depth) : kernel::thickness_at<R>(i.board, length<R>(joint.x)));
    joint.leave = leave;
    return joint;
}

/// The body of an instrument as it stands after a reset, in the frame that follows the neck.
template <class R>
struct body_after_reset {
    basic_neck_joint<R> joint;
    angle<R> turn{};
    length<R> line_x{}, top{}; ///< place of the saddle's line on the centre line, and height of the soundboard under it
    length<R> new_top{};

    /// @param lines from `line_under_strings`
    body_after_reset(const basic_instrument<R>& i, std::span<const length<R>> lines, const basic_neck_joint<R>& about,
                     const angle<R>& by)
        : joint(about), turn(by), line_x(line_place(i)), top(-i.saddle.board_line) {
        // The soundboard's level passes under the middle of the saddle's top at the same distance as before.
        const auto middle = [&](const length<R>& bass, const length<R>& treble) {
            return (bass + treble) * number<R>(0.5L);
        };
        const auto there = seen({.x = line_x, .z = top});
        const auto back = outer_setbacks(i.saddle), over = outer_saddle_heights(i.saddle);
        const length<R> bass = seen({.x = lines.front() + back.bass, .z = top + over.bass}).x;
        const length<R> treble = seen({.x = lines.back() + back.treble, .z = top + over.treble}).x;
        new_top = there.z - (middle(bass, treble) - there.x) * tan(turn);
    }
    [[nodiscard]] basic_point<R> seen(const basic_point<R>& p) const { return seen_after_turn<R>(joint, turn, p); }
    /// Moves a place on the body: `behind` the saddle's line, which is at `line` there, and `over` the soundboard.
    void move(field<length<R>>& behind, field<length<R>>& over, const length<R>& line) const {
        const auto p = seen({.x = line + behind, .z = top + over});
        behind = p.x - line;
        over = p.z - new_top;
    }
};

/// Moves a single saddle, and with it the ends of its travel, which are on the body too.
template <class R>
void move_with_travel(const body_after_reset<R>& body, basic_single_saddle<R>& one, const length<R>& line) {
    const length<R> back = one.setback, over = one.height;
    body.move(one.setback, one.height, line);
    const auto along = [](std::optional<field<length<R>>>& limit, const length<R>& by) {
        if (limit) { *limit = *limit + by; }
    };
    along(one.lowest, one.height - over);
    along(one.highest, one.height - over);
    along(one.least_setback, one.setback - back);
    along(one.most_setback, one.setback - back);
}

template <class R>
void turn_body(basic_instrument<R>& i, std::span<const length<R>> lines, const basic_neck_joint<R>& joint,
               const angle<R>& turn) {
    const body_after_reset<R> body(i, lines, joint, turn);
    if (i.saddle.single.empty()) {
        body.move(i.saddle.setback_bass, i.saddle.height_bass, lines.front());
        body.move(i.saddle.setback_treble, i.saddle.height_treble, lines.back());
    }
    for (std::size_t k = 0; k < i.saddle.single.size(); ++k) { move_with_travel(body, i.saddle.single[k], lines[k]); }
    if (i.tailpiece && i.tailpiece->pressed_height) {
        auto& tail = *i.tailpiece;
        const length<R> up = *tail.pressed_height - tail.hinge_height;
        field<length<R>> behind = tail.hinge_distance - sqrt(tail.reach * tail.reach - up * up);
        body.move(behind, *tail.pressed_height, body.line_x);
    }
    with_string_ends(i, [&](auto& behind, auto& over, auto&) { body.move(behind, over, body.line_x); });
    if (i.pressing_bar) { body.move(i.pressing_bar->distance, i.pressing_bar->height, body.line_x); }
    if (i.feet) {
        auto& feet = *i.feet;
        const R slope = tan(feet.top_slope);
        const auto edge = [&](const length<R>& behind) {
            return body.seen({.x = body.line_x + behind, .z = body.top + behind * slope}).x - body.line_x;
        };
        feet.ahead = -edge(length<R>(-feet.ahead));
        feet.behind = edge(length<R>(feet.behind));
    }
    turn_line_over_top(i, turn);
    i.saddle.board_line = -body.new_top;
}

/// The instrument after a reset, written into `after`.
/// @param lines becomes the line of the saddle under each string
template <class R>
void after_reset(const basic_strung_instrument<R>& on, const basic_reset<R>& by, std::vector<length<R>>& lines,
                 basic_strung_instrument<R>& after) {
    line_under_strings(on, lines);
    after = on;
    turn_body<R>(after.instrument, lines, joint_of<R>(on.instrument, by.leave, by.edge_depth), by.turn);
}

} // namespace kernel

/// The instrument once its neck is reset. For a head that goes back the board's line passes the saddle higher; saddle,
/// strings' ends and feet turn the other way against the board by the same angle. Board, frets, nut, neck and strings
/// stay as they are. The tongue beyond the joint is wedged so that the board stays straight.
///
/// The turn moves saddle and strings' ends exactly, and the feet's edges along. In the feet's height, the product of
/// setback and turn (some hundredths of a millimetre) is left out. On fanned frets the neck turns about its joint square
/// to the centre line, and each saddle turns at its own place along. Pins and a bridge on the body keep one height for
/// all strings; this leaves out the product of their slant and the turn, some tenths of a degree of break under the outer
/// strings, with opposite signs on the two sides.
/// @throws invalid_input where the instrument is not valid before or after, such as where the board's line no longer
/// passes below the saddle
template <class R>
[[nodiscard]] basic_strung_instrument<R> after_reset(const basic_strung_instrument<R>& on,
                                                     const std::type_identity_t<basic_reset<R>>& by) {
    require_valid(on);
    require_valid(by, "reset");
    std::vector<length<R>> lines;
    basic_strung_instrument<R> after;
    kernel::after_reset<R>(on, by, lines, after);
    require_valid(after);
    return after;
}

/// What lies under the strings, measured from the board once the neck is reset. An object beyond the board's end has
/// stayed on the body; any other moves with the neck.
/// @param before the instrument before the reset
template <class R>
[[nodiscard]] basic_flat_object<R> object_after_reset(const basic_instrument<R>& before,
                                                      const std::type_identity_t<basic_reset<R>>& by,
                                                      std::type_identity_t<basic_flat_object<R>> object) {
    require_valid(before, "instrument");
    require_valid(by, "reset");
    require_valid(object, "object");
    if (!one_answer(is_less<unit::length, R>(before.board.board_length, object.x))) { return object; }
    const auto there = kernel::seen_after_turn<R>(kernel::joint_of<R>(before, by.leave, by.edge_depth), by.turn,
                                                  {.x = object.x, .z = object.z});
    object.x = there.x;
    object.z = there.z;
    object.along = object.along - by.turn;
    return object;
}

/// The turn of the neck that a change of the board's line at the saddle shows, `(new - old)/(x_s - x_e)`: how a reset
/// done by hand is measured.
/// @param from,to height of the bare board's line over the soundboard at the saddle
template <class R>
[[nodiscard]] angle<R> turn_of_board_line(const basic_instrument<R>& i, param<length<R>> from, param<length<R>> to) {
    require_valid(i, "instrument");
    require("from", from, between(-50 * units::mm, 150 * units::mm));
    require("to", to, between(-50 * units::mm, 150 * units::mm));
    return atan2(length<R>(to - from), length<R>(kernel::line_place(i) - joint_place(i)));
}

} // namespace tautline
