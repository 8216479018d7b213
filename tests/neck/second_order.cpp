#include <tautline/neck/second_order.hpp>

#include "demo_neck.hpp"
#include "near.hpp"
#include "random_neck.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// A prism of one wood.
neck slab(double length_mm) {
    const auto station = [](double x) {
        return neck_station{
            .x = x * mm, .half_width = 20 * mm, .board_thickness = 5 * mm, .back_depth = 10 * mm, .back_exponent = 3};
    };
    return {.stations = {station(0), station(length_mm)},
            .board_modulus = 10 * GPa,
            .back_modulus = 10 * GPa,
            .pure_bending_factor = 1,
            .joint = length_mm * mm};
}

} // namespace

TEST_CASE("second_order_growth is the nut's rise over that under tiny loads, scaled up, for random necks and rods") {
    demo::random_necks make(21);
    double furthest = 0; // of 1/(1 - r1), which is not the growth
    for (int i = 0; i < 60; ++i) {
        const auto kind = static_cast<demo::rod_kind>(i % 4);
        const auto made = make(kind);
        const auto rod_pull = kind == demo::rod_kind::none ? 0 * N : make.any(0, 300) * N;
        const auto beam = make_beam(made.bare);
        // Tangs bend the neck too: all that bends it is made tiny.
        const double tiny = 1e-6;
        auto n = made.bare;
        if (n.slots) { n.slots->interference = n.slots->interference * tiny; }
        auto pulls = made.c.strings;
        for (auto& s : pulls) { s.pull = s.pull * tiny; }
        const auto linear = bend(make_beam(n), pulls, rod_pull * tiny).nut_rise() / tiny;
        if (abs(linear) < 0.1 * mm) { continue; } // strings and rod all but cancel
        const auto bowed = bend(beam, made.c.strings, rod_pull);
        const double growth = second_order_growth(beam, made.c.strings, rod_pull);
        CAPTURE(i);
        CHECK(near::relative(growth, bowed.nut_rise() / linear, 1e-5));
        furthest = std::max(furthest, std::abs(1 / (1 - bowed.rise_per_rise) - growth));
    }
    CHECK(furthest > 0.02);
}

TEST_CASE("second_order_growth of a prism under a string to a fixed point, from the solved differential equation") {
    // w'' + k^2 w = k^2 (a - b x), w(L) = w'(L) = 0, a = e + w(0) at the nut, b = (a - f)/S with the string f above the
    // axis at the saddle: w(0) = a - (a - b L) cos(kL) - (b/k) sin(kL). Without the second order w'' = k^2 (e - (e - f)
    // x/S).
    const auto beam = make_beam(slab(300), 129);
    const auto ei = beam.points[0].bending_rigidity;
    const double l = 0.3, e = 0.009, f = 0.020;
    for (const double s : {0.55, 0.9, 3.0}) {
        for (const double u : {0.1, 0.5, 1.1}) {
            const double k = u / l, b_a = 1 / s, b_0 = -f / s; // b = b_a a + b_0
            // e = a - w(0), linear in a.
            const double per_a = (1 - b_a * l) * std::cos(u) + b_a / k * std::sin(u);
            const double rest = -b_0 * l * std::cos(u) + b_0 / k * std::sin(u);
            const double rise = (e - rest) / per_a - e;
            const double first = k * k * (e * l * l / 2 - (e - f) / s * l * l * l / 3);
            const auto axis = beam.points[0].neutral_axis;
            const string_pull one{.pull = u * u * ei / (l * l * metre * metre) / 100.0,
                                  .z_nut = axis + e * metre,
                                  .z_saddle = axis + f * metre,
                                  .x_saddle = s * metre};
            const std::vector pulls(100, one);
            CHECK(near::relative(bend(beam, pulls).nut_rise(), rise * metre, 1e-6));
            CHECK(near::relative(second_order_growth(beam, pulls), rise / first, 1e-6));
        }
    }
}

TEST_CASE("second_order_growth: a joint that gives grows it, creep does not, without load it is 1") {
    const auto pulls = demo::strings();
    neck n = demo::plain_neck();
    const double rigid = second_order_growth(make_beam(n), pulls);
    CHECK(rigid > 1.03);
    CHECK(rigid < 1.2);
    n.creep_factor = 1.5;
    CHECK(near::relative(second_order_growth(make_beam(n), pulls), rigid, 1e-12));
    n.joint_stiffness = 5000 * N_m_per_rad;
    CHECK(second_order_growth(make_beam(n), pulls) > rigid + 0.01);
    CHECK(second_order_growth(make_beam(n), {}) == 1);
}

TEST_CASE("bend_first_order: the bow of tiny loads scaled up, everywhere, and the rise that growth is told from") {
    demo::random_necks make(22);
    for (int i = 0; i < 24; ++i) {
        const auto kind = static_cast<demo::rod_kind>(i % 4);
        const auto made = make(kind);
        const auto rod_pull = kind == demo::rod_kind::none ? 0 * N : make.any(0, 300) * N;
        auto n = made.bare;
        n.set.clear(); // the set stays while loads shrink
        const auto first = bend_first_order(make_beam(n), made.c.strings, rod_pull);
        const double tiny = 1e-6;
        auto small = n;
        if (small.slots) { small.slots->interference = small.slots->interference * tiny; }
        auto pulls = made.c.strings;
        for (auto& s : pulls) { s.pull = s.pull * tiny; }
        const auto linear = bend(make_beam(small), pulls, rod_pull * tiny);
        CAPTURE(i);
        for (const double x : {0.0, 0.3, 0.6, 0.9}) {
            CHECK(near::within(deflection_at(first, x * n.joint), deflection_at(linear, x * n.joint) / tiny,
                               1e-5 * abs(first.nut_rise()) + 1e-9 * metre));
        }
        const double growth = second_order_growth(make_beam(n), made.c.strings, rod_pull);
        if (abs(first.nut_rise()) < 0.1 * mm) { continue; }
        CHECK(near::relative(bend(make_beam(n), made.c.strings, rod_pull).nut_rise(), growth * first.nut_rise(), 1e-5));
    }
}

TEST_CASE("bend_first_order: a cantilever as handbooks have it, however heavy the load") {
    // P x from the free end: P L^3/(3 EI) and, at x from the nut, P (2 L^3 - 3 L^2 x + x^3)/(6 EI). The string's line rises
    // by a fifth from the neutral axis at the nut.
    const auto beam = make_beam(slab(300), 17);
    const auto ei = beam.points[0].bending_rigidity;
    const auto axis = beam.points[0].neutral_axis;
    const auto l = 300 * mm;
    for (const double newtons : {1.0, 400.0, 4000.0}) {
        const std::vector<string_pull> one{
            {.pull = newtons * N, .z_nut = axis, .z_saddle = axis + 200 * mm, .x_saddle = 1 * metre}};
        const auto first = bend_first_order(beam, one);
        const auto p = 0.2 * newtons * N;
        CHECK(near::relative(first.nut_rise(), p * l * l * l / (3.0 * ei), 1e-9));
        CHECK(near::relative(first.slope.front(), -(p * l * l / (2.0 * ei)).value(), 1e-9));
        const auto x = 110 * mm;
        CHECK(near::relative(deflection_at(first, x), p * (2.0 * l * l * l - 3.0 * l * l * x + x * x * x) / (6.0 * ei),
                             1e-6));
    }
    CHECK_THROWS_AS((void)bend_first_order(neck_beam{}, demo::strings()), invalid_input);
    CHECK_THROWS_AS((void)bend_first_order(beam, demo::strings(), 10 * N), invalid_input); // no rod
}

TEST_CASE("second_order_growth carries derivatives, refuses a neck that buckles and bad input") {
    using D = dual<double, 1>;
    const auto growth = [](auto modulus) {
        using R = decltype(modulus);
        auto n = over<R>(demo::plain_neck());
        n.back_modulus = stress<R>::from_value(modulus);
        std::vector<basic_string_pull<R>> pulls;
        for (const auto& s : demo::strings()) { pulls.push_back(over<R>(s)); }
        return second_order_growth<R>(make_beam(n), pulls);
    };
    CHECK(near::relative(growth(D::variable(10e9, 0)).partial[0], (growth(10e9 + 1e5) - growth(10e9 - 1e5)) / 2e5, 1e-4));
    const auto beam = make_beam(demo::plain_neck());
    const string_pull heavy{.pull = 5000 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm};
    CHECK_THROWS_AS((void)second_order_growth(beam, std::vector(10, heavy)), invalid_input);
    CHECK_THROWS_AS((void)second_order_growth(beam, demo::strings(), 10 * N), invalid_input); // no rod
    CHECK_THROWS_AS((void)second_order_growth(neck_beam{}, demo::strings()), invalid_input);
}
