#pragma once
/// @file
/// Where the axis of a neck's rod runs over the neck's own line.

#include <optional>
#include <vector>

#include "neck.hpp"
#include "truss_rod.hpp"

namespace tautline::kernel {

/// Heights of the axis of a neck's rod over the neck's own line, as the neutral axis is given too.
template <class R>
class rod_line {
public:
    rod_line(const std::optional<basic_truss_rod<R>>& rod, const std::vector<basic_permanent_bow_mark<R>>& set) {
        if (!rod.has_value()) { return; }
        rod_ = &*rod;
        // On a neck with a set a rod that is free in its hole stays straight. A rod held in its channel follows the
        // set.
        straight_ = rod->free_in_channel && !rod->two_way() && !set.empty();
        if (straight_) {
            set_from_ = permanent_bow_at<R>(set, rod->x_from);
            set_to_ = permanent_bow_at<R>(set, rod->x_to);
        }
    }
    /// Height at x, where the neck has the set `set_here`; 0 without a rod. V is R, or a row of places.
    template <class V>
    [[nodiscard]] length<V> over_neck(const length<V>& x, const length<V>& set_here) const {
        if (!rod_) { return {}; }
        length<V> height = rod_height<R, V>(*rod_, x);
        if (straight_) {
            // The neck's line follows the set; the rod runs straight under the chord.
            const length<R> span = rod_->x_to - rod_->x_from, rise = set_to_ - set_from_;
            const V along = ratio(length<V>(x - everywhere<V>(rod_->x_from)), length<V>(everywhere<V>(span)));
            height += everywhere<V>(set_from_) + everywhere<V>(rise) * along - set_here;
        }
        return height;
    }

private:
    const basic_truss_rod<R>* rod_ = nullptr;
    bool straight_ = false;
    length<R> set_from_{}, set_to_{};
};

} // namespace tautline::kernel
