/// @file
/// Limits and order. Where a part can be left out, an instrument with that part at its limit is an instrument without it: a
/// slack rod, a top or a joint too stiff to give, an arc too wide to be one. Fewer strings and no frets leave the rest as
/// it is. And what pulls one way never moves the answer the other way: more rod never more relief, a higher saddle never
/// less action.

#include <doctest/doctest.h>

#include <algorithm>

#include "alike.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

setup solved(const whole& w) { return solve(strung_instrument{w.built, w.stringing}); }

} // namespace

TEST_SUITE("limits") {
    TEST_CASE("a slack rod is no rod") {
        must_hold("slack rod", 150, [](const whole& w, complaints& wrong) {
            if (!w.built.neck.rod) { return false; }
            whole slack = w, none = w;
            slack.built.neck.rod_pull = none.built.neck.rod_pull = 0 * N;
            none.built.neck.rod.reset();
            // The rod's ends are places where the beam's steps meet: the bow is told a nanometre otherwise.
            alike(wrong, solved(slack), solved(none), {}, 1e-7, 5);
            return true;
        });
    }
    TEST_CASE("a top too stiff to give is no sprung top") {
        must_hold("stiff top", 150, [](const whole& w, complaints& wrong) {
            if (!w.built.soundboard) { return false; }
            whole stiff = w, none = w;
            stiff.built.soundboard->sink_stiffness = 1e15 * N_per_m;
            stiff.built.soundboard->turn_stiffness = 1e15 * N_m_per_rad;
            none.built.soundboard.reset();
            alike(wrong, solved(stiff), solved(none), {"top."});
            return true;
        });
    }
    TEST_CASE("a bridge on a solid body is a glued one on a top too stiff to give") {
        must_hold(
            "solid body", 150,
            [](const whole& w, complaints& wrong) {
                const auto& on_body = *w.built.body_bridge;
                whole glued = w;
                glued.built.body_bridge.reset();
                glued.built.pins = pins{.distance = on_body.distance,
                                        .height = on_body.height,
                                        .spread = on_body.spread,
                                        .top_thickness = 3 * mm,
                                        .saddle_exposed = 4 * mm};
                glued.built.soundboard = soundboard{.sink_stiffness = 1e15 * N_per_m,
                                                    .turn_stiffness = 1e15 * N_m_per_rad,
                                                    .saddle_ahead = 3 * mm,
                                                    .saddle_height = 12 * mm};
                alike(wrong, solved(glued), solved(w), {"top.", "top_force", "pinned."});
                return true;
            },
            [](recipe& r) { r.end = std::max(6, r.end); });
    }
    TEST_CASE("a floating bridge turns no top: nothing needs to be known of how it would") {
        must_hold(
            "floating bridge", 60,
            [](const whole& w, complaints& wrong) {
                if (!w.built.soundboard) { return false; }
                whole sinks = w;
                sinks.built.soundboard = soundboard();
                sinks.built.soundboard->sink_stiffness = w.built.soundboard->sink_stiffness;
                alike(wrong, solved(sinks), solved(w), {});
                return true;
            },
            [](recipe& r) {
                r.end = r.end % 2;
                r.top = std::max(1, r.top);
            });
    }
    TEST_CASE("a joint too stiff to yield is a rigid joint") {
        must_hold("stiff joint", 100, [](const whole& w, complaints& wrong) {
            whole stiff = w, rigid = w;
            stiff.built.neck.joint_stiffness = 1e9 * N_m_per_rad;
            rigid.built.neck.joint_stiffness.reset();
            try {
                (void)solved(rigid);
            } catch (const invalid_input&) { return false; }
            alike(wrong, solved(stiff), solved(rigid), {}, 1e-5, 20);
            return true;
        });
    }
    TEST_CASE("an arc too wide to be one is flat, on the board and on the saddle") {
        must_hold("wide arc", 100, [](const whole& w, complaints& wrong) {
            whole wide = w, flat = w;
            wide.built.board.surface = {.radius = 5e8 * mm, .radius_at_end = 1e9 * mm, .cone_length = 500 * mm};
            if (wide.built.saddle.single.empty()) { wide.built.saddle.radius = 1e9 * mm; }
            flat.built.board.surface = flat_surface();
            flat.built.saddle.radius.reset();
            try {
                (void)solved(flat);
            } catch (const invalid_input&) { return false; }
            alike(wrong, solved(wide), solved(flat), {}, 1e-6, 20);
            return true;
        });
    }
    TEST_CASE("one string stands in the middle, whatever spread is said") {
        must_hold(
            "one string", 60,
            [](const whole& w, complaints& wrong) {
                whole other = w;
                other.built.nut.spacing.spread = 33 * mm;
                other.built.saddle.spacing.spread = 44 * mm;
                kernel::with_string_ends(other.built, [](auto&, auto&, auto& spread) { spread = 55 * mm; });
                alike(wrong, solved(other), solved(w), {});
                return true;
            },
            [](recipe& r) { r.strings = 0; });
    }
    TEST_CASE("without frets everything but frets is as it was") {
        must_hold("no frets", 100, [](const whole& w, complaints& wrong) {
            const auto& scale = w.built.board.scale;
            if (scale.frets == 0 || !scale.measured_places.empty()) { return false; }
            if (scale.fan && scale.fan->square_fret > 0) { return false; } // there must be such a fret
            // Without frets there are no slots that could make the neck limp.
            whole slotless = w;
            slotless.built.neck.slots.reset();
            whole bare = slotless;
            bare.built.board.scale.frets = 0;
            bare.built.frets.wear.clear();
            const auto fretted = solved(slotless);
            auto unfretted = solved(bare);
            std::vector<std::string> frets{"fret_x",        "relief",         "board_relief",   "bass_relief",
                                           "treble_relief", "line_at_saddle", "straight_saddle"};
            for (std::size_t i = 0; i < fretted.strings.size(); ++i) {
                for (const char* part :
                     {"crest_x", "crest_z", "heights", "clearances", "notes", "plucks", "octave_setback"}) {
                    frets.push_back("strings[" + std::to_string(i) + "]." + part);
                }
            }
            alike(wrong, fretted, unfretted, frets);
            return true;
        });
    }
}

TEST_SUITE("order") {
    TEST_CASE("more rod never more relief") {
        must_hold(
            "more rod", 100,
            [](const whole& w, complaints& wrong) {
                if (!w.built.neck.rod) { return false; }
                whole at = w;
                double before = 1e9;
                const double least = w.built.neck.rod->two_way() ? -800 : 0;
                try {
                    for (int k = 0; k <= 10; ++k) {
                        at.built.neck.rod_pull = (least + 120 * k) * N;
                        const auto s = solved(at);
                        if (!s.relief) { return false; }
                        const double now = s.relief->gap.value();
                        wrong.unless(now <= before + 1e-12, "relief " + std::to_string(1000 * now) + " mm at " +
                                                                std::to_string(at.built.neck.pull_of_rod() / N) +
                                                                " N, less before");
                        before = now;
                    }
                } catch (const invalid_input&) { return false; } // buckles
                return true;
            },
            [](recipe& r) {
                r.rod = std::max(1, r.rod);
                // A rod free in its channel presses on the neck: near buckling it bows it.
                r.state = r.state == 3 ? 0 : r.state;
                r.frets = std::max(5, r.frets);
                r.joint = std::min(r.joint, r.frets - 5);
            });
    }
    TEST_CASE("a higher saddle never less action") {
        must_hold("higher saddle", 100, [](const whole& w, complaints& wrong) {
            if (w.built.board.scale.frets == 0) { return false; }
            const auto fret = static_cast<std::size_t>(std::min(12, w.built.board.scale.frets)) - 1;
            whole at = w;
            std::vector<double> before(w.stringing.strings.size(), -1e9);
            for (int k = 0; k < 6; ++k) {
                at.built.saddle = w.built.saddle;
                raise_saddle(at.built.saddle, 0.4 * k * mm, 0.4 * k * mm);
                setup s;
                try {
                    s = solved(at);
                } catch (const invalid_input&) { return false; } // buckles
                for (std::size_t i = 0; i < before.size(); ++i) {
                    const double now = s.strings[i].heights[fret].value();
                    wrong.unless(now > before[i], "string " + std::to_string(i + 1) + " lower over a saddle raised by " +
                                                      std::to_string(0.4 * k) + " mm");
                    before[i] = now;
                }
            }
            return true;
        });
    }
}
