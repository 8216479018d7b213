#pragma once
/// @file
/// What a pressed string clears: the least gap between the string and the frets ahead of the pressed one.

#include <optional>

#include "../core/row.hpp"
#include "height.hpp"

namespace tautline {

/// The least gap, and the fret where it is.
template <class R = double>
struct basic_least_clearance {
    using real = R;
    length<R> gap{}; ///< from crest to string, in height; 0 or less: the string touches
    R fret{};        ///< number of the fret where the gap is least, a whole number; for packs one in each lane

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

/// In metres, more than any gap: what a search starts from.
inline constexpr long double no_clearance = 1e30L;

/// A string that runs straight from where it is pressed (0: the nut) to its saddle.
template <class R>
struct pressed_run {
    length<R> x{}; ///< where the run starts
    length<R> saddle_x{};
    R slope{};
    length<R> at_zero{}; ///< height of its line at x = 0

    [[nodiscard]] constexpr length<R> over(const length<R>& crest_x, const length<R>& crest_z) const {
        return slope * crest_x + at_zero - crest_z;
    }
};
template <class R>
[[nodiscard]] constexpr pressed_run<R> run_from(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                                std::span<const length<R>> crest_z, std::size_t pressed) {
    const length<R> x = pressed == 0 ? length<R>(s.nut_x) : crest_x[pressed - 1];
    const length<R> z = pressed == 0 ? length<R>(s.nut_z) : crest_z[pressed - 1];
    const R slope = ratio(s.saddle_z - z, s.saddle_x - x);
    return {x, s.saddle_x, slope, z - slope * x};
}
/// The same run as a search looks at it, at every place of a row V alike.
template <class V, class R>
[[nodiscard]] constexpr pressed_run<V> seen_as(const pressed_run<R>& run) {
    const auto seen = [](const length<R>& q) { return length<V>::from_value(V(tautline::searched(q.value()))); };
    return {seen(run.x), seen(run.saddle_x), V(tautline::searched(run.slope)), seen(run.at_zero)};
}

/// Calls `look(x, z, fret)` for every crest ahead of a note pressed at fret `pressed`: where the crest is, and the number
/// of its fret, which grows. Built-in numbers come as rows, several frets side by side; those that do not fill a row come
/// first, one by one, at every place of a row alike.
template <class R, class Look>
[[gnu::always_inline]] constexpr void for_crests_ahead(std::span<const length<R>> crest_x, std::span<const length<R>> crest_z,
                                                       std::size_t pressed, Look&& look) {
    using V = row_of<search_t<R>>;
    using tautline::over;
    const auto x = [&](std::size_t i) __attribute__((always_inline)) { return tautline::searched(crest_x[i]); };
    const auto z = [&](std::size_t i) __attribute__((always_inline)) { return tautline::searched(crest_z[i]); };
    constexpr std::size_t W = places_in<V>;
    const auto number_of_fret = [](std::size_t n) { return static_cast<double>(static_cast<int>(n + 1)); };
    std::size_t i = pressed;
    for (; i < crest_x.size() && (W == 1 || (crest_x.size() - i) % W != 0); ++i) {
        look(over<V>(x(i)), over<V>(z(i)), number<V>(number_of_fret(i)));
    }
    if constexpr (W > 1) {
        V fret = row_from<V>([&](std::size_t k) { return static_cast<search_t<R>>(number_of_fret(i + k)); });
        for (; i < crest_x.size(); i += W) {
            look(quantity_row<V>([&](std::size_t k) { return x(i + k); }),
                 quantity_row<V>([&](std::size_t k) { return z(i + k); }), fret);
            fret = fret + number<V>(W);
        }
    }
}

/// The least of the numbers that were offered for frets in their order, with its fret. Of equal ones that of the lowest
/// fret counts.
template <class V>
struct least_of_frets {
    V least = number<V>(no_clearance), fret = number<V>(0);

    [[gnu::always_inline]] constexpr void offer(const V& here, const V& its_fret) {
        // The number of its fret is greater than all before.
        fret = max(fret, select(here < least, its_fret, number<V>(0)));
        least = min(least, here);
    }
    /// The same over the places of a row.
    [[nodiscard]] constexpr auto over_places() const {
        using S = std::remove_cvref_t<decltype(at_place(least, 0))>;
        least_of_frets<S> all{at_place(least, 0), at_place(fret, 0)};
        for (std::size_t k = 1; k < places_in<V>; ++k) {
            const S here = at_place(least, k), its_fret = at_place(fret, k);
            const auto nearer = here < all.least || (here == all.least && its_fret < all.fret);
            all = {select(nearer, here, all.least), select(nearer, its_fret, all.fret)};
        }
        return all;
    }
};

/// The least clearance from the least gap that a search found. A search in plainer numbers found the fret; the gap there
/// is then taken again.
template <class R, class S>
[[nodiscard]] constexpr basic_least_clearance<R> clearance_of(const least_of_frets<S>& found, const pressed_run<R>& run,
                                                              std::span<const length<R>> crest_x,
                                                              std::span<const length<R>> crest_z) {
    if constexpr (std::is_same_v<S, R>) {
        return {length<R>::from_value(found.least), found.fret};
    } else {
        const auto met = static_cast<std::size_t>(found.fret);
        return {met == 0 ? length<R>::from_value(number<R>(no_clearance)) : run.over(crest_x[met - 1], crest_z[met - 1]),
                R(found.fret)};
    }
}

/// Least gap over the frets ahead of a note pressed at `pressed`. Every fret ahead is looked at, so all notes of a string
/// together cost half the square of its number of frets. Of equal gaps the one nearest the nut counts. A note without
/// frets ahead gets a gap that is more than any, at fret 0.
template <class R>
[[nodiscard]] constexpr basic_least_clearance<R> least_clearance(const basic_string_line<R>& s,
                                                                 std::span<const length<R>> crest_x,
                                                                 std::span<const length<R>> crest_z, std::size_t pressed) {
    using V = row_of<search_t<R>>;
    const auto run = run_from<R>(s, crest_x, crest_z, pressed);
    const auto seen = seen_as<V>(run);
    least_of_frets<V> found;
    for_crests_ahead<R>(
        crest_x, crest_z, pressed, [&](const length<V>& x, const length<V>& z, const V& fret) __attribute__((always_inline)) {
            found.offer(seen.over(x, z).value(), fret);
        });
    return clearance_of<R>(found.over_places(), run, crest_x, crest_z);
}

} // namespace kernel

/// Least gap between a string pressed at fret `pressed` and the frets ahead of it. `pressed` 0 is the open string.
/// Returns nothing where no fret is ahead. A gap of 0 or less means that the note frets out.
/// @param crest_x,crest_z crests under this string, fret 1 first, under load
template <class R = double>
[[nodiscard]] std::optional<basic_least_clearance<R>>
least_clearance(const basic_string_line<R>& s, std::type_identity_t<std::span<const length<R>>> crest_x,
                std::type_identity_t<std::span<const length<R>>> crest_z, std::size_t pressed) {
    require_crests(s, crest_x, crest_z);
    require_that(pressed <= crest_x.size(), "pressed", "must be the number of a fret, or 0 for the open string");
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::least_clearance<R>(s, crest_x, crest_z, pressed);
}

} // namespace tautline
