#include <tautline/board/markers.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

board with(int steps, int frets) {
    return {.width_at_nut = 40 * mm,
            .width_at_end = 52 * mm,
            .board_length = 500 * mm,
            .thickness = 6 * mm,
            .scale = {.scale_length = 640 * mm, .steps = steps, .frets = frets}};
}
std::string frets_of(const std::vector<basic_marker<double>>& dots) {
    std::string text;
    for (const auto& m : dots) { text += std::to_string(m.fret) + (m.dots == 2 ? "d " : " "); }
    return text;
}

} // namespace

TEST_CASE("markers: common practice, no source: 3 5 7 9 and a double at the octave, again above it") {
    CHECK(frets_of(markers(with(12, 24))) == "3 5 7 9 12d 15 17 19 21 24d ");
    CHECK(frets_of(markers(with(12, 12), {.singles = {5, 7, 10}})) == "5 7 10 12d ");
    CHECK(frets_of(markers(with(12, 2))).empty());
    CHECK(frets_of(markers(with(12, 0))).empty());
}

TEST_CASE("markers: other scales get the frets nearest to the same pitches") {
    CHECK(frets_of(markers(with(24, 24))) == "6 10 14 18 24d ");
    CHECK(frets_of(markers(with(19, 19))) == "5 8 11 14 19d ");
}

TEST_CASE("markers: on measured places by what each fret is for: the double dot at the octave of a diatonic board") {
    auto b = with(12, 8);
    for (const int step : {2, 4, 5, 7, 9, 10, 12, 14}) {
        b.scale.measured_places.push_back(equal_step_position(length<>(b.scale.scale_length), step));
    }
    CHECK(frets_of(markers(b)) == "3 4 5 7d ");
}

TEST_CASE("markers: dots stand midway between frets, doubles to both sides") {
    const auto b = with(12, 12);
    const auto dots = markers(b, {.double_share = 0.4, .side_share = 0.2});
    CHECK(near::within(dots[0].x, (fret_position(b.scale, 2) + fret_position(b.scale, 3)) / 2, 1e-12 * mm));
    CHECK(dots[0].y == std::vector<length<double>>{0.0 * mm});
    CHECK(dots[0].side_x.size() == 1);
    const auto& octave = dots.back();
    const auto before = fret_position(b.scale, 11), at = fret_position(b.scale, 12);
    CHECK(near::within(octave.y[1], half_width_at(b, octave.x) * 0.4, 1e-12 * mm));
    CHECK(near::within(octave.y[0], -octave.y[1], 1e-12 * mm));
    CHECK(near::within(octave.side_x[1] - octave.side_x[0], (at - before) * 0.4, 1e-12 * mm));
    using D = dual<double, 1>;
    auto d = over<D>(b);
    d.scale.scale_length = D::variable(0.64, 0) * metre;
    CHECK(near::relative(markers(d)[0].x.value().partial[0], (dots[0].x / (640 * mm)).value(), 1e-12));
}

TEST_CASE("markers: before any frets, of any division of the octave") {
    CHECK(frets_of(markers_at(with(19, 24), {{4}, {8}, {19, 2}})) == "4 8 19d ");
    CHECK(frets_of(markers_at(with(12, 24), {{24, 2}, {1}})) == "24d 1 "); // in the order of the list
    CHECK(markers_at(with(12, 12), {}).empty());
    // The usual ones by number are the usual ones.
    const auto usual = markers(with(12, 12)), listed = markers_at(with(12, 12), {{3}, {5}, {7}, {9}, {12, 2}});
    REQUIRE(usual.size() == listed.size());
    for (std::size_t i = 0; i < usual.size(); ++i) {
        CHECK(usual[i].x == listed[i].x);
        CHECK(usual[i].y == listed[i].y);
        CHECK(usual[i].side_x == listed[i].side_x);
    }
    // A just diatonic board: its fourth and its octave are frets 3 and 7.
    auto b = with(12, 7);
    for (const double ratio : {9.0 / 8, 5.0 / 4, 4.0 / 3, 3.0 / 2, 5.0 / 3, 15.0 / 8, 2.0}) {
        b.scale.measured_places.push_back(position_of_interval(640 * mm, 1200 * std::log2(ratio) * cents));
    }
    const auto dots = markers_at(b, {{3}, {7, 2}});
    CHECK(near::relative(dots[0].x, (640 * (1 - 4.0 / 5) + 640 * (1 - 3.0 / 4)) / 2 * mm, 1e-12));
    CHECK(near::relative(dots[1].x, (640 * (1 - 8.0 / 15) + 320) / 2 * mm, 1e-12));
}

TEST_CASE("markers: frets are chosen and left off one by one") {
    const auto b = with(12, 24);
    CHECK(frets_of(markers(b, {.without = {9, 24}})) == "3 5 7 12d 15 17 19 21 ");
    CHECK(frets_of(markers(b, {.singles = {}, .without = {12, 24}})).empty());
    CHECK(frets_of(markers(b, {.singles = {}, .without = {12, 24}, .at = {{2}, {10}, {7, 2}}})) == "2 7d 10 ");
    const auto dots = markers(b, {.without = {3}, .at = {{12}, {5, 3}}});
    REQUIRE(dots.size() == 9);
    CHECK(dots[0].dots == 3);
    CHECK(dots[3].fret == 12);
    CHECK(dots[3].dots == 1);
    // As those of a list are.
    CHECK(dots[0].y == markers_at(b, {{5, 3}})[0].y);
    CHECK_THROWS_WITH((void)markers(b, {.at = {{25}}}),
                      "marker_layout.at[0].fret must be one of the board's frets, 1 to the "
                      "last.");
    CHECK_THROWS_WITH((void)markers(b, {.without = {3, 30}}),
                      "marker_layout.without[1] must be one of the board's frets, 1 to "
                      "the last.");
    CHECK_THROWS_AS((void)markers(b, {.at = {{3}, {3}}}), invalid_input);
    CHECK_THROWS_AS((void)markers(b, {.without = {3}, .at = {{3}}}), invalid_input);
    CHECK_THROWS_AS((void)markers(b, {.at = {{3, 5}}}), invalid_input);
    CHECK_THROWS_AS((void)markers(b, {.at = {{0}}}), invalid_input);
    CHECK_THROWS_AS((void)markers(b, {.without = {0}}), invalid_input);
}

TEST_CASE("markers: three and four dots stand evenly between where two would") {
    const auto b = with(12, 12);
    const auto two = markers_at(b, {{12, 2}})[0], three = markers_at(b, {{12, 3}})[0], four = markers_at(b, {{12, 4}})[0];
    REQUIRE(three.y.size() == 3);
    CHECK(three.y[0] == two.y[0]);
    CHECK(three.y[1] == 0 * mm);
    CHECK(three.y[2] == two.y[1]);
    CHECK(three.side_x[1] == three.x);
    REQUIRE(four.y.size() == 4);
    CHECK(near::relative(four.y[2] - four.y[1], (two.y[1] - two.y[0]) / 3.0, 1e-12));
    CHECK(near::relative(four.side_x[3], two.side_x[1], 1e-14));
}

TEST_CASE("markers: bad input is named") {
    CHECK_THROWS_WITH((void)markers_at(with(12, 12), {{3}, {13}}),
                      "dotted[1].fret is 13; it must be one of the board's frets, 1 to the last.");
    CHECK_THROWS_WITH((void)markers_at(with(12, 12), {{0}}),
                      "dotted[0].fret is 0; it must be one of the board's frets, 1 to the last.");
    CHECK_THROWS_AS((void)markers_at(with(12, 12), {{}}), invalid_input);
    CHECK_THROWS_WITH((void)markers_at(with(12, 12), {{3, 5}}), "dotted[0].dots is 5; it must be 1 to 4.");
    CHECK_THROWS_WITH((void)markers_at(with(12, 12), {{3, 0}}), "dotted[0].dots is 0; it must be 1 to 4.");
    CHECK_THROWS_AS((void)markers_at(board(), {{3}}), invalid_input);
    CHECK_THROWS_AS((void)markers(board()), invalid_input);
    CHECK_THROWS_AS((void)markers(with(12, 12), {.singles = {12}}), invalid_input);
    CHECK_THROWS_AS((void)markers(with(12, 12), {.double_share = 1.5}), invalid_input);
}
