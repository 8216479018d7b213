#include <tautline/neck/insert.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const auto board_modulus = 15 * GPa, back = 10 * GPa;
section_sums change(const insert& i) { return kernel::insert_sums<double>(i, board_modulus, back, -6 * mm); }
insert bar() {
    return {.x_from = 0 * mm, .x_to = 300 * mm, .top = -8 * mm, .width = 4 * mm, .height = 6 * mm, .modulus = 200 * GPa};
}
} // namespace

TEST_CASE("a bar replaces the wood it sits in; across the glue line some of both") {
    auto i = bar();
    CHECK(near::relative(change(i).ea, (190 * GPa) * (24 * mm2), 1e-12));
    i.top = -4 * mm; // 2 mm in the board, 4 in the back
    CHECK(near::relative(change(i).ea, (185 * GPa) * (8 * mm2) + (190 * GPa) * (16 * mm2), 1e-12));
    i.top = 0 * mm; // all of it in the board
    CHECK(near::relative(change(i).ea, (185 * GPa) * (24 * mm2), 1e-12));
    CHECK(near::relative(change(i).es, -3 * mm * change(i).ea, 1e-12));
}

TEST_CASE("a void takes wood away and nothing else") {
    auto i = bar();
    i.modulus = 0 * GPa;
    CHECK(near::relative(change(i).ea, -(10 * GPa) * (24 * mm2), 1e-12));
    i.modulus = 10 * GPa; // wood for wood
    CHECK(near::within(change(i).ea, 0 * N, 1e-9 * N));
}

TEST_CASE("round bars: area, place and I of a circle; split by the glue line like its segment") {
    insert i{.profile = insert_profile::round,
             .x_from = 0 * mm,
             .x_to = 300 * mm,
             .top = -9 * mm,
             .width = 8 * mm,
             .modulus = 210 * GPa};
    const double pi = std::numbers::pi;
    const auto s = section_from(change(i));
    CHECK(near::relative(s.axial_rigidity, (200 * GPa) * (pi * 16 * mm2), 1e-9));
    CHECK(near::relative(s.neutral_axis, -13 * mm, 1e-9));
    CHECK(near::relative(s.bending_rigidity, (200 * GPa) * (pi * 256 / 4 * mm4), 1e-10));
    // Half above the glue line.
    i.top = -2 * mm;
    CHECK(near::relative(change(i).ea, (195 * GPa) * (pi * 8 * mm2) + (200 * GPa) * (pi * 8 * mm2), 1e-10));
    // All above.
    i.width = 4 * mm;
    CHECK(near::relative(change(i).ea, (195 * GPa) * (pi * 4 * mm2), 1e-9));
}

TEST_CASE("tubes leave their bore empty") {
    auto i = bar();
    i.wall = 1 * mm;
    CHECK(near::relative(change(i).ea, (200 * GPa) * ((24 - 8) * mm2) - (10 * GPa) * (24 * mm2), 1e-12));
    insert tube{.profile = insert_profile::round,
                .x_from = 0 * mm,
                .x_to = 9 * mm,
                .top = -8 * mm,
                .width = 6 * mm,
                .wall = 1 * mm,
                .modulus = 120 * GPa};
    const double pi = std::numbers::pi;
    CHECK(near::relative(change(tube).ea, (120 * GPa) * (pi * 5 * mm2) - (10 * GPa) * (pi * 9 * mm2), 1e-9));
}

TEST_CASE("what is wrong with an insert is named") {
    CHECK(validate(bar()).empty());
    const auto wrong = [](auto spoil) {
        auto i = bar();
        spoil(i);
        return !validate(i).empty();
    };
    CHECK(wrong([](insert& i) { i.x_to = i.x_from; }));
    CHECK(wrong([](insert& i) { i.height = 0 * mm; }));
    CHECK(wrong([](insert& i) { i.width = 0 * mm; }));
    CHECK(wrong([](insert& i) { i.modulus = -1 * GPa; }));
    CHECK(wrong([](insert& i) { i.wall = 2 * mm; }));
    CHECK(wrong([](insert& i) { i.top = 1 * mm; }));
    CHECK(wrong([](insert& i) { i.profile = insert_profile::round; })); // with a height
    CHECK(wrong([](insert& i) {
        i.modulus = 0 * GPa;
        i.wall = 1 * mm;
    }));
    CHECK(wrong([](insert& i) { i.y = std::nan("") * mm; }));
}

TEST_CASE("a neck refuses channels deeper than it is, bars that stick out, and bars that overlap") {
    const auto problem_of = [](const insert& i) {
        neck n = demo::plain_neck();
        n.inserts = {i};
        const auto found = validate(n, "neck");
        return found.empty() ? std::string() : found.front().sentence();
    };
    CHECK(problem_of(bar()).empty());
    auto i = bar();
    i.height = 14 * mm;
    CHECK(problem_of(i) == "neck.inserts[0] must not come out of the neck's back.");
    i = bar();
    i.y = 18 * mm; // there the back is not deep enough
    CHECK(problem_of(i) == "neck.inserts[0] must not come out of the neck's back.");
    i = bar();
    i.y = -21 * mm;
    CHECK(problem_of(i) == "neck.inserts[0] must not stick out of the neck's side.");
    i = bar();
    i.y = 10 * mm;
    i.top = 0 * mm; // over the arc there
    CHECK(problem_of(i) == "neck.inserts[0] must not stick out of the board's top.");
    neck two = demo::plain_neck();
    two.inserts = {bar(), bar()};
    CHECK_THROWS_WITH(require_valid(two, "neck"), "neck.inserts[1] must not overlap inserts[0].");
    two.inserts[1].y = 4 * mm; // side by side
    CHECK(validate(two).empty());
    two.inserts[1].y = 3.9 * mm;
    CHECK_FALSE(validate(two).empty());
    two.inserts[1].x_from = 300 * mm; // one after the other
    two.inserts[1].x_to = 340 * mm;
    CHECK(validate(two).empty());
}

TEST_CASE("round bars are held inside by their circle, not by the square around it") {
    neck n = demo::plain_neck();
    const auto problem_of = [&](const insert& i) {
        n.inserts = {i};
        const auto found = validate(n, "neck");
        return found.empty() ? std::string() : found.front().sentence();
    };
    insert i{.profile = insert_profile::round,
             .x_from = 0 * mm,
             .x_to = 300 * mm,
             .top = -8 * mm,
             .width = 10 * mm,
             .modulus = 120 * GPa};
    CHECK(problem_of(i).empty());
    i.top = -12 * mm; // its lowest place is 22 mm down, the back 21
    CHECK(problem_of(i) == "neck.inserts[0] must not come out of the neck's back.");
    i.top = -8 * mm;
    i.y = 17 * mm;
    CHECK(problem_of(i) == "neck.inserts[0] must not stick out of the neck's side.");
    // The arc of 305 mm falls by 0.37 mm at 15 mm: a bar 10 mm wide under the surface there, its middle at 10 mm. Its side,
    // at 15 mm, is far below; at 10 mm the board has fallen by 0.16 mm.
    i.y = 10 * mm;
    i.top = -0.2 * mm;
    CHECK(problem_of(i).empty());
    i.top = -0.1 * mm;
    CHECK(problem_of(i) == "neck.inserts[0] must not stick out of the board's top.");
    auto square = i;
    square.profile = insert_profile::rectangle;
    square.height = 10 * mm;
    square.top = -0.2 * mm; // its corner stands out
    CHECK(problem_of(square) == "neck.inserts[0] must not stick out of the board's top.");
}

TEST_CASE("round bars side by side overlap where their circles do") {
    const auto overlap = [](double dy, double dz) {
        const insert a{.profile = insert_profile::round,
                       .x_from = 0 * mm,
                       .x_to = 300 * mm,
                       .top = -8 * mm,
                       .width = 4 * mm,
                       .modulus = 120 * GPa};
        auto b = a;
        b.width = 6 * mm;
        b.y = dy * mm;
        b.top = (-7 + dz) * mm; // its middle level with that of the first
        return kernel::inserts_overlap(a, b);
    };
    CHECK(overlap(4.99, 0));
    CHECK_FALSE(overlap(5.01, 0)); // the sum of the radii
    CHECK(overlap(0, 4.99));
    CHECK_FALSE(overlap(0, 5.01));
    CHECK_FALSE(overlap(4, 4)); // the squares around them do
    CHECK(overlap(3.5, 3.5));
}

TEST_CASE("a dual on an insert's place has finite derivatives at every depth") {
    using D = dual<double, 1>;
    for (const double top : {-1.0, -4.0, -6.0, -10.0}) {
        auto i = over<D>(insert{.profile = insert_profile::round,
                                .x_from = 0 * mm,
                                .x_to = 9 * mm,
                                .top = top * mm,
                                .width = 4 * mm,
                                .modulus = 120 * GPa});
        i.top = tautline::length<D>::from_value(D::variable(top * 1e-3, 0));
        const auto at = [&](double z) {
            return change(insert{.profile = insert_profile::round,
                                 .x_from = 0 * mm,
                                 .x_to = 9 * mm,
                                 .top = z * metre,
                                 .width = 4 * mm,
                                 .modulus = 120 * GPa})
                .es.value();
        };
        const auto exact = kernel::insert_sums<D>(i, over<D>(board_modulus), over<D>(back), over<D>(-6 * mm)).es.value();
        CHECK(std::isfinite(exact.partial[0]));
        if (top != -6.0) {
            CHECK(near::relative(exact.partial[0], (at(top * 1e-3 + 1e-7) - at(top * 1e-3 - 1e-7)) / 2e-7, 1e-4));
        }
    }
}
