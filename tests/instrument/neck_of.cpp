// What an instrument's measures make of its neck.

#include <tautline/instrument/neck_of.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("neck of an instrument") {
    TEST_CASE("creep reaches the neck through a solve: all of the elastic bow times its factor, pulls as they were") {
        auto i = demo::four_course();
        i.neck.set = {{.x = 0 * mm, .z = 0.1 * mm}, {.x = 150 * mm, .z = -0.1 * mm}, {.x = 280 * mm, .z = 0 * mm}};
        const auto fresh = solve(strung_instrument{i, demo::unison_pairs()});
        REQUIRE(fresh.nut_rise > 0.1 * mm);
        i.neck.creep_factor = 1.5;
        const auto crept = solve(strung_instrument{i, demo::unison_pairs()});
        CHECK(near::relative(crept.nut_rise, 1.5 * fresh.nut_rise, 1e-12));
        CHECK(near::relative(crept.total_tension, fresh.total_tension, 1e-12));
        for (std::size_t n = 0; n < fresh.fret_x.size(); ++n) {
            // The set it carried does not creep.
            const auto set = kernel::permanent_bow_at<double>(i.neck.set, fresh.fret_x[n]);
            CHECK(near::within(crept.board_points[n].z - set, 1.5 * (fresh.board_points[n].z - set), 1e-9 * mm));
        }
    }
    TEST_CASE("what is measured of a neck is what its beam is made of") {
        auto i = demo::four_course(); // 32 to 42 mm wide over 400 mm, 5.5 mm thick, joint at fret 12 of 560 mm
        i.board.thickness_at_end = 7.5 * mm;
        i.neck.back_exponent = 3.5;
        i.neck.joint_stiffness = 4000 * N_m_per_rad;
        i.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 250 * mm, .z_ends = -14 * mm, .dip = 0 * mm};
        i.neck.creep_factor = 1.3;
        i.neck.set = {{.x = 0 * mm, .z = 0 * mm}, {.x = 280 * mm, .z = 0.2 * mm}};
        neck n;
        neck_of(i, n);
        CHECK(near::within(n.joint, 280 * mm, 1e-9 * mm));
        REQUIRE(n.stations.size() == 2);
        CHECK(n.stations[0].x == 0 * mm);
        CHECK(n.stations[1].x == n.joint);
        CHECK(near::within(n.stations[0].half_width, 16 * mm, 1e-9 * mm));
        CHECK(near::within(n.stations[1].half_width, 19.5 * mm, 1e-9 * mm));
        CHECK(near::within(n.stations[0].board_thickness, 5.5 * mm, 1e-9 * mm));
        CHECK(near::within(n.stations[1].board_thickness, 6.9 * mm, 1e-9 * mm));
        CHECK(near::within(n.stations[0].back_depth, 16.5 * mm, 1e-9 * mm));
        CHECK(near::within(n.stations[1].back_depth, 18.1 * mm, 1e-9 * mm));
        for (const auto& s : n.stations) {
            CHECK(s.back_exponent == 3.5);
            CHECK(near::relative(s.board_arc, 1 / 0.205 * per_metre, 1e-12));
        }
        CHECK(n.board_modulus == 15 * GPa);
        CHECK(n.back_modulus == 10 * GPa);
        REQUIRE(n.joint_stiffness.has_value());
        CHECK(*n.joint_stiffness == 4000 * N_m_per_rad);
        REQUIRE(n.rod.has_value());
        CHECK(n.rod->z_ends == -14 * mm);
        CHECK(n.creep_factor == 1.3);
        REQUIRE(n.set.size() == 2);
        CHECK(n.set[1].z == 0.2 * mm);
    }
    TEST_CASE("between nut and joint a cone's neck has the radius of its surface: two stations are as good as many") {
        auto i = demo::four_course();
        i.board.surface = cone(180 * mm, 400 * mm, 350 * mm);
        neck two;
        neck_of(i, two);
        REQUIRE(two.stations.size() == 2);
        neck many = two;
        many.stations.clear();
        for (int k = 0; k <= 20; ++k) {
            auto s = kernel::station_between<double>(two.stations[0], two.stations[1], k / 20.0);
            s.board_arc = arc_curvature(i.board.surface, s.x);
            s.back_exponent = two.stations[0].back_exponent;
            many.stations.push_back(s);
        }
        for (double x = 3; x < 270; x += 13) {
            const auto s =
                kernel::with_station_at<double>(two, x * mm, [](const neck_station& at, const auto&) { return at; });
            CHECK(near::relative(s.board_arc, arc_curvature(i.board.surface, x * mm), 1e-12));
        }
        const auto pulls = solve(strung_instrument{i, demo::unison_pairs()}).pulls;
        const auto a = bend(make_beam(two, 1025), pulls), b = bend(make_beam(many, 1025), pulls);
        CHECK(near::relative(a.nut_rise(), b.nut_rise(), 1e-9));
    }
}
