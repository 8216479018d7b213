/// @file
/// There and back with a neck reset: the turn that a plan tells, given to the neck as plane geometry, makes the wished
/// action.
///
/// The neck turns as a stiff body about the edge where it meets the body: nut and crests go, the saddle does not (all in
/// their places at pitch). From the turn alone follows how high each outer saddle slot must then stand over the soundboard
/// for the wished action. Where nothing limits it their mean is the height that was wished, or as found; where a limit
/// binds, the slot that meets it stands at it.
///
/// Source: plane geometry; the worked example is of an independent model.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/job/plan.hpp>

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
spot turned_back(const spot& p, const spot& edge, double by) {
    const spot d = p - edge;
    return edge + spot{d.x * std::cos(by) - d.z * std::sin(by), d.y, d.x * std::sin(by) + d.z * std::cos(by)};
}
/// Height of the line from nut to saddle over a crest.
double height_of(const spot& nut, const spot& saddle, const spot& crest) {
    return nut.z + (saddle.z - nut.z) * (crest.x - nut.x) / (saddle.x - nut.x) - crest.z;
}

/// How high the slots of the outer strings must stand over the soundboard, once the neck is turned.
struct slots_needed {
    double bass = 0, treble = 0;
    [[nodiscard]] double mean() const { return (bass + treble) / 2; }
    [[nodiscard]] double highest() const { return std::max(bass, treble); }
    [[nodiscard]] double lowest() const { return std::min(bass, treble); }
};
/// @param w     as found: where saddle and edge are on the body
/// @param s     as planned: how neck and nut stand over the board's line under load, how the top gives
/// @param leave off the whole face of the joint
slots_needed slots_after(const whole& w, const setup& s, const wishes& wish, double turn, double leave) {
    const auto& b = w.built;
    const length<> joint = joint_place(b);
    const spot edge{si(joint), 0, -si(thickness_at(b.board, joint))};
    const auto fret = static_cast<std::size_t>(*wish.action_fret) - 1;
    const auto needed = [&](const auto& one, const length<>& setback, const length<>& first, const length<>& action) {
        const auto after = [&](const length<>& x, const length<>& z) {
            return turned_back({si(x), 0, si(z)}, edge, turn) + spot{leave, 0, 0};
        };
        // The line through both wishes; a zero fret carries the string where it is.
        const spot from = b.board.scale.zero_fret ? after(one.line.nut_x, one.line.nut_z)
                                                  : after(s.crest_places(one)[0], length<>(one.crest_z[0] + first));
        const spot over = after(s.crest_places(one)[fret], length<>(one.crest_z[fret] + action));
        const double x = si(saddle_line_at(b, one.y_at_saddle) + setback) - (s.top ? si(s.top->forward) : 0);
        const double z = from.z + (over.z - from.z) * (x - from.x) / (over.x - from.x);
        return z + si(b.saddle.board_line) + (s.top ? si(s.top->drop) : 0);
    };
    const auto set = kernel::outer_setbacks(b.saddle);
    slots_needed slots;
    slots.bass = needed(s.strings.front(), set.bass, *wish.first_fret_bass, *wish.action_bass);
    slots.treble = s.strings.size() == 1
                       ? slots.bass
                       : needed(s.strings.back(), set.treble, *wish.first_fret_treble, *wish.action_treble);
    return slots;
}
/// What second-order terms of small turns, and a bow that follows the saddle, may come to.
constexpr double near_enough = 3e-5;

/// The same instrument with its saddle higher or lower, and wishes for the heights that it then shows.
bool wish_otherwise(const whole& w, wishes& wish) {
    const auto other = set_otherwise(w, keep_rod);
    return other && wish_heights(*other, wish);
}
double found_mean(const whole& w) {
    const auto high = kernel::outer_saddle_heights(w.built.saddle);
    return w.stringing.strings.size() == 1 ? si(high.bass) : si(high.bass + high.treble) / 2;
}

/// A wanted reset, the saddle as found or at another height: slots that follow from the turn are those that were asked for.
bool reset_comes_out(const whole& w, complaints& wrong) {
    wishes wish;
    if (!wish_otherwise(w, wish)) { return false; }
    wish.reset = reset_wish{};
    wish.reset->leave = 0.01 * w.from.other * mm;
    double mean = found_mean(w);
    if (w.from.more % 2 == 1) {
        mean += 1e-5 * (w.from.more - 50);
        wish.reset->saddle_height = length<>::from_value(mean);
    }
    const auto plan = make_plan(both(w), wish);
    for (const auto& f : plan.shortfalls) {
        // One arc may not suit all strings; those that it misses are told besides.
        wrong.unless(f.string_index.has_value(), "not met: " + f.wish + ", " + f.why);
    }
    const auto slots = slots_after(w, plan.solved, wish, si(plan.reset->turn), si(wish.reset->leave));
    wrong.unless_near("mean height of the outer slots after a turn of " + std::to_string(1000 * si(plan.reset->turn)) +
                          " mrad",
                      slots.mean(), mean, near_enough);
    wrong.unless_near("bass slot as told", si(plan.saddle_height.front()), slots.bass, near_enough);
    wrong.unless_near("treble slot as told", si(plan.saddle_height.back()), slots.treble, near_enough);
    return true;
}
/// A limit half way between the saddle as found and as it would be wanted: one outer slot stands at it after the turn.
bool reset_instead_comes_out(const whole& w, complaints& wrong) {
    wishes wish;
    if (!wish_otherwise(w, wish)) { return false; }
    const auto free = make_plan(both(w), wish);
    const auto now = kernel::outer_saddle_heights(w.built.saddle),
               wanted = kernel::outer_saddle_heights(free.adjusted.instrument.saddle);
    const auto up = wanted.bass - now.bass;
    if (abs(up) < 0.1 * mm) { return false; }
    const bool low = up < 0 * mm;
    const length<> limit = now.bass + 0.5 * up;
    (low ? wish.lowest_saddle : wish.highest_saddle) = limit;
    const auto plan = make_plan(both(w), wish);
    if (!plan.reset_instead) { return false; }
    const auto slots = slots_after(w, plan.solved, wish, si(plan.reset_instead->turn), 0);
    wrong.unless_near(std::string(low ? "lowest" : "highest") + " of the outer slots after a turn of " +
                          std::to_string(1000 * si(plan.reset_instead->turn)) + " mrad",
                      low ? slots.lowest() : slots.highest(), si(limit), 5 * near_enough);
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
        CHECK(near::within(height_of(turned_back(nut, edge, by), saddle, turned_back(octave, edge, by)), 2.2, 2e-5));
        const spot moved = turned_back(nut, edge, by) - nut;
        CHECK(near::within(moved.x, -0.05638, 1e-5));
        CHECK(near::within(moved.z, -2.59863, 1e-5));
        CHECK(near::within(turned_back(octave, edge, by).x - octave.x, -0.05213, 1e-5));
        CHECK(near::within(turned_back({460, 0, -6}, edge, by).z + 6, 0.76937, 1e-5));
    }
    TEST_CASE("a wanted reset gives the wished action with the saddle as high as it is to be") {
        must_hold("reset", 80, reset_comes_out, [](recipe& r) {
            r.state = r.state == 3 ? 0 : r.state; // near buckling the load follows every change
            r.strings = std::max(1, r.strings);
        });
    }
    TEST_CASE("the same for a single string, whose saddle has one height") {
        must_hold("reset of one string", 40, reset_comes_out, [](recipe& r) {
            r.state = r.state == 3 ? 0 : r.state;
            r.strings = 0;
        });
    }
    TEST_CASE(
        "where a limit of the saddle binds, the reset that is told instead gives the wished action with the saddle at it") {
        must_hold("reset instead", 80, reset_instead_comes_out, [](recipe& r) {
            r.state = r.state == 3 ? 0 : r.state;
            r.strings = std::max(1, r.strings);
        });
    }
    TEST_CASE("the same limit for a single string") {
        must_hold("reset instead of one string", 40, reset_instead_comes_out, [](recipe& r) {
            r.state = r.state == 3 ? 0 : r.state;
            r.strings = 0;
        });
    }
    TEST_CASE("heights wished as found need no turn") {
        must_hold(
            "no reset", 60,
            [](const whole& w, complaints& wrong) {
                wishes wish;
                if (!wish_heights(w, wish)) { return false; }
                wish.reset = reset_wish{};
                const auto plan = make_plan(both(w), wish);
                wrong.unless_near("turn", si(plan.reset->turn), 0, 1e-6);
                return true;
            },
            // Strings between the outer ones are set in proportion to them, whether they were or not.
            [](recipe& r) { r.strings = std::min(1, r.strings); });
    }
}
