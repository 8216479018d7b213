#include <tautline/board/fret_wire.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const board arched{.width_at_nut = 32 * mm,
                   .width_at_end = 42 * mm,
                   .board_length = 400 * mm,
                   .thickness = 6 * mm,
                   .surface = cone(200 * mm, 300 * mm, 400 * mm),
                   .scale = {.scale_length = 560 * mm, .frets = 20}};
const frets worn{
    .wire = {.crown_height = 1 * mm, .crown_width = 2 * mm, .tang_depth = 1.6 * mm, .tang_thickness = 0.5 * mm},
    .wear = {0.2 * mm, 0 * mm, 0.05 * mm}};

} // namespace

TEST_CASE("frets: the crest is the board's arc at the fret plus what is left of the crown") {
    for (const int n : {1, 3, 12}) {
        const auto crown = n == 1 ? 0.8 * mm : n == 3 ? 0.95 * mm : 1.0 * mm;
        CHECK(near::within(crown_left(worn, n), crown, 1e-12 * mm));
        CHECK(near::within(crest_height(arched, worn, n, 0 * mm), crown, 1e-12 * mm));
        CHECK(near::within(crest_height(arched, worn, n, 13 * mm),
                           crown + surface_height(arched.surface, fret_position(arched.scale, n), 13 * mm), 1e-12 * mm));
    }
    CHECK(crown_left(worn, 0) == 1.0 * mm);
    auto grooved = worn;
    grooved.zero_crown = 0.7 * mm;
    CHECK(near::within(crown_left(grooved, 0), 0.7 * mm, 1e-12 * mm));
    CHECK(crown_left(grooved, 1) == crown_left(worn, 1));
    grooved.wear.clear();
    grooved.wear_bass = grooved.wear_treble = {0.1 * mm};
    CHECK(near::within(crown_left(grooved, 0), 0.7 * mm, 1e-12 * mm));
}

TEST_CASE("frets: bad input is named") {
    CHECK(validate(worn).empty());
    auto f = worn;
    f.wear[1] = 1 * mm;
    CHECK(validate(f, "frets").front().sentence() == "frets.wear[1] must be less than the height of the crown.");
    f = worn;
    f.wear[0] = 1.1 * mm;
    CHECK(validate(f, "frets").front().sentence() == "frets.wear[0] must be less than the height of the crown.");
    f = worn;
    f.wear[1] = -0.1 * mm;
    CHECK(validate(f, "frets").front().field == "frets.wear[1]");
    f = worn;
    f.zero_crown = 0.05 * mm;
    CHECK(validate(f, "frets").front().field == "frets.zero_crown");
    f = worn;
    f.wire.stud_width = 0.4 * mm;
    CHECK(validate(f).front().sentence() == "wire.stud_width must be at least the thickness of the tang.");
    f.wire = {.crown_height = 1 * mm, .crown_width = 0.4 * mm, .tang_depth = 1 * mm, .tang_thickness = 0.5 * mm};
    CHECK(validate(f).front().field == "wire.tang_thickness");
    CHECK_THROWS_AS((void)crest_height(arched, worn, 21, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)crown_left(worn, -1), invalid_input);
}
