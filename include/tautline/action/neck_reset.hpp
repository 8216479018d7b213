#pragma once
/// @file
/// A neck reset: how far the neck must turn for a wanted action, how much wood that takes, and what else moves with it.
///
/// Source: plane geometry. Nut, frets and board turn as one stiff body about the edge where they meet the body of the
/// instrument; saddle and body stay. Places and heights are those at pitch: the neck is taken to keep its bow while it
/// turns.

#include "../core/root.hpp"
#include "../supports/break_angle.hpp"
#include "height.hpp"

namespace tautline {

/// The most that a neck may be turned here, either way: some 60 thousandths of a radian. No neck is reset further (common
/// practice, no source).
inline constexpr angle<double> most_neck_turn = angle<double>(3.4 * units::deg);

/// The joint that a neck turns about.
template <class R = double>
struct basic_neck_joint {
    using real = R;
    needed<length<R>> x; ///< the edge where neck and body meet, along the strings
    needed<length<R>> z; ///< height of that edge: as a rule that of the board's underside
    field<length<R>> leave =
        0 * units::mm; ///< taken off the whole face of the joint, which brings the neck nearer to the bridge

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", between(1 * units::mm, 3000 * units::mm), self.x...);
        visit("z", between(-300 * units::mm, 300 * units::mm), self.z...);
        visit("leave", between(0 * units::mm, 20 * units::mm).fair_default("only the wedge is cut"), self.leave...);
    }
};
using neck_joint = basic_neck_joint<double>;

/// A string over a neck that may be reset: from the nut as it is now to the saddle that is wanted, and the fret at which
/// its action is told.
template <class R = double>
struct basic_reset_case {
    using real = R;
    basic_neck_joint<R> joint;   ///< what the neck turns about
    basic_string_line<R> string; ///< from the nut as it stands to the saddle as it will be
    needed<length<R>> fret_x;    ///< place of the fret, on the neck or on the board beyond it
    needed<length<R>> crest_z;   ///< height of the fret's crest under that string

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("joint", self.joint...);
        visit("string", self.string...);
        visit("fret_x", about_an_instrument(), self.fret_x...);
        visit("crest_z", about_an_instrument(), self.crest_z...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(string.nut_x.value() < fret_x.value()) ||
            !in_all_lanes(fret_x.value() < string.saddle_x.value())) {
            report("fret_x", "must lie between nut and saddle");
        }
        if (!in_all_lanes(joint.x.value() < string.saddle_x.value())) { report("joint.x", "must lie before the saddle"); }
    }
};
using reset_case = basic_reset_case<double>;

/// A turn of the neck for a wanted action.
template <class R = double>
struct basic_reset_turn {
    using real = R;
    bool reachable = false; ///< whether a turn within the range gives it
    angle<R> turn{};        ///< the turn that gives it, or comes nearest; positive: head back and down
    length<R> action{};     ///< height over the fret's crest after that turn
};
using reset_turn = basic_reset_turn<double>;

namespace kernel {

/// A point turned about (x, z), seen from the side.
template <class R>
[[nodiscard]] basic_point<R> turned_about(const length<R>& x, const length<R>& z, const angle<R>& by,
                                          const basic_point<R>& p) {
    const R c = cos(by), s = sin(by);
    const length<R> dx = p.x - x, dz = p.z - z;
    return {.x = x + dx * c - dz * s, .y = p.y, .z = z + dx * s + dz * c};
}
template <class R>
[[nodiscard]] basic_point<R> after_turn(const basic_neck_joint<R>& joint, const angle<R>& turn, const basic_point<R>& p) {
    auto there = turned_about<R>(joint.x, joint.z, turn, p);
    there.x = there.x + joint.leave;
    return there;
}
template <class R>
[[nodiscard]] basic_point<R> seen_after_turn(const basic_neck_joint<R>& joint, const angle<R>& turn, basic_point<R> p) {
    p.x = p.x - joint.leave;
    return turned_about<R>(joint.x, joint.z, angle<R>(-turn), p);
}

/// The string and its fret's crest after a turn, in the frame of the body.
template <class R>
struct turned_string {
    basic_string_line<R> line;
    length<R> fret_x{}, crest_z{};

    turned_string(const basic_reset_case<R>& c, const angle<R>& turn) : line(c.string) {
        const auto nut = after_turn<R>(c.joint, turn, {.x = c.string.nut_x, .z = c.string.nut_z});
        const auto crest = after_turn<R>(c.joint, turn, {.x = c.fret_x, .z = c.crest_z});
        line.nut_x = nut.x;
        line.nut_z = nut.z;
        fret_x = crest.x;
        crest_z = crest.z;
    }
    [[nodiscard]] length<R> action() const { return kernel::string_height<R>(line, fret_x) - crest_z; }
};

/// The turn for an action, sought between two turns; the action falls as the head goes back.
template <class R>
[[nodiscard]] basic_reset_turn<R> turn_for_action(const basic_reset_case<R>& c, const length<R>& wanted,
                                                  const angle<R>& least, const angle<R>& most) {
    const auto too_high = [&]<class S>(const angle<S>& turn) {
        return length<S>(turned_string<S>(over<S>(c), turn).action() - over<S>(wanted));
    };
    basic_reset_turn<R> t;
    const R at_least = too_high(least).value(), at_most = too_high(most).value(), zero = number<R>(0);
    t.turn = find_root(too_high, least, most);
    t.turn = select(at_least < zero, least, t.turn);
    t.turn = select(zero < at_most, most, t.turn);
    t.reachable = in_all_lanes(zero <= at_least) && in_all_lanes(at_most <= zero);
    t.action = turned_string<R>(c, t.turn).action();
    return t;
}

template <class R>
void require_turn(const angle<R>& turn) {
    require("turn", turn, between(-most_neck_turn, most_neck_turn));
}

} // namespace kernel

/// Where a point of the neck (nut, crest, end of the board) stands after a turn, in the frame of the body.
/// @param turn positive: head back and down
template <class R = double>
[[nodiscard]] basic_point<R> after_turn(const basic_neck_joint<R>& joint, param<angle<R>> turn,
                                        const std::type_identity_t<basic_point<R>>& p) {
    require_valid(joint, "joint");
    kernel::require_turn<R>(turn);
    require_valid(p, "point");
    return kernel::after_turn<R>(joint, turn, p);
}
/// Where a point of the body (saddle, tailpiece, soundboard) stands after a turn, in the frame that follows the neck.
template <class R = double>
[[nodiscard]] basic_point<R> seen_after_turn(const basic_neck_joint<R>& joint, param<angle<R>> turn,
                                             const std::type_identity_t<basic_point<R>>& p) {
    require_valid(joint, "joint");
    kernel::require_turn<R>(turn);
    require_valid(p, "point");
    return kernel::seen_after_turn<R>(joint, turn, p);
}

/// The string after a turn, in the frame of the body. Its nut has moved with the neck; its saddle has stayed.
template <class R = double>
[[nodiscard]] basic_string_line<R> string_after_turn(const basic_reset_case<R>& c, param<angle<R>> turn) {
    require_valid(c, "case");
    kernel::require_turn<R>(turn);
    return kernel::turned_string<R>(c, turn).line;
}
/// Action at the case's fret after a turn: height of the string over the crest.
template <class R = double>
[[nodiscard]] length<R> action_after_turn(const basic_reset_case<R>& c, param<angle<R>> turn) {
    require_valid(c, "case");
    kernel::require_turn<R>(turn);
    return kernel::turned_string<R>(c, turn).action();
}
/// The turn that gives a wanted action, with the saddle as the case has it. Found by a root search on the exact geometry.
/// @param wanted height over the fret's crest, more than 0 and at most 30 mm
/// @param least,most range of the turn, within `most_neck_turn` either way
/// @return where no turn in the range gives it, `reachable` is false and the turn is the nearer end of the range
template <class R = double>
[[nodiscard]] basic_reset_turn<R> turn_for_action(const basic_reset_case<R>& c, param<length<R>> wanted,
                                                  param<angle<R>> least = over<R>(-most_neck_turn),
                                                  param<angle<R>> most = over<R>(most_neck_turn)) {
    require_valid(c, "case");
    require("wanted", wanted, more_than_up_to(0 * units::mm, 30 * units::mm));
    kernel::require_turn<R>(least);
    kernel::require_turn<R>(most);
    require_that(in_all_lanes(least.value() < most.value()), "most", "must be more than least");
    return kernel::turn_for_action<R>(c, wanted, least, most);
}
/// The same turn to first order, `(h - h_wanted) x_s / (x_a (x_s - x_e))`. Within 2 % of the exact one below 15
/// thousandths of a radian, for a joint whose `leave` is 0.
template <class R = double>
[[nodiscard]] angle<R> first_order_turn(const basic_reset_case<R>& c, param<length<R>> wanted) {
    require_valid(c, "case");
    require("wanted", wanted, more_than_up_to(0 * units::mm, 30 * units::mm));
    const length<R> run = c.string.saddle_x - c.string.nut_x, to_fret = c.fret_x - c.string.nut_x;
    const length<R> now = kernel::string_height<R>(c.string, c.fret_x) - c.crest_z;
    return angle<R>::from_value(R(ratio(now - wanted, c.string.saddle_x - c.joint.x) * ratio(run, to_fret)));
}

/// How much to cut off the face of the joint at a depth below its edge: `leave` at the edge, growing evenly with depth to
/// `depth tan(turn) + leave` at the heel cap. Where it is negative, wood is added.
template <class R = double>
[[nodiscard]] length<R> heel_cut(const basic_neck_joint<R>& joint, param<angle<R>> turn, param<length<R>> depth) {
    require_valid(joint, "joint");
    kernel::require_turn<R>(turn);
    require("depth", depth, between(0 * units::mm, 300 * units::mm));
    return depth * tan(turn) + joint.leave;
}
/// Thickness of a shim in a neck's pocket, `length tan(turn)`: full under the bridge end, running out to nothing at the
/// nut end. Negative: the thick end lies under the nut end instead.
template <class R>
[[nodiscard]] length<R> pocket_shim(param<angle<R>> turn, const length<R>& pocket) {
    kernel::require_turn<R>(turn);
    require("pocket", pocket, between(0 * units::mm, 300 * units::mm));
    return pocket * tan(turn);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind Turn, of_any_kind Pocket>
requires(!(an_angle<Turn> && a_length<Pocket>)) messages::wanted_are<messages::ANGLE, messages::LENGTH> pocket_shim(Turn,
                                                                                                                    Pocket)
TAUTLINE_REFUSED("wanted are an ANGLE and a LENGTH: pocket_shim(0.5*deg, 70*mm)");
/// How far the board's underside at `x`, beyond the joint, rises off the body, `(x - x_e) sin(turn)`: the thickness of
/// the wedge under the tongue there. Negative: so much must come off the underside.
template <class R = double>
[[nodiscard]] length<R> tongue_wedge(const basic_neck_joint<R>& joint, param<angle<R>> turn, param<length<R>> x) {
    require_valid(joint, "joint");
    kernel::require_turn<R>(turn);
    require_that(in_all_lanes(joint.x.value() <= x.value()), "x", "must lie beyond the joint");
    return (x - joint.x) * sin(turn);
}
/// Error of a fret after a turn from lengths alone (no stretch, no stiffness), with the saddle as the case has it: the
/// length from crest to saddle against that from nut to saddle, both in space. Positive is sharp.
/// @param octaves of the fret's pitch over the open string; 1 for the octave's fret
template <class R = double>
[[nodiscard]] interval<R> length_error_after_turn(const basic_reset_case<R>& c, param<angle<R>> turn,
                                                  const std::type_identity_t<R>& octaves = number<R>(1)) {
    require_valid(c, "case");
    kernel::require_turn<R>(turn);
    const kernel::turned_string<R> t(c, turn);
    const length<R> open = hypot(t.line.saddle_x - t.line.nut_x, t.line.saddle_z - t.line.nut_z);
    const length<R> pressed = hypot(t.line.saddle_x - t.fret_x, t.line.saddle_z - t.crest_z);
    return interval<R>::from_cents(number<R>(1200) * R(log2(R(ratio(open, pressed))) - octaves));
}
/// How much the break over the saddle grows by a turn: the change of the string's slope before the saddle. What lies
/// behind the saddle is left alone.
template <class R = double>
[[nodiscard]] angle<R> break_change(const basic_reset_case<R>& c, param<angle<R>> turn) {
    require_valid(c, "case");
    kernel::require_turn<R>(turn);
    const auto slope = [](const basic_string_line<R>& s) {
        return atan2(length<R>(s.saddle_z - s.nut_z), length<R>(s.saddle_x - s.nut_x));
    };
    return slope(kernel::turned_string<R>(c, turn).line) - slope(c.string);
}

} // namespace tautline
