// A made-up neck for the tests: tapered, ebony-like board on a mahogany-like back, channel and rod.
#pragma once

#include <cmath>
#include <vector>

#include <tautline/neck/wanted.hpp>

namespace demo {

using namespace tautline;
using namespace tautline::units;

inline neck plain_neck() {
    return {.stations = {{.x = 0 * mm,
                          .half_width = 21 * mm,
                          .board_thickness = 6 * mm,
                          .board_arc = 1 / 0.305 * per_metre,
                          .back_depth = 15 * mm,
                          .back_exponent = 2.2},
                         {.x = 180 * mm,
                          .half_width = 24.5 * mm,
                          .board_thickness = 6 * mm,
                          .board_arc = 1 / 0.35 * per_metre,
                          .back_depth = 16 * mm,
                          .back_exponent = 2.0},
                         {.x = 360 * mm,
                          .half_width = 27.5 * mm,
                          .board_thickness = 6.2 * mm,
                          .board_arc = 1 / 0.4 * per_metre,
                          .back_depth = 19 * mm,
                          .back_exponent = 1.9}},
            .board_modulus = 15 * GPa,
            .back_modulus = 10 * GPa,
            .joint = 347.7 * mm};
}
inline neck neck_with_rod() {
    neck n = plain_neck();
    n.inserts.push_back(
        {.x_from = 10 * mm, .x_to = 332 * mm, .top = -8 * mm, .width = 6 * mm, .height = 9 * mm, .modulus = 0 * GPa});
    n.rod = truss_rod{.x_from = 10 * mm, .x_to = 332 * mm, .z_ends = -13.5 * mm, .dip = 0 * mm};
    return n;
}
inline std::vector<string_pull> strings(double pull = 110) {
    std::vector<string_pull> all;
    for (int i = 0; i < 6; ++i) {
        all.push_back({.pull = (pull + 3 * i) * N,
                       .z_nut = (1.9 - 0.05 * i) * mm,
                       .z_saddle = (12 - 0.3 * i) * mm,
                       .x_saddle = 629 * mm});
    }
    return all;
}
inline std::vector<crest> crests(int frets = 20) {
    std::vector<crest> all;
    for (int n = 1; n <= frets; ++n) { all.push_back({.x = 627 * (1 - std::exp2(-n / 12.0)) * mm, .z = 1.1 * mm}); }
    return all;
}
/// Every kind of thing at once: rod free in its hole, channel, bar, tangs, a damp board, a joint that gives, creep, a set.
inline neck everything() {
    neck n = neck_with_rod();
    n.rod->free_in_channel = true;
    n.rod->dip = 1 * mm;
    n.inserts.push_back({.x_from = 40 * mm,
                         .x_to = 300 * mm,
                         .y = 8 * mm,
                         .top = -7 * mm,
                         .width = 3 * mm,
                         .height = 4 * mm,
                         .wall = 0.8 * mm,
                         .modulus = 120 * GPa});
    n.slots = fret_slots{.interference = 0.05 * mm, .share = 0.3, .tang_depth = 2 * mm};
    for (const auto& c : crests(13)) { n.slots->places.push_back(c.x); }
    n.board_strain = 2e-5;
    n.joint_stiffness = 20000 * N_m_per_rad;
    n.creep_factor = 1.2;
    n.set = {{.x = -2 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = -0.12 * mm}, {.x = 340 * mm, .z = 0 * mm}};
    return n;
}
inline relief_case relief_from_first_to_joint() {
    return {.strings = strings(), .crests = crests(), .first = 0, .last = 13};
}

} // namespace demo
