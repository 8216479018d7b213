/// @file
/// Told twice: what loose and empty fret slots cost a neck. The second telling integrates its own sections (plain_neck.hpp)
/// and bends the neck a second time with its slots filled (retold.hpp).

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include <tautline/setup/solve.hpp>

#include "check.hpp"
#include "retold.hpp"

namespace {

using namespace wholes;
using namespace tautline;

/// `int dx/EI` from nut to joint by Gauss's rule of two places, in short steps between breaks.
double compliance_of(const whole& w) {
    const plain_geometry g(w);
    const plain_neck n(w, g);
    const auto at = n.breaks();
    double sum = 0;
    for (std::size_t k = 1; k < at.size(); ++k) {
        const double middle = (at[k - 1] + at[k]) / 2;
        const int steps = 1 + static_cast<int>(std::ceil(20 * (at[k] - at[k - 1]) / n.joint()));
        const double wide = (at[k] - at[k - 1]) / steps;
        for (int j = 0; j < steps; ++j) {
            for (const double u : {0.5 - std::sqrt(1.0 / 12), 0.5 + std::sqrt(1.0 / 12)}) {
                sum += wide / 2 / n.section(at[k - 1] + wide * (j + u), middle).rigidity;
            }
        }
    }
    return sum;
}

} // namespace

TEST_SUITE("loose slots, told twice") {
    TEST_CASE("missing stiffness, relief that comes of it, and the finding") {
        must_hold(
            "loose slots", 100,
            [](const whole& w, complaints& wrong) {
                if (!w.built.neck.slots) { return false; }
                const strung_instrument on{w.built, w.stringing};
                whole filled = w;
                filled.built.neck.slots->bearing = 1;
                const auto now = retell(w), full = retell(filled);
                if (now.empty() || full.empty()) { return false; }
                const auto cost = loose_slots_of(on);
                if (w.built.neck.slots->bearing == 1) {
                    wrong.unless(cost.stiffness == 0 && cost.relief.value() == 0, "slots that bear all cost nothing");
                    return true;
                }
                wrong.unless_near("stiffness", cost.stiffness, 1 - compliance_of(filled) / compliance_of(w), 2e-5);
                wrong.unless(cost.stiffness >= 0 && cost.stiffness < 1, "a share of the stiffness");
                const auto a = now.find("board_relief.gap"), b = full.find("board_relief.gap");
                wrong.unless((a == now.end()) == (b == full.end()), "relief with slots that bear and without");
                const bool either = a == now.end() || !a->second.or_else.empty() || !b->second.or_else.empty();
                if (!either) {
                    const double off = a->second.allowed + b->second.allowed;
                    wrong.unless_near("relief", cost.relief.value(), a->second.number - b->second.number, off);
                    wrong.unless_near("relief with slots that bear", cost.relief_full.value(), b->second.number, off);
                }
                // It is told where something is missing, and there alone.
                const auto s = solve(on);
                const auto said = std::count_if(s.findings.begin(), s.findings.end(),
                                                [](const finding& f) { return f.kind == finding_kind::slots_loose; });
                wrong.unless(said == (w.built.neck.slots->bearing < 1 ? 1 : 0), "the finding");
                return true;
            },
            [](recipe& r) { r.loose = std::max(1, r.loose); });
    }
}
