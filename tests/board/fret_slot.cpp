#include <tautline/board/fret_slot.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const fret_wire studded{.crown_height = 1.1 * mm,
                        .crown_width = 2.1 * mm,
                        .tang_depth = 1.6 * mm,
                        .tang_thickness = 0.53 * mm,
                        .stud_width = 0.83 * mm};

} // namespace

TEST_CASE("slot: a floor that follows the arc is as deep everywhere, a flat one shallower off the centre by the arc") {
    const auto arc = cylinder(200 * mm);
    const slot following{.depth = 2 * mm, .width = 0.6 * mm};
    const slot flat{.depth = 2 * mm, .width = 0.6 * mm, .floor = slot_floor::flat};
    CHECK(near::within(slot_depth(following, arc, 0 * mm, 18 * mm), 2 * mm, 1e-12 * mm));
    CHECK(near::within(slot_depth(flat, arc, 0 * mm, 18 * mm), 2 * mm - sagitta(200 * mm, 36 * mm), 1e-12 * mm));
    CHECK(near::within(slot_depth(flat, arc, 0 * mm, 0 * mm, 0.4 * mm), 1.6 * mm, 1e-12 * mm));
    CHECK(near::within(slot_depth(following, arc, 0 * mm, 18 * mm, 2.5 * mm), -0.5 * mm, 1e-12 * mm));
    CHECK(near::within(needed_slot_depth(studded, 0.25 * mm), 1.85 * mm, 1e-12 * mm));
}

TEST_CASE("slot: the tang wedges, its studs bite, or it is loose") {
    const auto wedged = tang_fit(studded, 0.5 * mm);
    CHECK(wedged.grip == tang_grip::wedges);
    CHECK(near::within(wedged.tang_interference, 0.03 * mm, 1e-12 * mm));
    const auto bitten = tang_fit(studded, 0.6 * mm);
    CHECK(bitten.grip == tang_grip::studs);
    CHECK(near::within(bitten.stud_bite, 0.115 * mm, 1e-12 * mm));
    const auto loose = tang_fit(studded, 0.9 * mm);
    CHECK(loose.grip == tang_grip::loose);
    CHECK(loose.stud_bite < 0.0 * mm);
    auto smooth = studded;
    smooth.stud_width.reset();
    CHECK(tang_fit(smooth, 0.6 * mm).grip == tang_grip::loose);
}

TEST_CASE("slot: bad input is named") {
    slot no_width;
    no_width.depth = 2 * mm;
    CHECK(validate(no_width).front().sentence() ==
          "width is not given, or not a number; it must be at least 0.05 mm and at most 5 mm.");
    CHECK_THROWS_AS((void)tang_fit(studded, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)tang_fit(fret_wire(), 0.5 * mm), invalid_input);
    CHECK_THROWS_AS((void)needed_slot_depth(studded, -0.1 * mm), invalid_input);
    CHECK_THROWS_AS((void)slot_depth(slot(), cylinder(20 * mm), 0 * mm, 30 * mm), invalid_input);
}

TEST_CASE("slot: what was taken off is a number") {
    CHECK_THROWS_WITH((void)slot_depth(slot{.depth = 2 * mm, .width = 0.6 * mm}, flat_surface(), 0 * mm, 0 * mm, NAN * mm),
                      doctest::Contains("removed is not a number"));
}
