#pragma once
/// @file
/// Relief of a neck under its strings: the pulls, the crests under a straightedge, and the gaps there.

#include "buckling.hpp"
#include "loaded_frets.hpp"

namespace tautline {

/// The strings on a neck, and the crests between which relief is taken.
template <class R = double>
struct basic_relief_case {
    using real = R;
    std::vector<basic_string_pull<R>> strings{}; ///< what pulls, bass first
    nut_kind nut = nut_kind::square;             ///< how the strings' ends ride on the neck
    std::vector<basic_crest<R>> crests{};        ///< on the straight, unloaded neck, x increasing
    std::size_t first = 0; ///< number of the crest that carries the straightedge toward the nut, from 0
    std::size_t last = 0;  ///< the same toward the body; at least two after `first`

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("strings", self.strings...);
        visit("nut", self.nut...);
        visit("crests", self.crests...);
        visit("first", self.first...);
        visit("last", self.last...);
    }
    template <class Report>
    void rules(Report&& report) const {
        if (!(first < last && last < crests.size())) {
            report("last", "must be one of the crests, after the first one");
        } else if (last - first < 2) {
            report("last", "must leave at least one crest between the two that carry the straightedge");
        }
        for (std::size_t i = 1; i < crests.size(); ++i) {
            if (!in_all_lanes(crests[i - 1].x.value() < crests[i].x.value())) {
                report(messages::path_of("crests", i, "x"), "must be further from the nut than the crest before it");
            }
        }
    }
};
using relief_case = basic_relief_case<double>;

/// Relief of a beam under the strings and a rod's pull. Throws `invalid_input` as `bend` does.
template <class R = double>
[[nodiscard]] basic_relief<R> relief_under(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c,
                                           param<force<R>> rod_pull = force<R>()) {
    require_valid(c, "case");
    const auto loaded = loaded_crests(bend(beam, c.strings, rod_pull, c.nut), c.crests);
    return relief_between<R>(loaded, c.first, c.last);
}

namespace kernel {

/// The greatest and the least gap between a straightedge and the crests under it. On a hollow neck both are above 0, on
/// a back-bowed neck both are below. Neither jumps when the load changes. The relief, which is the gap of larger
/// magnitude, does: where both are equally large it jumps from one to the other.
template <class R>
struct gap_range {
    length<R> hollow{}; ///< the greatest
    length<R> back{};   ///< the least

    /// More than 0 where the hollow is larger and is read as relief, less than 0 where the back-bow is.
    [[nodiscard]] length<R> lean() const { return hollow + back; }
    /// The relief, as `relief_between` reads it.
    [[nodiscard]] length<R> relief() const {
        const auto bowed_back = is_less(lean(), length<R>());
        return select<decltype(bowed_back), unit::length, R>(bowed_back, back, hollow);
    }
    /// How far the relief lies above a wish, as a function for searches that never jumps. It is 0 where the relief
    /// equals the wish. Where hollow and back-bow are equally large, no relief smaller than these can be read; for a
    /// smaller wish it is 0 there. With `tie` more than 0 the hollow is read at that place, with `tie` less than 0 the
    /// back-bow.
    [[nodiscard]] length<R> above(const length<R>& wish, const length<R>& tie) const {
        const length<R> left = lean() - tie;
        const auto bowed_back = is_less(wish, length<R>());
        return select<decltype(bowed_back), unit::length, R>(bowed_back, max<unit::length, R>(back - wish, left),
                                                             min<unit::length, R>(hollow - wish, left));
    }
};

/// A gap so small that nobody can tell it from 0.
template <class R>
[[nodiscard]] constexpr length<R> hair() {
    return length<R>::from_value(number<R>(1e-12L));
}

template <class R>
[[nodiscard]] gap_range<R> gaps_of(const basic_bow<R>& bowed, const basic_relief_case<R>& c) {
    const auto loaded_z = [&](std::size_t i) {
        return c.crests[i].z + load_deflection_at<R>(bowed, c.crests[i].x) + permanent_bow_at<R>(bowed.set, c.crests[i].x);
    };
    const auto &a = c.crests[c.first], &b = c.crests[c.last];
    const length<R> za = loaded_z(c.first), zb = loaded_z(c.last);
    gap_range<R> gaps;
    for (std::size_t i = c.first + 1; i < c.last; ++i) {
        const length<R> gap = za + (zb - za) * ratio(c.crests[i].x - a.x, b.x - a.x) - loaded_z(i);
        const bool first = i == c.first + 1;
        gaps.hollow = first ? gap : max<unit::length, R>(gaps.hollow, gap);
        gaps.back = first ? gap : min<unit::length, R>(gaps.back, gap);
    }
    return gaps;
}

/// Gaps with the pull of all strings times `share`; 0 is slack. For searches: the load must not buckle the neck.
template <class R>
[[nodiscard]] gap_range<R> gaps_under(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c, const R& share,
                                      const force<R>& rod_pull) {
    auto problem = problem_of<R>(beam, c.strings, rod_pull, c.nut);
    problem.scale_strings(share);
    basic_bow<R> bowed;
    (void)kernel::bend(problem, bowed);
    return gaps_of(bowed, c);
}

/// How many times the pull of the given strings a neck bears with certainty before it buckles, at most ten. The rod's
/// pull grows with them or stays.
template <class R>
[[nodiscard]] R bearable_share(const basic_neck_beam<R>& beam, const basic_relief_case<R>& c, const force<R>& rod_pull,
                               rod_load rod) {
    const R ten = number<R>(10);
    auto problem = problem_of<R>(beam, c.strings, rod_pull, c.nut);
    problem.scale_strings(ten);
    if (rod == rod_load::grows) { problem.rod_pull = rod_pull * ten; }
    return min(ten, R(number<R>(0.98L) * ten * buckling_share(problem, rod)));
}

} // namespace kernel

} // namespace tautline
