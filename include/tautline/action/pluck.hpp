#pragma once
/// @file
/// How low a plucked string swings, and the hardest pluck that stays clear of every fret.
///
/// Source: d'Alembert. A string let go from a triangle sweeps the parallelogram (0, 0), (p, a), (l, 0), (l - p, -a), with
/// distances counted from the saddle. The string is taken as limp and without losses over its first swings: that is the
/// worst case.

#include <optional>

#include "clearance.hpp"

namespace tautline {

/// The hardest pluck that stays clean, and the fret that sets this limit.
template <class R = double>
struct basic_clean_pluck {
    using real = R;
    length<R> displacement{}; ///< at the plucked place, square to the board; 0: the note frets out before it is plucked
    force<R> pull{};          ///< the force that displaces the string by that much
    R fret{};                 ///< number of the fret that is met first, a whole number

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("displacement", self.displacement...);
        visit("pull", self.pull...);
        visit("fret", self.fret...);
    }

    /// The fret as a whole number.
    [[nodiscard]] constexpr int fret_number() const { return static_cast<int>(value_of(fret)); }
};
using clean_pluck = basic_clean_pluck<double>;

namespace kernel {

/// How far down the string reaches at a distance q from the saddle, as a share of the displacement. Both directions of
/// the pluck count: pulled away from the board it dips at l - p, pushed toward it at p.
template <class R>
struct pluck_reach {
    R l{}, per_near{}, per_far{}; // in SI units

    constexpr pluck_reach() = default;
    constexpr pluck_reach(const length<R>& p, const length<R>& speaking) : l(speaking.value()) {
        const R nearer = min(R(p.value()), R(l - p.value()));
        per_near = number<R>(1) / nearer;
        per_far = number<R>(1) / R(l - nearer);
    }
    [[nodiscard]] constexpr R operator()(const length<R>& q) const { return at(q.value(), l, per_near, per_far); }
    [[nodiscard]] static constexpr R at(const R& q, const R& l, const R& per_near, const R& per_far) {
        // The higher of two triangles of height 1, with their corners at p and at l - p.
        const R rest = l - q;
        return min(R(min(q, rest) * per_near), R(max(q, rest) * per_far));
    }
};

/// Displacement of the plucked place for each newton.
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
    basic_least_clearance<R> least{length<R>::from_value(no_clearance<R>()), number<R>(0)};
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        const R dip = reach(s.saddle_x - crest_x[i]);
        const length<R> gap = run.over(crest_x[i], crest_z[i]) - dip * abs(displacement);
        const auto smaller = is_less(gap, least.gap);
        least.gap = select(smaller, gap, least.gap);
        least.fret = select(smaller, number<R>(static_cast<double>(i + 1)), least.fret);
    }
    return least;
}

/// The hardest clean plucks of up to W notes, pressed at `pressed` and at the frets after it; `most` has room for as many
/// as are wanted. Each note has its own plucked place and tension. The room over a fret is its gap divided by the share
/// of the displacement that reaches it; rooms are compared without dividing.
template <std::size_t W, class R>
constexpr void hardest_clean_plucks(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                    std::span<const length<R>> crest_z, std::size_t pressed,
                                    const std::array<length<R>, W>& places, const std::array<force<R>, W>& tensions,
                                    std::span<basic_clean_pluck<R>> most) {
    using S = search_t<R>;
    const auto from = [&](std::size_t k) { return std::min(pressed + k, crest_x.size()); };
    std::array<S, W> x, z, slope, l, per_near, per_far, least_gap, its_share, fret;
    for (std::size_t k = 0; k < W; ++k) {
        const auto seen = searched(run_from<R>(s, crest_x, crest_z, from(k)));
        const pluck_reach<S> reach(tautline::searched(places[k]), seen.saddle_x - seen.x);
        x[k] = seen.x.value();
        z[k] = seen.z.value();
        slope[k] = seen.slope;
        l[k] = reach.l;
        per_near[k] = reach.per_near;
        per_far[k] = reach.per_far;
        least_gap[k] = no_clearance<S>();
        its_share[k] = number<S>(1);
        fret[k] = number<S>(0);
    }
    const S saddle_x = tautline::searched(length<R>(s.saddle_x)).value();
    for_frets_ahead<W, S>(
        pressed, crest_x.size(), [&](std::size_t i, std::size_t k) __attribute__((always_inline)) {
            const S cx = tautline::searched(crest_x[i]).value(), cz = tautline::searched(crest_z[i]).value();
            const S gap = max(S(z[k] + slope[k] * (cx - x[k]) - cz), number<S>(0));
            const S share = pluck_reach<S>::at(S(saddle_x - cx), l[k], per_near[k], per_far[k]);
            const S least = least_gap[k], least_share = its_share[k], least_fret = fret[k];
            const auto smaller = gap * least_share < least * share;
            const S next = select(smaller, gap, least), next_share = select(smaller, share, least_share);
            const S met = select(smaller, number<S>(static_cast<double>(static_cast<int>(i + 1))), least_fret);
            least_gap[k] = next;
            its_share[k] = next_share;
            fret[k] = met;
        });
    for (std::size_t k = 0; k < most.size(); ++k) {
        most[k].fret = R(fret[k]);
        length<R> speaking;
        if constexpr (std::is_same_v<S, R>) {
            speaking = length<R>::from_value(l[k]);
            most[k].displacement = length<R>::from_value(least_gap[k] / its_share[k]);
        } else {
            const auto its_run = run_from<R>(s, crest_x, crest_z, from(k));
            const auto met = static_cast<std::size_t>(fret[k]);
            speaking = its_run.saddle_x - its_run.x;
            most[k].displacement = met == 0 ? length<R>::from_value(no_clearance<R>())
                                            : max(its_run.over(crest_x[met - 1], crest_z[met - 1]), length<R>{}) /
                                                  pluck_reach<R>(places[k], speaking)(its_run.saddle_x - crest_x[met - 1]);
        }
        most[k].pull = most[k].displacement / pluck_give<R>(places[k], speaking, tensions[k]);
    }
}

} // namespace kernel

/// How far a force displaces a string at the plucked place, `F p (l - p) / (T l)`.
/// @param pull F, square to the board
/// @param from_saddle p, from the saddle to the plucked place, more than 0 and less than the speaking length
/// @param speaking l, the speaking length
/// @param tension T, more than 0
[[nodiscard]] constexpr auto pluck_displacement(a_force auto pull, a_length auto from_saddle, a_length auto speaking,
                                                a_force auto tension) {
    using R = common_real_t<decltype(pull), decltype(from_saddle), decltype(speaking), decltype(tension)>;
    require("pull", pull, any_finite<unit::force>());
    require("speaking", speaking, more_than(0 * units::mm));
    require("from_saddle", from_saddle, more_than(0 * units::mm));
    require("tension", tension, more_than(0 * units::N));
    require_that(in_all_lanes(over<R>(from_saddle).value() < over<R>(speaking).value()), "from_saddle",
                 "must be less than the speaking length");
    return kernel::pluck_give<R>(over<R>(from_saddle), over<R>(speaking), over<R>(tension)) * over<R>(pull);
}
/// Refused: other kinds, or these in another order.
template <of_any_kind... Given>
messages::wanted_are<messages::FORCE, messages::LENGTH, messages::LENGTH, messages::FORCE> pluck_displacement(Given...)
    TAUTLINE_REFUSED("wanted are a FORCE, a LENGTH, a LENGTH, a FORCE: pluck_displacement(2*N, 100*mm, 640*mm, 70*N)");

/// Checks a plucked place for a string pressed at fret `pressed`.
template <class R = double>
void require_pluck(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                   std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                   param<length<R>> from_saddle) {
    require_crests(s, crest_x, crest_z);
    require_that(pressed <= crest_x.size(), "pressed", "must be the number of a fret, or 0 for the open string");
    const length<R> x0 = pressed == 0 ? length<R>(s.nut_x) : crest_x[pressed - 1];
    require("from_saddle", from_saddle, more_than(0 * units::mm));
    require_that(in_all_lanes(from_saddle.value() < (s.saddle_x - x0).value()), "from_saddle",
                 "must be less than the speaking length: nobody plucks behind the pressed fret");
}

/// Least gap over the frets ahead while a plucked string swings, the worse of pulled away and pushed down. Returns
/// nothing where no fret is ahead. Less than 0: it buzzes.
/// @param displacement at the plucked place, square to the board; its sign does not matter
template <class R = double>
[[nodiscard]] std::optional<basic_least_clearance<R>>
plucked_clearance(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                  std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                  param<length<R>> from_saddle, param<length<R>> displacement) {
    require_pluck(s, crest_x, crest_z, pressed, from_saddle);
    require("displacement", displacement, any_finite<unit::length>());
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::plucked_clearance<R>(s, crest_x, crest_z, pressed, from_saddle, displacement);
}

/// The hardest pluck that clears every fret ahead. Returns nothing where no fret is ahead.
/// @param tension of the pressed string, more than 0
template <class R = double>
[[nodiscard]] std::optional<basic_clean_pluck<R>>
hardest_clean_pluck(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                    std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed,
                    param<length<R>> from_saddle, param<force<R>> tension) {
    require_pluck(s, crest_x, crest_z, pressed, from_saddle);
    require("tension", tension, more_than(0 * units::N));
    if (pressed == crest_x.size()) { return std::nullopt; }
    basic_clean_pluck<R> most;
    kernel::hardest_clean_plucks<1, R>(s, crest_x, crest_z, pressed, {from_saddle}, {tension}, {&most, 1});
    return most;
}

} // namespace tautline
