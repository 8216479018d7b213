#include <algorithm>
#include <cmath>

#include "template_parts.hpp"

namespace drawing {

using namespace tautline::units;

namespace {

/// An arc to make a gauge for, mm.
struct arc {
    std::string where{};
    double radius = 0;
    double reach = 0; ///< half the width it must span
};

/// The arcs of a state. Flat parts have none.
std::vector<arc> arcs_of(const subject& s) {
    const tl::board& b = s.instrument.board;
    const tl::saddle& saddle = s.instrument.saddle;
    std::vector<arc> arcs;
    const auto add_board = [&](const std::string& where, tl::length<double> x) {
        const auto k = tl::arc_curvature(b.surface, x);
        if (k.value() > 0) { arcs.push_back({where, tl::length<double>(1.0 / k) / mm, tl::half_width_at(b, x) / mm}); }
    };
    if (b.surface.radius_at_end) {
        add_board("Board at the nut", 0 * mm);
        add_board("Board at its end", b.board_length);
    } else {
        add_board("Board", b.board_length);
    }
    if (saddle.radius) {
        arcs.push_back({"Saddle's string bottoms", *saddle.radius / mm,
                        0.5 * saddle.spacing.spread / mm + std::abs(saddle.spacing.offset / mm)});
    }
    for (arc& a : arcs) { a.reach = std::min(a.reach + 5, 0.95 * a.radius); }
    return arcs;
}

bool alike(const arc& a, const arc& b) {
    return a.where == b.where && std::abs(a.radius - b.radius) < 0.005 && std::abs(a.reach - b.reach) < 0.5;
}

true_size gauge(const arc& a, const std::string& state, measures m) {
    const double reach = a.reach;
    const auto drop = [arc = tl::cylinder(a.radius * mm)](double y) {
        return -tl::surface_height(arc, 0 * mm, y * mm) / mm;
    };
    constexpr double body = 20;
    const double fall = drop(reach);
    const std::string size = "radius " + written_place(a.radius * mm, m);
    return {a.where + ", " + state + ": " + size, std::max(2 * reach + 8, m == measures::both ? 116.0 : 86.0),
            body + fall + 4, [=](canvas& c) {
                // Both edges have the same arc: the lower one lies on the board, a block lies on the upper one.
                std::vector<place> edge, other;
                constexpr int steps = 120;
                for (int k = 0; k <= steps; ++k) {
                    const double y = reach * (2.0 * k / steps - 1);
                    edge.push_back({4 + reach + y, 2 + drop(y)});
                    other.push_back({4 + reach - y, 2 + body + drop(y)});
                }
                edge.insert(edge.end(), other.begin(), other.end());
                c.path(edge, {.width = 0.2}, true);
                const double middle = 4 + reach;
                c.line({middle, 2}, {middle, 5}, {.width = 0.15});
                c.line({middle, 2 + body - 3}, {middle, 2 + body}, {.width = 0.15});
                const lettering l{.size = 2.5, .side = align::middle};
                c.text({middle, 2 + body / 2}, c.fitted(size, 2 * reach - 2, l), l);
                c.text({middle, 2 + body / 2 + 3.6}, c.fitted(a.where + ", " + state, 2 * reach - 2, l), l);
            }};
}

} // namespace

std::vector<true_size> arc_gauges(const subject& found, const subject* planned, measures m) {
    std::vector<true_size> gauges;
    const auto now = arcs_of(found), wanted = planned ? arcs_of(*planned) : std::vector<arc>{};
    for (const arc& a : now) {
        const bool same = std::any_of(wanted.begin(), wanted.end(), [&](const arc& w) { return alike(a, w); });
        gauges.push_back(gauge(a, same ? "as found and planned" : "as found", m));
    }
    for (const arc& w : wanted) {
        if (std::none_of(now.begin(), now.end(), [&](const arc& a) { return alike(a, w); })) {
            gauges.push_back(gauge(w, "planned", m));
        }
    }
    return gauges;
}

} // namespace drawing
