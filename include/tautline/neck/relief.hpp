#pragma once
/// @file
/// Relief: how far the frets between two frets lie below the straight line over those two, or stand above it.

#include <span>
#include <vector>

#include "../core/describe.hpp"
#include "../core/units.hpp"

namespace tautline {

/// The place of a fret's crest, on a loaded or an unloaded neck.
template <class R = double>
struct basic_crest {
    using real = R;
    needed<length<R>> x; ///< along the board
    needed<length<R>> z; ///< of the crest

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", about_an_instrument(), self.x...);
        visit("z", about_an_instrument(), self.z...);
    }
};
using crest = basic_crest<double>;

/// Relief and where it is largest.
template <class R = double>
struct basic_relief {
    using real = R;
    length<R> gap{};       ///< straightedge to crest; positive is hollow, negative is back-bow
    length<R> x{};         ///< place of that crest
    std::size_t index = 0; ///< number of that crest, from 0; for a pack that of its first lane, while `x` has each lane's

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("gap", self.gap...);
        visit("x", self.x...);
        visit("index", self.index...);
    }
};
using relief = basic_relief<double>;

namespace kernel {

/// Refuses a crest whose place or height is no number.
template <class R>
constexpr void require_crest(const basic_crest<R>& c) {
    require("crest.z", c.z, any_finite<unit::length>());
    require("crest.x", c.x, any_finite<unit::length>());
}

/// Distance from the straight line over crests `first` and `last` down to crest `i`.
template <class R>
[[nodiscard]] constexpr length<R> gap_below_line(std::span<const basic_crest<R>> crests, std::size_t first,
                                                 std::size_t last, std::size_t i) {
    const auto &a = crests[first], &b = crests[last], &c = crests[i];
    return a.z + (b.z - a.z) * ratio(c.x - a.x, b.x - a.x) - c.z;
}

template <class R>
[[nodiscard]] constexpr basic_relief<R> relief_between(std::span<const basic_crest<R>> crests, std::size_t first,
                                                       std::size_t last) {
    basic_relief<R> most{{}, crests[first].x, first};
    R place = number<R>(static_cast<double>(first));
    for (std::size_t i = first + 1; i < last; ++i) {
        const length<R> gap = gap_below_line(crests, first, last, i);
        const auto larger = is_less(abs(most.gap), abs(gap));
        most.gap = select(larger, gap, most.gap);
        most.x = select<decltype(larger), unit::length, R>(larger, crests[i].x, most.x);
        place = select(larger, number<R>(static_cast<double>(i)), place);
    }
    const auto& plain = value_of(place);
    most.index = static_cast<std::size_t>(lanes_of<std::remove_cvref_t<decltype(plain)>>::get(plain, 0));
    return most;
}

} // namespace kernel

/// The gap of largest magnitude, with its sign, between the line over two crests and the crests between them. The gap
/// is 0 when no crest lies between.
///
/// @param crests      x increasing
/// @param first,last  which two carry the straightedge, counted from 0 in `crests`
template <class R>
[[nodiscard]] constexpr basic_relief<R> relief_between(std::span<const basic_crest<R>> crests, std::size_t first,
                                                       std::size_t last) {
    require_that(first < last, "last", "must be a crest after the first one");
    require_that(last < crests.size(), "last", "must be one of the crests given");
    for (std::size_t i = first; i <= last; ++i) {
        kernel::require_crest(crests[i]);
        require_that(i == first || in_all_lanes(crests[i - 1].x.value() < crests[i].x.value()), "crest.x",
                     "must be further from the nut than the crest before it");
    }
    return kernel::relief_between(crests, first, last);
}
/// The same of crests in a vector.
template <class R, class Allocator>
[[nodiscard]] constexpr basic_relief<R> relief_between(const std::vector<basic_crest<R>, Allocator>& crests,
                                                       std::size_t first, std::size_t last) {
    return relief_between(std::span<const basic_crest<R>>(crests), first, last);
}

} // namespace tautline
