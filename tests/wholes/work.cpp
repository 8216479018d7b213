/// @file
/// Work on board and frets, there and back: what a step says of the finished board is so when the instrument is solved.
///
/// Sanding to a new arc ends when gauge and straightedge show no light from nut to end: the slack board is then straight,
/// whatever set the neck had. What was taken off is missing from board and neck. What was not touched (posts, nut, saddle,
/// anchors) is where it was, however it is measured afterwards.
///
/// A slack board is shown by strings that hardly pull: thin threads of nylon at a few hertz.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/strings/wire_materials.hpp>
#include <tautline/work/do_work.hpp>

#include "check.hpp"
#include "found_and_wished.hpp"
#include "plain_geometry.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

double si(const auto& q) { return q.value(); }

/// Strings that hardly pull, a rod that does not.
setup slack(strung_instrument on) {
    for (auto& s : on.stringing.strings) { s = {plain_string(nylon(), 0.2 * mm), note{-8}}; }
    on.stringing.standard = {};
    on.instrument.neck.rod_pull = 0 * N;
    return solve(on);
}

/// Heights at places along a board off the straight line through the first and the last.
std::vector<double> off_straight(const std::vector<length<>>& x, const std::vector<double>& z) {
    std::vector<double> off;
    for (std::size_t n = 0; n < x.size(); ++n) {
        off.push_back(z[n] - z.front() - (z.back() - z.front()) * (si(x[n] - x.front()) / si(x.back() - x.front())));
    }
    return off;
}
/// The same of a board's points.
std::vector<double> bent(const setup& s) {
    std::vector<double> z;
    for (const auto& p : s.board_points) { z.push_back(si(p.z)); }
    return off_straight(s.fret_x, z);
}
/// By how much more a slack neck bends without load once it is sanded: a thinner one answers otherwise to a board that has
/// grown, and the new frets' tangs wedge it, which were out of it while it was sanded.
std::vector<double> more_bent(const strung_instrument& before, const strung_instrument& after) {
    auto fretless = before;
    if (auto& slots = fretless.instrument.neck.slots) {
        slots->interference = 0 * mm;
        slots->bearing = 0;
    }
    const auto a = slack(fretless), b = slack(after);
    std::vector<double> z;
    for (const auto& x : a.fret_x) {
        z.push_back(si(kernel::load_deflection_at<double>(b.bow, x) - kernel::load_deflection_at<double>(a.bow, x)));
    }
    return off_straight(a.fret_x, z);
}
double greatest(const std::vector<double>& numbers) {
    double most = 0;
    for (const double n : numbers) { most = std::max(most, std::abs(n)); }
    return most;
}

/// The sanding of a recipe: another arc, a little off everywhere.
bench_work sanding_work(const whole& w, neck_held held = neck_held::slack) {
    bench_work work;
    sanding s;
    const double half = si(std::max(w.built.board.width_at_nut, w.built.board.width_at_end)) / 2;
    const double radius = std::max(0.2 + 0.003 * w.from.wish, half * half / 0.0035);
    if (w.from.more % 3 != 0) { s.surface.radius = radius * 1000 * mm; }
    if (w.from.more % 3 == 2) {
        s.surface.radius_at_end = 1.5 * radius * 1000 * mm;
        s.surface.cone_length = w.built.board.board_length;
    }
    s.held = held;
    s.allowance = 0.001 * w.from.other * mm;
    work.sanding = s;
    return work;
}

/// Square frets and edges that are alike: work on other boards is refused.
void worked_on(recipe& r) { r.fan = r.edges = 0; }

/// A neck that can be worked on: some frets long, far from buckling.
void firm(recipe& r) {
    r.state = r.state == 3 ? 0 : r.state;
    r.frets = std::max(5, r.frets);
    r.joint = std::min(r.joint, r.frets - 5);
    worked_on(r);
}

} // namespace

TEST_SUITE("work") {
    TEST_CASE("a board sanded slack to its new arc is straight when slack, whatever set the neck had") {
        must_hold(
            "slack board", 100,
            [](const whole& w, complaints& wrong) {
                const auto done = do_work(both(w), board_details{}, sanding_work(w));
                const auto found = bent(slack(done.after)), expected = more_bent(both(w), done.after);
                for (std::size_t n = 0; n < found.size(); ++n) {
                    // The threads pull a little, and between frets a bow is taken as straight.
                    wrong.unless_near("board off straight at fret " + std::to_string(n + 1), found[n], expected[n], 3e-7);
                }
                return true;
            },
            firm);
    }
    TEST_CASE("a board sanded in a jig that holds what will be has the wanted hollow at pitch, whatever set it had") {
        must_hold(
            "jig", 60,
            [](const whole& w, complaints& wrong) {
                if (abs(solve(strung_instrument{w.built, w.stringing}).nut_rise) > 5 * mm) {
                    return false;
                } // no neck to be trued
                auto job = sanding_work(w, neck_held::as_it_will_be);
                const double hollow = 1e-6 * w.from.wish;
                job.sanding->hollow = hollow * 1000 * mm;
                work_done done;
                try {
                    done = do_work(both(w), board_details{}, job);
                } catch (const invalid_input&) { return false; } // so far bowed that the new line points over the saddle
                const auto s = solve(done.after);
                const auto joint = static_cast<std::size_t>(w.built.neck.joint_fret);
                const std::size_t last = std::min(s.fret_x.size(), joint);
                const double from = si(s.fret_x.front()), to = si(joint_place(w.built));
                // The jig is shaped where a round left it; the next one would move it by nanometres.
                const double off = 3e-6;
                for (std::size_t n = 0; n < last; ++n) {
                    const double t = (si(s.fret_x[n]) - from) / (to - from);
                    wrong.unless_near("board at fret " + std::to_string(n + 1), si(s.board_points[n].z),
                                      -4 * hollow * t * (1 - t), off);
                }
                return true;
            },
            firm);
    }
    TEST_CASE("what sanding took off is missing from board and neck, and is what is told") {
        must_hold(
            "removal", 150,
            [](const whole& w, complaints& wrong) {
                const auto job = sanding_work(w);
                const auto done = do_work(both(w), board_details{}, job);
                const auto told = numbers_of(done);
                const auto &before = w.built, &after = done.after.instrument;
                const length<> end = before.board.board_length, joint = joint_place(before);
                const auto gone = [&](const length<>& x) {
                    return si(thickness_at(before.board, x) - thickness_at(after.board, x));
                };
                wrong.unless_near("off at the nut", gone(0 * mm), si(*told.off_centre_at_nut), 1e-9);
                wrong.unless_near("off at the end", gone(end), si(*told.off_centre_at_end), 1e-9);
                wrong.unless_near("left at the nut", si(thickness_at(after.board, length<>())), si(*told.thickness_at_nut),
                                  1e-9);
                wrong.unless_near("left at the end", si(thickness_at(after.board, end)), si(*told.thickness_at_end), 1e-9);
                wrong.unless_near("off the neck's depth at the nut", si(before.neck.depth_at_nut - after.neck.depth_at_nut),
                                  gone(0 * mm), 1e-9);
                if (joint <= end) {
                    wrong.unless_near("off the neck's depth at the joint",
                                      si(before.neck.depth_at_joint - after.neck.depth_at_joint), gone(joint), 1e-9);
                }
                // The new surface lies nowhere above the old one, and as much below it as was asked.
                const auto& off = *done.removal;
                for (int k = 0; k <= 8; ++k) {
                    const length<> x = end * (k / 8.0), half = half_width_at(before.board, x);
                    for (const double share : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
                        const double taken = gone(x) + si(surface_height(off.found, x, length<>(half * share))) -
                                             si(surface_height(off.wanted, x, length<>(half * share)));
                        wrong.unless(taken >= si(job.sanding->allowance) - 2e-6,
                                     "too little comes off at " + std::to_string(1000 * si(x)) +
                                         " mm: " + std::to_string(1000 * taken));
                    }
                }
                return true;
            },
            firm);
    }
    TEST_CASE("what sanding does not touch is where it was: posts, nut, saddle and anchors keep their distances") {
        must_hold(
            "frame", 150,
            [](const whole& w, complaints& wrong) {
                const auto done = do_work(both(w), board_details{}, sanding_work(w));
                const whole sanded{done.after.instrument, done.after.stringing, w.from};
                const plain_geometry before(w), after(sanded);
                const motions still;
                for (std::size_t i = 0; i < before.count(); ++i) {
                    const std::string name = "string " + std::to_string(i + 1);
                    const auto between = [&](const plain_geometry& g, int leg) {
                        return leg == 0   ? distance(g.post(i, still), g.nut(i, still))
                               : leg == 1 ? distance(g.nut(i, still), g.saddle(i, still))
                                          : distance(g.saddle(i, still), g.anchor(i, still));
                    };
                    // The new line of the board leaves the old one by a small angle, and x is not turned with it.
                    const double tilt =
                        std::abs(si(done.removal->at_end - done.removal->at_nut) / si(done.removal->board_length));
                    const double off = 3e-6 + 0.02 * tilt;
                    if (!w.built.board.scale.zero_fret) {
                        wrong.unless_near(name + ", post to nut", between(after, 0), between(before, 0), off);
                        wrong.unless_near(name + ", nut to saddle", between(after, 1), between(before, 1), off);
                    }
                    wrong.unless_near(name + ", saddle to anchor", between(after, 2), between(before, 2), off);
                }
                return true;
            },
            firm);
    }
    TEST_CASE("sanding again to the same arc, with nothing to clean up, takes nothing") {
        must_hold(
            "sanded twice", 60,
            [](const whole& w, complaints& wrong) {
                auto job = sanding_work(w);
                const auto once = do_work(both(w), board_details{}, job);
                job.sanding->allowance = 0 * mm;
                const auto again = numbers_of(do_work(once.after, board_details{}, job));
                // But for what a neck that bends without load bends otherwise since.
                auto fretless = once.after;
                if (auto& slots = fretless.instrument.neck.slots) {
                    slots->interference = 0 * mm;
                    slots->bearing = 0;
                }
                const double off = 1e-7 + 3 * greatest(more_bent(both(w), fretless));
                wrong.unless_near("off at the nut", si(*again.off_centre_at_nut), 0, off);
                wrong.unless_near("off at the end", si(*again.off_centre_at_end), 0, off);
                return true;
            },
            firm);
    }
    TEST_CASE("frets filed level lose what is told, and nothing but crowns changes") {
        must_hold(
            "levelled", 60,
            [](const whole& w, complaints& wrong) {
                bench_work job;
                job.levelling = fret_levelling{.held = neck_held::slack};
                const auto done = do_work(both(w), board_details{}, job);
                const auto told = numbers_of(done);
                double sum = 0;
                for (std::size_t n = 0; n < told.fret_cuts.size(); ++n) {
                    const auto fret = static_cast<int>(n) + 1;
                    const double lost = si(crown_left(w.built.frets, fret) - crown_left(done.after.instrument.frets, fret));
                    const double most = 0.99 * si(crown_left(w.built.frets, fret));
                    wrong.unless_near("off fret " + std::to_string(fret), lost, std::min(most, si(told.fret_cuts[n])),
                                      1e-9);
                    sum += si(told.fret_cuts[n]);
                }
                wrong.unless_near("all together", sum, si(*told.level_slack), 1e-7);
                return true;
            },
            [](recipe& r) {
                r.state = r.state == 3 ? 0 : r.state; // nobody files a neck level that stands millimetres hollow
                r.frets = std::max(6, r.frets);
                r.joint = std::min(r.joint, r.frets - 5);
                r.wear = std::max(1, r.wear);
                worked_on(r);
            });
    }
    TEST_CASE("frets filed level on a slack neck stand level when slack, whatever bends it without load") {
        must_hold(
            "levelled slack", 60,
            [](const whole& w, complaints& wrong) {
                bench_work job;
                job.levelling = fret_levelling{.held = neck_held::slack};
                const auto done = do_work(both(w), board_details{}, job);
                const auto told = numbers_of(done);
                const auto s = slack(done.after);
                std::vector<length<>> x;
                std::vector<double> z;
                for (std::size_t n = 0; n < told.fret_cuts.size(); ++n) {
                    // What the file cannot reach stays lower, what has no crown left higher.
                    if (told.fret_cuts[n] > 0.98 * crown_left(w.built.frets, static_cast<int>(n) + 1)) { return false; }
                    x.push_back(s.fret_x[n]);
                    z.push_back(si(s.crests[n].z));
                }
                wrong.unless_near("crests off straight", greatest(off_straight(x, z)), 0, 3e-7);
                return true;
            },
            [](recipe& r) {
                firm(r);
                r.frets = std::max(6, r.frets);
                r.joint = std::min(r.joint, r.frets - 5);
                r.wear = 0;
            });
    }
}
