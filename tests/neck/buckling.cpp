#include <tautline/neck/buckling.hpp>

#include <cmath>
#include <string>
#include <vector>

#include <tautline/neck/bow.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a neck that would buckle is refused with the load at which it starts") {
    const auto beam = make_beam(demo::plain_neck());
    std::string said;
    try {
        (void)bend(
            beam,
            std::vector(10, string_pull{.pull = 5000 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm}));
    } catch (const invalid_input& e) { said = e.what(); }
    REQUIRE(said.find("50000 N in all, but starts to buckle at ") != std::string::npos);
    const double limit = std::stod(said.substr(said.find("buckle at ") + 10));
    // A little below it the neck stands, hugely bowed; at the load itself it does not.
    const auto pulled = [&](double total) {
        return std::vector(20,
                           string_pull{.pull = total / 20 * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm});
    };
    CHECK(bend(beam, pulled(0.995 * limit)).nut_rise() > 0.3 * metre);
    CHECK_THROWS_AS((void)bend(beam, pulled(1.005 * limit)), invalid_input);
    // Far past it, where the sums look stable again.
    for (const double times : {3.0, 6.0, 8.8}) { CHECK_THROWS_AS((void)bend(beam, pulled(times * limit)), invalid_input); }
}

TEST_CASE("a rod that is free in its hole can buckle the neck on its own") {
    neck n = demo::neck_with_rod();
    n.rod->free_in_channel = true;
    CHECK_THROWS_AS((void)bend(make_beam(n), {}, 90000 * N), invalid_input);
    n.rod->free_in_channel = false; // held by its channel it cannot
    CHECK_NOTHROW((void)bend(make_beam(n), {}, 90000 * N));
}

TEST_CASE("the share of a load at which a neck buckles falls as the load grows, and scales with it") {
    const auto beam = make_beam(demo::plain_neck());
    const auto share = [&](double each) {
        const std::vector pulls(10,
                                string_pull{.pull = each * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm});
        return kernel::buckling_share(kernel::bow_problem<double>{beam, kernel::gather<double>(pulls), {}, {}});
    };
    CHECK(share(100) >= 1); // stands
    CHECK(share(6000) < 1);
    CHECK(std::abs(share(6000) * 6000 / (share(12000) * 12000) - 1) < 1e-9);
}

TEST_CASE(
    "buckling_share scales the rod's pull with the strings': a free rod alone buckles a prism at Euler's pi^2 EI/l^2") {
    // Both anchors lie in the neck, so it is a column hinged at both ends, as long as the rod (Euler's load).
    neck n{.stations = {{.x = 0 * mm, .half_width = 20 * mm, .board_thickness = 5 * mm, .back_depth = 10 * mm},
                        {.x = 400 * mm, .half_width = 20 * mm, .board_thickness = 5 * mm, .back_depth = 10 * mm}},
           .board_modulus = 10 * GPa,
           .back_modulus = 10 * GPa,
           .joint = 400 * mm};
    n.rod = truss_rod{.x_from = 50 * mm, .x_to = 350 * mm, .z_ends = -9 * mm, .dip = 0 * mm, .free_in_channel = true};
    const auto beam = make_beam(n, 257);
    const auto euler = 9.8696044010894 * beam.points[0].bending_rigidity / ((300 * mm) * (300 * mm));
    for (const double times : {1.25, 2.0, 4.0}) {
        const kernel::bow_problem<double> alone{beam, {}, times * euler, {}};
        CHECK(near::relative(kernel::buckling_share(alone), 1 / times, 1e-4));
    }
    // With strings: twice both buckles at half the share. A rod that is not scaled takes its share away from the strings.
    const auto strings = kernel::gather<double>(demo::strings(3000));
    const auto share = [&](double times, kernel::rod_load rod) {
        kernel::bow_problem<double> both{beam, strings, 0.8 * euler, {}};
        both.strings.scale(times);
        if (rod == kernel::rod_load::grows) { both.rod_pull = both.rod_pull * times; }
        return kernel::buckling_share(both, rod);
    };
    const double together = share(2, kernel::rod_load::grows), stays = share(2, kernel::rod_load::stays);
    REQUIRE(together < 1);
    CHECK(near::relative(share(4, kernel::rod_load::grows), together / 2, 1e-9));
    CHECK(near::relative(share(4, kernel::rod_load::stays), stays / 2, 1e-9));
    CHECK(std::abs(together - stays) > 0.01);
}

TEST_CASE(
    "property: what is called far from buckling stands with a free rod that begins in the head and ends in the body") {
    for (const double from : {-200.0, -50.0, 20.0}) {
        for (const double to : {300.0, 360.0, 1900.0}) {
            neck n = demo::neck_with_rod();
            n.rod =
                truss_rod{.x_from = from * mm, .x_to = to * mm, .z_ends = -13 * mm, .dip = 0 * mm, .free_in_channel = true};
            n.inserts.clear();
            const auto beam = make_beam(n);
            int far = 0, stands = 0;
            for (double pull = 100; pull < 90000; pull *= 1.1) {
                const kernel::bow_problem<double> problem{beam, {}, pull * N, {}};
                const bool bears = kernel::buckling_share(problem) > 1, said = kernel::far_from_buckling(problem);
                CHECK((bears || !said));
                far += said;
                stands += bears;
            }
            CHECK(far > 10);
            CHECK(stands > far);
        }
    }
}

TEST_CASE("property: what is called far from buckling stands") {
    for (const double stiffness : {50.0, 500.0, 5000.0}) {
        neck n = demo::plain_neck();
        n.joint_stiffness = stiffness * N_m_per_rad;
        const auto beam = make_beam(n);
        for (double each = 10; each < 20000; each *= 2) {
            const std::vector pulls(
                6, string_pull{.pull = each * N, .z_nut = 2 * mm, .z_saddle = 12 * mm, .x_saddle = 629 * mm});
            const kernel::bow_problem<double> problem{beam, kernel::gather<double>(pulls), {}, {}};
            if (kernel::far_from_buckling(problem)) { CHECK(kernel::buckling_share(problem) > 1); }
        }
        CHECK(kernel::far_from_buckling(kernel::bow_problem<double>{beam, {}, {}, {}}));
    }
}
