#include <tautline/neck/beam.hpp>

#include "demo_neck.hpp"
#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a beam runs from nut to joint without a gap, and no step crosses a place where something changes") {
    neck n = demo::neck_with_rod();
    n.set = {{.x = 100 * mm, .z = 0.1 * mm}, {.x = 333 * mm, .z = 0 * mm}};
    for (const std::size_t stations : {2ul, 5ul, 65ul, 200ul}) {
        const auto beam = make_beam(n, stations);
        auto x = 0 * mm;
        for (const auto& s : beam.steps) {
            CHECK(near::within(s.x, x, 1e-12 * mm));
            x = s.x + s.span;
            CHECK(s.span <= n.joint * (2 / static_cast<double>(stations - 1)) * (1 + 1e-9));
            for (const double place : {10.0, 100.0, 180.0, 332.0, 333.0}) {
                CHECK_FALSE((s.x < place * mm - 1e-9 * mm && x > place * mm + 1e-9 * mm));
            }
        }
        CHECK(near::within(x, n.joint, 1e-12 * mm));
        CHECK(beam.points.size() >= stations);
        CHECK(beam.steps.size() <= stations / 2 + 7);
    }
}

TEST_CASE("sections along the beam: deeper toward the joint, softer where the channel is, rod only between its ends") {
    const neck n = demo::neck_with_rod();
    CHECK(section_at(n, 20 * mm).bending_rigidity < section_at(n, 300 * mm).bending_rigidity);
    CHECK(section_at(n, 5 * mm).bending_rigidity > section_at(demo::neck_with_rod(), 15 * mm).bending_rigidity);
    CHECK(section_at(n, 200 * mm).bending_rigidity < section_at(demo::plain_neck(), 200 * mm).bending_rigidity);
    CHECK(near::relative(section_at(n, 5 * mm).bending_rigidity, section_at(demo::plain_neck(), 5 * mm).bending_rigidity,
                         1e-12));
    const auto beam = make_beam(n, 65);
    CHECK_FALSE(beam.steps.front().rod_acts);
    CHECK_FALSE(beam.steps.back().rod_acts);
    CHECK(beam.steps[beam.steps.size() / 2].rod_acts);
    CHECK(near::within(beam.at(beam.steps[3], 1).rod_height, -13.5 * mm, 1e-12 * mm));
}

TEST_CASE("moduli of bending tests are raised for pure bending, those of bars are not") {
    neck n = demo::plain_neck();
    const auto raised = section_at(n, 50 * mm);
    n.pure_bending_factor = 1;
    const auto plain = section_at(n, 50 * mm);
    CHECK(near::relative(raised.bending_rigidity, 1.10 * plain.bending_rigidity, 1e-12));
    CHECK(near::relative(raised.neutral_axis, plain.neutral_axis, 1e-12));
}

TEST_CASE("a traced back between superellipses is taken as its shape") {
    neck n = demo::plain_neck();
    const auto round = section_at(n, 180 * mm);
    auto& s = n.stations[1];
    for (int i = 0; i <= 400; ++i) {
        const double u = -std::cos(std::numbers::pi * i / 400);
        s.profile.push_back({.y = u * s.half_width, .depth = std::sqrt(std::max(0.0, 1 - u * u)) * s.back_depth});
    }
    CHECK(near::relative(section_at(n, 180 * mm).bending_rigidity, round.bending_rigidity, 1e-4));
    CHECK(near::relative(section_at(n, 90 * mm).bending_rigidity, section_at(demo::plain_neck(), 90 * mm).bending_rigidity,
                         1e-4));
    s.profile = {{.y = -24.5 * mm, .depth = 0 * mm},
                 {.y = 0 * mm, .depth = 16 * mm},
                 {.y = 24.5 * mm, .depth = 0 * mm}}; // a V is softer
    CHECK(section_at(n, 180 * mm).bending_rigidity < 0.8 * round.bending_rigidity);
}

TEST_CASE("a beam is remade in place as if new") {
    neck_beam beam;
    make_beam(demo::neck_with_rod(), 100, beam);
    make_beam(demo::plain_neck(), 20, beam);
    const auto fresh = make_beam(demo::plain_neck(), 20);
    REQUIRE(beam.steps.size() == fresh.steps.size());
    for (std::size_t i = 0; i < fresh.steps.size(); ++i) {
        CHECK(beam.at(beam.steps[i], 1).bending_rigidity == fresh.at(fresh.steps[i], 1).bending_rigidity);
    }
    CHECK_FALSE(beam.rod.has_value());
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_AS((void)make_beam(demo::plain_neck(), 1), invalid_input);
    CHECK_THROWS_AS((void)make_beam(demo::plain_neck(), 1000000), invalid_input);
    CHECK_THROWS_AS((void)make_beam(neck()), invalid_input);
    CHECK_THROWS_AS((void)section_at(demo::plain_neck(), 361 * mm), invalid_input);
    CHECK_THROWS_AS((void)section_at(demo::plain_neck(), -1 * mm), invalid_input);
}

TEST_CASE("a board that grows bends the beam by its own push times its lever about the neutral axis") {
    neck n = demo::plain_neck();
    for (auto& s : n.stations) { s.board_arc = 0 * per_metre; }
    n.board_strain = 1e-4;
    const auto p = section_at(n, 0 * mm);
    // By hand, of the flat board at the nut: 42 mm wide, 6 thick, its middle 3 mm down.
    const force<> push = 1.10 * (15 * GPa) * (42 * mm) * (6 * mm) * 1e-4;
    CHECK(p.neutral_axis < -3 * mm);
    CHECK(near::relative(p.free_curvature, push * (p.neutral_axis + 3 * mm) / p.bending_rigidity, 1e-9));
    n.board_strain = 0;
    CHECK(section_at(n, 0 * mm).free_curvature == 0 * per_metre);
}
