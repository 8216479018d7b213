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
    s = good();
    s.board_arc = 60 * per_metre;
    CHECK_FALSE(validate(s).empty());
    s = good();
    s.board_thickness = 0.5 * mm;
    s.board_arc = 5 * per_metre;
    CHECK_FALSE(validate(s).empty());
    s = good();
    s.profile = {{.y = -20 * mm, .depth = 0 * mm}, {.y = 20 * mm, .depth = 0 * mm}};
    CHECK_FALSE(validate(s).empty());
    s.profile = {{.y = -20 * mm, .depth = 0 * mm}, {.y = 5 * mm, .depth = 15 * mm}, {.y = 0 * mm, .depth = 3 * mm}};
    CHECK_FALSE(validate(s).empty());
    s.profile = {{.y = -20 * mm, .depth = 0 * mm}, {.y = 5 * mm, .depth = 13 * mm}, {.y = 20 * mm, .depth = 3 * mm}};
    CHECK_FALSE(validate(s).empty()); // not as deep as back_depth
    s.profile = {{.y = 0 * mm, .depth = 0 * mm}, {.y = 0 * mm, .depth = 15 * mm}, {.y = 0 * mm, .depth = 3 * mm}};
    CHECK_FALSE(validate(s).empty());
    CHECK_THROWS_AS((void)profile_shape<double>({}, 20 * mm, 15 * mm), invalid_input);
}
