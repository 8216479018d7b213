#include <tautline/board/fret_pieces.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

board board_with(const surface& s) {
    return {.width_at_nut = 43 * mm,
            .width_at_end = 57 * mm,
            .board_length = 470 * mm,
            .thickness = 6 * mm,
            .surface = s,
            .scale = {.scale_length = 640 * mm, .frets = 20}};
}

} // namespace

TEST_CASE("pieces: arc length of a half circle, of nothing, and of a nearly flat board") {
    CHECK(near::within(arc_length(50 * mm, 99.99999999 * mm), 50 * std::numbers::pi * mm, 0.01 * mm));
    CHECK(arc_length(50 * mm, 0 * mm) == 0.0 * mm);
    // On either side of where the series takes over: w (1 + (w/2R)^2/6).
    for (const double radius : {3e5, 1.9e5, 2.1e5, 1e6}) {
        CHECK(near::relative(arc_length(radius * mm, 40 * mm), 40 * (1 + 400 / (6 * radius * radius)) * mm, 1e-14));
    }
}

TEST_CASE("pieces: width along the arc, overhang, waste and notch; the total has the spare") {
    const auto b = board_with(cylinder(200 * mm));
    const auto cut = fret_pieces(b, {.overhang = 2 * mm, .tang_notch = 1.8 * mm, .waste = 0.5 * mm, .spare = 0.2});
    REQUIRE(cut.pieces.size() == 20);
    length<double> sum{};
    for (const auto& p : cut.pieces) {
        const auto width = half_width_at(b, fret_position(b.scale, p.fret)) * 2.0;
        CHECK(near::within(p.crown, arc_length(200 * mm, width) + 4.5 * mm, 1e-10 * mm));
        CHECK(near::within(p.tang, arc_length(200 * mm, width) - 3.6 * mm, 1e-10 * mm));
        sum += p.crown;
    }
    CHECK(near::within(cut.to_buy, sum * 1.2, 1e-9 * mm));
    auto zero = b;
    zero.scale.zero_fret = true;
    CHECK(fret_pieces(zero, {}).pieces.front().fret == 0);
    auto none = b;
    none.scale.frets = 0;
    CHECK(fret_pieces(none, {}).to_buy == 0.0 * mm);
    CHECK(fret_pieces(b, {.tang_notch = 20 * mm}).pieces[0].tang > 0.0 * mm);
    auto narrow = b;
    narrow.width_at_nut = 30 * mm;
    CHECK(fret_pieces(narrow, {.tang_notch = 20 * mm}).pieces[0].tang == 0.0 * mm);
}

TEST_CASE("pieces: slanted frets are longer by the slant") {
    const auto b = board_with(flat_surface());
    const fan f{.bass_scale = 690 * mm,
                .treble_scale = 640 * mm,
                .square_fret = 7,
                .frets = 20,
                .y_bass_at_nut = -19 * mm,
                .y_treble_at_nut = 19 * mm,
                .y_bass_at_saddle = -28 * mm,
                .y_treble_at_saddle = 28 * mm};
    const auto cut = fret_pieces(b, {.overhang = 0 * mm}, f);
    for (const auto& p : cut.pieces) {
        const auto ends = fret_ends(fret_line(f, p.fret), b);
        CHECK(near::within(p.crown, hypot(ends.treble.x - ends.bass.x, ends.treble.y - ends.bass.y), 1e-10 * mm));
    }
    CHECK(cut.pieces.front().crown > 2.0 * half_width_at(b, x_at(fret_line(f, 1), 0 * mm)));
}

TEST_CASE("pieces: pre-bent wire has the board's sagitta and the lead, so it is tighter; on a flat board the lead alone") {
    const auto r = prebend_radius(1.0 / (300 * mm), 50 * mm, 0.8 * mm);
    CHECK(near::within(sagitta(r, 50 * mm), sagitta(300 * mm, 50 * mm) + 0.8 * mm, 1e-12 * mm));
    CHECK(r < 300 * mm);
    CHECK(near::within(sagitta(prebend_radius(0 * per_metre, 50 * mm, 0.8 * mm), 50 * mm), 0.8 * mm, 1e-12 * mm));
    CHECK(near::relative(prebend_radius(1.0 / (300 * mm), 50 * mm, 0 * mm), 300 * mm, 1e-10));
}

TEST_CASE("pieces: derivative of the wire to buy by the radius against differences, floats agree") {
    using D = dual<double, 1>;
    auto d = over<D>(board_with(cylinder(200 * mm)));
    d.surface.radius = D::variable(0.2, 0) * metre;
    const auto at = [](double r) { return fret_pieces(board_with(cylinder(r * metre)), {}).to_buy.value(); };
    CHECK(near::relative(fret_pieces(d, {}).to_buy.value().partial[0], (at(0.2 + 1e-5) - at(0.2 - 1e-5)) / 2e-5, 1e-6));
    CHECK(near::relative(static_cast<double>(fret_pieces(over<float>(board_with(cylinder(200 * mm))), {}).to_buy.value()),
                         at(0.2), 1e-5));
}

TEST_CASE("pieces: bad input is named") {
    CHECK_THROWS_AS((void)fret_pieces(board(), {}), invalid_input);
    CHECK_THROWS_WITH_AS((void)fret_pieces(board_with(flat_surface()), {.overhang = -1 * mm}),
                         "piece_rule.overhang is -1 mm; it must be at least 0 mm and at most 50 mm.", invalid_input);
    CHECK_THROWS_AS((void)fret_pieces(board_with(flat_surface()), {}, fan()), invalid_input);
    CHECK_THROWS_AS((void)arc_length(20 * mm, 41 * mm), invalid_input);
    CHECK_THROWS_AS((void)prebend_radius(0 * per_metre, 50 * mm, 0 * mm), invalid_input);
    CHECK_THROWS_AS((void)prebend_radius(1.0 / (300 * mm), 50 * mm, -1 * mm), invalid_input);
}

TEST_CASE("pieces: board, rule, fan and arc are looked at by each function") {
    using doctest::Contains;
    const auto b = board_with(flat_surface());
    CHECK_THROWS_WITH((void)fret_pieces(board(), {}, fan()), Contains("board.width_at_nut is not given"));
    CHECK_THROWS_WITH((void)fret_pieces(b, {.overhang = -1 * mm}, fan()), Contains("piece_rule.overhang is -1 mm"));
    CHECK_THROWS_WITH((void)fret_pieces(b, {}, fan()), Contains("fan.bass_scale is not given"));
    CHECK_THROWS_WITH((void)arc_length(0 * mm, 41 * mm), Contains("radius is 0 mm"));
    CHECK_THROWS_WITH((void)arc_length(100 * mm, -1 * mm), Contains("width is -1 mm"));
    CHECK_THROWS_WITH((void)prebend_radius(1.0 / (300 * mm), 0 * mm, 1 * mm), Contains("width is 0 mm"));
    CHECK_THROWS_WITH((void)prebend_radius(1.0 / (20 * mm), 50 * mm, 1 * mm),
                      Contains("half the width over the radius is 1.25"));
    CHECK_THROWS_WITH((void)prebend_radius(0 * per_metre, 50 * mm, 0 * mm), Contains("sagitta of the wire is 0 mm"));
}
