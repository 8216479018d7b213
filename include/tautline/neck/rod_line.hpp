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
    /// Height at x, where the neck has the set `set_here`; 0 without a rod.
    [[nodiscard]] length<R> over_neck(const length<R>& x, const length<R>& set_here) const {
        if (!rod_) { return {}; }
        length<R> height = rod_height<R>(*rod_, x);
        if (straight_) {
            // The neck's line follows the set; the rod runs straight under the chord.
            const R along = ratio(x - rod_->x_from, rod_->x_to - rod_->x_from);
            height += set_from_ + (set_to_ - set_from_) * along - set_here;
        }
        return height;
    }

private:
    const basic_truss_rod<R>* rod_ = nullptr;
    bool straight_ = false;
    length<R> set_from_{}, set_to_{};
};

} // namespace tautline::kernel
