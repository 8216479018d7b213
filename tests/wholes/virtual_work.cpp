/// @file
/// Virtual work: for every motion that the solver knows, the force it lets act on that motion is what the strings do along
/// it.
///
/// A string of tension T that runs post, nut, saddle, anchor over smooth supports does the work `-T dL` when its path grows
/// by dL, whatever bends it on the way. So the generalised force on a motion is `-sum T dL/d(motion)`, the whole path taken
/// from plain geometry and differenced. It does not matter which body presses on which: a pin, a tie block, a clamp and a
/// ball end are right when they move with the bridge, a tailpiece when it does not. What a solver leaves out of a free
/// body, or takes about another axis than the one its motion turns about, shows here.
///
/// The motions: the top sinks; a glued bridge turns with it; a hinged tailpiece swings; the nut rises, alone and with the
/// head; the neck turns at its joint, and at every place between joint and nut.
///
/// Source: principle of virtual work; for an elastic support the force is its stiffness times how far it gave.

#include <doctest/doctest.h>

#include <tautline/setup/solve.hpp>

#include "check.hpp"
#include "plain_neck.hpp"

namespace {

using namespace wholes;

double si(const auto& q) { return q.value(); }

/// Every motion as the solver says it came to rest.
motions rest_as_solved(const tautline::setup& s, const plain_geometry& g) {
    motions m;
    plain_bow bow;
    for (std::size_t k = 0; k < s.bow.x.size(); ++k) {
        bow.x.push_back(si(s.bow.x[k]));
        bow.w.push_back(si(s.bow.w[k]));
        bow.slope.push_back(s.bow.slope[k]);
    }
    g.ride(m, [&](double x) { return bow.at(x); });
    m.nut_rise = si(s.nut_rise);
    m.neck_slope = s.bow.slope.front();
    if (s.top) {
        m.sink = si(s.top->sink);
        m.turn = si(s.top->turn);
    }
    if (s.tailpiece_rise) { m.tail_rise = si(*s.tailpiece_rise); }
    return m;
}

/// `-sum T dL/d(motion)`.
template <class Moved>
double work_along(const tautline::setup& s, double step, const Moved& path) {
    double sum = 0;
    for (std::size_t i = 0; i < s.strings.size(); ++i) {
        sum -= si(s.strings[i].tension) * (path(i, step) - path(i, -step)) / (2 * step);
    }
    return sum;
}
/// The same for one of the motions.
double work_along(const tautline::setup& s, const plain_geometry& g, const motions& at, double motions::*motion) {
    return work_along(s, 1e-6, [&](std::size_t i, double by) {
        motions m = at;
        m.*motion += by;
        return g.path(i, m);
    });
}

/// A place turned about another, so that what lies toward the nut goes up.
spot turned(const spot& p, const spot& about, double by) {
    const spot d = p - about;
    return about + spot{d.x * std::cos(by) + d.z * std::sin(by), d.y, d.z * std::cos(by) - d.x * std::sin(by)};
}

/// What strings and rod do when the neck turns at a place: all that lies toward the nut turns about the neutral axis there.
struct neck_turn {
    const whole& w;
    const plain_geometry& g;
    const plain_neck& n;
    const tautline::setup& s;
    motions at{};
    plain_bow bow{}; ///< elastic: the load is taken on what the neck does at once, creep comes after

    neck_turn(const whole& w_, const plain_geometry& g_, const plain_neck& n_, const tautline::setup& s_)
        : w(w_), g(g_), n(n_), s(s_), at(rest_as_solved(s_, g_)) {
        const double creep = w.built.neck.creep_factor;
        at.nut_rise /= creep;
        for (double& over : at.end_over) { over /= creep; }
        at.neck_slope /= creep;
        for (std::size_t k = 0; k < s.bow.x.size(); ++k) {
            bow.x.push_back(si(s.bow.x[k]));
            bow.w.push_back(si(s.bow.w[k]) / creep);
            bow.slope.push_back(s.bow.slope[k] / creep);
        }
    }
    [[nodiscard]] double board(double x) const { return g.set_at(x) + bow.at(x); }

    [[nodiscard]] double by_strings(const spot& pivot) const {
        return work_along(s, 1e-5, [&](std::size_t i, double by) {
            const spot post = turned(g.post(i, at), pivot, by), nut = turned(g.nut(i, at), pivot, by);
            return distance(post, nut) + distance(nut, g.saddle(i, at)) + distance(g.saddle(i, at), g.anchor(i, at));
        });
    }
    [[nodiscard]] double by_rod(const spot& pivot) const {
        const auto& rod = *w.built.neck.rod;
        const double pull = si(w.built.neck.pull_of_rod()), from = si(rod.x_from), to = si(rod.x_to);
        // A pair that pushes and pulls: one member shortens by as much as its distance from the other lets it.
        if (si(rod.separation) > 0) { return -pull * si(rod.separation); }
        if (rod.free_in_channel) {
            const spot near{from, 0, si(rod.z_ends) + board(from)}, far{to, 0, si(rod.z_ends) + board(to)};
            const double step = 1e-5;
            return -pull * (distance(turned(near, pivot, step), far) - distance(turned(near, pivot, -step), far)) /
                   (2 * step);
        }
        // Held in its channel it goes where the neck goes: its length at this place changes as it lies under the axis.
        const double u = (pivot.x - from) / (to - from),
                     line = si(rod.z_ends) - 4 * si(rod.dip) * u * (1 - u) + board(pivot.x);
        return -pull * (pivot.z - line);
    }
    /// Curvature that they give the neck at x; `rod_on` says on which side of a rod's end, `side` on which of all others.
    struct curvature {
        double all = 0, parts = 0;
    };
    [[nodiscard]] curvature at_place(double x, double side, bool rod_on) const {
        const auto section = n.section(x, side);
        const spot pivot{x, 0, section.neutral_axis + board(x)};
        const double strings = by_strings(pivot), rod = rod_on ? by_rod(pivot) : 0;
        return {(strings + rod) / section.rigidity + section.free_bend,
                (std::abs(strings) + std::abs(rod)) / section.rigidity + std::abs(section.free_bend)};
    }
    /// Of the strings' ends at the nut, along x.
    [[nodiscard]] double furthest_end() const {
        double x = 0;
        for (std::size_t i = 0; i < g.count(); ++i) { x = std::max(x, g.nut(i, at).x); }
        return x;
    }
    /// By what share moments may be off: pulls along x are those of the unbowed neck, and a rod that runs free is taken to
    /// lie along x.
    [[nodiscard]] double pulls_off() const {
        const auto& rod = w.built.neck.rod;
        double most = rod && rod->free_in_channel ? 5e-6 + at.neck_slope * at.neck_slope : 0;
        for (std::size_t i = 0; i < g.count(); ++i) {
            const double bowed = distance(g.nut(i, at), g.saddle(i, at)), straight = g.speaking_unbowed(i, at);
            most = std::max(most, std::abs(bowed / straight - 1));
        }
        return most;
    }
};

double total(const tautline::setup& s) { return si(s.total_tension); }

} // namespace

TEST_SUITE("virtual work") {
    TEST_CASE("the top sinks under all that the strings do to whatever is glued or pressed to it") {
        must_hold("top sinks", 400, [](const whole& w, complaints& wrong) {
            if (!w.built.soundboard) { return false; }
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            wrong.unless_near("force that sinks the top", si(s.top->sink) * si(w.built.soundboard->sink_stiffness),
                              work_along(s, g, rest_as_solved(s, g), &motions::sink), 1e-7 * total(s));
            return true;
        });
    }
    TEST_CASE("a glued bridge turns under what the strings do along its turn") {
        must_hold("bridge turns", 400, [](const whole& w, complaints& wrong) {
            if (!w.built.soundboard || !w.built.pins) { return false; }
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            wrong.unless_near("moment that turns the bridge", si(s.top->turn) * si(*w.built.soundboard->turn_stiffness),
                              work_along(s, g, rest_as_solved(s, g), &motions::turn), 1e-8 * total(s));
            return true;
        });
    }
    TEST_CASE("a floating bridge turns no top") {
        must_hold("floating bridge", 100, [](const whole& w, complaints& wrong) {
            if (!w.built.soundboard || w.built.pins) { return false; }
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            wrong.unless_near("turn", si(s.top->turn), 0, 0);
            return true;
        });
    }
    TEST_CASE("a hinged tailpiece swings until nothing swings it") {
        must_hold("tailpiece swings", 400, [](const whole& w, complaints& wrong) {
            if (!w.built.tailpiece) { return false; }
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            wrong.unless_near("moment about the hinge", work_along(s, g, rest_as_solved(s, g), &motions::tail_rise), 0,
                              1e-9 * total(s));
            return true;
        });
    }
    TEST_CASE("the nut bears what its own rise is worth, nut and head together what theirs is") {
        must_hold("nut rises", 400, [](const whole& w, complaints& wrong) {
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            const motions at = rest_as_solved(s, g);
            // A small turn may be taken with its cosine or without: the head's slope times the posts' height.
            const double small_turns = 1e-8 + 0.06 * std::abs(at.neck_slope);
            for (std::size_t i = 0; i < g.count(); ++i) {
                const auto& one = s.strings[i];
                const double pull = si(one.tension), step = 1e-6;
                const auto alone = [&](double by) {
                    const spot nut = g.nut(i, at) + spot{0, 0, by};
                    return distance(g.post(i, at), nut) + distance(nut, g.saddle(i, at));
                };
                const auto together = [&](double by) {
                    motions m = at;
                    m.nut_rise += by;
                    return g.path(i, m);
                };
                const std::string name = "string " + std::to_string(i + 1);
                wrong.unless_near(name + ": force up on the nut", si(one.at_nut.on_support.z),
                                  -pull * (alone(step) - alone(-step)) / (2 * step), pull * small_turns);
                wrong.unless_near(name + ": force up on nut and post",
                                  si(one.at_nut.on_support.z) + si(one.at_nut.on_anchor.z),
                                  -pull * (together(step) - together(-step)) / (2 * step), 1e-8 * pull);
            }
            return true;
        });
    }
    TEST_CASE("the neck turns at its joint under what strings and rod do along that turn") {
        must_hold("joint turns", 300, [](const whole& w, complaints& wrong) {
            if (!w.built.neck.joint_stiffness) { return false; }
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            const plain_neck n(w, g);
            const neck_turn turn(w, g, n, s);
            const auto bend = turn.at_place(n.joint(), n.joint(), n.rod_between(n.joint() - 2e-9, n.joint()));
            const double rigidity = n.section(n.joint()).rigidity;
            wrong.unless_near("moment that turns the neck at its joint",
                              -s.bow.slope.back() / w.built.neck.creep_factor * si(*w.built.neck.joint_stiffness),
                              (bend.all - n.section(n.joint()).free_bend) * rigidity,
                              bend.parts * rigidity * (1e-7 + 2 * turn.pulls_off()));
            return true;
        });
    }
    TEST_CASE("the neck bends everywhere under what strings and rod do along a turn there") {
        must_hold("neck bends", 200, [](const whole& w, complaints& wrong) {
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            const plain_geometry g(w);
            const plain_neck n(w, g);
            const neck_turn turn(w, g, n, s);
            const double creep = w.built.neck.creep_factor;
            const double off = 2e-6 + 2 * turn.pulls_off();
            for (std::size_t k = 0; k + 1 < s.bow.x.size(); k += 3) {
                const double from = si(s.bow.x[k]), to = si(s.bow.x[k + 1]), h = to - from;
                if (h < 1e-9) { continue; }
                // Between the ends behind a slanted nut some strings pull on one side only; the beam takes all of them.
                if (from < turn.furthest_end()) { continue; }
                const bool rod = n.rod_between(from, to);
                const double mid = (from + to) / 2;
                const auto a = turn.at_place(from, mid, rod), b = turn.at_place(mid, mid, rod),
                           c = turn.at_place(to, mid, rod);
                wrong.unless_near("bend from " + std::to_string(1000 * from) + " to " + std::to_string(1000 * to) + " mm",
                                  (s.bow.slope[k + 1] - s.bow.slope[k]) / creep, h * (a.all + 4 * b.all + c.all) / 6,
                                  h * (a.parts + 4 * b.parts + c.parts) / 6 * off);
            }
            return true;
        });
    }
}
