#include <tautline/instrument/neck_cut.hpp>
#include <tautline/instrument/ready_made.hpp>

#include <doctest/doctest.h>

#include <cmath>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

instrument with_parts() {
    auto i = ready_made::flat_top().instrument;
    i.neck.inserts = {{.profile = insert_profile::rectangle,
                       .x_from = 10 * mm,
                       .x_to = 200 * mm,
                       .y = -6 * mm,
                       .top = -7 * mm,
                       .width = 4 * mm,
                       .height = 8 * mm,
                       .modulus = 120 * GPa}};
    return i;
}

} // namespace

TEST_SUITE("neck cut across") {
    TEST_CASE("board's arc above, a half superellipse below, as deep as it was measured") {
        const auto i = with_parts();
        const double joint = joint_place(i) / mm;
        for (const double share : {0.0, 0.3, 1.0}) {
            const double x = joint * share;
            const auto cut = cut_neck<double>(i, x * mm);
            const double depth = i.neck.depth_at_nut / mm + (i.neck.depth_at_joint - i.neck.depth_at_nut) / mm * share;
            CHECK(near::within(cut.depth / mm, depth, 1e-9));
            const double half = half_width_at<double>(i.board, x * mm) / mm, n = i.neck.back_exponent;
            const double under = i.board.thickness / mm;
            for (std::size_t k = 0; k < cut.back.size(); ++k) {
                const double y = cut.back[k].y / mm, d = -(cut.back[k].z / mm) - under;
                CHECK(near::within(std::pow(std::abs(y) / half, n) + std::pow(d / (depth - under), n), 1.0, 1e-6));
                CHECK(near::within(cut.top[k].z, surface_height<double>(i.board.surface, x * mm, y * mm), 1e-12 * mm));
            }
            CHECK(cut.glue_line.front().z == -length<>(i.board.thickness));
        }
    }
    TEST_CASE("the bars and the rod that the cut meets are in it, and no others") {
        const auto i = with_parts();
        CHECK(cut_neck<double>(i, 5 * mm).inserts.empty());
        REQUIRE(cut_neck<double>(i, 100 * mm).inserts.size() == 1);
        CHECK(cut_neck<double>(i, 100 * mm).inserts[0].y == -6 * mm);
        CHECK(cut_neck<double>(i, 210 * mm).inserts.empty());
        REQUIRE(i.neck.rod.has_value());
        const auto middle = (i.neck.rod->x_from + i.neck.rod->x_to) * 0.5;
        REQUIRE(cut_neck<double>(i, middle).rod.has_value());
        CHECK(near::within(*cut_neck<double>(i, middle).rod, i.neck.rod->z_ends - i.neck.rod->dip, 1e-9 * mm));
    }
    TEST_CASE("a traced back is there as it was traced, and straight between two places") {
        auto i = with_parts();
        const auto at = [](double x, double deep) {
            return traced_back{.x = x * mm,
                               .profile = {{.y = -20 * mm, .depth = 2 * mm},
                                           {.y = 0 * mm, .depth = deep * mm},
                                           {.y = 20 * mm, .depth = 3 * mm}}};
        };
        i.neck.traced = {at(50, 15), at(250, 17)};
        const auto here = cut_neck<double>(i, 50 * mm), between = cut_neck<double>(i, 150 * mm);
        CHECK(near::within(here.depth, i.board.thickness + 15 * mm, 1e-6 * mm));
        CHECK(near::within(between.depth, i.board.thickness + 16 * mm, 1e-6 * mm));
        // Not alike from side to side.
        const auto &bass = here.back[10], &treble = here.back[50];
        CHECK(near::within(bass.y, -length<>(treble.y), 1e-9 * mm));
        CHECK(treble.z < bass.z);
    }
    TEST_CASE("places beyond the neck are refused") {
        const auto i = with_parts();
        CHECK_THROWS_WITH((void)cut_neck<double>(i, -1 * mm),
                          doctest::Contains("x must lie between the nut and the joint"));
        CHECK_THROWS_WITH((void)cut_neck<double>(i, joint_place(i) + 1 * mm), doctest::Contains("x must lie between"));
    }
}
