/// @file
/// There and back with a neck alone: a neck calibrated with what it does itself gets back the moduli that it has; strings
/// as heavy as a limit allows keep it; and what is told of the second order is what the bow does.
///
/// Necks are as strung instruments have them, with tangs wedged into their slots or not: hollow, near straight, back-bowed
/// when slack and with the strings on, far from buckling and near.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/neck/calibration.hpp>
#include <tautline/neck/second_order.hpp>
#include <tautline/neck/wanted.hpp>
#include <tautline/setup/solve.hpp>

#include "check.hpp"
#include "plain_neck.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

double si(const auto& q) { return q.value(); }

/// The neck of an instrument with its strings on, its crests and its rod.
struct strung_neck {
    neck n;
    relief_case on{}, off{}; ///< strings on, strings off
    force<> rod{};

    strung_neck(const whole& w, const setup& s) : n(s.neck), rod(w.built.neck.pull_of_rod()) {
        for (std::size_t k = 0; k < s.fret_x.size(); ++k) {
            on.crests.push_back({s.fret_x[k], crown_left(w.built.frets, static_cast<int>(k) + 1)});
        }
        on.last = std::min(s.fret_x.size(), static_cast<std::size_t>(w.built.neck.joint_fret)) - 1;
        off = on;
        on.strings = s.pulls;
        if (w.from.other > 30) {
            // Tangs wedge the board: the slack neck stands back.
            fret_slots tight;
            tight.interference = 0.002 * (w.from.other - 30) * mm;
            tight.share = 0.2;
            tight.tang_depth = 1.5 * mm;
            for (const auto& x : s.fret_x) { tight.places.push_back(x); }
            n.slots = tight;
        }
    }
    [[nodiscard]] length<> change_of(const neck& which) const {
        const auto beam = make_beam(which);
        return relief_under<double>(beam, on, rod).gap - relief_under<double>(beam, off, rod).gap;
    }
};

neck with_moduli(neck n, double factor) {
    n.board_modulus = n.board_modulus * factor;
    n.back_modulus = n.back_modulus * factor;
    return n;
}

/// Enough frets for a relief; half of the necks near straight or back-bowed.
void with_relief(recipe& r) {
    r.frets = std::max(5, r.frets);
    r.joint = std::min(r.joint, r.frets - 5);
}

} // namespace

TEST_SUITE("there and back: a neck alone") {
    TEST_CASE("calibrated with its own answers a neck gets its moduli back") {
        must_hold(
            "calibrate_moduli", 200,
            [](const whole& w, complaints& wrong) {
                const auto s = solve(strung_instrument{w.built, w.stringing});
                if (!s.relief) { return false; }
                const strung_neck true_one(w, s);
                const double factor = 0.75 + 0.006 * w.from.wish;
                length<> change{};
                try {
                    change = true_one.change_of(true_one.n);
                } catch (const invalid_input&) { return false; } // it buckles without its strings
                if (!(change > 0.005 * mm)) { return false; }
                const auto guessed = with_moduli(true_one.n, 1 / factor);
                const auto found = calibrate_moduli<double>(guessed, true_one.on, change, 0.01 * mm, true_one.rod);
                wrong.unless(found.reachable, "its own answer is told to be out of reach");
                wrong.unless_near("change of relief that the calibrated neck shows", si(true_one.change_of(found.neck)),
                                  si(change), 1e-8);
                wrong.unless_near("predicted", si(found.predicted), si(change), 1e-8);
                if (found.unique) { wrong.unless_near("factor", found.factor, factor, 1e-4 * factor); }
                return true;
            },
            with_relief);
    }
    TEST_CASE("the heaviest strings that are told keep the limit, and heavier ones do not") {
        must_hold(
            "heaviest_strings", 100,
            [](const whole& w, complaints& wrong) {
                const auto s = solve(strung_instrument{w.built, w.stringing});
                if (!s.relief) { return false; }
                const strung_neck neck_one(w, s);
                const auto limit = (0.01 + 0.004 * w.from.wish) * mm;
                const auto beam = make_beam(neck_one.n);
                const auto told = heaviest_strings<double>(beam, neck_one.on, limit, neck_one.rod);
                if (!told) {
                    // None keep it: the bare neck passes it already, or the lightest would.
                    auto light = neck_one.on;
                    for (auto& p : light.strings) { p.pull = p.pull * 1e-4; }
                    const auto bare = relief_under<double>(beam, light, neck_one.rod).gap;
                    wrong.unless(bare > limit - 1e-6 * mm, "no strings are told to keep the hollow at " +
                                                               std::to_string(1000 * si(limit)) +
                                                               " mm, and some do: " + std::to_string(1000 * si(bare)));
                    return true;
                }
                wrong.unless(told->relief <= limit + 1e-6 * mm, "strings of share " + std::to_string(told->share) +
                                                                    " are told to keep the hollow at " +
                                                                    std::to_string(1000 * si(limit)) + " mm, and it is " +
                                                                    std::to_string(1000 * si(told->relief)));
                return true;
            },
            with_relief);
    }
    TEST_CASE("growth by the second order is what it is told to be") {
        must_hold(
            "second_order_growth", 200,
            [](const whole& w, complaints& wrong) {
                // A set bends the lines without load, and so does what grows or wedges; behind a slanted nut there is none.
                if (!w.built.neck.set.empty() || w.built.neck.told_by_edges() || w.from.moister > 0 || w.from.wedged > 0 ||
                    w.built.board.scale.fan) {
                    return false;
                }
                const auto s = solve(strung_instrument{w.built, w.stringing});
                const plain_geometry g(w);
                const plain_neck n(w, g);
                std::vector<plain_pull> pulls;
                for (const auto& p : s.pulls) {
                    pulls.push_back({si(p.pull), si(p.z_nut), si(p.z_saddle), si(p.x_saddle)});
                }
                const auto bow = n.bowed(pulls);
                if (!bow.settled || !(std::abs(bow.first_order_rise) > 0.2 * bow.parts)) { return false; } // nearly cancels
                const double growth = bow.rise() / bow.first_order_rise;
                wrong.unless_near("growth", second_order_growth<double>(s.beam, s.pulls, w.built.neck.pull_of_rod()),
                                  growth, 1e-4 * growth);
                return true;
            },
            [](recipe& r) { r.set = r.edges = r.moister = r.wedged = r.fan = 0; });
    }
}
