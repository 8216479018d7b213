#include <tautline/neck/neck_by_rigidity.hpp>

#include <cmath>

#include <tautline/neck/rod_setting.hpp>
#include <tautline/neck/wanted.hpp>

#include "corners.hpp"
#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

neck_by_rigidity tapered(double at_nut, double at_joint, double length_mm = 300) {
    return {.marks = {{.x = 0 * mm, .rigidity = at_nut * N_m2, .neutral_axis = -8 * mm},
                      {.x = length_mm * mm, .rigidity = at_joint * N_m2, .neutral_axis = -8 * mm}},
            .joint = length_mm * mm};
}
/// What the sections of a neck say at many places.
neck_by_rigidity seen_at(const neck& n, int places) {
    neck_by_rigidity same{.joint = n.joint, .joint_stiffness = n.joint_stiffness, .rod = n.rod, .set = n.set};
    same.creep_factor = n.creep_factor;
    for (int i = 0; i <= places; ++i) {
        const auto x = i * n.joint / places;
        const auto s = section_at(n, x);
        same.marks.push_back(
            {.x = x, .rigidity = s.bending_rigidity, .neutral_axis = s.neutral_axis, .axial_rigidity = s.axial_rigidity});
    }
    return same;
}
constexpr auto rigidity_feather = 1e-6 * N;

} // namespace

TEST_CASE("neck by rigidity: a cantilever as handbooks have it, even and tapered") {
    // P L^3/(3 EI) and M L^2/(2 EI); with EI0 (1 + x/L), P L^3 (ln 2 - 1/2)/EI0 and M L^2 (1 - ln 2)/EI0 by integration.
    const auto l = 300 * mm;
    const auto pull = rigidity_feather;
    const std::vector across{string_pull{.pull = pull, .z_nut = -8 * mm, .z_saddle = 192 * mm, .x_saddle = 1 * metre}},
        couple{string_pull{.pull = pull, .z_nut = 12 * mm, .z_saddle = 12 * mm, .x_saddle = 1 * metre}};
    const auto even = make_beam(tapered(50, 50), 17), wedge = make_beam(tapered(50, 100), 65);
    const auto p = 0.2 * pull;
    const auto m = pull * (20 * mm);
    CHECK(near::relative(bend(even, across).nut_rise(), p * l * l * l / (150 * N_m2), 1e-6));
    CHECK(near::relative(bend(even, couple).nut_rise(), m * l * l / (100 * N_m2), 1e-6));
    CHECK(near::relative(bend(wedge, across).nut_rise(), p * l * l * l * (std::log(2) - 0.5) / (50 * N_m2), 1e-6));
    CHECK(near::relative(bend(wedge, couple).nut_rise(), m * l * l * (1 - std::log(2)) / (50 * N_m2), 1e-6));
}

TEST_CASE("neck by rigidity: what a neck's sections say bends as the neck does, the better the more places") {
    neck n = demo::plain_neck();
    n.joint_stiffness = 20000 * N_m_per_rad;
    n.creep_factor = 1.2;
    n.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = -0.12 * mm}, {.x = 340 * mm, .z = 0 * mm}};
    const auto rise = bend(make_beam(n, 257), demo::strings()).nut_rise();
    const auto off = [&](int places) {
        return std::abs((bend(make_beam(seen_at(n, places), 257), demo::strings()).nut_rise() - rise) / rise);
    };
    CHECK(off(8) < 2e-3);
    CHECK(off(128) < 1e-5);
    CHECK(off(8) > 20 * off(64)); // straight between marks: with the square of their spacing
    const auto c = demo::relief_from_first_to_joint();
    CHECK(near::relative(relief_under(make_beam(seen_at(n, 128)), c).gap, relief_under(make_beam(n), c).gap, 1e-4));
}

TEST_CASE("neck by rigidity: rods of every kind, free in a neck with a set too") {
    for (const int kind : {0, 1, 2}) {
        neck n = demo::neck_with_rod();
        n.inserts.clear(); // marks see no jump
        n.set = {{.x = 0 * mm, .z = 0.1 * mm}, {.x = 150 * mm, .z = -0.3 * mm}, {.x = 340 * mm, .z = 0 * mm}};
        n.rod->free_in_channel = kind == 1;
        if (kind == 2) { n.rod->separation = 6 * mm; }
        const auto exact = make_beam(n, 257), same = make_beam(seen_at(n, 128), 257);
        CHECK(near::relative(bend(same, demo::strings(), 800 * N).nut_rise(),
                             bend(exact, demo::strings(), 800 * N).nut_rise(), 1e-4));
        const rod_screw screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        CHECK(near::relative(rod_turns(same, screw, 500 * N), rod_turns(exact, screw, 500 * N), 1e-4));
        const auto wish = rod_pull_for_relief(same, demo::relief_from_first_to_joint(), 0.15 * mm, 5000 * N);
        const auto other = rod_pull_for_relief(exact, demo::relief_from_first_to_joint(), 0.15 * mm, 5000 * N);
        CHECK(near::within(wish.pull, other.pull, 1 * N));
    }
}

TEST_CASE("neck by rigidity: a soft place bends there; a jump is two marks close together") {
    // Half as stiff over the middle third: M L^2/EI (1/2 + 1/6), the soft third adding M/EI over a third, centred at L/2.
    neck_by_rigidity n = tapered(60, 60);
    const auto mark = [](double x, double ei) {
        return rigidity_mark{.x = x * mm, .rigidity = ei * N_m2, .neutral_axis = -8 * mm};
    };
    n.marks = {mark(0, 60), mark(100, 60), mark(100.0001, 30), mark(200, 30), mark(200.0001, 60), mark(300, 60)};
    const std::vector couple{
        string_pull{.pull = rigidity_feather, .z_nut = 12 * mm, .z_saddle = 12 * mm, .x_saddle = 1 * metre}};
    const auto m = rigidity_feather * (20 * mm);
    const auto l = 300 * mm;
    CHECK(near::relative(bend(make_beam(n), couple).nut_rise(), m * l * l / (60 * N_m2) * (0.5 + 1.0 / 6), 1e-5));
}

TEST_CASE("neck by rigidity carries derivatives, and says what is wrong") {
    using D = dual<double, 1>;
    const auto rise = [](auto ei) {
        using R = decltype(ei);
        auto n = over<R>(tapered(50, 80));
        n.marks[0].rigidity = flexural_rigidity<R>::from_value(ei);
        std::vector<basic_string_pull<R>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<R>(s)); }
        return bend<R>(make_beam(n), pulls).nut_rise().value();
    };
    CHECK(near::relative(rise(D::variable(50, 0)).partial[0], (rise(50.01) - rise(49.99)) / 0.02, 1e-6));

    auto n = tapered(50, 80);
    n.joint = 301 * mm;
    CHECK_THROWS_WITH((void)make_beam(n), "neck.joint must not lie past the last mark.");
    n = tapered(50, 80);
    n.marks[0].x = 1 * mm;
    CHECK_THROWS_WITH((void)make_beam(n), "neck.marks[0].x must be at the nut (0) or before it.");
    n.marks[0].x = 300 * mm;
    CHECK_THROWS_WITH((void)make_beam(n),
                      doctest::Contains("neck.marks[1].x must be further from the nut than the mark before it."));
    n.marks.pop_back();
    CHECK_THROWS_WITH((void)make_beam(n), "neck.marks must be at least two, one at the nut and one at the joint.");
    n = tapered(0, 80);
    CHECK_THROWS_WITH((void)make_beam(n), "neck.marks[0].rigidity is 0 N m^2; it must be at least 0.001 N m^2 and at most "
                                          "1000000 N m^2.");
    n = tapered(50, 80);
    n.rod = truss_rod{.x_from = 10 * mm, .x_to = 280 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
    CHECK_THROWS_WITH((void)make_beam(n),
                      doctest::Contains("neck.marks[0].axial_rigidity must be given where a single rod pulls."));
    n.rod->separation = 6 * mm;
    CHECK_NOTHROW((void)make_beam(n));
    CHECK_THROWS_WITH((void)make_beam(tapered(50, 80), 1), "stations must be between 2 and 100000.");
}

TEST_CASE("corners: a neck by its rigidity bends, or says why not, wherever one of its numbers lies") {
    auto n = seen_at(demo::neck_with_rod(), 3);
    n.joint_stiffness = 20000 * N_m_per_rad;
    n.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 150 * mm, .z = -0.12 * mm}};
    corners::each_number("make_beam and bend", n,
                         [](const neck_by_rigidity& at) { return bend(make_beam(at, 17), demo::strings(60), 100 * N).w; });
}
