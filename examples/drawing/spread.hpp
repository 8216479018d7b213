#pragma once
/// @file
/// Labels that would lie on one another, moved apart.

#include <vector>

namespace drawing {

/// Places at least `pitch` apart, in the order of `wanted` (ascending), as near to it as can be: least squares, by pooling
/// neighbours that collide.
[[nodiscard]] inline std::vector<double> spread_apart(const std::vector<double>& wanted, double pitch) {
    struct group {
        double sum = 0; ///< of places, each less its label's offset in the group
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

} // namespace drawing
