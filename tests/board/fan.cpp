#include <tautline/board/fan.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const fan baritone{.bass_scale = 690 * mm,
                   .treble_scale = 650 * mm,
                   .square_fret = 7,
                   .frets = 20,
                   .y_bass_at_nut = -19 * mm,
                   .y_treble_at_nut = 18 * mm,
                   .y_bass_at_saddle = -28 * mm,
                   .y_treble_at_saddle = 26 * mm};

length<double> long_of(const string_path& p) {
    return hypot(length<double>(p.x_at_saddle - p.x_at_nut), length<double>(p.y_at_saddle - p.y_at_nut));
}

board outline(length<> at_nut, length<> at_end, length<> from_end_to_end) {
    return {.width_at_nut = at_nut,
            .width_at_end = at_end,
            .board_length = from_end_to_end,
            .thickness = 6 * mm,
            .scale = {.scale_length = 670 * mm, .frets = 20}};
}

} // namespace

TEST_CASE("fan: outer strings have their scale lengths, the nut crosses the centre line at 0, one fret is square") {
    const auto outer = outer_strings(baritone);
    CHECK(near::within(long_of(outer.bass), 690 * mm, 1e-9 * mm));
    CHECK(near::within(long_of(outer.treble), 650 * mm, 1e-9 * mm));
    CHECK(near::within(x_at(fret_line(baritone, 0), 0 * mm), 0 * mm, 1e-9 * mm));
    CHECK(near::within(fret_angle(fret_line(baritone, 7)).value(), 0, 1e-12));
    CHECK(fret_angle(fret_line(baritone, 0)) > 0.0 * deg);  // the long bass begins nearer to the head
    CHECK(fret_angle(fret_line(baritone, 20)) < 0.0 * deg); // and ends nearer to the tail
}

TEST_CASE("fan: property, a string at one share of the way across is divided exactly, another is not") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> share(0, 1);
    for (int i = 0; i < 50; ++i) {
        const double s = share(random);
        for (const int n : {1, 5, 12, 19}) {
            CHECK(near::within(fret_error(baritone, path_between(baritone, s, s), n) / cents, 0, 1e-9));
        }
    }
    CHECK(std::abs(fret_error(baritone, path_between(baritone, 0.2, 0.5), 12) / cents) > 1);
}

TEST_CASE("fan: what a fret's ends are cut to is the angle between two directions in plan") {
    const auto b = outline(43 * mm, 60 * mm, 500 * mm);
    for (const int n : {0, 5, 7, 12, 20}) {
        const auto line = fret_line(baritone, n), ends = fret_ends(line, b);
        // By the law of cosines: from the end along the fret, and along the edge toward the bridge.
        const auto between = [&](const plan_point& at, const plan_point& other, double side) {
            const double x = at.x / mm + 10, y = side * (half_width_at(b, x * mm) / mm);
            const double a = std::hypot(x - at.x / mm, y - at.y / mm),
                         c = std::hypot((other.x - at.x) / mm, (other.y - at.y) / mm),
                         d = std::hypot(x - other.x / mm, y - other.y / mm);
            return std::acos((a * a + c * c - d * d) / (2 * a * c)) * rad;
        };
        const auto cut = end_angles(line, b);
        CHECK(near::within(cut.bass / deg, between(ends.bass, ends.treble, -1) / deg, 1e-6));
        CHECK(near::within(cut.treble / deg, between(ends.treble, ends.bass, 1) / deg, 1e-6));
    }
    // A square fret on a board that grows wider: more than 90 deg, at both edges alike.
    const auto square = end_angles(fret_line(baritone, 7), b);
    CHECK(near::within(square.bass / deg, 90 + std::atan(8.5 / 500) * 180 / std::numbers::pi, 1e-6));
    CHECK(near::within(square.treble / deg, square.bass / deg, 1e-6));
}

TEST_CASE("fan: equal scales and a square nut are an ordinary scale along the outer strings") {
    auto plain = baritone;
    plain.treble_scale = plain.bass_scale = 650 * mm;
    plain.y_treble_at_nut = 19 * mm;
    plain.y_treble_at_saddle = 28 * mm;
    plain.square_fret = 0;
    const double run = std::sqrt(650.0 * 650 - 81);
    for (const int n : {0, 3, 12}) {
        const auto l = fret_line(plain, n);
        CHECK(near::within(fret_angle(l).value(), 0, 1e-12));
        CHECK(near::within(x_at(l, 5 * mm), run * (1 - std::pow(2, -n / 12.0)) * mm, 1e-9 * mm));
    }
}

TEST_CASE("fan: fret ends lie on the fret and on the edges") {
    const board b = outline(46 * mm, 60 * mm, 500 * mm);
    for (int n = 0; n <= 20; ++n) {
        const auto l = fret_line(baritone, n), ends = fret_ends(l, b);
        CHECK(near::within(ends.bass.y, -half_width_at(b, ends.bass.x), 1e-9 * mm));
        CHECK(near::within(ends.treble.y, half_width_at(b, ends.treble.x), 1e-9 * mm));
        CHECK(near::within(x_at(l, ends.bass.y), ends.bass.x, 1e-9 * mm));
        CHECK(near::within(x_at(l, ends.treble.y), ends.treble.x, 1e-9 * mm));
    }
}

TEST_CASE("fan: a crossing lies on both lines; derivative by the bass scale against differences") {
    const auto p = path_between(baritone, 0.3, 0.45);
    const auto l = fret_line(baritone, 9);
    const auto at = crossing(l, p);
    CHECK(near::within(y_at(p, at.x), at.y, 1e-10 * mm));
    CHECK(near::within(x_at(l, at.y), at.x, 1e-10 * mm));
    using D = dual<double, 1>;
    auto d = over<D>(baritone);
    d.bass_scale = D::variable(0.69, 0) * metre;
    const double h = 1e-6;
    const auto error = [](double metres) {
        auto f = baritone;
        f.bass_scale = metres * metre;
        return fret_error(f, path_between(f, 0.3, 0.45), 9) / cents;
    };
    CHECK(near::relative(fret_error(d, path_between(d, 0.3, 0.45), 9).cents().partial[0],
                         (error(0.69 + h) - error(0.69 - h)) / (2 * h), 1e-6));
    CHECK(near::within(
        static_cast<double>(fret_error(over<float>(baritone), path_between(over<float>(baritone), 0.3f, 0.45f), 9).cents()),
        error(0.69), 1e-2));
}

TEST_CASE("fan: bad input is named") {
    auto f = baritone;
    f.y_treble_at_nut = -20 * mm;
    CHECK(validate(f, "fan").front().sentence() == "fan.y_treble_at_nut must lie on the treble side of the bass string.");
    f = baritone;
    f.y_treble_at_saddle = -40 * mm;
    CHECK(validate(f).front().field == "y_treble_at_saddle");
    f = baritone;
    f.bass_scale = 12 * mm;
    f.y_bass_at_saddle = -45 * mm;
    CHECK(validate(f).front().sentence() == "bass_scale must be more than the string runs sideways.");
    f = baritone;
    f.treble_scale = 12 * mm;
    f.y_treble_at_saddle = 45 * mm;
    CHECK(validate(f).front().field == "treble_scale");
    f = baritone;
    f.square_fret = NAN;
    CHECK_THROWS_AS((void)fret_line(f, 1), invalid_input);
    CHECK_THROWS_AS((void)fret_line(baritone, 21), invalid_input);
    const board narrowing = outline(46 * mm, 10 * mm, 100 * mm);
    CHECK_THROWS_AS((void)fret_ends(fret_line(baritone, 12), narrowing), invalid_input);
}

TEST_CASE("fan: every question about it looks at the fan, the fret line, the board and the string") {
    using doctest::Contains;
    auto f = baritone;
    f.bass_scale = 12 * mm;
    f.y_bass_at_saddle = -45 * mm;
    const char* const short_scale = "fan.bass_scale must be more than the string runs sideways.";
    CHECK_THROWS_WITH((void)outer_strings(f), short_scale);
    CHECK_THROWS_WITH((void)saddle_line(f), short_scale);

    const board b = outline(46 * mm, 58 * mm, 480 * mm);
    const auto p = path_between(baritone, 0.5, 0.5);
    const basic_fret_line<double> point{.bass = {100 * mm, 5 * mm}, .treble = {110 * mm, 5 * mm}};
    const auto no_width = Contains("width of the fret line is 0 mm");
    CHECK_THROWS_WITH((void)x_at(point, 0 * mm), no_width);
    CHECK_THROWS_WITH((void)fret_angle(point), no_width);
    CHECK_THROWS_WITH((void)fret_ends(point, b), no_width);
    CHECK_THROWS_WITH((void)crossing(point, p), no_width);

    const auto square = fret_line(baritone, 7);
    CHECK_THROWS_WITH((void)fret_ends(square, board()), Contains("board.board_length is not a number"));
    // A fret that leans as far along the board as across it, on a board that widens as fast.
    const basic_fret_line<double> steep{.bass = {100 * mm, -20 * mm}, .treble = {140 * mm, 20 * mm}};
    const board wedge = outline(1 * mm, 201 * mm, 100 * mm);
    CHECK_THROWS_WITH((void)fret_ends(steep, wedge), Contains("taper along a fret is 1"));
    CHECK_THROWS_WITH((void)crossing(steep, string_path{.y_at_saddle = 640 * mm, .x_at_saddle = 640 * mm}),
                      Contains("lean of the fret times slope of the string is 1"));
    CHECK_THROWS_WITH((void)crossing(square, string_path()), Contains("saddle beyond the nut is not a number"));
    CHECK_THROWS_WITH((void)fret_error(baritone, string_path{.x_at_saddle = 100 * mm}, 7),
                      Contains("saddle beyond the fret is -"));
}
