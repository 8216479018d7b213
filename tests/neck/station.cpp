#include <tautline/neck/station.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
neck_station good() { return {.x = 0 * mm, .half_width = 20 * mm, .board_thickness = 6 * mm, .back_depth = 15 * mm}; }
} // namespace

TEST_CASE("a traced rectangle and a traced triangle have their shapes") {
    const std::vector<profile_point> square{
        {.y = -20 * mm, .depth = 15 * mm}, {.y = 0 * mm, .depth = 15 * mm}, {.y = 20 * mm, .depth = 15 * mm}};
    const auto s = profile_shape<double>(square, 20 * mm, 15 * mm);
    CHECK(near::relative(s.area, 1.0, 1e-14));
    CHECK(near::relative(s.first, 1.0, 1e-14));
    CHECK(near::relative(s.second, 1.0, 1e-14));
    const std::vector<profile_point> v{
        {.y = -20 * mm, .depth = 0 * mm}, {.y = -4 * mm, .depth = 15 * mm}, {.y = 20 * mm, .depth = 0 * mm}};
    const auto t = profile_shape<double>(v, 20 * mm, 15 * mm);
    CHECK(near::relative(t.area, 0.5, 1e-14));
    CHECK(near::relative(t.first, 1.0 / 3, 1e-14));
    CHECK(near::relative(t.second, 0.25, 1e-14));
}

TEST_CASE("upright sides of a profile add nothing of their own") {
    const std::vector<profile_point> box{{.y = -20 * mm, .depth = 0 * mm},
                                         {.y = -20 * mm, .depth = 15 * mm},
                                         {.y = 20 * mm, .depth = 15 * mm},
                                         {.y = 20 * mm, .depth = 0 * mm}};
    CHECK(near::relative(profile_shape<double>(box, 20 * mm, 15 * mm).second, 1.0, 1e-14));
}

TEST_CASE("the outline's depth: superellipse and profile") {
    auto s = good();
    CHECK(near::relative(kernel::outline_depth<double>(s, 0.0), 1.0, 1e-9));
    CHECK(near::relative(kernel::outline_depth<double>(s, 0.6), 0.8, 1e-12));
    CHECK(near::relative(kernel::outline_depth<double>(s, -0.6), 0.8, 1e-12));
    CHECK(kernel::outline_depth<double>(s, 1.2) == 0);
    s.profile = {{.y = -20 * mm, .depth = 0 * mm}, {.y = 0 * mm, .depth = 15 * mm}, {.y = 20 * mm, .depth = 0 * mm}};
    CHECK(near::relative(kernel::outline_depth<double>(s, 0.5), 0.5, 1e-12));
    CHECK(near::relative(kernel::outline_depth<double>(s, -0.25), 0.75, 1e-12));
}

TEST_CASE("what is wrong with a station is named") {
    CHECK(validate(good()).empty());
    auto s = good();
    s.back_depth = -1 * mm;
    CHECK_THROWS_WITH(require_valid(s, "stations[0]"),
                      "stations[0].back_depth is -1 mm; it must be at least 0.1 mm and at most 100 mm.");
    const auto wrong = [](const auto& change) {
        auto one = good();
        change(one);
        require_valid(one, "station");
    };
    using P = std::vector<profile_point>;
    CHECK_THROWS_WITH(wrong([](auto& n) { n.board_arc = 60 * per_metre; }),
                      "station.board_arc must have a radius of more than half the board's width.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.board_thickness = 0.5 * mm;
                          n.board_arc = 5 * per_metre;
                      }),
                      "station.board_thickness must be more than the board's arc falls at the edge.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.profile = P{{.y = -20 * mm, .depth = 15 * mm}, {.y = 20 * mm, .depth = 15 * mm}};
                      }),
                      "station.profile must have at least three points, or none for a superellipse.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.profile = P{{.y = -20 * mm, .depth = 0 * mm},
                                        {.y = 5 * mm, .depth = 15 * mm},
                                        {.y = 0 * mm, .depth = 3 * mm}};
                      }),
                      "station.profile[2].y must not lie on the bass side of the point before it.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.profile = P{{.y = -20 * mm, .depth = 0 * mm},
                                        {.y = 5 * mm, .depth = 14.2 * mm},
                                        {.y = 20 * mm, .depth = 3 * mm}};
                      }),
                      "station.back_depth must be the depth of the profile's deepest point, within 5 %.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.profile = P{{.y = -20 * mm, .depth = 0 * mm},
                                        {.y = 5 * mm, .depth = 15.8 * mm},
                                        {.y = 20 * mm, .depth = 3 * mm}};
                      }),
                      "station.back_depth must be the depth of the profile's deepest point, within 5 %.");
    CHECK_THROWS_WITH(
        wrong([](auto& n) {
            n.profile = P{{.y = 0 * mm, .depth = 0 * mm}, {.y = 0 * mm, .depth = 15 * mm}, {.y = 0 * mm, .depth = 3 * mm}};
        }),
        "station.profile must have a width.");
    // With so few points nothing else is said of them.
    CHECK_THROWS_WITH(wrong([](auto& n) { n.profile = P{{.y = 20 * mm, .depth = 0 * mm}}; }),
                      "station.profile must have at least three points, or none for a superellipse.");
    CHECK_THROWS_WITH(wrong([](auto& n) {
                          n.profile = P{{.y = 20 * mm, .depth = 0 * mm}, {.y = -20 * mm, .depth = 0 * mm}};
                      }),
                      "station.profile must have at least three points, or none for a superellipse.");
    // Upright sides, and a deepest point 5 % off, are right; the first point may be the deepest.
    CHECK_NOTHROW(wrong([](auto& n) {
        n.profile =
            P{{.y = -20 * mm, .depth = 0 * mm}, {.y = -20 * mm, .depth = 14.3 * mm}, {.y = 20 * mm, .depth = 0 * mm}};
    }));
    CHECK_NOTHROW(wrong([](auto& n) {
        n.profile = P{{.y = -20 * mm, .depth = 15.7 * mm}, {.y = 0 * mm, .depth = 0 * mm}, {.y = 20 * mm, .depth = 0 * mm}};
    }));
    CHECK_THROWS_AS((void)profile_shape<double>({}, 20 * mm, 15 * mm), invalid_input);
}
