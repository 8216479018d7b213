#include <tautline/instrument/string_ends.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
std::vector<std::string> told(const instrument& i) {
    std::vector<std::string> list;
    for (const problem& p : validate(i)) { list.push_back(p.sentence()); }
    return list;
}
const pins some_pins{
    .distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 3 * mm};
const tailpiece some_tailpiece{.hinge_distance = 180 * mm, .hinge_height = -10 * mm, .reach = 90 * mm, .spread = 50 * mm};
// None of the numbers of pins has a fair default, so none may be left out of the braces.
template <class Pins>
concept made_without_distance = requires {
    Pins{.height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 3 * mm};
};
template <class Pins>
concept made_whole = requires {
    Pins{.distance = 20 * mm, .height = 6 * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 3 * mm};
};
static_assert(made_whole<pins> && !made_without_distance<pins>);
} // namespace

TEST_CASE("instrument: wear is told of frets that are there, at most once each") {
    instrument i = ready_made::ten_string_cittern().instrument;
    CHECK(told(i).empty()); // seven of nineteen: the others count as unworn
    i.frets.wear.resize(19, 0.05 * mm);
    CHECK(told(i).empty());
    i.frets.wear.resize(30, 0.05 * mm);
    REQUIRE(told(i).size() == 1);
    CHECK(told(i)[0] == "frets.wear must be at most one for each of the 19 frets, but there are 30.");
    i.frets.wear_bass = i.frets.wear_treble = i.frets.wear;
    i.frets.wear.clear();
    CHECK(told(i).size() == 2);
}

TEST_SUITE("string ends") {
    TEST_CASE("strings end on one of tailpiece, pins and a bridge on the body") {
        using list = std::vector<std::string>;
        const instrument bass = ready_made::solid_body_bass().instrument;
        CHECK(told(bass).empty());

        instrument i = bass;
        i.body_bridge.reset();
        CHECK(told(i) ==
              list{"tailpiece must be given, or pins, or a tie_block, or body_bridge: the strings end on one of them."});
        i.pins = some_pins;
        CHECK(told(i).empty());
        i.tailpiece = some_tailpiece;
        CHECK(told(i) == list{"tailpiece must not be given together with pins."});
        i.pins.reset();
        CHECK(told(i).empty());

        i.body_bridge = bass.body_bridge;
        CHECK(told(i) == list{"body_bridge must not be given together with a tailpiece: it holds the strings' ends."});
        i.tailpiece.reset();
        i.pins = some_pins;
        CHECK(told(i) == list{"body_bridge must not be given together with pins: it holds the strings' ends."});
    }
    TEST_CASE("on a solid body nothing gives and nothing stands on feet") {
        instrument i = ready_made::solid_body_bass().instrument;
        i.soundboard = soundboard{.sink_stiffness = 500 * N_per_mm};
        i.feet = bridge_feet{
            .ahead = 5 * mm, .behind = 8 * mm, .top_slope = 0 * deg, .bass_foot = -30 * mm, .treble_foot = 30 * mm};
        const auto list = told(i);
        REQUIRE(list.size() == 2);
        CHECK(list[0] == "feet must be left out with a body_bridge: it is fixed to the body and does not stand on feet.");
        CHECK(list[1] == "soundboard must be left out with a body_bridge: a solid body has none that gives.");
    }
    TEST_CASE("what a bridge on the body measures is asked for by name, and within its range") {
        instrument i = ready_made::solid_body_bass().instrument;
        i.body_bridge = body_bridge();
        auto wrong = validate(i);
        REQUIRE(wrong.size() == 3);
        CHECK(wrong[0].field == "body_bridge.distance");
        CHECK(wrong[1].field == "body_bridge.height");
        CHECK(wrong[2].field == "body_bridge.spread");
        i.body_bridge = body_bridge{.distance = 0 * mm, .height = -51 * mm, .spread = 301 * mm};
        wrong = validate(i);
        REQUIRE(wrong.size() == 3);
        CHECK(wrong[0].sentence() == "body_bridge.distance is 0 mm; it must be at least 0.1 mm and at most 300 mm.");
        CHECK(wrong[1].sentence() == "body_bridge.height is -51 mm; it must be at least -50 mm and at most 150 mm.");
    }
    TEST_CASE("the fixed place is told in the instrument's frame, whatever the strings end on") {
        instrument i = ready_made::solid_body_bass().instrument;
        i.board.scale.scale_length = 800 * mm;
        i.saddle.board_line = 7 * mm;
        i.body_bridge = body_bridge{.distance = 30 * mm, .height = -4 * mm, .spread = 55 * mm};
        auto ends = kernel::string_ends_of(i);
        CHECK(near::within(ends.x, 830 * mm, 1e-9 * mm));
        CHECK(near::within(ends.z, -11 * mm, 1e-9 * mm));
        CHECK(near::within(ends.spread, 55 * mm, 1e-9 * mm));
        i.body_bridge.reset();
        i.pins = some_pins;
        ends = kernel::string_ends_of(i);
        CHECK(near::within(ends.x, 820 * mm, 1e-9 * mm));
        CHECK(near::within(ends.z, -1 * mm, 1e-9 * mm));
        i.pins.reset();
        i.tailpiece = some_tailpiece; // its hinge
        ends = kernel::string_ends_of(i);
        CHECK(near::within(ends.x, 980 * mm, 1e-9 * mm));
        CHECK(near::within(ends.z, -17 * mm, 1e-9 * mm));
    }
    TEST_CASE("the axis stands half a gauge over an edge, as much under a hole's upper edge, and on a hinge") {
        instrument i;
        i.pins = some_pins;
        CHECK(near::within(kernel::axis_at_end<double>(i, 1.2 * mm), 0.6 * mm, 1e-9 * mm));
        i.pins.reset();
        i.body_bridge = ready_made::solid_body_bass().instrument.body_bridge;
        CHECK(near::within(kernel::axis_at_end<double>(i, 2.5 * mm), 1.25 * mm, 1e-9 * mm));
        i.body_bridge.reset();
        i.tie_block = ready_made::slotted_nylon().instrument.tie_block;
        i.tie_block->hole_diameter = 1.8 * mm; // its upper edge is 0.9 mm over its middle
        i.tie_block->loop_lift = 0 * mm;
        CHECK(near::within(kernel::axis_at_end<double>(i, 1.0 * mm), 0.4 * mm, 1e-9 * mm));
        i.tie_block.reset();
        i.tailpiece = some_tailpiece;
        CHECK(kernel::axis_at_end<double>(i, 1.2 * mm) == 0 * mm);
    }
    TEST_CASE("heights are told from the body where there is no soundboard") {
        CHECK(std::string_view(top_word(ready_made::solid_body_bass().instrument)) == "body");
        CHECK(std::string_view(top_word(ready_made::flat_top().instrument)) == "soundboard");
        CHECK(std::string_view(top_word(ready_made::ten_string_cittern().instrument)) == "soundboard");
    }
}
