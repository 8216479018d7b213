#include <tautline/job/overlay.hpp>

#include <doctest/doctest.h>

#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("overlay") {
    TEST_CASE("only what is named is laid over") {
        auto on = demo::four_course();
        overlay o{on, {"saddle.height_bass"}};
        o.values.saddle.height_bass = 21 * mm;
        o.values.saddle.height_treble = 22 * mm;
        lay_over(o, on);
        CHECK(on.saddle.height_bass == 21 * mm);
        CHECK(on.saddle.height_treble == demo::four_course().saddle.height_treble);
    }
    TEST_CASE("a part or a list named whole is taken whole, and taken away where there is none") {
        auto on = demo::four_course();
        overlay o{on, {"tailpiece", "pins", "nut.slot_heights"}};
        o.values.tailpiece.reset();
        o.values.pins = pins{
            .distance = 20 * mm, .height = 5 * mm, .spread = 50 * mm, .top_thickness = 2.8 * mm, .saddle_exposed = 4 * mm};
        o.values.nut.slot_heights = {1.1 * mm};
        lay_over(o, on);
        CHECK_FALSE(on.tailpiece);
        REQUIRE(on.pins);
        CHECK(on.pins->distance == 20 * mm);
        CHECK(on.nut.slot_heights.size() == 1);
    }
    TEST_CASE("one entry of a list, one member of a part") {
        auto on = demo::four_course();
        overlay o{on, {"nut.slot_heights[2]", "posts[1].along", "tailpiece.reach"}};
        for (auto& h : o.values.nut.slot_heights) { h = 0.9 * mm; }
        o.values.posts[1].along = 77 * mm;
        o.values.tailpiece->reach = 88 * mm;
        o.values.tailpiece->spread = 1 * mm;
        lay_over(o, on);
        CHECK(on.nut.slot_heights[2] == 0.9 * mm);
        CHECK(on.nut.slot_heights[1] == 1.3 * mm);
        CHECK(on.posts[1].along == 77 * mm);
        CHECK(on.tailpiece->reach == 88 * mm);
        CHECK(on.tailpiece->spread == 50 * mm);
    }
    TEST_CASE("a name that only begins alike is another") {
        auto on = demo::four_course();
        overlay o{on, {"neck.rod_pull"}};
        o.values.neck.rod = truss_rod{.x_from = 10 * mm, .x_to = 270 * mm, .z_ends = -12 * mm, .dip = 3 * mm};
        o.values.neck.rod_pull = 5 * N;
        lay_over(o, on);
        CHECK_FALSE(on.neck.rod);
        CHECK(on.neck.rod_pull.has_value());
        CHECK(o.names("neck.rod_pull"));
        CHECK_FALSE(o.names("neck.rod"));
        CHECK(o.reaches_into("neck"));
        CHECK_FALSE(o.reaches_into("nec"));
    }
    TEST_CASE("nothing named changes nothing; everything named gives the other") {
        auto on = demo::four_course();
        overlay o{on, {}};
        o.values.saddle.board_line = 1 * mm;
        lay_over(o, on);
        CHECK(on.saddle.board_line == 12.5 * mm);
        o.paths = {"saddle"};
        lay_over(o, on);
        CHECK(on.saddle.board_line == 1 * mm);
    }
}
