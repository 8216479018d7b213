#include <tautline/action/height.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;
using lengths = std::vector<length<double>>;

TEST_CASE("height over a crest is the straight line less the crest") {
    const string_line s{.nut_x = 0 * mm, .nut_z = 1.5 * mm, .saddle_x = 600 * mm, .saddle_z = 7.5 * mm};
    CHECK(near::within(height_over(s, 300 * mm, 1 * mm), 3.5 * mm, 1e-12 * mm));
    CHECK(near::within(height_over(s, 0 * mm, 0 * mm), 1.5 * mm, 1e-12 * mm));
    CHECK(height_over(s, 300 * mm, 5 * mm) < 0 * mm);
    const lengths x{30 * mm, 300 * mm, 450 * mm}, z{1 * mm, 0.8 * mm, 1 * mm};
    lengths h(3);
    heights_over_frets(s, x, z, h);
    CHECK(near::within(h[0], 0.8 * mm, 1e-12 * mm));
    CHECK(near::within(h[1], 3.7 * mm, 1e-12 * mm));
    CHECK(near::within(h[2], 5.0 * mm, 1e-12 * mm));
}

TEST_CASE("property: raising the saddle raises every height, in proportion to the place") {
    std::mt19937 random(31);
    std::uniform_real_distribution<double> z(0.5, 12), rise(0.01, 2);
    for (int i = 0; i < 100; ++i) {
        const string_line low{.nut_x = 0 * mm, .nut_z = z(random) * mm, .saddle_x = 560 * mm, .saddle_z = z(random) * mm};
        string_line high = low;
        const double up = rise(random);
        high.saddle_z = high.saddle_z + up * mm;
        lengths x, crest;
        for (int n = 1; n <= 20; ++n) {
            x.push_back(560 * (1 - std::exp2(-n / 12.0)) * mm);
            crest.push_back(z(random) * 0.1 * mm);
        }
        lengths a(20), b(20);
        heights_over_frets(low, x, crest, a);
        heights_over_frets(high, x, crest, b);
        for (std::size_t n = 0; n < 20; ++n) {
            CHECK(near::within(b[n] - a[n], up * ratio(x[n], 560 * mm) * mm, 1e-9 * mm));
        }
    }
}

TEST_CASE("the speaking length runs straight from nut to saddle") {
    // 3, 4, 12 and 13; a string along the centre line and level is as long as its saddle is far.
    const string_line s{.nut_x = 10 * mm,
                        .nut_z = 1 * mm,
                        .saddle_x = 130 * mm,
                        .saddle_z = 31 * mm,
                        .nut_y = -20 * mm,
                        .saddle_y = 20 * mm};
    CHECK(near::relative(speaking_length(s), 130 * mm, 1e-14));
    const string_line level{.nut_z = 1 * mm, .saddle_x = 600 * mm, .saddle_z = 1 * mm};
    CHECK(near::relative(speaking_length(level), 600 * mm, 1e-14));
    // Pressed on its own line, what sounds and what does not are the whole.
    const auto behind = pressed_line(s, 70 * mm, 16 * mm);
    CHECK(near::relative(speaking_length(behind), 65 * mm, 1e-14));
    using doctest::Contains;
    CHECK_THROWS_WITH((void)pressed_line(s, NAN * mm, 16 * mm), Contains("x is not a number"));
    CHECK_THROWS_WITH((void)pressed_line(s, 70 * mm, NAN * mm), Contains("crest_z is not a number"));
    CHECK_THROWS_WITH((void)pressed_line(s, 5 * mm, 16 * mm), "x beyond the nut is -5 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)pressed_line(s, 130 * mm, 16 * mm), "saddle beyond x is 0 mm; it must be more than 0 mm.");
    // The derivative by the saddle's place is the cosine of the angle with x: 12 parts of 13.
    using D = dual<double, 1>;
    auto d = over<D>(s);
    d.saddle_x = length<D>::from_value(D::variable(0.130, 0));
    CHECK(near::relative(speaking_length(d).value().partial[0], 12.0 / 13, 1e-12));
}

TEST_CASE("no frets, no heights") {
    const string_line s{.nut_x = 0 * mm, .nut_z = 1 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm};
    heights_over_frets(s, {}, {}, {});
}

TEST_CASE("heights of a dual string carry the derivative with respect to the saddle") {
    using D = dual<double, 1>;
    basic_string_line<D> s;
    s.nut_z = length<D>(0 * mm);
    s.saddle_x = length<D>(600 * mm);
    s.saddle_z = length<D>::from_value(D::variable(0.008, 0));
    CHECK(near::relative(height_over(s, 150 * mm, 1 * mm).value().partial[0], 0.25, 1e-12));
}

TEST_CASE("bad input is named") {
    const string_line s{.nut_x = 0 * mm, .nut_z = 1 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm};
    lengths h(2);
    CHECK_THROWS_WITH(heights_over_frets(s, lengths{30 * mm, 20 * mm}, lengths{1 * mm, 1 * mm}, h),
                      "crest_x[1] must lie beyond the fret before it and before the saddle.");
    CHECK_THROWS_AS(heights_over_frets(s, lengths{30 * mm, 620 * mm}, lengths{1 * mm, 1 * mm}, h), invalid_input);
    CHECK_THROWS_AS(heights_over_frets(s, lengths{30 * mm}, lengths{1 * mm, 1 * mm}, h), invalid_input);
    CHECK_THROWS_AS(heights_over_frets(s, lengths{30 * mm, 60 * mm, 90 * mm}, lengths(3), h), invalid_input);
    CHECK_THROWS_AS(heights_over_frets(s, lengths{30 * mm, std::nan("") * mm}, lengths(2), h), invalid_input);
    CHECK_THROWS_WITH(heights_over_frets(s, lengths{30 * mm, 60 * mm}, lengths{0 * mm, std::nan("") * mm}, h),
                      "crest_z[1] is not a number; it must be a finite number.");
    CHECK_THROWS_WITH(
        (void)height_over(string_line{.nut_x = 10 * mm, .nut_z = 0 * mm, .saddle_x = 10 * mm, .saddle_z = 0 * mm}, 0 * mm,
                          0 * mm),
        "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_AS((void)height_over(s, std::nan("") * mm, 0 * mm), invalid_input);
}

TEST_CASE("a line and its crests are looked at, however few they are") {
    const string_line s{.nut_x = 0 * mm, .nut_z = 1 * mm, .saddle_x = 600 * mm, .saddle_z = 8 * mm};
    lengths h(2);
    CHECK_THROWS_WITH(
        heights_over_frets(string_line{.nut_x = 10 * mm, .nut_z = 0 * mm, .saddle_x = 10 * mm, .saddle_z = 0 * mm}, {}, {},
                           {}),
        "string_line.saddle_x must be beyond the nut.");
    CHECK_THROWS_WITH(heights_over_frets(s, lengths{30 * mm, std::nan("") * mm}, lengths(2), h),
                      "crest_x[1] is not a number; it must be a finite number.");
    CHECK_THROWS_WITH((void)height_over(s, 30 * mm, std::nan("") * mm),
                      "crest_z is not a number; it must be a finite number.");
}
