#pragma once
/// @file
/// The places of a neck that no step of its beam may cross: where something begins, ends or kinks.

#include <cstddef>
#include <vector>

#include "neck.hpp"

namespace tautline {

/// A place that no step of a beam crosses. Where two things begin or end at one place, each keeps its own break, sorted
/// by `order`, and a step of length 0 lies between them. So the derivatives by each of the two are right.
template <class R = double>
struct basic_beam_break {
    using real = R;
    length<R> x{}; ///< along the neck
    int order = 0; ///< 0 and up, among breaks of one place

    /// Whether this break does not come after another along the beam: by x, then by `order`.
    [[nodiscard]] constexpr bool not_after(const basic_beam_break& other) const {
        return one_answer(is_less(x, other.x)) || (!one_answer(is_less(other.x, x)) && order <= other.order);
    }

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x", self.x...);
        visit("order", self.order...);
    }
};
using beam_break = basic_beam_break<double>;

namespace kernel {

/// Orders of the breaks at joint and nut among others at the same place. By them whatever begins at the nut or ends at
/// the joint reaches there.
inline constexpr int joint_order = -1000000, nut_order = 1000000;

/// Whether a thing that runs from break `from` to break `to` is present between two other breaks.
template <class R>
[[nodiscard]] constexpr bool reaches(const basic_beam_break<R>& from, const basic_beam_break<R>& to,
                                     const basic_beam_break<R>& left, const basic_beam_break<R>& right) {
    return from.not_after(left) && right.not_after(to);
}
/// Whether the rod reaches there. The orders of breaks are numbered: two for the rod, then two for each insert, then
/// one for each fret.
template <class R>
[[nodiscard]] constexpr bool rod_reaches(const std::optional<basic_truss_rod<R>>& rod, const basic_beam_break<R>& left,
                                         const basic_beam_break<R>& right) {
    return rod.has_value() && reaches<R>({rod->x_from, 1}, {rod->x_to, 2}, left, right);
}
[[nodiscard]] constexpr int insert_order(std::size_t i) { return 3 + 2 * static_cast<int>(i); }
template <class R>
[[nodiscard]] constexpr int tang_order(const basic_neck<R>& n, std::size_t i) {
    return insert_order(n.inserts.size()) + static_cast<int>(i);
}

/// Adds a break at its place in the order, if it lies inside the beam.
template <class R>
constexpr void add_break(std::vector<basic_beam_break<R>>& breaks, const basic_beam_break<R>& one) {
    if (!breaks.front().not_after(one) || !one.not_after(breaks.back())) { return; }
    std::size_t i = 0;
    while (breaks[i].not_after(one)) { ++i; }
    breaks.insert(breaks.begin() + static_cast<std::ptrdiff_t>(i), one);
}
/// The same for a kink. It needs no break of its own where there is one already.
template <class R>
constexpr void add_kink(std::vector<basic_beam_break<R>>& breaks, const length<R>& x) {
    const auto same_place = breaks.back().x * number<R>(1e-9L);
    for (const auto& b : breaks) {
        if (one_answer(abs(b.x.value() - x.value()) <= same_place.value())) { return; }
    }
    add_break<R>(breaks, {x, 0});
}

/// The breaks that every beam has: the nut, the joint and the ends of its rod.
template <class R>
constexpr void begin_breaks(const length<R>& joint, const std::optional<basic_truss_rod<R>>& rod,
                            std::vector<basic_beam_break<R>>& breaks) {
    breaks.clear();
    breaks.push_back({length<R>(), nut_order});
    breaks.push_back({joint, joint_order});
    if (rod.has_value()) {
        add_break<R>(breaks, {rod->x_from, 1});
        add_break<R>(breaks, {rod->x_to, 2});
    }
}

template <class R>
constexpr void find_breaks(const basic_neck<R>& n, std::vector<basic_beam_break<R>>& breaks) {
    begin_breaks<R>(n.joint, n.rod, breaks);
    for (std::size_t i = 0; i < n.inserts.size(); ++i) {
        add_break<R>(breaks, {n.inserts[i].x_from, insert_order(i)});
        add_break<R>(breaks, {n.inserts[i].x_to, insert_order(i) + 1});
    }
    if (n.slots.has_value() && (one_answer(number<R>(0) < n.slots->share) || bears_less<R>(*n.slots))) {
        for (std::size_t i = 0; i < n.slots->places.size(); ++i) {
            add_break<R>(breaks, {n.slots->places[i], tang_order(n, i)});
        }
    }
    for (const auto& s : n.stations) { add_kink<R>(breaks, s.x); }
    for (const auto& m : n.set) { add_kink<R>(breaks, m.x); }
}

/// The fret in front of which two breaks lie, counted from 0; none beyond the last.
template <class R>
[[nodiscard]] constexpr std::optional<std::size_t> bay_between(const basic_neck<R>& n, const basic_beam_break<R>& left,
                                                               const basic_beam_break<R>& right) {
    basic_beam_break<R> from{length<R>(), -nut_order};
    for (std::size_t i = 0; i < n.slots->places.size(); ++i) {
        const basic_beam_break<R> to{n.slots->places[i], tang_order(n, i)};
        if (reaches(from, to, left, right)) { return i; }
        from = to;
    }
    return std::nullopt;
}

} // namespace kernel

} // namespace tautline
