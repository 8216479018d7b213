#pragma once
/// @file
/// A truss rod in a neck: where it runs and how it acts.

#include "../core/describe.hpp"
#include "../core/number_row.hpp"
#include "../core/units.hpp"

namespace tautline {

/// A rod from `x_from` to `x_to`. A single rod pulls its two anchors together below the neutral axis. A two-way rod is
/// a pair with a distance of `separation`: one pulls, the other pushes, and it bends the neck either way.
template <class R = double>
struct basic_truss_rod {
    using real = R;
    needed<length<R>> x_from; ///< end toward the nut; negative: in the headstock
    needed<length<R>> x_to;   ///< end toward the body
    needed<length<R>> z_ends; ///< height of the rod's axis at both anchors, negative: below the board's top
    needed<length<R>> dip;    ///< how much deeper the rod lies midway in a curved channel; 0 is straight
    field<length<R>> separation = length<R>(); ///< two-way rods: between the axes of the pair; 0 is a single rod
    /// True: the rod runs free in its hole and stays straight when the neck bends. False: the channel carries it along.
    bool free_in_channel = false;

    template <class Visit, class... Self>
    static constexpr void describe(Visit&& visit, Self&... self) {
        visit("x_from", between(-200 * units::mm, 2000 * units::mm), self.x_from...);
        visit("x_to", between(0 * units::mm, 2000 * units::mm), self.x_to...);
        visit("z_ends", between(-60 * units::mm, 0 * units::mm), self.z_ends...);
        visit("dip", between(-20 * units::mm, 20 * units::mm), self.dip...);
        visit("separation", between(0 * units::mm, 30 * units::mm).fair_default("a single rod"), self.separation...);
        visit("free_in_channel", self.free_in_channel...);
    }
    /// Whether it is a pair that bends the neck either way.
    [[nodiscard]] constexpr bool two_way() const { return one_answer(R() < separation.value()); }

    template <class Report>
    void rules(Report&& report) const {
        if (!in_all_lanes(x_from.value() < x_to.value())) { report("x_to", "must be further from the nut than x_from"); }
    }
};
using truss_rod = basic_truss_rod<double>;

namespace kernel {

/// Height of the rod's axis at x: a parabola through the anchors and the dip midway. V is R, or a row of places.
template <class R, class V = R>
[[nodiscard]] constexpr length<V> rod_height(const basic_truss_rod<R>& rod, const length<V>& x) {
    const length<R> span = rod.x_to - rod.x_from;
    const V u = ratio(length<V>(x - everywhere<V>(rod.x_from)), length<V>(everywhere<V>(span)));
    return everywhere<V>(rod.z_ends) - number<V>(4) * (everywhere<V>(rod.dip) * V(u * (number<V>(1) - u)));
}

} // namespace kernel

} // namespace tautline
