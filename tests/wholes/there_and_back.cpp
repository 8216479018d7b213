/// @file
/// There and back: what a plan sets gives, when it is solved, what was wished; what cannot be had comes as near as can be;
/// planning what was found changes nothing; and a model calibrated with its own answers gives its inputs back.
///
/// Wishes that can be had are made by setting an instrument otherwise (rod, slots, saddle, hanger, pins) and solving it:
/// its numbers are then wished of the instrument as it was. A search over every pull of the rod says what is the nearest.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/job/plan.hpp>

#include "check.hpp"
#include "found_and_wished.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

double si(const auto& q) { return q.value(); }

/// How near a wish counts as met: as a plan says of itself.
constexpr double met = 1e-6, met_force = 0.01;

void heights_met(complaints& wrong, const wishes& wish, const setup& s, bool zero_fret) {
    const auto fret = static_cast<std::size_t>(*wish.action_fret) - 1;
    const auto &bass = s.strings.front(), &treble = s.strings.back();
    // A zero fret's crown decides the height over the first fret.
    if (wish.first_fret_bass && !zero_fret) {
        wrong.unless_near("first_fret_bass", si(bass.heights[0]), si(*wish.first_fret_bass), met);
    }
    if (wish.action_bass) { wrong.unless_near("action_bass", si(bass.heights[fret]), si(*wish.action_bass), met); }
    if (s.strings.size() == 1) { return; }
    if (wish.first_fret_treble && !zero_fret) {
        wrong.unless_near("first_fret_treble", si(treble.heights[0]), si(*wish.first_fret_treble), met);
    }
    if (wish.action_treble) { wrong.unless_near("action_treble", si(treble.heights[fret]), si(*wish.action_treble), met); }
}

/// Whether the neck bears all that the rod may pull: a rod free in its channel can buckle it, and a plan refuses that.
bool bears_most(const whole& w, const wishes& wish) {
    const double most = si(wish.most_rod_pull);
    return !reliefs_over_pulls(w, w.built.neck.rod->two_way() ? -most : 0, most, 2).empty();
}

/// What the octave frets over each piece of a saddle still ask for has no mean, and its strings moved alike.
bool pieces_ask_nothing(const saddle& found, const saddle& set, const setup& s, complaints& wrong) {
    std::size_t first = 0;
    for (const int strings : set.pieces) {
        double sum = 0;
        const auto last = first + static_cast<std::size_t>(strings);
        const auto moved = [&](std::size_t i) { return si(set.single[i].setback) - si(found.single[i].setback); };
        const std::string name = "piece from string " + std::to_string(first + 1);
        for (std::size_t i = first; i < last; ++i) {
            sum += si(*s.strings[i].octave_setback);
            wrong.unless_near(name + ", its way", moved(i), moved(first), met);
        }
        wrong.unless_near(name + ", sum of octave_setback", sum, 0, met * strings);
        first = last;
    }
    return true;
}

/// Plans and solves what was set: `make_plan`'s own solution is not taken for it.
struct planned {
    setup_plan plan;
    setup solved;

    /// Whether the plan says that it misses something: near buckling, where the load follows every change, it may. Strings
    /// that one arc does not suit are no such thing.
    [[nodiscard]] bool restless() const {
        return std::any_of(plan.shortfalls.begin(), plan.shortfalls.end(),
                           [](const shortfall& f) { return !f.string_index; });
    }

    planned(const whole& w, const wishes& wish) : plan(make_plan(both(w), wish)), solved(solve(plan.adjusted)) {}
};

} // namespace

TEST_SUITE("there and back") {
    TEST_CASE("heights alone: slots and saddle give them") {
        must_hold("heights", 120, [](const whole& w, complaints& wrong) {
            wishes wish;
            const auto other = set_otherwise(w, keep_rod);
            if (!other || !wish_heights(*other, wish)) { return false; }
            const planned p(w, wish);
            if (w.from.state == 3 && p.restless()) { return false; }
            heights_met(wrong, wish, p.solved, w.built.board.scale.zero_fret);
            return true;
        });
    }
    TEST_CASE("the action alone, and the height over the first fret alone") {
        must_hold("one height", 60, [](const whole& w, complaints& wrong) {
            wishes all;
            const auto other = set_otherwise(w, keep_rod);
            if (!other || !wish_heights(*other, all)) { return false; }
            wishes action = all, first = all;
            action.first_fret_bass.reset();
            action.first_fret_treble.reset();
            first.action_bass.reset();
            first.action_treble.reset();
            const planned by_action(w, action), by_first(w, first);
            if (w.from.state == 3 && (by_action.restless() || by_first.restless())) { return false; }
            heights_met(wrong, action, by_action.solved, false);
            if (!w.built.board.scale.zero_fret) { heights_met(wrong, first, by_first.solved, false); }
            return true;
        });
    }
    TEST_CASE("down-force alone: the tailpiece's hanger gives it") {
        must_hold(
            "down-force", 120,
            [](const whole& w, complaints& wrong) {
                const auto other = set_otherwise(w, keep_rod);
                if (!other) { return false; }
                // Nothing but the hanger: slots and saddle as they are.
                whole hung = w;
                hung.built.tailpiece = other->built.tailpiece;
                const auto s = solve(strung_instrument{hung.built, hung.stringing});
                if (!(s.down_force > 1 * N)) { return false; }
                wishes wish;
                wish.down_force = s.down_force;
                wrong.unless_near("down_force", si(planned(w, wish).solved.down_force), si(s.down_force), met_force);
                return true;
            },
            [](recipe& r) { r.end = r.end % 2; });
    }
    TEST_CASE("a break alone: pins in the range that a plan gives have it") {
        must_hold(
            "break", 120,
            [](const whole& w, complaints& wrong) {
                whole at = w;
                // Strings that bend to the side bend less down.
                const auto as_is = solve(strung_instrument{at.built, at.stringing});
                at.built.pins->spread = as_is.strings.back().y_at_saddle - as_is.strings.front().y_at_saddle;
                const auto found = solve(strung_instrument{at.built, at.stringing});
                wishes wish;
                const auto wished = found.strings.front().at_saddle.down_break * (0.7 + 0.006 * w.from.wish);
                if (!(wished > 2 * deg) || !(wished < 60 * deg)) { return false; }
                wish.saddle_break = wished;
                const auto plan = make_plan(both(at), wish);
                if (!plan.pin_holes) { return false; }
                const double off = 2e-3; // a plan looks from the side
                for (std::size_t i = 0; i < found.strings.size(); ++i) {
                    const auto break_at = [&](const length<>& behind) {
                        whole moved = at;
                        moved.built.pins->distance = found.strings[i].line.saddle_x + behind -
                                                     saddle_line_at(w.built, length<>(found.strings[i].y_at_saddle));
                        return solve(strung_instrument{moved.built, moved.stringing})
                            .strings[i]
                            .at_saddle.down_break.value();
                    };
                    const std::string name = "string " + std::to_string(i + 1);
                    wrong.unless_near(name + ", break at the nearest hole",
                                      std::min(0.0, break_at(plan.pin_holes->nearest) - si(wished)), 0, off);
                    wrong.unless_near(name + ", break at the farthest hole",
                                      std::max(0.0, break_at(plan.pin_holes->farthest) - si(wished)), 0, off);
                }
                return true;
            },
            [](recipe& r) {
                r.end = std::clamp(r.end, 2, 5);
                r.top = 0; // what sinks carries the holes along
            });
    }
    TEST_CASE("in tune alone: one string's octave is true, several strings' straight saddle asks for nothing more") {
        must_hold(
            "in tune", 120,
            [](const whole& w, complaints& wrong) {
                wishes wish;
                wish.in_tune = true;
                const planned p(w, wish);
                for (const auto& one : p.solved.strings) {
                    if (!one.octave_setback) { return false; }
                }
                const double bounds = 0.0489; // a setback is an input of 50 mm at most
                const auto& saddle = p.plan.adjusted.instrument.saddle;
                const auto set = kernel::outer_setbacks(saddle);
                if (std::abs(si(set.bass)) > bounds || std::abs(si(set.treble)) > bounds) { return false; }
                for (const auto& one : saddle.single) {
                    if (std::abs(si(one.setback)) > bounds) { return false; }
                }
                if (!saddle.single.empty() && saddle.pieces.empty()) {
                    for (const auto& one : p.solved.strings) {
                        wrong.unless_near("octave_setback of a string with its own saddle", si(*one.octave_setback), 0,
                                          met);
                    }
                    return true;
                }
                if (!saddle.pieces.empty()) {
                    return pieces_ask_nothing(p.plan.start.instrument.saddle, saddle, p.solved, wrong);
                }
                if (p.solved.strings.size() == 1) {
                    wrong.unless_near("octave_setback", si(*p.solved.strings[0].octave_setback), 0, met);
                    return true;
                }
                for (const auto* one : {&p.solved.strings.front(), &p.solved.strings.back()}) {
                    wrong.unless_near("straight saddle under an outer string", si(one->line.saddle_x),
                                      si(p.solved.straight_saddle->at(one->y_at_saddle)), met);
                }
                return true;
            },
            [](recipe& r) { r.frets = std::max(12, r.frets); });
    }
    TEST_CASE("in tune on a board whose octave is not its twelfth fret: it is found by its pitch") {
        must_hold(
            "in tune on diatonic frets", 60,
            [](const whole& w, complaints& wrong) {
                wishes wish;
                wish.in_tune = true;
                const planned p(w, wish);
                if (!p.plan.shortfalls.empty()) { return false; } // out of reach, and told
                // The seventh fret of a diatonic board sounds the octave: one string is true there, wherever it was.
                const auto& one = p.solved.strings[0];
                wrong.unless_near("octave in cents", 1200 * std::log2(one.notes[6].pitch / one.pitch / 2), 0, 0.01);
                return true;
            },
            [](recipe& r) {
                r.strings = 0;
                r.places = 4;
                r.steps = 0;
                r.frets = std::clamp(r.frets, 7, 15);
            });
    }
    TEST_CASE("everything together") {
        must_hold("all wishes", 120, [](const whole& w, complaints& wrong) {
            wishes wish;
            const bool relieved = w.built.neck.rod && solve(strung_instrument{w.built, w.stringing}).relief;
            const auto other = set_otherwise(w, relieved ? set_rod : keep_rod);
            if (relieved && other && !(abs(other->built.neck.pull_of_rod()) > 30 * N)) { return false; }
            // Near buckling a rod that runs free is what buckles the neck.
            if (w.from.state == 3 && w.from.rod == 2) { return false; }
            if (relieved && other && abs(solve(strung_instrument{other->built, other->stringing}).relief->gap) > 4.9 * mm) {
                return false;
            }
            if (!other || !wish_heights(*other, wish)) { return false; }
            const auto s = solve(strung_instrument{other->built, other->stringing});
            // Inner strings are set in proportion to the outer ones, where these were not: the rod needs some room for
            // that.
            if (relieved) {
                wish.relief = s.relief->gap;
                wish.most_rod_pull = most_pull(*other);
                if (!bears_most(w, wish)) { return false; }
            }
            wish.in_tune = w.from.more % 2 == 1;
            if (!wish.in_tune && other->built.tailpiece && s.down_force > 1 * N) { wish.down_force = s.down_force; }
            const planned p(w, wish);
            // Near buckling, or limp by empty slots, a rod and a saddle may chase each other; then the plan says so.
            if ((w.from.state == 3 || w.from.loose > 50) && p.restless()) { return false; }
            heights_met(wrong, wish, p.solved, w.built.board.scale.zero_fret);
            if (wish.relief) {
                // Heights and relief move each other; a saddle that was moved along bends the neck a little otherwise.
                wrong.unless_near("relief", si(p.solved.relief->gap), si(*wish.relief), met);
            }
            if (wish.down_force) {
                wrong.unless_near("down_force", si(p.solved.down_force), si(*wish.down_force), met_force);
            }
            return true;
        });
    }
    TEST_CASE("planning what was found changes nothing") {
        must_hold("found", 120, [](const whole& w, complaints& wrong) {
            wishes wish;
            const auto s = solve(strung_instrument{w.built, w.stringing});
            // Strings between the outer ones are set in proportion to them, whether they were or not, and that moves the
            // rest.
            if (s.strings.size() <= 2) { (void)wish_heights(w, wish); }
            if (w.built.neck.rod && s.relief && abs(s.relief->gap) < 4.9 * mm) {
                wish.relief = s.relief->gap;
                wish.most_rod_pull = most_pull(w);
                if (!bears_most(w, wish)) { return false; }
            }
            if (w.built.tailpiece && s.down_force > 1 * N) { wish.down_force = s.down_force; }
            const auto plan = make_plan(both(w), wish);
            for (const std::size_t i : {std::size_t{0}, s.strings.size() - 1}) {
                wrong.unless_near("slot_change", si(plan.slot_change[i]), 0, met);
                wrong.unless_near("saddle_change", si(plan.saddle_change[i]), 0, met);
            }
            wrong.unless_near("rod_pull_change", si(plan.rod_pull_change), 0,
                              0.1 + 1e-5 * std::abs(si(w.built.neck.pull_of_rod()))); // a short neck hardly feels it
            if (plan.hinge_change) { wrong.unless_near("hinge_change", si(*plan.hinge_change), 0, 1e-5); }
            for (const auto& missed : plan.shortfalls) {
                wrong.unless(false, "not met: " + missed.wish + ", " + missed.why);
            }
            return true;
        });
    }
}

TEST_SUITE("there and back: relief") {
    /// Recipes of necks with a rod and enough frets for a relief; half of them near straight or back-bowed.
    const auto with_rod = [](recipe& r) {
        r.rod = std::max(1, r.rod);
        r.frets = std::max(5, r.frets);
        r.state = r.state == 3 ? 0 : r.state;
        r.joint = std::min(r.joint, r.frets - 5);
    };

    TEST_CASE("a relief that some pull gives is given") {
        must_hold(
            "relief", 150,
            [](const whole& w, complaints& wrong) {
                const auto other = set_otherwise(w);
                if (!other || !other->built.neck.rod) { return false; }
                whole rod_only = w;
                rod_only.built.neck.rod_pull = other->built.neck.rod_pull;
                const auto s = solve(strung_instrument{rod_only.built, rod_only.stringing});
                if (!s.relief) { return false; }
                wishes wish;
                wish.relief = s.relief->gap;
                wish.most_rod_pull = most_pull(rod_only);
                if (!bears_most(w, wish)) { return false; }
                wrong.unless_near("relief", si(planned(w, wish).solved.relief->gap), si(*wish.relief), met);
                return true;
            },
            with_rod);
    }
    TEST_CASE("whatever relief is wished, no pull of the rod comes nearer than the planned one; a reason told is true") {
        must_hold(
            "nearest relief", 150,
            [](const whole& w, complaints& wrong) {
                if (!w.built.neck.rod || !solve(strung_instrument{w.built, w.stringing}).relief) { return false; }
                wishes wish;
                wish.relief = (-0.1 + 0.003 * w.from.wish) * mm;
                wish.most_rod_pull = (200 + 25.0 * w.from.more) * N;
                const double most = si(wish.most_rod_pull), least = w.built.neck.rod->two_way() ? -most : 0;
                const auto tried = reliefs_over_pulls(w, least, most, 60);
                if (tried.empty()) { return false; } // it would buckle
                const planned p(w, wish);
                const double got = si(p.solved.relief->gap), missed = std::abs(got - si(*wish.relief));
                double nearest = 1e9, by = 0;
                for (const auto& t : tried) {
                    if (std::abs(t.relief - si(*wish.relief)) < nearest) {
                        nearest = std::abs(t.relief - si(*wish.relief));
                        by = t.pull;
                    }
                }
                const double pull = si(p.plan.adjusted.instrument.neck.pull_of_rod());
                if (missed > nearest + met) {
                    wrong.unless_near("relief for a wish of " + std::to_string(1000 * si(*wish.relief)) + " mm, pull " +
                                          std::to_string(pull) + " N where " + std::to_string(by) + " N comes nearer",
                                      got, si(*wish.relief), nearest + met);
                }
                for (const auto& f : p.plan.shortfalls) {
                    if (f.wish != "relief") { continue; }
                    wrong.unless_near("nearest that is told", f.nearest.si(), got, met);
                    wrong.unless(f.why.find("harder") == std::string::npos || std::abs(pull) > most - 1e-3,
                                 "told that the rod would have to pull harder, at " + std::to_string(pull) + " of " +
                                     std::to_string(most) + " N: " + f.why);
                    wrong.unless(f.why.find("slack") == std::string::npos || std::abs(pull - least) < 1e-3,
                                 "told that it is so even with the rod slack, at " + std::to_string(pull) + " N: " + f.why);
                }
                return true;
            },
            with_rod);
    }
    TEST_CASE("a wish a little lower never makes the relief jump up or the rod let go") {
        must_hold(
            "relief in order", 60,
            [](const whole& w, complaints& wrong) {
                if (!w.built.neck.rod || !solve(strung_instrument{w.built, w.stringing}).relief) { return false; }
                const double most = 200 + 25.0 * w.from.more, least = w.built.neck.rod->two_way() ? -most : 0;
                if (reliefs_over_pulls(w, least, most, 2).empty()) { return false; }
                double relief_before = 1e9, pull_before = -1e9;
                for (double wished = 0.08; wished > -0.0801; wished -= 0.01) {
                    wishes wish;
                    wish.relief = wished * mm;
                    wish.most_rod_pull = most * N;
                    const planned p(w, wish);
                    const double relief = si(p.solved.relief->gap),
                                 pull = si(p.plan.adjusted.instrument.neck.pull_of_rod());
                    const std::string at = " for a wish of " + std::to_string(wished) + " mm";
                    wrong.unless(relief <= relief_before + met, "relief jumps up to " + std::to_string(1000 * relief) +
                                                                    " from " + std::to_string(1000 * relief_before) +
                                                                    " mm" + at);
                    wrong.unless(pull >= pull_before - 0.01 - 1e-4 * std::abs(pull),
                                 "the rod lets go to " + std::to_string(pull) + " from " + std::to_string(pull_before) +
                                     " N" + at);
                    relief_before = relief;
                    pull_before = pull;
                }
                return true;
            },
            with_rod);
    }
}
