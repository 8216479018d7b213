/// @file
/// Free bodies: string, bridge, tailpiece, neck and the whole instrument each balance, forces and moments, by the numbers
/// that a setup reports.
///
/// Each body is cut free in its place under load (plain_geometry.hpp) and everything that touches it is added up. A force
/// that is right but acts at a place that has moved shows as a moment; a body from which one neighbour was forgotten shows
/// as a force. A top that is sprung tells by how far it gave what it bears.
///
/// Source: statics; the frame's y axis for moments, positive from z toward x.

#include <doctest/doctest.h>

#include <tautline/setup/solve.hpp>

#include "check.hpp"
#include "plain_neck.hpp"

namespace {

using namespace wholes;

double si(const auto& q) { return q.value(); }

/// Where everything has come to rest, and the forces of each string there as reported.
struct strung_up {
    tautline::setup s;
    plain_geometry g;
    motions at{};
    double total = 0;
    /// The head's slope times the posts' height: a small turn may be taken with its cosine or without.
    double small_turns = 0;

    explicit strung_up(const whole& w) : s(tautline::solve(tautline::strung_instrument{w.built, w.stringing})), g(w) {
        at.nut_rise = si(s.nut_rise);
        at.neck_slope = s.bow.slope.front();
        plain_bow bow;
        for (std::size_t k = 0; k < s.bow.x.size(); ++k) {
            bow.x.push_back(si(s.bow.x[k]));
            bow.w.push_back(si(s.bow.w[k]));
            bow.slope.push_back(s.bow.slope[k]);
        }
        g.ride(at, [&](double x) { return bow.at(x); });
        if (s.top) {
            at.sink = si(s.top->sink);
            at.turn = si(s.top->turn);
        }
        if (s.tailpiece_rise) { at.tail_rise = si(*s.tailpiece_rise); }
        total = si(s.total_tension);
        small_turns = 0.06 * std::abs(at.neck_slope);
    }
    [[nodiscard]] std::size_t count() const { return s.strings.size(); }
    [[nodiscard]] spot on_nut(std::size_t i) const { return spot_of(s.strings[i].at_nut.on_support); }
    [[nodiscard]] spot on_post(std::size_t i) const { return spot_of(s.strings[i].at_nut.on_anchor); }
    [[nodiscard]] spot on_saddle(std::size_t i) const { return spot_of(s.strings[i].at_saddle.on_support); }
    [[nodiscard]] spot on_anchor(std::size_t i) const { return spot_of(s.strings[i].at_saddle.on_anchor); }
};

void unless_zero(complaints& wrong, const std::string& what, const spot& v, double allowed) {
    wrong.unless_near(what + ", x", v.x, 0, allowed);
    wrong.unless_near(what + ", y", v.y, 0, allowed);
    wrong.unless_near(what + ", z", v.z, 0, allowed);
}

} // namespace

TEST_SUITE("free bodies") {
    TEST_CASE("each string hangs in balance between post, nut, saddle and anchor") {
        must_hold("string", 300, [](const whole& w, complaints& wrong) {
            const strung_up u(w);
            for (std::size_t i = 0; i < u.count(); ++i) {
                const double pull = si(u.s.strings[i].tension);
                const std::string name = "string " + std::to_string(i + 1);
                unless_zero(wrong, name + ", forces", u.on_post(i) + u.on_nut(i) + u.on_saddle(i) + u.on_anchor(i),
                            1e-9 * pull);
                // Each side by itself: the pull on the post runs along the string from nut to post, and so at the anchor.
                const spot nut = u.g.nut(i, u.at), saddle = u.g.saddle(i, u.at);
                const double turn_off = 1e-9 + std::pow(u.at.turn, 2);
                unless_zero(wrong, name + ", moment at the post about the nut",
                            cross(u.g.post(i, u.at) - nut, u.on_post(i)), pull * 0.4 * (1e-8 + u.small_turns));
                unless_zero(wrong, name + ", moment at the anchor about the saddle",
                            cross(u.g.anchor(i, u.at) - saddle, u.on_anchor(i)), pull * turn_off);
                unless_zero(wrong, name + ", moment of the speaking side", cross(nut - saddle, u.on_nut(i) + u.on_post(i)),
                            pull * 1e-8);
            }
            return true;
        });
    }
    TEST_CASE("all that the strings do to the instrument comes to nothing") {
        must_hold("instrument", 300, [](const whole& w, complaints& wrong) {
            const strung_up u(w);
            spot force, moment;
            for (std::size_t i = 0; i < u.count(); ++i) {
                force = force + u.on_post(i) + u.on_nut(i);
                moment = moment + cross(u.g.post(i, u.at), u.on_post(i)) + cross(u.g.nut(i, u.at), u.on_nut(i)) +
                         cross(u.g.saddle(i, u.at), u.on_saddle(i)) + cross(u.g.anchor(i, u.at), u.on_anchor(i));
            }
            force.x += si(u.s.push_along);
            force.z -= si(u.s.down_force);
            force = force + spot_of(u.s.anchor_pull);
            for (std::size_t i = 0; i < u.count(); ++i) { force.y += u.on_saddle(i).y; }
            unless_zero(wrong, "forces", force, 1e-8 * u.total);
            unless_zero(wrong, "moments", moment, u.total * (1e-8 + 0.4 * u.small_turns + std::pow(u.at.turn, 2)));
            return true;
        });
    }
    TEST_CASE("the top pushes back what presses it, and turns back what turns it") {
        must_hold("top", 400, [](const whole& w, complaints& wrong) {
            if (!w.built.soundboard) { return false; }
            const strung_up u(w);
            const auto& top = *w.built.soundboard;
            double down = 0, turning = 0;
            for (std::size_t i = 0; i < u.count(); ++i) {
                const spot saddle = u.g.saddle(i, u.at), anchor = u.g.anchor(i, u.at);
                // The line a glued bridge turns about lies behind the saddle and under the string's axis.
                const spot line{saddle.x + si(*top.saddle_ahead), saddle.y, saddle.z - si(*top.saddle_height)};
                spot f = u.on_saddle(i), m = cross(saddle - line, f);
                if (w.built.pins) {
                    f = f + u.on_anchor(i);
                    m = m + cross(anchor - line, u.on_anchor(i));
                }
                down -= f.z;
                turning -= m.y;
            }
            wrong.unless_near("down on the top", si(u.s.top->sink) * si(top.sink_stiffness), down, 1e-8 * u.total);
            if (w.built.pins) {
                wrong.unless_near("turning the bridge", si(u.s.top->turn) * si(*top.turn_stiffness), turning,
                                  u.total * (1e-9 + 0.05 * std::pow(u.at.turn, 2)));
                wrong.unless_near("down on the top, as the bridge says", si(u.s.top->sink) * si(top.sink_stiffness),
                                  si(u.s.pinned->down), 1e-8 * u.total);
            } else {
                wrong.unless_near("down on the top, as the saddle says", si(u.s.top->sink) * si(top.sink_stiffness),
                                  si(u.s.down_force), 1e-8 * u.total);
            }
            return true;
        });
    }
    TEST_CASE("a pinned bridge bears at its glue what strings do at saddle and pins") {
        must_hold("pinned bridge", 400, [](const whole& w, complaints& wrong) {
            if (!w.built.pins) { return false; }
            const strung_up u(w);
            spot on_saddle, on_bridge;
            double turning = 0;
            for (std::size_t i = 0; i < u.count(); ++i) {
                on_saddle = on_saddle + u.on_saddle(i);
                on_bridge = on_bridge + u.on_saddle(i) + u.on_anchor(i);
                const spot middle = u.g.top_middle(i, u.at);
                turning -= (cross(u.g.saddle(i, u.at) - middle, u.on_saddle(i)) +
                            cross(u.g.anchor(i, u.at) - middle, u.on_anchor(i)))
                               .y;
            }
            const auto& p = *u.s.pinned;
            const double off = 1e-8 * u.total;
            wrong.unless_near("shear", si(p.shear), -on_bridge.x, off);
            wrong.unless_near("down", si(p.down), -on_bridge.z, off);
            wrong.unless_near("turning", si(p.turning), turning, u.total * (1e-9 + 0.05 * std::pow(u.at.turn, 2)));
            wrong.unless_near("saddle_down", si(p.saddle_down), -on_saddle.z, off);
            wrong.unless_near("saddle_push", si(p.saddle_push), -on_saddle.x, off);
            wrong.unless_near("saddle_tipping", si(p.saddle_tipping), -on_saddle.x * si(w.built.pins->saddle_exposed), off);
            return true;
        });
    }
    TEST_CASE("a floating bridge stands on its feet in balance, at every state of friction") {
        must_hold(
            "floating bridge", 300,
            [](const whole& w, complaints& wrong) {
                if (!w.built.feet) { return false; }
                const strung_up u(w);
                const spot front = u.g.front_edge(u.at), back = u.g.back_edge(u.at), along = toward(front, back);
                const spot up{-along.z, 0, along.x};
                const auto dot = [](const spot& a, const spot& b) { return a.x * b.x + a.y * b.y + a.z * b.z; };
                const auto balance = [&](const char* state, const tautline::basic_bridge_footing<double>& stand,
                                         double sign) {
                    double down = 0, push = 0, about_front = 0, across = 0;
                    for (std::size_t i = 0; i < u.count(); ++i) {
                        // What lies behind the saddle is as tight as friction lets it.
                        const double bend = si(u.s.strings[i].at_saddle.break_angle);
                        const double ratio = std::exp(sign * w.built.saddle.friction.most * bend);
                        const spot f = u.on_saddle(i) + u.on_anchor(i) - ratio * u.on_anchor(i);
                        const spot arm = u.g.saddle(i, u.at) - front;
                        down -= dot(f, up);
                        push += dot(f, along);
                        about_front += dot(arm, along) * -dot(f, up) + dot(arm, up) * dot(f, along);
                        // About the middle of the bridge: heights over the feet, places across.
                        across += arm.y * -dot(f, up) + dot(arm, up) * f.y;
                    }
                    const std::string name(state);
                    const double off = 1e-8 * u.total;
                    wrong.unless_near(name + ".down", si(stand.down), down, off);
                    wrong.unless_near(name + ".push", si(stand.push), push, off);
                    wrong.unless_near(name + ", feet together", si(stand.bass_load) + si(stand.treble_load), down, off);
                    wrong.unless_near(name + ", feet about the centre line",
                                      si(stand.bass_load) * si(w.built.feet->bass_foot) +
                                          si(stand.treble_load) * si(w.built.feet->treble_foot),
                                      across, 0.1 * off);
                    if (down > 0) {
                        wrong.unless_near(name + ", about the front edge", si(stand.front_margin) * si(stand.down),
                                          about_front, 0.1 * off);
                        wrong.unless_near(name + ", edges", si(stand.front_margin) + si(stand.back_margin),
                                          distance(front, back), 1e-9);
                    }
                };
                balance("even", u.s.standing->even, 0);
                balance("tail_slack", u.s.standing->tail_slack, -1);
                balance("tail_tight", u.s.standing->tail_tight, 1);
                return true;
            },
            [](recipe& r) { r.end = 1; });
    }
    TEST_CASE("a hinged tailpiece has no moment about its hinge, which bears the whole pull") {
        must_hold("tailpiece", 300, [](const whole& w, complaints& wrong) {
            if (!w.built.tailpiece) { return false; }
            const strung_up u(w);
            spot pull;
            double moment = 0;
            for (std::size_t i = 0; i < u.count(); ++i) {
                pull = pull + u.on_anchor(i);
                moment += cross(u.g.anchor(i, u.at) - u.g.hinge(), u.on_anchor(i)).y;
            }
            wrong.unless_near("moment about the hinge", moment, 0, 1e-9 * u.total);
            unless_zero(wrong, "pull", pull - spot_of(u.s.anchor_pull), 1e-9 * u.total);
            return true;
        });
    }
    TEST_CASE("the neck is held at its joint against what nut and posts bear") {
        must_hold(
            "neck", 300,
            [](const whole& w, complaints& wrong) {
                const auto& built = w.built.neck;
                if (!built.joint_stiffness || (built.rod && si(built.rod->x_to) >= si(tautline::joint_place(w.built)))) {
                    return false;
                }
                const strung_up u(w);
                const plain_neck n(w, u.g);
                const spot axis{n.joint(), 0, n.section(n.joint()).neutral_axis + u.g.set_at(n.joint())};
                double moment = 0;
                for (std::size_t i = 0; i < u.count(); ++i) {
                    moment +=
                        (cross(u.g.nut(i, u.at) - axis, u.on_nut(i)) + cross(u.g.post(i, u.at) - axis, u.on_post(i))).y;
                }
                // Pulls along x are those of the unbowed neck; posts may be turned with their slope's cosine or without.
                const double rise = std::abs(u.at.nut_rise) + std::abs(u.g.set_at(0));
                wrong.unless_near("moment at the joint", -u.s.bow.slope.back() * si(*built.joint_stiffness), moment,
                                  u.total *
                                      (1e-9 + 0.02 * rise * 0.02 / n.joint() + rise * rise + 0.1 * u.small_turns * 0.4));
                return true;
            },
            [](recipe& r) {
                r.creep = 0; // creep comes after the load
                r.yields = std::max(1, r.yields);
            });
    }
}
