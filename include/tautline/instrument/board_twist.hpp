#pragma once
/// @file
/// A slack board that is not alike along both edges: found twist, and edges that are bowed each in its own way.
///
/// Source: geometry. Between the edges the board is taken as straight across, arc apart. A twist that grows evenly along
/// the neck is a ruled surface: along every straight line on it nothing is hollow. It moves the strings' heights and not
/// their relief, and a rod, which bends both edges alike, takes none of it out.

#include <vector>

#include "instrument.hpp"

namespace tautline {

namespace kernel {

/// How far the treble edge of the slack board stands over the bass edge.
template <class R>
[[nodiscard]] length<R> edges_apart(const basic_neck_measures<R>& neck, const length<R>& x) {
    return profile_height(neck.set_treble, x) - profile_height(neck.set_bass, x);
}
/// How steeply the board rises across, from bass to treble, at a place on it.
template <class R>
[[nodiscard]] R slope_across(const basic_instrument<R>& i, const length<R>& x) {
    return ratio<unit::length, R>(edges_apart(i.neck, x), length<R>(half_width_at(i.board, x) * number<R>(2)));
}
/// How much higher than on the centre line the slack board stands at a place, arc apart, where its edges are not alike.
template <class R>
[[nodiscard]] length<R> twist_at(const basic_instrument<R>& built, const length<R>& x, const length<R>& y) {
    return built.neck.told_by_edges() ? length<R>(y * slope_across<R>(built, x)) : length<R>();
}
/// The greatest height of a profile under a straight line from one place to another, or, where it stands over that line
/// further, less than nothing.
template <class R>
[[nodiscard]] length<R> hollow_between(const std::vector<basic_permanent_bow_mark<R>>& marks, const length<R>& from,
                                       const length<R>& to) {
    const length<R> z = profile_height(marks, from), rise = profile_height(marks, to) - z;
    length<R> deepest{};
    for (const auto& m : marks) {
        const R along = max(number<R>(0), min(number<R>(1), R(ratio<unit::length, R>(m.x - from, to - from))));
        const length<R> gap = z + rise * along - profile_height(marks, length<R>(from + (to - from) * along));
        deepest = select(is_less<unit::length, R>(abs(deepest), abs(gap)), gap, deepest);
    }
    return deepest;
}

} // namespace kernel

/// What edges that are not alike come to.
template <class R = double>
struct basic_board_twist {
    using real = R;
    length<R> x{};             ///< where the edges stand furthest apart
    length<R> apart{};         ///< how far there: positive where the treble edge is the higher
    length<R> hollow_bass{};   ///< of the bass edge between first and joint fret; a back-bow is less than nothing
    length<R> hollow_treble{}; ///< of the treble edge
    /// Of the treble string's height over fret 12, by the nut's rise and the board's: + is higher.
    length<R> moved_at_octave{};

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", any_finite<unit::length>(), self.x...);
        visit("apart", any_finite<unit::length>(), self.apart...);
        visit("hollow_bass", any_finite<unit::length>(), self.hollow_bass...);
        visit("hollow_treble", any_finite<unit::length>(), self.hollow_treble...);
        visit("moved_at_octave", any_finite<unit::length>(), self.moved_at_octave...);
    }
};
using board_twist = basic_board_twist<double>;

namespace kernel {

template <class R>
[[nodiscard]] basic_board_twist<R> twist_of(const basic_instrument<R>& i) {
    basic_board_twist<R> t;
    if (!i.neck.told_by_edges()) { return t; }
    for (const auto* marks : {&i.neck.set_bass, &i.neck.set_treble}) {
        for (const auto& m : *marks) {
            const length<R> apart = kernel::edges_apart<R>(i.neck, m.x);
            const auto more = is_less<unit::length, R>(abs(t.apart), abs(apart));
            t.x = select(more, length<R>(m.x), t.x);
            t.apart = select(more, apart, t.apart);
        }
    }
    const length<R> joint = joint_place(i), from = i.board.scale.frets > 0 ? kernel::fret_place(i, 1) : length<R>();
    t.hollow_bass = kernel::hollow_between<R>(i.neck.set_bass, from, joint);
    t.hollow_treble = kernel::hollow_between<R>(i.neck.set_treble, from, joint);
    const length<R> octave = kernel::line_place(i) * number<R>(0.5L);
    const auto at_nut = kernel::outermost(i.nut.spacing), at_saddle = kernel::outermost(i.saddle.spacing);
    const length<R> y = (at_nut[1] + at_saddle[1]) * number<R>(0.5L);
    t.moved_at_octave =
        at_nut[1] * kernel::slope_across<R>(i, length<R>()) * number<R>(0.5L) - y * kernel::slope_across<R>(i, octave);
    return t;
}

} // namespace kernel

/// Twist of an instrument's slack board; nothing apart where its set is told for both edges alike.
/// @throws invalid_input for an instrument that is not valid
template <class R>
[[nodiscard]] basic_board_twist<R> twist_of(const basic_instrument<R>& i) {
    require_valid(i);
    return kernel::twist_of(i);
}

} // namespace tautline
