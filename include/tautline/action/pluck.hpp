#pragma once
/// @file
/// How low a plucked string swings, and the hardest pluck that stays clear of every fret.
///
/// Source: d'Alembert: a string let go from a triangle sweeps the parallelogram (0, 0), (p, a), (l, 0), (l - p, -a),
/// distances taken from the saddle. The string is taken as limp and without losses over its first swings, which is the
/// worst case.

#include <optional>

#include "clearance.hpp"

namespace tautline {

/// The hardest pluck that stays clean, and the fret that limits it.
template <class R>
struct basic_clean_pluck {
    using real = R;
    length<R> displacement{}; ///< at the plucked place, square to the board; 0: the note frets out unplucked
    force<R> pull{};          ///< the force that displaces the string so far
    R fret{};                 ///< number of the fret that is met first

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("displacement", self.displacement...);
        visit("pull", self.pull...);
        visit("fret", self.fret...);
    }

    /// The fret as a whole number.
    [[nodiscard]] constexpr int fret_number() const { return static_cast<int>(value_of(fret)); }
};

namespace kernel {

/// Share of the displacement that the string reaches down to at a distance q from the saddle, pulled either way: pulled
/// away from the board it dips at l - p, pushed toward it at p.
template <class R>
class pluck_reach {
public:
    constexpr pluck_reach(const length<R>& p, const length<R>& l) : l_(l) {
        const length<R> near = min<unit::length, R>(p, l - p);
        per_near_ = number<R>(1) / near;
        per_far_ = number<R>(1) / length<R>(l - near);
    }
    [[nodiscard]] constexpr R operator()(const length<R>& q) const {
        // The higher of two triangles of height 1, one with its corner at p, one at l - p.
        const R a = q.value(), b = (l_ - q).value();
        return min(R(min(a, b) * per_near_.value()), R(max(a, b) * per_far_.value()));
    }

private:
    length<R> l_;
    curvature<R> per_near_, per_far_;
};

/// Displacement for each newton.
template <class R>
[[nodiscard]] constexpr compliance<R> pluck_give(const length<R>& p, const length<R>& l, const force<R>& tension) {
    return ratio(l - p, l) * p / tension;
}

template <class R>
[[nodiscard]] constexpr basic_least_clearance<R>
plucked_clearance(const basic_string_line<R>& s, std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                  std::size_t pressed, const length<R>& p, const length<R>& displacement) {
    const auto run = run_from<R>(s, crest_x, crest_z, pressed);
    const pluck_reach<R> reach(p, run.saddle_x - run.x);
    basic_least_clearance<R> least = no_clearance<R>();
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        const R dip = reach(s.saddle_x - crest_x[i]);
        take_lesser<R>(least, run.over(crest_x[i], crest_z[i]) - dip * abs(displacement), i);
    }
    return least;
}

/// The room over a fret is its gap over the share of the displacement that reaches it; rooms are compared without dividing.
template <class R>
[[nodiscard]] constexpr basic_clean_pluck<R>
hardest_clean_pluck(const basic_string_line<R>& s, std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                    std::size_t pressed, const length<R>& p, const force<R>& tension) {
    using S = search_t<R>;
    const auto run = run_from<R>(s, crest_x, crest_z, pressed);
    const length<R> l = run.saddle_x - run.x;
    const pressed_run<S> seen = searched(run);
    const pluck_reach<S> seen_reach(tautline::searched(p), tautline::searched(l));
    length<S> least_gap = length<S>::from_value(number<S>(1e30L)); // more than any room
    S its_share = number<S>(1), fret = number<S>(0);
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        const length<S> x = tautline::searched(crest_x[i]);
        const length<S> gap = max(seen.over(x, tautline::searched(crest_z[i])), length<S>{});
        const S share = seen_reach(seen.saddle_x - x);
        const auto smaller = less<unit::length, S>(gap * its_share, least_gap * share);
        least_gap = select(smaller, gap, least_gap);
        its_share = select(smaller, share, its_share);
        fret = select(smaller, number<S>(static_cast<double>(i + 1)), fret);
    }
    basic_clean_pluck<R> most;
    most.fret = R(fret);
    if constexpr (std::is_same_v<S, R>) {
        most.displacement = least_gap / its_share;
    } else {
        const auto met = static_cast<std::size_t>(fret);
        most.displacement = met == 0 ? length<R>::from_value(number<R>(1e30L))
                                     : max(run.over(crest_x[met - 1], crest_z[met - 1]), length<R>{}) /
                                           pluck_reach<R>(p, l)(run.saddle_x - crest_x[met - 1]);
    }
    most.pull = most.displacement / pluck_give<R>(p, l, tension);
    return most;
}

} // namespace kernel

/// How far a force displaces a string at the plucked place, `F p (l - p) / (T l)`.
/// @param pull     square to the board
/// @param from_saddle p, more than 0 and less than the speaking length
/// @param speaking l
/// @param tension  T, more than 0
[[nodiscard]] constexpr auto pluck_displacement(a_force auto pull, a_length auto from_saddle, a_length auto speaking,
                                                a_force auto tension) {
    using R = common_real_t<decltype(pull), decltype(from_saddle), decltype(speaking), decltype(tension)>;
    require("pull", pull, any_finite<unit::force>());
    require("speaking", speaking, more_than(0 * units::mm));
    require("from_saddle", from_saddle, more_than(0 * units::mm));
    require("tension", tension, more_than(0 * units::N));
    require_that(all(over<R>(from_saddle).value() < over<R>(speaking).value()), "from_saddle",
                 "must be less than the speaking length");
    return kernel::pluck_give<R>(over<R>(from_saddle), over<R>(speaking), over<R>(tension)) * over<R>(pull);
}

/// Checks a place to pluck for a string pressed at fret `pressed`.
template <class R>
void require_pluck(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                   std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                   param<length<R>> from_saddle) {
    require_crests(s, crest_x, crest_z);
    require_that(pressed <= crest_x.size(), "pressed", "must be the number of a fret, or 0 for the open string");
    const length<R> x0 = pressed == 0 ? length<R>(s.nut_x) : crest_x[pressed - 1];
    require("from_saddle", from_saddle, more_than(0 * units::mm));
    require_that(all(from_saddle.value() < (s.saddle_x - x0).value()), "from_saddle",
                 "must be less than the speaking length: nobody plucks behind the pressed fret");
}

/// Least gap over the frets ahead while a plucked string swings, the worse of pulled away and pushed down; nothing when no
/// fret follows. Less than 0: it buzzes.
/// @param displacement at the plucked place, square to the board; its sign does not matter
template <class R>
[[nodiscard]] std::optional<basic_least_clearance<R>>
plucked_clearance(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                  std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                  param<length<R>> from_saddle, param<length<R>> displacement) {
    require_pluck(s, crest_x, crest_z, pressed, from_saddle);
    require("displacement", displacement, any_finite<unit::length>());
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::plucked_clearance<R>(s, crest_x, crest_z, pressed, from_saddle, displacement);
}

/// The hardest pluck that clears every fret ahead; nothing when no fret follows.
/// @param tension of the pressed string, more than 0
template <class R>
[[nodiscard]] std::optional<basic_clean_pluck<R>>
hardest_clean_pluck(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                    std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                    param<length<R>> from_saddle, param<force<R>> tension) {
    require_pluck(s, crest_x, crest_z, pressed, from_saddle);
    require("tension", tension, more_than(0 * units::N));
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::hardest_clean_pluck<R>(s, crest_x, crest_z, pressed, from_saddle, tension);
}

} // namespace tautline
