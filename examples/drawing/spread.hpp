#pragma once
/// @file
/// Moves labels apart that would overlap.

#include <algorithm>
#include <vector>

namespace drawing {

/// Places at least `pitch` apart, in the order of `wanted` (ascending) and as near to it as possible: least squares, found
/// by pooling neighbours that collide.
[[nodiscard]] inline std::vector<double> spread_apart(const std::vector<double>& wanted, double pitch) {
    struct group {
        double sum = 0; ///< sum of the places, each less its label's offset in the group
        std::size_t count = 0;
        [[nodiscard]] double start() const { return sum / static_cast<double>(count); }
    };
    std::vector<group> groups;
    for (const double w : wanted) {
        groups.push_back({w, 1});
        while (groups.size() > 1) {
            group& before = groups[groups.size() - 2];
            const group last = groups.back();
            const double room = pitch * static_cast<double>(before.count);
            if (last.start() >= before.start() + room) { break; }
            before.sum += last.sum - room * static_cast<double>(last.count);
            before.count += last.count;
            groups.pop_back();
        }
    }
    std::vector<double> places;
    for (const group& g : groups) {
        for (std::size_t k = 0; k < g.count; ++k) { places.push_back(g.start() + pitch * static_cast<double>(k)); }
    }
    return places;
}

/// The same between two bounds, where there is room for all of them.
[[nodiscard]] inline std::vector<double> spread_within(const std::vector<double>& wanted, double pitch, double least,
                                                       double most) {
    std::vector<double> kept;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const double before = pitch * static_cast<double>(i), after = pitch * static_cast<double>(wanted.size() - 1 - i);
        kept.push_back(std::max(least + before, std::min(most - after, wanted[i])));
    }
    return spread_apart(kept, pitch);
}

} // namespace drawing
