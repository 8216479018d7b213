// Random necks for the tests: every kind of board, rod, set and joint, strung, with crests worn unevenly.
#pragma once

#include <algorithm>
#include <random>

#include <tautline/neck/relief_case.hpp>

namespace demo {

using namespace tautline;
using namespace tautline::units;

/// A neck, what pulls on it and the crests its relief is read at.
struct strung_neck {
    neck bare;
    relief_case c{};
};

/// Which rod it has.
enum class rod_kind { none, held, free, two_way };

/// A valid neck of its own for each number; every number gives the same neck everywhere.
class random_necks {
public:
    explicit random_necks(unsigned seed) : random_(seed) {}

    strung_neck operator()(rod_kind kind) {
        const double scale = any(330, 900), joint_fret = whole(10, 20);
        const double joint = scale * (1 - std::exp2(-joint_fret / 12));
        const double width = any(17, 24), depth = any(12, 19), exponent = any(1.6, 2.6), board = any(4.5, 7);
        const double arc = chance(0.2) ? 0 : 1000 / any(180, 500), cone = chance(0.5) ? 1 : any(0.5, 1);
        strung_neck made;
        neck& n = made.bare;
        for (const double u : {0.0, 1.0}) {
            n.stations.push_back({.x = u * (joint + 5) * mm,
                                  .half_width = width * (1 + 0.25 * u) * mm,
                                  .board_thickness = board * mm,
                                  .board_arc = arc * (u > 0 ? cone : 1) * per_metre,
                                  .back_depth = depth * (1 + 0.2 * u) * mm,
                                  .back_exponent = exponent});
        }
        n.board_modulus = any(10, 18) * GPa;
        n.back_modulus = any(7, 13) * GPa;
        n.joint = joint * mm;
        if (chance(0.3)) { n.joint_stiffness = any(5000, 30000) * N_m_per_rad; }
        if (chance(0.3)) { n.creep_factor = any(1, 1.5); }
        if (chance(0.5)) {
            const double hollow = any(-0.3, 0.3), at = any(0.3, 0.7);
            n.set = {{.x = 0 * mm, .z = any(-0.1, 0.1) * mm},
                     {.x = at * joint * mm, .z = -hollow * mm},
                     {.x = joint * mm, .z = 0 * mm}};
        }
        if (kind != rod_kind::none) { fit_rod(n, kind, joint, board, depth); }
        for (int f = 1; f <= joint_fret; ++f) {
            const double x = scale * (1 - std::exp2(-f / 12.0));
            made.c.crests.push_back({.x = x * mm, .z = (1.1 + any(-0.012, 0.012)) * mm});
            if (n.slots) { n.slots->places.push_back(x * mm); }
        }
        made.c.last = made.c.crests.size() - 1;
        const int count = whole(1, 12);
        // As much in all as a neck of this size carries.
        const double pull = any(150, 900) * std::pow(600 / scale, 0.5) / count;
        for (int i = 0; i < count; ++i) {
            made.c.strings.push_back({.pull = pull * any(0.8, 1.2) * N,
                                      .z_nut = any(1.4, 2.4) * mm,
                                      .z_saddle = any(6, 16) * mm,
                                      .x_saddle = scale * 1.005 * mm});
        }
        return made;
    }
    double any(double from, double to) { return std::uniform_real_distribution<double>(from, to)(random_); }

private:
    int whole(int from, int to) { return std::uniform_int_distribution<int>(from, to)(random_); }
    bool chance(double share) { return any(0, 1) < share; }
    void fit_rod(neck& n, rod_kind kind, double joint, double board, double depth) {
        const double from = chance(0.3) ? any(-30, 0) : any(5, 20), to = joint * any(0.9, 0.97);
        n.rod = truss_rod{
            .x_from = from * mm, .x_to = to * mm, .z_ends = -(board + any(0.62, 0.72) * depth) * mm, .dip = 0 * mm};
        n.rod->free_in_channel = kind == rod_kind::free;
        if (kind == rod_kind::two_way) { n.rod->separation = any(4, 7) * mm; }
        n.inserts.push_back({.x_from = std::max(from, 0.0) * mm,
                             .x_to = to * mm,
                             .top = -board * mm,
                             .width = 5.5 * mm,
                             .height = 0.78 * depth * mm,
                             .modulus = 0 * GPa});
        if (chance(0.3)) { n.slots = fret_slots{.interference = 0.04 * mm, .share = any(0.05, 0.3), .tang_depth = 2 * mm}; }
    }
    std::mt19937 random_;
};

} // namespace demo
