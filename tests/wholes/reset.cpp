/// @file
/// There and back with a neck reset: the turn that a plan tells, given to the neck as plane geometry, makes the wished
/// action.
///
/// The neck turns as a stiff body about the edge where it meets the body: nut and crests go, the saddle does not (all in
/// their places at pitch). A plan tells the turn "instead of all saddle changes": with the saddle left where it was found,
/// or where a limit of its height holds it, the strings must then stand as high as was wished.
///
/// Source: plane geometry; the worked example is of an independent model.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/setup/plan.hpp>

#include "check.hpp"
#include "found_and_wished.hpp"
#include "near.hpp"
#include "plain_geometry.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

double si(const auto& q) { return q.value(); }

/// A place of the neck once it has turned by `by` about an edge, head back and down.
spot reset(const spot& p, const spot& edge, double by) {
    const spot d = p - edge;
    return edge + spot{d.x * std::cos(by) - d.z * std::sin(by), d.y, d.x * std::sin(by) + d.z * std::cos(by)};
}
/// Height of the line from nut to saddle over a crest.
double height_of(const spot& nut, const spot& saddle, const spot& crest) {
    return nut.z + (saddle.z - nut.z) * (crest.x - nut.x) / (saddle.x - nut.x) - crest.z;
}

/// Mean height of the strings over the wished fret, the neck turned so.
double action_after(const setup& s, std::size_t fret, const spot& edge, double by) {
    double sum = 0;
    for (const auto& one : s.strings) {
        const spot nut{si(one.line.nut_x), 0, si(one.line.nut_z)}, saddle{si(one.line.saddle_x), 0, si(one.line.saddle_z)};
        const spot crest{si(s.fret_x[fret]), 0, si(one.crest_z[fret])};
        sum += height_of(reset(nut, edge, by), saddle, reset(crest, edge, by));
    }
    return sum / static_cast<double>(s.strings.size());
}
/// Mean of what is wished, from the first string to the last in proportion to their places.
double wished_action(const setup& s, const wishes& wish) {
    double sum = 0;
    const double first = si(s.strings.front().y_at_nut), spread = si(s.strings.back().y_at_nut) - first;
    for (const auto& one : s.strings) {
        const double share = s.strings.size() == 1 ? 0 : (si(one.y_at_nut) - first) / spread;
        sum += si(*wish.action_bass) + share * si(*wish.action_treble - *wish.action_bass);
    }
    return sum / static_cast<double>(s.strings.size());
}

/// The wishes of an instrument whose saddle stands otherwise, and the plan's turn tried.
bool reset_gives_action(const whole& w, complaints& wrong, const std::function<bool(const setup_plan&, wishes&)>& limited) {
    wishes wish;
    const auto other = set_otherwise(w, keep_rod);
    if (!other || !wish_heights(*other, wish)) { return false; }
    auto plan = make_plan(both(w), wish);
    if (!limited(plan, wish)) { return false; }
    plan = make_plan(both(w), wish);
    if (!plan.neck_reset) { return false; }
    const auto fret = static_cast<std::size_t>(wish.action_fret) - 1;
    const double wished = wished_action(plan.solved, wish), turn = si(plan.neck_reset->turn);
    const spot edge{si(joint_place(w.built)), 0, 0};
    // As found, but for the slots; or held by a limit.
    auto kept = plan.set.instrument;
    kept.saddle = w.built.saddle;
    const auto as_found = solve(kept, w.strung);
    const double before = action_after(as_found, fret, edge, 0), after = action_after(as_found, fret, edge, turn);
    const double at_limit = action_after(plan.solved, fret, edge, turn);
    const double allowed = 2e-5 + 0.05 * std::abs(before - wished);
    if (std::abs(after - wished) > allowed && std::abs(at_limit - wished) > allowed) {
        wrong.unless_near("action after a turn of " + std::to_string(1000 * turn) +
                              " mrad with the saddle as found, from " + std::to_string(1000 * before) + " mm",
                          after, wished, allowed);
        wrong.unless_near("action with the saddle as far as its limit lets it", at_limit, wished, allowed);
    }
    return true;
}

} // namespace

TEST_SUITE("reset") {
    TEST_CASE("plane geometry of a reset: a worked example") {
        const spot edge{640 * (1 - std::exp2(-14 / 12.0)), 0, -6}, nut{0, 0, 3.0}, saddle{642, 0, 6.0};
        const auto crest = [&](double x) { return spot{x, 0, 1.1 + 1.5 * (1 - x / edge.x)}; };
        const spot octave = crest(320);
        CHECK(near::within(height_of(nut, saddle, octave), 3.2478, 5e-5));
        const double by = 7.32126e-3;
        CHECK(near::within(height_of(reset(nut, edge, by), saddle, reset(octave, edge, by)), 2.2, 2e-5));
        const spot moved = reset(nut, edge, by) - nut;
        CHECK(near::within(moved.x, -0.05638, 1e-5));
        CHECK(near::within(moved.z, -2.59863, 1e-5));
        CHECK(near::within(reset(octave, edge, by).x - octave.x, -0.05213, 1e-5));
        CHECK(near::within(reset({460, 0, -6}, edge, by).z + 6, 0.76937, 1e-5));
    }
    TEST_CASE("a reset instead of the saddle's change gives the wished action") {
        must_hold("reset", 100, [](const whole& w, complaints& wrong) {
            return reset_gives_action(w, wrong, [](const setup_plan&, wishes&) { return true; });
        });
    }
    TEST_CASE("a reset gives the wished action also where a limit of the saddle's height binds") {
        must_hold("reset at a limit", 100, [](const whole& w, complaints& wrong) {
            return reset_gives_action(w, wrong, [&](const setup_plan& free, wishes& wish) {
                // A limit half way between the saddle as found and as it would be wanted.
                const auto& now = w.built.saddle;
                const auto& wanted = free.set.instrument.saddle;
                const auto halfway = 0.5 * (now.height_bass + wanted.height_bass);
                if (abs(wanted.height_bass - now.height_bass) < 0.1 * mm) { return false; }
                if (wanted.height_bass < now.height_bass) {
                    wish.lowest_saddle = halfway;
                } else {
                    wish.highest_saddle = halfway;
                }
                return true;
            });
        });
    }
}
