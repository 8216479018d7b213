#pragma once
/// @file
/// From the instrument's millimetres to paper, heights stretched by a round factor.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <tautline/core/quantity_text.hpp>

#include "paper.hpp"

namespace drawing {

/// The extent of something along one axis. Values that are not finite do not count.
struct extent {
    double least = INFINITY;
    double most = -INFINITY;

    void take(double v) {
        if (!std::isfinite(v)) { return; }
        least = std::min(least, v);
        most = std::max(most, v);
    }
    [[nodiscard]] double size() const { return most - least; }
};

/// Lengths by one scale, heights by the same times `stretch`.
struct view {
    double x0 = 0, left = 0, scale = 1, z0 = 0, bottom = 0, stretch = 1;

    [[nodiscard]] place of(place p) const { return {left + (p.x - x0) * scale, bottom - (p.y - z0) * scale * stretch}; }
    [[nodiscard]] std::vector<place> of(const std::vector<place>& points) const {
        std::vector<place> out;
        for (const place& p : points) { out.push_back(of(p)); }
        return out;
    }
    /// "heights 15x, lengths 1 : 3".
    [[nodiscard]] std::string words() const {
        return "heights " + tautline::number_text(stretch) +
               "x, lengths 1 : " + tautline::number_text(std::round(10 / scale) / 10);
    }
};

/// A view that fills the width of `room`. Heights are stretched by the largest round factor that fits its height.
[[nodiscard]] inline view fitted_view(const box& room, const extent& x, const extent& z) {
    view v;
    v.x0 = x.least;
    v.left = room.left;
    v.scale = room.width / std::max(1.0, x.size());
    const double range = std::max(0.01, z.size());
    v.stretch = 0.05;
    for (const double f :
         {0.1, 0.2, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0}) {
        if (f * range * v.scale <= room.height) { v.stretch = f; }
    }
    v.z0 = z.least;
    v.bottom = room.bottom() - (room.height - range * v.scale * v.stretch) / 2;
    return v;
}

} // namespace drawing
