#pragma once
/// @file
/// A slack board whose two edges are not alike: a twist found in it, or edges that are each bowed differently.
///
/// Source: geometry. Between the edges the board is taken as straight across, apart from its arc. A twist that grows
/// evenly along the neck is a ruled surface: no straight line along the board becomes hollow. Such a twist moves the
/// strings' heights but not their relief. A rod bends both edges alike and takes none of it out.

#include <vector>

#include "instrument.hpp"

namespace tautline {

namespace kernel {

/// Height of the slack board's treble edge over its bass edge at `x`.
template <class R>
[[nodiscard]] length<R> edges_apart(const basic_neck_measures<R>& neck, const length<R>& x) {
    return profile_height(neck.set_treble, x) - profile_height(neck.set_bass, x);
}
/// Slope of the board across at `x`, positive where it rises from bass to treble.
template <class R>
[[nodiscard]] R slope_across(const basic_instrument<R>& i, const length<R>& x) {
    return ratio<unit::length, R>(edges_apart(i.neck, x), length<R>(half_width_at(i.board, x) * number<R>(2)));
}
/// Height of the slack board at a place over its height on the centre line, apart from the arc; 0 where the edges are
/// told alike.
template <class R>
[[nodiscard]] length<R> twist_at(const basic_instrument<R>& built, const length<R>& x, const length<R>& y) {
    return built.neck.told_by_edges() ? length<R>(y * slope_across<R>(built, x)) : length<R>();
}
/// The greatest departure of a profile from the straight line between its heights at two places. Positive where the
/// profile lies below that line (hollow), negative where it stands above it.
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

/// A board whose edges are not alike, in numbers.
template <class R = double>
struct basic_board_twist {
    using real = R;
    length<R> x{};             ///< where the edges stand furthest apart
    length<R> apart{};         ///< height of the treble edge over the bass edge there; negative where it is lower
    length<R> hollow_bass{};   ///< of the bass edge between the first and the joint's fret; negative: a back-bow
    length<R> hollow_treble{}; ///< of the treble edge, counted alike
    /// How much higher the outer treble string stands over fret 12 for the rise of the nut and of the board there; the
    /// outer bass string moves about as much the other way.
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

/// Twist of an instrument's slack board. All numbers are 0 where the set is told for both edges alike.
/// @throws invalid_input where the instrument is not valid
template <class R>
[[nodiscard]] basic_board_twist<R> twist_of(const basic_instrument<R>& i) {
    require_valid(i);
    return kernel::twist_of(i);
}

} // namespace tautline
