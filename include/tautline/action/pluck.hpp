#pragma once
/// @file
/// How low a plucked string swings, and the hardest pluck that stays clear of every fret.
///
/// Source: d'Alembert. A string let go from a triangle sweeps the parallelogram (0, 0), (p, a), (l, 0), (l - p, -a), with
/// distances counted from the saddle. The string is taken as limp and without losses over its first swings: that is the
/// worst case.

#include <algorithm>
#include <array>
#include <optional>

#include "../core/number_row.hpp"
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
    [[nodiscard, gnu::always_inline]] constexpr R operator()(const length<R>& q) const {
        // The higher of two triangles of height 1, with their corners at p and at l - p.
        const R& from_saddle = q.value();
        const R rest = l - from_saddle;
        return min(R(min(from_saddle, rest) * per_near), R(max(from_saddle, rest) * per_far));
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
    basic_least_clearance<R> least{length<R>::from_value(number<R>(no_clearance)), number<R>(0)};
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        const R dip = reach(s.saddle_x - crest_x[i]);
        const length<R> gap = run.over(crest_x[i], crest_z[i]) - dip * abs(displacement);
        const auto smaller = is_less(gap, least.gap - length<R>::from_value(number<R>(same_clearance)));
        least.fret = select(smaller, number<R>(static_cast<double>(i + 1)), least.fret);
        least.gap = min(least.gap, gap);
    }
    return least;
}

/// The hardest clean pluck of a note with derivatives. The search in plain numbers found the fret, and the room there is
/// taken again. Without frets ahead it is more than any, at fret 0.
template <class R>
[[nodiscard]] constexpr basic_clean_pluck<R> pluck_found(const search_t<R>& room, const search_t<R>& fret,
                                                         const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                                         std::span<const length<R>> crest_z, std::size_t pressed,
                                                         const length<R>& p, const force<R>& tension) {
    const auto start = place_pressed<R>(s, crest_x, crest_z, pressed);
    const length<R> speaking = s.saddle_x - start.x;
    const auto met = static_cast<std::size_t>(fret);
    if (met == 0) {
        const length<R> displacement = length<R>::from_value(R(room));
        return {displacement, displacement / pluck_give<R>(p, speaking, tension), R(fret)};
    }
    const length<R> rise = s.saddle_z - start.z, from_saddle = s.saddle_x - crest_x[met - 1],
                    below_saddle = s.saddle_z - crest_z[met - 1];
    const auto found = by_local_slopes(
        [](const auto& l, const auto& up, const auto& q, const auto& below, const auto& plucked, const auto& pull)
            __attribute__((always_inline)) {
                using D = std::remove_cvref_t<decltype(l)>;
                const auto metres = [](const D& x) { return length<D>::from_value(x); };
                const D gap = max(D(below - up / l * q), number<D>(0));
                const D here = gap / pluck_reach<D>(metres(plucked), metres(l))(metres(q));
                return std::array<D, 2>{
                    here, here / pluck_give<D>(metres(plucked), metres(l), force<D>::from_value(pull)).value()};
            },
        speaking.value(), rise.value(), from_saddle.value(), below_saddle.value(), p.value(), tension.value());
    return {length<R>::from_value(found[0]), force<R>::from_value(found[1]), R(fret)};
}

/// How many notes are looked at together: as many built-in numbers as a row holds.
template <class R>
inline constexpr std::size_t notes_together = places_in<row_of<search_t<R>>>;

/// Least clearances and hardest clean plucks of notes pressed at `pressed` and at the frets after it. Both look at the
/// same gaps. For a pluck the room over a fret is the gap divided by the share of the displacement that reaches it. Every
/// fret ahead is looked at, so all notes of a string together cost half the square of its number of frets.
/// @param places   the plucked place of each note
/// @param tensions of each pressed note
/// @param clearances,plucks as many as are wanted, `notes_together` at most
template <class R>
constexpr void rooms_of_notes(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                              std::span<const length<R>> crest_z, std::size_t pressed,
                              const std::array<length<R>, notes_together<R>>& places,
                              const std::array<force<R>, notes_together<R>>& tensions,
                              std::span<basic_least_clearance<R>> clearances, std::span<basic_clean_pluck<R>> plucks) {
    using S = search_t<R>;
    using V = row_of<S>;
    constexpr std::size_t W = notes_together<R>;
    const std::size_t frets = crest_x.size();
    const auto plain = [](const length<R>& q) { return length<S>::from_value(searched(q.value())); };
    const auto start = [&](std::size_t k) { return place_pressed<R>(s, crest_x, crest_z, std::min(pressed + k, frets)); };
    const length<S> saddle_x = plain(s.saddle_x), saddle_z = plain(s.saddle_z);
    const length<V> speaking_end = everywhere<V>(saddle_x);
    const auto run = run_between<V>(quantity_row<V>([&](std::size_t k) { return plain(start(k).x); }),
                                    quantity_row<V>([&](std::size_t k) { return plain(start(k).z); }), speaking_end,
                                    everywhere<V>(saddle_z));
    const length<V> plucked = quantity_row<V>([&](std::size_t k) { return plain(places[k]); });
    const length<V> speaking = speaking_end - run.x;
    const pluck_reach<V> reach(plucked, speaking);
    const V none = number<V>(no_clearance), one = number<V>(1);
    V fret = number<V>(static_cast<double>(pressed));
    least_of_frets<V> gaps, rooms;
    const auto look = [&](std::size_t i, auto ahead_of_all) __attribute__((always_inline)) {
        const length<S> x = plain(crest_x[i]);
        const length<V> from_saddle = everywhere<V>(saddle_x - x),
                        below_saddle = everywhere<V>(saddle_z - plain(crest_z[i]));
        V gap = (below_saddle - run.slope * from_saddle).value();
        V room = max(gap, number<V>(0)) / reach(from_saddle);
        if constexpr (!ahead_of_all) {
            const auto ahead = is_less(run.x, everywhere<V>(x));
            gap = select(ahead, gap, none);
            room = select(ahead, room, none);
        }
        fret = fret + one;
        gaps.offer(gap, fret);
        rooms.offer(room, fret);
    };
    std::size_t i = pressed;
    for (; i + 1 < pressed + W && i < frets; ++i) { look(i, std::false_type{}); }
    for (; i < frets; ++i) { look(i, std::true_type{}); }
    if constexpr (std::is_same_v<S, R>) {
        const force<V> tension = quantity_row<V>([&](std::size_t k) { return tensions[k]; });
        const force<V> pull = length<V>::from_value(rooms.least) / pluck_give<V>(plucked, speaking, tension);
        for (std::size_t k = 0; k < plucks.size(); ++k) {
            clearances[k] = {length<R>::from_value(at_place(gaps.least, k)), at_place(gaps.fret, k)};
            plucks[k] = {length<R>::from_value(at_place(rooms.least, k)), force<R>::from_value(at_place(pull.value(), k)),
                         at_place(rooms.fret, k)};
        }
    } else {
        for (std::size_t k = 0; k < plucks.size(); ++k) {
            clearances[k] =
                clearance_found<R>(at_place(gaps.least, k), at_place(gaps.fret, k), s, crest_x, crest_z, pressed + k);
            plucks[k] = pluck_found<R>(at_place(rooms.least, k), at_place(rooms.fret, k), s, crest_x, crest_z, pressed + k,
                                       places[k], tensions[k]);
        }
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
    kernel::require_fret_number("pressed", pressed, 0, crest_x.size());
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
    std::array<length<R>, kernel::notes_together<R>> places;
    std::array<force<R>, kernel::notes_together<R>> tensions;
    places.fill(from_saddle);
    tensions.fill(tension);
    basic_least_clearance<R> least;
    basic_clean_pluck<R> most;
    kernel::rooms_of_notes<R>(s, crest_x, crest_z, pressed, places, tensions, {&least, 1}, {&most, 1});
    return most;
}

} // namespace tautline
