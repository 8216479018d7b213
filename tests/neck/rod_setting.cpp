#include <tautline/neck/rod_setting.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const rod_screw turned{.diameter = 4.8 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm, .anchor_give = 5 * mm};
}

TEST_CASE("turns stretch the rod and shorten the neck between its anchors") {
    // A prism, by hand: L/(EA) + L/(EA)_neck + c^2 L/EI.
    neck n;
    for (const double x : {0.0, 350.0}) {
        n.stations.push_back({.x = x * mm, .half_width = 22 * mm, .board_thickness = 6 * mm, .back_depth = 16 * mm});
    }
    n.board_modulus = 12 * GPa;
    n.back_modulus = 12 * GPa;
    n.joint = 340 * mm;
    n.rod = truss_rod{.x_from = 20 * mm, .x_to = 320 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
    const auto s = section_at(n, 100 * mm);
    const double area = std::numbers::pi / 4 * 4.8e-3 * 4.8e-3, l = 0.3;
    const double c = (s.neutral_axis - (-15 * mm)) / metre;
    const double steel = (l + 0.005) / (207e9 * area);
    const double wood = l / s.axial_rigidity.value() + c * c * l / s.bending_rigidity.value();
    const auto beam = make_beam(n);
    CHECK(near::relative(rod_turns(beam, turned, 1000 * N), 1000 * (steel + wood) / 0.8e-3, 1e-12));
    CHECK(near::relative(rod_pull_from_turns(beam, turned, rod_turns(beam, turned, 700 * N)), 700 * N, 1e-12));
    // A pair: two rods of steel, the neck bent by their separation and not shortened.
    n.rod->separation = 7 * mm;
    const double pair = 2 * steel + 0.007 * 0.007 * l / s.bending_rigidity.value();
    CHECK(near::relative(rod_turns(make_beam(n), turned, -500 * N), -500 * pair / 0.8e-3, 1e-12));
}

TEST_CASE("a rod that reaches a joint that yields turns it, too: by two bows of the neck") {
    auto n = demo::neck_with_rod();
    n.rod->x_to = n.joint + 40 * mm;
    const double rigid = rod_turns(make_beam(n), turned, 1000 * N);
    for (const double stiffness : {5000.0, 20000.0}) {
        n.joint_stiffness = stiffness * N_m_per_rad;
        const auto beam = make_beam(n);
        // How far the joint turns under the rod alone, by the bow; the rod's path there grows by that turn times its depth.
        const auto bowed = bend(beam, {}, 1000 * N);
        const auto s = section_at(n, n.joint);
        const double depth = (s.neutral_axis - s.rod_height) / metre, turn = std::abs(bowed.slope.back()) / n.creep_factor;
        CHECK(near::relative(rod_turns(beam, turned, 1000 * N) - rigid, turn * depth / 0.8e-3, 1e-6));
        // One that ends before the joint is held by the neck alone.
        auto ends = n;
        ends.rod->x_to = n.joint - 20 * mm;
        auto held = ends;
        held.joint_stiffness.reset();
        CHECK(rod_turns(make_beam(ends), turned, 1000 * N) == rod_turns(make_beam(held), turned, 1000 * N));
    }
}

TEST_CASE("the neck's own give counts: it is a good part of a turn") {
    const auto beam = make_beam(demo::neck_with_rod());
    auto stiff = demo::neck_with_rod();
    stiff.board_modulus = 1000 * GPa;
    stiff.back_modulus = 1000 * GPa;
    const double all = rod_turns(beam, turned, 1000 * N), steel = rod_turns(make_beam(stiff), turned, 1000 * N);
    CHECK(all / steel > 1.1);
    CHECK(all / steel < 1.7);
    auto fine = turned;
    fine.lead = 0.5 * mm;
    CHECK(rod_turns(beam, fine, 1000 * N) > all);
    auto thick = turned;
    thick.diameter = 6 * mm;
    CHECK(rod_turns(beam, thick, 1000 * N) < all);
}

TEST_CASE("pull from torque and back; the rod's stress") {
    const auto pull = rod_pull_from_torque(2 * N_m, 0.2, 5 * mm);
    CHECK(near::relative(pull, 2000 * N, 1e-12));
    CHECK(near::relative(torque_for_rod_pull(pull, 0.2, 5 * mm), 2 * N_m, 1e-12));
    CHECK(near::relative(rod_stress(1000 * N, 4 * mm), 1000 / (4 * std::numbers::pi) * MPa, 1e-12));
    CHECK(near::relative(rod_stress_share(1000 * N, 4 * mm, 400 * MPa), 1000 / (4 * std::numbers::pi) / 400, 1e-12));
    CHECK(near::relative(torque_pull_uncertainty(2000 * N), 168 * N, 1e-12));
    CHECK_THROWS_AS((void)rod_stress_share(1000 * N, 4 * mm, 0 * MPa), invalid_input);
    using D = dual<double, 1>;
    const auto d = rod_pull_from_torque(2 * N_m, D::variable(0.2, 0), 5 * mm);
    CHECK(near::relative(d.value().partial[0], -2000 / 0.2, 1e-12));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_WITH((void)rod_pull_from_torque(-1 * N_m, 0.2, 5 * mm), "torque is -1 N m; it must be at least 0 N m.");
    CHECK_THROWS_AS((void)rod_pull_from_torque(1 * N_m, 0.0, 5 * mm), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_from_torque(1 * N_m, 0.2, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)rod_stress(1 * N, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)rod_turns(make_beam(demo::plain_neck()), turned, 1 * N), invalid_input); // no rod
    CHECK_THROWS_AS((void)rod_turns(make_beam(demo::neck_with_rod()), rod_screw(), 1 * N), invalid_input);
    CHECK_THROWS_AS((void)rod_pull_from_turns(make_beam(demo::neck_with_rod()), turned, std::nan("")), invalid_input);
}
