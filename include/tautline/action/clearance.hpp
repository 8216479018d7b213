#pragma once
/// @file
/// What a pressed string clears: the least gap between the string and the frets ahead of the pressed one.

#include <optional>

#include "../core/local_slopes.hpp"
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
/// In metres, what two gaps that are equal by right may differ by.
inline constexpr long double same_clearance = 1e-12L;

/// A string that runs straight from where it is pressed (0: the nut) to its saddle.
template <class R>
struct pressed_run {
    length<R> x{}; ///< where the run starts
    length<R> saddle_x{}, saddle_z{};
    R slope{};

    [[nodiscard]] constexpr length<R> over(const length<R>& crest_x, const length<R>& crest_z) const {
        return (saddle_z - crest_z) - slope * (saddle_x - crest_x);
    }
};
template <class R>
[[nodiscard, gnu::always_inline]] constexpr pressed_run<R>
run_between(const length<R>& x, const length<R>& z, const length<R>& saddle_x, const length<R>& saddle_z) {
    return {x, saddle_x, saddle_z, ratio(saddle_z - z, saddle_x - x)};
}
/// Where a note pressed at `pressed` starts to sound.
template <class R>
struct pressed_place {
    length<R> x{}, z{};
};
template <class R>
[[nodiscard]] constexpr pressed_place<R> place_pressed(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                                       std::span<const length<R>> crest_z, std::size_t pressed) {
    if (pressed == 0) { return {s.nut_x, s.nut_z}; }
    return {crest_x[pressed - 1], crest_z[pressed - 1]};
}
template <class R>
[[nodiscard]] constexpr pressed_run<R> run_from(const basic_string_line<R>& s, std::span<const length<R>> crest_x,
                                                std::span<const length<R>> crest_z, std::size_t pressed) {
    const auto start = place_pressed<R>(s, crest_x, crest_z, pressed);
    return run_between<R>(start.x, start.z, s.saddle_x, s.saddle_z);
}

/// The least of the numbers that were offered for frets in their order, with its fret. Of equal ones it is the lowest fret,
/// and what rounding alone sets apart is equal: over straight frets a hard pluck meets several at once. A row holds as many
/// searches side by side.
template <class V>
struct least_of_frets {
    V least = number<V>(no_clearance), fret = number<V>(0);

    [[gnu::always_inline]] constexpr void offer(const V& here, const V& its_fret) {
        // The number of its fret is greater than all before.
        fret = max(fret, select(here < least - number<V>(same_clearance), its_fret, number<V>(0)));
        least = min(least, here);
    }
};

/// The least clearance of a note from the least gap that a search found. Where the search was in plainer numbers, it
/// found the fret, and the gap there is taken again. Without frets ahead the gap is more than any, at fret 0.
template <class R>
[[nodiscard]] constexpr basic_least_clearance<R>
clearance_found(const search_t<R>& gap, const search_t<R>& fret, const basic_string_line<R>& s,
                std::span<const length<R>> crest_x, std::span<const length<R>> crest_z, std::size_t pressed) {
    if constexpr (std::is_same_v<search_t<R>, R>) {
        return {length<R>::from_value(gap), fret};
    } else {
        const auto met = static_cast<std::size_t>(fret);
        if (met == 0) { return {length<R>::from_value(R(gap)), R(fret)}; }
        const auto start = place_pressed<R>(s, crest_x, crest_z, pressed);
        const length<R> speaking = s.saddle_x - start.x, rise = s.saddle_z - start.z,
                        from_saddle = s.saddle_x - crest_x[met - 1];
        const R line = by_local_slopes(
            [](const auto& l, const auto& up, const auto& q) __attribute__((always_inline)) {
                using D = std::remove_cvref_t<decltype(l)>;
                return std::array<D, 1>{up / l * q};
            },
            speaking.value(), rise.value(), from_saddle.value())[0];
        return {(s.saddle_z - crest_z[met - 1]) - length<R>::from_value(line), R(fret)};
    }
}

/// Least gap over the frets ahead of a note pressed at `pressed`. Every fret ahead is looked at. Of equal gaps the one
/// nearest the nut counts.
template <class R>
[[nodiscard]] constexpr basic_least_clearance<R> least_clearance(const basic_string_line<R>& s,
                                                                 std::span<const length<R>> crest_x,
                                                                 std::span<const length<R>> crest_z, std::size_t pressed) {
    using S = search_t<R>;
    const auto plain = [](const length<R>& q) { return length<S>::from_value(searched(q.value())); };
    const auto start = place_pressed<R>(s, crest_x, crest_z, pressed);
    const auto run = run_between<S>(plain(start.x), plain(start.z), plain(s.saddle_x), plain(s.saddle_z));
    least_of_frets<S> found;
    for (std::size_t i = pressed; i < crest_x.size(); ++i) {
        found.offer(run.over(plain(crest_x[i]), plain(crest_z[i])).value(), number<S>(static_cast<double>(i + 1)));
    }
    return clearance_found<R>(found.least, found.fret, s, crest_x, crest_z, pressed);
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
    kernel::require_fret_number("pressed", pressed, 0, crest_x.size());
    if (pressed == crest_x.size()) { return std::nullopt; }
    return kernel::least_clearance<R>(s, crest_x, crest_z, pressed);
}

} // namespace tautline
