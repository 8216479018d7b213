#pragma once
/// @file
/// How far the top gives under the strings, from stiffness measured on the instrument, and the strings' load on a
/// cross-section of the body.
///
/// Source: Hooke's law on measured stiffnesses; statics of a section.

#include <optional>
#include <span>

#include "bridge.hpp"

namespace tautline {

/// A top as it gives at the bridge. Both stiffnesses are calibrated: load the bridge and measure how far it moves.
template <class R = double>
struct basic_soundboard {
    using real = R;
    needed<stiffness<R>> sink_stiffness; ///< load on the bridge for each length that it sinks
    /// Moment for each angle that the bridge turns by. Absent: it does not turn, as under a floating bridge.
    std::optional<field<rotational_stiffness<R>>> turn_stiffness{};
    /// How far the saddle lies before the line that the bridge turns about, toward the nut. Needed where it turns.
    std::optional<field<length<R>>> saddle_ahead{};
    /// Height of the strings' axis above that line. Needed where it turns.
    std::optional<field<length<R>>> saddle_height{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("sink_stiffness", between(100 * units::N_per_m, 1e15 * units::N_per_m), self.sink_stiffness...);
        visit("turn_stiffness", between(0.1 * units::N_m_per_rad, 1e15 * units::N_m_per_rad), self.turn_stiffness...);
        visit("saddle_ahead", between(-100 * units::mm, 100 * units::mm), self.saddle_ahead...);
        visit("saddle_height", between(0 * units::mm, 100 * units::mm), self.saddle_height...);
    }
    template <class Report>
    void rules(Report&& report) const {
        const char* const asked = "must be given where the bridge turns: what a turn does to the saddle hangs on it";
        if (turn_stiffness && !saddle_ahead) { report("saddle_ahead", asked); }
        if (turn_stiffness && !saddle_height) { report("saddle_height", asked); }
    }
};
using soundboard = basic_soundboard<double>;

/// What a load does to the saddle.
template <class R = double>
struct basic_top_give {
    using real = R;
    length<R> sink{};    ///< of the saddle under the down-force
    angle<R> turn{};     ///< of the bridge toward the nut
    length<R> drop{};    ///< of the saddle, by sink and turn together
    length<R> forward{}; ///< of the saddle toward the nut

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("sink", self.sink...);
        visit("turn", self.turn...);
        visit("drop", self.drop...);
        visit("forward", self.forward...);
    }
};

namespace kernel {

/// How far the saddle lies before the line that the bridge turns about; 0 where it does not turn.
template <class R>
[[nodiscard]] constexpr length<R> lead_of_turn(const basic_soundboard<R>& t) {
    return t.saddle_ahead ? length<R>(*t.saddle_ahead) : length<R>();
}
/// Height of the strings' axis above that line; 0 where the bridge does not turn.
template <class R>
[[nodiscard]] constexpr length<R> height_over_turn(const basic_soundboard<R>& t) {
    return t.saddle_height ? length<R>(*t.saddle_height) : length<R>();
}

template <class R>
[[nodiscard]] constexpr basic_top_give<R> top_give(const basic_soundboard<R>& t, const force<R>& down,
                                                   const moment<R>& turning) {
    basic_top_give<R> give;
    give.sink = down / t.sink_stiffness;
    if (t.turn_stiffness) { give.turn = turning / *t.turn_stiffness; }
    give.drop = give.sink + give.turn.value() * lead_of_turn(t);
    give.forward = give.turn.value() * height_over_turn(t);
    return give;
}

} // namespace kernel

/// How far the saddle gives under a load and a turning moment (from `held_load`; 0 for a floating bridge). Valid for
/// small angles.
template <class R = double>
[[nodiscard]] basic_top_give<R> top_give(const basic_soundboard<R>& t, param<force<R>> down, param<moment<R>> turning) {
    require_valid(t, "top");
    require("down", down, any_finite<unit::force>());
    require("turning", turning, any_finite<unit::moment>());
    return kernel::top_give<R>(t, down, turning);
}

/// What the top bears while it gives. Both change as the saddle moves.
template <class R = double>
struct basic_top_load {
    using real = R;
    force<R> down{};     ///< pressing the bridge into the top; negative lifts it
    moment<R> turning{}; ///< toward the nut: + turns the saddle forward
};
using top_load = basic_top_load<double>;

namespace kernel {

template <class R>
[[nodiscard]] basic_top_load<R> held_load(const basic_soundboard<R>& t, std::span<const basic_bridge_string<R>> strings,
                                          const angle<R>& top_slope) {
    basic_top_load<R> load;
    const R level = cos(top_slope), rise = sin(top_slope);
    for (const auto& s : strings) {
        const auto side = kernel::pull_along(kernel::direction_between(s.saddle, s.slot), force<R>(s.tension));
        load.down += side.down() * level + side.x * rise;
        load.turning += height_over_turn(t) * -side.x + lead_of_turn(t) * side.down();
    }
    return load;
}

} // namespace kernel

/// The load of strings on a top whose bridge holds their ends (by pins, a tie block, ball ends). The pull behind the
/// saddle stays within the bridge, so only the speaking sides count. They press by their fall toward the nut; strings
/// that rise toward it lift. Where the top slopes, the fall toward its own plane counts. They turn the bridge about its
/// line: pull times height, and press times lead. Under a floating bridge the down-force on the saddle presses instead.
///
/// Source: statics by virtual work: the work of the strings' pulls for each unit of sinking and of turning.
/// @param strings at least one
/// @param top_slope of the top under the bridge, positive where it rises toward the tail; -30 to 30 degrees
template <class R = double>
[[nodiscard]] basic_top_load<R> held_load(const basic_soundboard<R>& t,
                                          std::type_identity_t<std::span<const basic_bridge_string<R>>> strings,
                                          param<angle<R>> top_slope = angle<R>()) {
    require_valid(t, "top");
    require("top_slope", top_slope, between(-30 * units::deg, 30 * units::deg));
    require_that(!strings.empty(), "strings", "must hold at least one string");
    for (std::size_t i = 0; i < strings.size(); ++i) { require_valid(strings[i], messages::path_of("strings", i)); }
    return kernel::held_load<R>(t, strings, top_slope);
}

/// The most steps that `settle_on_top` takes.
inline constexpr int top_steps = 40;

namespace kernel {

/// Where a top stood, and where the strings' load there would press it.
template <class R>
struct pressed_top {
    basic_top_give<R> stood{}, found{};

    /// How far it is from rest.
    [[nodiscard]] constexpr R miss() const {
        return R((abs(found.drop - stood.drop) + abs(found.forward - stood.forward)).value());
    }
};

/// Where to look next for a top's rest, from two looks. The load answers almost in proportion to where the saddle stands,
/// so what is missing is carried on along the straight line through both looks (a secant, in two numbers). Where the
/// found places lie more than half as far apart as those looked at, the next look is at the place that was found: a load
/// that outgrows the top is then seen to run away.
template <class R>
[[nodiscard]] constexpr basic_top_give<R> next_look(const pressed_top<R>& before, const pressed_top<R>& now) {
    const R zero = number<R>(0), one = number<R>(1);
    const R drop = (now.found.drop - now.stood.drop).value(), forward = (now.found.forward - now.stood.forward).value();
    const R found_drop = (now.found.drop - before.found.drop).value(),
            found_forward = (now.found.forward - before.found.forward).value();
    const R stood_drop = (now.stood.drop - before.stood.drop).value(),
            stood_forward = (now.stood.forward - before.stood.forward).value();
    const R less_drop = found_drop - stood_drop, less_forward = found_forward - stood_forward;
    const auto near_line = number<R>(4) * (found_drop * found_drop + found_forward * found_forward) <
                           stood_drop * stood_drop + stood_forward * stood_forward;
    const R gained = less_drop * less_drop + less_forward * less_forward;
    const R share =
        select(near_line, R((drop * less_drop + forward * less_forward) / select(near_line, gained, one)), zero);
    basic_top_give<R> next;
    next.sink = now.found.sink - (now.found.sink - before.found.sink) * share;
    next.turn = now.found.turn - (now.found.turn - before.found.turn) * share;
    next.drop = now.found.drop - (now.found.drop - before.found.drop) * share;
    next.forward = now.found.forward - (now.found.forward - before.found.forward) * share;
    return next;
}

/// The same for a bridge that only sinks, in duals. By what share of a move the place found moves is taken from the values
/// of two looks; it holds for the derivatives as well, which so come to rest with their values.
template <class R>
class sinking_look {
public:
    /// Takes what two looks tell of the share. Looks that lie too near to each other tell nothing new.
    constexpr void learn(const pressed_top<R>& before, const pressed_top<R>& now) {
        const R found = without_derivatives(R((now.found.drop - before.found.drop).value()));
        const R stood = without_derivatives(R((now.stood.drop - before.stood.drop).value()));
        const auto tells = number<R>(1e-10L) < abs(stood), near_line = number<R>(4) * found * found < stood * stood;
        const R share = found / select(tells, stood, number<R>(1));
        further_ = select(tells, select(near_line, R(share / (number<R>(1) - share)), number<R>(0)), further_);
    }
    [[nodiscard]] constexpr basic_top_give<R> after(const pressed_top<R>& now) const {
        basic_top_give<R> next = now.found;
        next.sink = now.found.sink + (now.found.sink - now.stood.sink) * further_;
        next.drop = now.found.drop + (now.found.drop - now.stood.drop) * further_;
        return next;
    }

private:
    R further_ = number<R>(0); ///< share of a move by which the next goes further
};

} // namespace kernel

/// Where top and strings come to rest together. The saddle gives, the strings' lines and loads change with it, and so the
/// saddle gives a little less. The caller computes the loads for a given position of the saddle, and may let the neck,
/// the joint and the tension held at pitch follow too. On an instrument that bears its strings each look leaves a few
/// hundredths of the last error, and a secant through two looks far less. Where the bridge turns, duals go on from place to
/// place without a secant, so that their derivatives come to rest too. The search ends where the saddle moves by less than
/// 1e-15 m; with duals where it moves by less than 1e-13 m, and two steps later where the bridge turns.
/// @param load_at `basic_top_load<R>(const basic_top_give<R>&)`
/// @return nothing where they do not settle: the loads then grow with the sinking faster than the top resists
template <class R, class LoadAt>
[[nodiscard]] std::optional<basic_top_give<R>> settle_on_top(const basic_soundboard<R>& t, LoadAt&& load_at) {
    require_valid(t, "top");
    constexpr bool plain = derivatives_in<R> == 0;
    const bool only_sinks = !plain && !t.turn_stiffness;
    kernel::pressed_top<R> before, now;
    kernel::sinking_look<R> sinking;
    for (int i = 0, more = plain ? 1 : only_sinks ? 2 * derivatives_in<R> - 1 : 3; i < top_steps && more > 0; ++i) {
        if (i > 0) {
            const auto next = only_sinks ? sinking.after(now) : plain && i > 1 ? kernel::next_look(before, now) : now.found;
            before = now;
            now.stood = next;
        }
        const basic_top_load<R> load = load_at(now.stood);
        now.found = kernel::top_give<R>(t, load.down, load.turning);
        if (only_sinks && i > 0) { sinking.learn(before, now); }
        if (in_all_lanes(now.miss() < number<R>(plain ? 1e-15L : 1e-13L))) { --more; }
    }
    if (!one_answer(now.miss() < number<R>(1e-7L))) { return std::nullopt; } // what is not finite fails the test too
    if (only_sinks) { return sinking.after(now); }
    if constexpr (!plain) { return now.found; }
    return kernel::next_look(before, now);
}

/// Stiffness from one measurement: a known load divided by how far the place gave.
[[nodiscard]] constexpr auto measured_stiffness(a_force auto load, a_length auto give) {
    using R = common_real_t<decltype(load), decltype(give)>;
    require("load", load, more_than(0 * units::N));
    require("give", give, more_than(0 * units::mm));
    return over<R>(load) / over<R>(give);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH> measured_stiffness(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE and a LENGTH: measured_stiffness(20*N, 0.1*mm)");

/// What all strings do to a cross-section of the whole instrument.
template <class R = double>
struct basic_section_load {
    using real = R;
    force<R> compression{}; ///< along the strings
    moment<R> bending{};    ///< about the given height; positive pulls the ends up
};

/// Load of the strings on a section square to the strings at `x`, which lies between nut and anchor; the moment is about
/// height `z`. In front of the body the neck bears this load, behind its edge the body does, whatever happens in between.
/// @param strings at least one; each must run across the section
template <class R>
[[nodiscard]] basic_section_load<R> section_load(std::type_identity_t<std::span<const basic_bridge_string<R>>> strings,
                                                 const length<R>& x, param<length<R>> z) {
    require_that(!strings.empty(), "strings", "must hold at least one string");
    require("z", z, any_finite<unit::length>());
    basic_section_load<R> sum;
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const auto& s = strings[i];
        require_valid(s, messages::path_of("strings", i));
        require_that(in_all_lanes(s.slot.x.value() <= x.value()) && in_all_lanes(x.value() <= s.anchor.x.value()), "x",
                     "must lie between the nut and where the strings end");
        const auto before = is_less<unit::length, R>(x, s.saddle.x);
        const auto u1 = kernel::direction_between(s.slot, s.saddle), u2 = kernel::direction_between(s.saddle, s.anchor);
        const R along = select(before, u1.x, u2.x), rise = select(before, R(u1.z / u1.x), R(u2.z / u2.x));
        const force<R> pull = along * s.tension;
        sum.compression += pull;
        sum.bending += (s.saddle.z + rise * (x - s.saddle.x) - z) * pull;
    }
    return sum;
}

} // namespace tautline
