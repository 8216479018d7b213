// What an instrument's measures make of its neck.

#include <tautline/setup/solve.hpp>

#include "demo.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("neck of an instrument") {
    TEST_CASE("creep reaches the neck through a solve: all of the elastic bow times its factor, pulls as they were") {
        auto i = demo::four_course();
        i.neck.set = {{.x = 0 * mm, .z = 0.1 * mm}, {.x = 150 * mm, .z = -0.1 * mm}, {.x = 280 * mm, .z = 0 * mm}};
        const auto fresh = solve(i, demo::unison_pairs());
        REQUIRE(fresh.nut_rise > 0.1 * mm);
        i.neck.creep_factor = 1.5;
        const auto crept = solve(i, demo::unison_pairs());
        CHECK(near::relative(crept.nut_rise, 1.5 * fresh.nut_rise, 1e-12));
        CHECK(near::relative(crept.total_tension, fresh.total_tension, 1e-12));
        for (std::size_t n = 0; n < fresh.fret_x.size(); ++n) {
            // The set it carried does not creep.
            const auto set = kernel::set_height<double>(i.neck.set, fresh.fret_x[n]);
            CHECK(near::within(crept.board_points[n].z - set, 1.5 * (fresh.board_points[n].z - set), 1e-9 * mm));
        }
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
        const auto pulls = solve(i, demo::unison_pairs()).pulls;
        const auto a = bend(make_beam(two, 1025), pulls), b = bend(make_beam(many, 1025), pulls);
        CHECK(near::relative(a.nut_rise(), b.nut_rise(), 1e-9));
    }
}
