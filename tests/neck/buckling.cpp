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
    REQUIRE(said.find("50000 N in all; it must be less than ") != std::string::npos);
    const double limit = std::stod(said.substr(said.find("less than ") + 10));
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
