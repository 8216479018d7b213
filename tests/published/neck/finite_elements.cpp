// The beam against solid finite elements (fe_neck_cases.hpp: CalculiX ccx 2.20).

#include <tautline/neck/relief.hpp>
#include <tautline/neck/second_order.hpp>

#include <string>

#include "fe_neck_cases.hpp"
#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

neck neck_of(const fe::neck_case& c) {
    const auto arc = c.arc_radius > 0 ? 1000 / c.arc_radius * per_metre : 0 * per_metre;
    neck n;
    // The taper runs on through the stub before the nut.
    for (const double u : {-45 / c.joint, 1.0}) {
        n.stations.push_back({.x = u * c.joint * mm,
                              .half_width = (c.half_width[0] + (c.half_width[1] - c.half_width[0]) * u) * mm,
                              .board_thickness = c.board_thickness * mm,
                              .board_arc = arc,
                              .back_depth = (c.depth[0] + (c.depth[1] - c.depth[0]) * u) * mm});
    }
    n.board_modulus = c.board_modulus * MPa;
    n.back_modulus = c.back_modulus * MPa;
    n.pure_bending_factor = 1; // these are true moduli
    n.joint = c.joint * mm;
    return n;
}
neck with_channel() {
    neck n = neck_of(fe::channel_and_rod);
    n.inserts.push_back({.x_from = fe::rod_from * mm,
                         .x_to = fe::rod_to * mm,
                         .top = -(6 + fe::channel_top) * mm,
                         .width = 2 * fe::channel_half_width * mm,
                         .height = (fe::channel_bottom - fe::channel_top) * mm,
                         .modulus = 0 * GPa});
    n.rod = truss_rod{.x_from = fe::rod_from * mm, .x_to = fe::rod_to * mm, .z_ends = fe::rod_z * mm, .dip = 0 * mm};
    return n;
}

struct outcome {
    double nut_rise, relief;
    std::vector<double> w;
};
std::vector<string_pull> pulls_of(const fe::neck_case& c, double share) {
    std::vector<string_pull> pulls;
    for (const auto& s : c.strings) {
        const double along = c.scale / std::hypot(c.scale, s.z_bridge - s.z_nut);
        pulls.push_back({.pull = share * s.tension * along * N,
                         .z_nut = s.z_nut * mm,
                         .z_saddle = s.z_bridge * mm,
                         .x_saddle = c.scale * mm});
    }
    return pulls;
}
/// In millimetres. `share` scales all loads and the result back: a tiny one leaves the second order out.
outcome solve(const fe::neck_case& c, const neck& n, double strings, double rod, double share) {
    const auto bowed = bend(make_beam(n, 129), pulls_of(c, strings * share), rod * share * fe::rod_pull * N);
    outcome out{bowed.nut_rise() / mm / share, 0, {}};
    std::vector<crest> crests;
    for (const double x : c.frets) {
        crests.push_back({.x = x * mm, .z = deflection_at(bowed, x * mm)});
        out.w.push_back(crests.back().z / mm / share);
    }
    out.relief = relief_between<double>(crests, 0, crests.size() - 1).gap / mm / share;
    return out;
}
outcome linear(const fe::neck_case& c, const neck& n, double strings = 1, double rod = 0) {
    return solve(c, n, strings, rod, 1e-6);
}

} // namespace

TEST_CASE("solid finite elements (CalculiX 2.20), linear, strings alone: nut rise within 0.7 %, relief within 0.3 %, every "
          "fret within 0.01 mm" *
          published::reference_program) {
    for (const auto* c : {&fe::prism, &fe::taper, &fe::arched_composite}) {
        CAPTURE(std::string(c->title));
        const auto beam = linear(*c, neck_of(*c));
        CHECK(published::relative("nut rise, strings alone, mm", beam.nut_rise, c->linear_fine.nut_rise, 0.007));
        CHECK(published::relative("relief, strings alone, mm", beam.relief, c->linear_fine.relief, 0.003));
        for (std::size_t i = 0; i < beam.w.size(); ++i) {
            CHECK(published::within("deflection at every fret, mm", beam.w[i], c->linear_fine.w_frets[i], 0.01));
        }
    }
    const auto beam = linear(fe::channel_and_rod, with_channel());
    CHECK(published::relative("nut rise, channelled neck, strings alone, mm", beam.nut_rise, fe::strings_alone.nut_rise,
                              0.007));
    CHECK(published::relative("relief, channelled neck, strings alone, mm", beam.relief, fe::strings_alone.relief, 0.003));
}

TEST_CASE("solid finite elements (CalculiX 2.20), linear: the channel costs stiffness" * published::reference_program) {
    const auto solid = linear(fe::channel_and_rod, neck_of(fe::channel_and_rod));
    const auto hollow = linear(fe::channel_and_rod, with_channel());
    CHECK(hollow.nut_rise > 1.003 * solid.nut_rise);
}

TEST_CASE("solid finite elements (CalculiX 2.20), linear, with a rod: within 0.02 mm" * published::reference_program) {
    const auto both = linear(fe::channel_and_rod, with_channel(), 1, 1);
    CHECK(
        published::within("nut rise, strings and rod, mm", both.nut_rise, fe::channel_and_rod.linear_fine.nut_rise, 0.02));
    CHECK(published::within("relief, strings and rod, mm", both.relief, fe::channel_and_rod.linear_fine.relief, 0.02));
    const auto rod = linear(fe::channel_and_rod, with_channel(), 0, 1);
    CHECK(published::within("nut rise, rod alone, mm", rod.nut_rise, fe::rod_alone.nut_rise, 0.02));
    CHECK(published::within("relief, rod alone, mm", rod.relief, fe::rod_alone.relief, 0.02));
}

namespace {

/// Nut rise in millimetres with the strings' ends where the solid models have them: on a rigid arm that goes on straight
/// from the stub's end face, 45 mm before the nut, while the neck between curves away from it.
double nut_rise_on_arm(const fe::neck_case& c, const neck& n, double rod, double share) {
    const auto beam = make_beam(n, 129);
    const auto pulls = pulls_of(c, share);
    kernel::bow_problem<double> problem{beam, kernel::gather<double>(pulls), rod * share * fe::rod_pull * N, {}};
    const auto& first = beam.steps.front();
    const auto at_nut = problem.moments_at(first, beam.at(first, 0), 0 * mm).dead / beam.at(first, 0).bending_rigidity;
    const auto lag = at_nut * (45 * mm) * (45 * mm) / 2.0;
    const double follows = 1 - lag / kernel::solve_bow(problem).parts.nut_rise;
    problem.strings.nut_share *= follows;
    problem.strings.nut_share_per_x *= follows;
    return kernel::solve_bow(problem).parts.nut_rise / mm / share;
}

} // namespace

TEST_CASE("solid finite elements (CalculiX 2.20), large displacements: the increase over linear within 2 % of itself, 4 % "
          "without their rigid arm" *
          published::reference_program) {
    for (const auto* c : {&fe::prism, &fe::taper, &fe::arched_composite, &fe::channel_and_rod}) {
        CAPTURE(std::string(c->title));
        const bool rod = c == &fe::channel_and_rod;
        neck n = rod ? with_channel() : neck_of(*c);
        if (rod) { n.rod->free_in_channel = true; } // their pulls follow the straight line between the anchors
        const double pull = rod ? 1 : 0;
        const double increase = nut_rise_on_arm(*c, n, pull, 1) - nut_rise_on_arm(*c, n, pull, 1e-6);
        CHECK(published::relative("increase of nut rise over linear, strings on a rigid arm, mm", increase,
                                  c->large_coarse.nut_rise - c->linear_coarse.nut_rise, 0.02));
        // The neck as it is strung, without that arm: the nut carries the strings.
        const double strung = solve(*c, n, 1, pull, 1).nut_rise - linear(*c, n, 1, pull).nut_rise;
        CHECK(published::relative("increase of nut rise over linear, strings on the nut, mm", strung,
                                  c->large_coarse.nut_rise - c->linear_coarse.nut_rise, 0.04));
        const double relief = solve(*c, n, 1, pull, 1).relief - linear(*c, n, 1, pull).relief;
        CHECK(published::relative("increase of relief over linear, mm", relief,
                                  c->large_coarse.relief - c->linear_coarse.relief, 0.04));
    }
}

TEST_CASE("solid finite elements (CalculiX 2.20): the nut's rise grows from linear to large displacements within 0.3 %" *
          published::reference_program) {
    for (const auto* c : {&fe::prism, &fe::taper, &fe::arched_composite, &fe::channel_and_rod}) {
        CAPTURE(std::string(c->title));
        const bool rod = c == &fe::channel_and_rod;
        neck n = rod ? with_channel() : neck_of(*c);
        if (rod) { n.rod->free_in_channel = true; }
        const double growth = second_order_growth(make_beam(n, 129), pulls_of(*c, 1), rod ? fe::rod_pull * N : 0 * N);
        CHECK(published::relative("growth of the nut's rise by the second order", growth,
                                  c->large_coarse.nut_rise / c->linear_coarse.nut_rise, 0.003));
    }
}

TEST_CASE("solid finite elements (CalculiX 2.20), large displacements: a rod held in its channel would add a third less" *
          published::reference_program) {
    const double held = solve(fe::channel_and_rod, with_channel(), 1, 1, 1).nut_rise -
                        linear(fe::channel_and_rod, with_channel(), 1, 1).nut_rise;
    const double found = fe::channel_and_rod.large_coarse.nut_rise - fe::channel_and_rod.linear_coarse.nut_rise;
    CHECK(held < 0.75 * found);
}
