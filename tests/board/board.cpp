#include <tautline/board/board.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

board sound_board() {
    return {.width_at_nut = 32 * mm,
            .width_at_end = 42 * mm,
            .board_length = 400 * mm,
            .thickness = 6 * mm,
            .surface = cylinder(8 * inch),
            .scale = {.scale_length = 560 * mm, .frets = 20}};
}
std::string first_problem(const board& b) {
    const auto found = validate(b, "board");
    return found.empty() ? "" : found.front().sentence();
}

} // namespace

TEST_CASE("board: straight taper from end to end") {
    const auto b = sound_board();
    CHECK(near::relative(half_width_at(b, 0 * mm), 16 * mm, 1e-15));
    CHECK(near::relative(half_width_at(b, 400 * mm), 21 * mm, 1e-15));
    CHECK(near::relative(half_width_at(b, 100 * mm), 17.25 * mm, 1e-14));
    using D = dual<double, 1>;
    CHECK(near::relative(half_width_at(over<D>(b), D::variable(0.1, 0) * metre).value().partial[0], 5.0 / 400, 1e-14));
}

TEST_CASE("board: thickness runs straight from nut to end, where both are known") {
    auto b = sound_board();
    CHECK(thickness_at(b, 100 * mm) == b.thickness);
    b.thickness_at_end = b.thickness + 1 * mm;
    CHECK(near::within(thickness_at(b, 0 * mm), b.thickness, 1e-12 * mm));
    CHECK(near::within(thickness_at(b, 0.25 * b.board_length), b.thickness + 0.25 * mm, 1e-12 * mm));
    CHECK(near::within(thickness_at(b, b.board_length), *b.thickness_at_end, 1e-12 * mm));
    CHECK_THROWS_AS((void)thickness_at(b, b.board_length + 1 * mm), invalid_input);
}

TEST_CASE("board: bad input is named") {
    CHECK(first_problem(sound_board()).empty());
    auto b = sound_board();
    b.thickness = 18 * mm;
    b.surface = cylinder(20 * mm);
    CHECK(first_problem(b) == "board.surface.radius must be at least half the width of the board at the end.");
    b.surface = cylinder(15 * mm);
    CHECK(first_problem(b) == "board.surface.radius must be at least half the width of the board at the nut.");
    b = sound_board();
    b.thickness = 1 * mm;
    CHECK(first_problem(b) == "board.thickness must be more than the arc falls at the edge at the end.");
    b = sound_board();
    b.board_length = 380 * mm;
    CHECK(first_problem(b) == "board.board_length must reach the last fret.");
    b = sound_board();
    b.scale.measured_places = {30 * mm}; // of how many frets is said once, not again of the board
    CHECK(validate(b).size() == 1);
    b = sound_board();
    b.surface = cone(100 * mm, 50 * mm, 100 * mm);
    CHECK(first_problem(b) == "board.surface must have a radius above 0 at the end.");
    b = sound_board();
    b.width_at_end = -42 * mm;
    b.thickness = NAN * mm;
    CHECK(validate(b).size() == 2);
    b = sound_board();
    b.width_at_end = 10 * mm;
    CHECK_THROWS_WITH_AS((void)half_width_at(b, 600 * mm),
                         "taper of the board must keep the edges apart: at this place the width would be negative.",
                         invalid_input);
    CHECK_THROWS_AS((void)half_width_at(b, NAN * mm), invalid_input);
    CHECK_THROWS_AS((void)half_width_at(board(), 1 * mm), invalid_input);
}

TEST_CASE("board: whoever asks for a thickness or a width gives a board and a place") {
    using doctest::Contains;
    auto b = sound_board();
    CHECK_THROWS_WITH((void)thickness_at(b, -1 * mm), Contains("x is -1 mm"));
    b.thickness = -1 * mm;
    CHECK_THROWS_WITH((void)thickness_at(b, 100 * mm), Contains("board.thickness is -1 mm"));
    CHECK_THROWS_WITH((void)half_width_at(board(), 1 * mm), Contains("board.board_length is not a number"));
}
