#pragma once
/// @file
/// The neck and the pulls that benchmarks bend.

#include <vector>

#include <tautline/neck/bow.hpp>

namespace bench {

inline tautline::neck plain_neck() {
    using namespace tautline::units;
    tautline::neck n;
    for (const double u : {0.0, 1.0}) {
        n.stations.push_back({.x = 350 * u * mm,
                              .half_width = (21.5 + 6 * u) * mm,
                              .board_thickness = 6 * mm,
                              .board_arc = 3 * per_metre,
                              .back_depth = (15 + 3 * u) * mm});
    }
    n.board_modulus = 14 * GPa;
    n.back_modulus = 10 * GPa;
    n.joint = 348 * mm;
    return n;
}
inline std::vector<tautline::string_pull> six_pulls() {
    using namespace tautline::units;
    return std::vector<tautline::string_pull>(
        6, {.pull = 110 * N, .z_nut = 1.8 * mm, .z_saddle = 12 * mm, .x_saddle = 630 * mm});
}

} // namespace bench
