#pragma once
/// @file
/// What a pressed string clears: the least gap between the string and the frets ahead of the pressed one.

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

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

/// More than any gap: what a search starts from.
template <class R>
[[nodiscard]] constexpr R no_clearance() {
    return number<R>(1e30L);
}

/// A string that runs straight from where it is pressed (0: the nut) to its saddle.
template <class R>
struct pressed_run {
    length<R> x{}, z{}; ///< where the run starts
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
/// The same run in the number type that the search uses.
template <class R>
[[nodiscard]] constexpr pressed_run<search_t<R>> searched(const pressed_run<R>& run) {
    return {tautline::searched(run.x), tautline::searched(run.z), tautline::searched(run.saddle_x),
            tautline::searched(run.slope)};
}

/// Calls `look(i, k)` for every fret i ahead of each of W runs; run k is pressed at `pressed + k`. Frets that lie ahead
/// of all W runs come in one loop of fixed length, of which compilers take several at once where R is built in. The
/// others come one after the other without a loop, so that the data of each run stays in registers.
template <std::size_t W, class R, class Look>
[[gnu::always_inline]] constexpr void for_frets_ahead(std::size_t pressed, std::size_t frets, Look&& look) {
    std::size_t i = pressed;
    for (; i + 1 < pressed + W && i < frets; ++i) {
        for (std::size_t k = 0; pressed + k <= i; ++k) { look(i, k); }
    }
    for (; i < frets; ++i) {
        if constexpr (std::is_floating_point_v<R>) {
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC unroll 1 // unrolled, g++ would take one at a time
#endif
            for (std::size_t k = 0; k < W; ++k) { look(i, k); }
        } else {
            [&]<std::size_t... k>(std::index_sequence<k...>) __attribute__((always_inline)) { (look(i, k), ...); }
            (std::make_index_sequence<W>{});
        }
    }
}

/// Least gaps over the frets ahead for up to W notes, pressed at `pressed` and at the frets after it; `least` has room
/// for as many as are wanted. Every fret ahead is looked at, so all notes of a string together cost half the square of
/// its number of frets. Of equal gaps the one nearest the nut counts. A note without frets ahead gets a gap that is more
/// than any, at fret 0.
template <std::size_t W, class R>
constexpr void least_clearances(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                std::span<const length<R>> crest_z, std::size_t pressed,
                                std::span<basic_least_clearance<R>> least) {
    using S = search_t<R>;
    const auto run = [&](std::size_t k) { return run_from<R>(s, crest_x, crest_z, std::min(pressed + k, crest_x.size())); };
    std::array<S, W> x, z, slope, gap, fret;
    for (std::size_t k = 0; k < W; ++k) {
        const auto seen = searched(run(k));
        x[k] = seen.x.value();
        z[k] = seen.z.value();
        slope[k] = seen.slope;
        gap[k] = no_clearance<S>();
        fret[k] = number<S>(0);
    }
    for_frets_ahead<W, S>(
        pressed, crest_x.size(), [&](std::size_t i, std::size_t k) __attribute__((always_inline)) {
            const S cx = tautline::searched(crest_x[i]).value(), cz = tautline::searched(crest_z[i]).value();
            const S here = z[k] + slope[k] * (cx - x[k]) - cz, so_far = gap[k], its_fret = fret[k];
            const auto smaller = here < so_far;
            const S lesser = select(smaller, here, so_far),
                    met = select(smaller, number<S>(static_cast<double>(static_cast<int>(i + 1))), its_fret);
            gap[k] = lesser;
            fret[k] = met;
        });
    for (std::size_t k = 0; k < least.size(); ++k) {
        least[k].fret = R(fret[k]);
        if constexpr (std::is_same_v<S, R>) {
            least[k].gap = length<R>::from_value(gap[k]);
        } else {
            const auto met = static_cast<std::size_t>(fret[k]);
            least[k].gap =
                met == 0 ? length<R>::from_value(no_clearance<R>()) : run(k).over(crest_x[met - 1], crest_z[met - 1]);
        }
    }
}
/// The same for all notes, from the open string up to the last that has a fret ahead.
template <class R>
constexpr void least_clearances(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                std::span<const length<R>> crest_z, std::span<basic_least_clearance<R>> out) {
    constexpr std::size_t W = side_by_side<search_t<R>>;
    for (std::size_t n = 0; n < out.size(); n += W) {
        least_clearances<W, R>(s, crest_x, crest_z, n, out.subspan(n, std::min(W, out.size() - n)));
    }
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
    basic_least_clearance<R> least;
    kernel::least_clearances<1, R>(s, crest_x, crest_z, pressed, {&least, 1});
    return least;
}

} // namespace tautline
