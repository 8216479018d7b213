#pragma once
/// @file
/// What a pressed string clears: the least gap between the string and the frets ahead of the one it is pressed at.

#include <limits>
#include <optional>

#include "height.hpp"

namespace tautline {

/// The least gap and where it is.
template <class R>
struct basic_least_clearance {
    using real = R;
    length<R> gap{}; ///< 0 or less: the string touches
    R fret{};        ///< number of the fret where the gap is least, a whole number (for packs one a lane)

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("gap", self.gap...);
        visit("fret", self.fret...);
    }

    /// The fret's number as an integer.
    [[nodiscard]] constexpr int fret_number() const { return static_cast<int>(value_of(fret)); }
};
using least_clearance_result = basic_least_clearance<double>;

namespace kernel {

/// More than any gap, to start a search from.
template <class R>
[[nodiscard]] constexpr basic_least_clearance<R> no_clearance() {
    return {length<R>::from_value(number<R>(1e30L)), R{}};
}
/// Takes the gap over crest `i` where it is the lesser.
template <class R>
constexpr void take_lesser(basic_least_clearance<R>& least, const length<R>& gap, std::size_t i) {
    const auto smaller = less(gap, least.gap);
    least.gap = select(smaller, gap, least.gap);
    least.fret = select(smaller, number<R>(static_cast<double>(i + 1)), least.fret);
}

/// A string from where it is pressed (0: the nut) straight to its saddle.
template <class R>
struct pressed_run {
    length<R> x{}, z{}; ///< where it starts
    length<R> saddle_x{};
    R slope{};

    [[nodiscard]] constexpr length<R> over(const length<R>& crest_x, const length<R>& crest_z) const {
        return z + slope * (crest_x - x) - crest_z;
    }
};
template <class R>
[[nodiscard]] constexpr pressed_run<R> run_from(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                                std::span<const length<R>> crest_z, std::size_t pressed) {
    const length<R> x = pressed == 0 ? length<R>(s.nut_x) : crest_x[pressed - 1];
    const length<R> z = pressed == 0 ? length<R>(s.nut_z) : crest_z[pressed - 1];
    return {x, z, s.saddle_x, ratio(s.saddle_z - z, s.saddle_x - x)};
}
/// The same run as a search looks at it.
template <class R>
[[nodiscard]] constexpr pressed_run<search_t<R>> searched(const pressed_run<R>& run) {
    return {tautline::searched(run.x), tautline::searched(run.z), tautline::searched(run.saddle_x),
            tautline::searched(run.slope)};
}

/// Least gap over the frets after `pressed`. Every fret ahead is looked at, so that all notes of a string together take
/// half the square of its frets. Of equal gaps the one nearest the nut is named.
template <class R>
[[nodiscard]] constexpr basic_least_clearance<R> least_clearance(const basic_string_line<R>& s,
                                                                 std::span<const length<R>> crest_x,
                                                                 std::span<const length<R>> crest_z, std::size_t pressed) {
    if (pressed == crest_x.size()) { return no_clearance<R>(); }
    using S = search_t<R>;
    const auto run = run_from<R>(s, crest_x, crest_z, pressed);
    const pressed_run<S> seen = searched(run);
    basic_least_clearance<S> least = no_clearance<S>();
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        take_lesser<S>(least, seen.over(tautline::searched(crest_x[i]), tautline::searched(crest_z[i])), i);
    }
    if constexpr (std::is_same_v<S, R>) {
        return least;
    } else {
        const auto met = static_cast<std::size_t>(least.fret_number() - 1);
        return {run.over(crest_x[met], crest_z[met]), R(least.fret)};
    }
}

} // namespace kernel

/// Least gap between a string pressed at fret `pressed` and the frets ahead of it; `pressed` 0 is the open string. Nothing
/// when no fret follows. A gap of 0 or less says that the note frets out.
/// @param crest_x,crest_z crests under this string, fret 1 first, under load
template <class R>
[[nodiscard]] std::optional<basic_least_clearance<R>>
least_clearance(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed) {
    require_crests(s, crest_x, crest_z);
    require_that(pressed <= crest_x.size(), "pressed", "must be the number of a fret, or 0 for the open string");
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::least_clearance<R>(s, crest_x, crest_z, pressed);
}

} // namespace tautline
