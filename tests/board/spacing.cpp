#include <tautline/board/spacing.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

TEST_CASE("spacing: six single strings at equal centres") {
    const auto y = string_places(spacing{.spread = 35 * mm});
    REQUIRE(y.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(near::within(y[i], (-17.5 + 7.0 * static_cast<double>(i)) * mm, 1e-12 * mm));
    }
}

TEST_CASE("spacing: eight strings in four courses keep their own gap") {
    const auto y =
        string_places(spacing{.spread = 26 * mm, .courses = {2, 2, 2, 2}, .course_gap = 2 * mm, .offset = 1 * mm});
    REQUIRE(y.size() == 8);
    CHECK(near::within(y[0], -12 * mm, 1e-12 * mm));
    CHECK(near::within(y[7], 14 * mm, 1e-12 * mm));
    for (std::size_t i = 1; i < 8; ++i) { CHECK(near::within(y[i] - y[i - 1], (i % 2 == 1 ? 2.0 : 6.0) * mm, 1e-12 * mm)); }
}

TEST_CASE("spacing: property, equal gaps are equal between the strings' sides and fill the spread") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> gauge(0.2, 1.4);
    const std::vector<std::vector<int>> rows = {{1, 1, 1, 1, 1, 1}, {2, 2, 2, 2}, {1, 2, 3}, {2, 1}};
    for (const auto& courses : rows) {
        const spacing s{.spread = 40 * mm, .rule = spacing_rule::equal_gaps, .courses = courses, .course_gap = 1.5 * mm};
        std::vector<length<double>> g(static_cast<std::size_t>(string_count(s)));
        for (auto& d : g) { d = gauge(random) * mm; }
        const auto y = string_places(s, g);
        CHECK(near::within(y.back() - y.front(), 40 * mm, 1e-12 * mm));
        CHECK(near::within(y.back() + y.front(), 0 * mm, 1e-12 * mm));
        length<double> shared{};
        std::size_t i = 0;
        for (const int c : courses) {
            for (int k = 0; k < c; ++k, ++i) {
                if (i == 0) { continue; }
                const auto gap = y[i] - y[i - 1] - (g[i] + g[i - 1]) / 2;
                if (k > 0) {
                    CHECK(near::within(gap, 1.5 * mm, 1e-12 * mm));
                } else if (shared.value() == 0) {
                    shared = gap;
                } else {
                    CHECK(near::within(gap, shared, 1e-12 * mm));
                }
            }
        }
    }
}

TEST_CASE("spacing: one string, one course, a hundred strings") {
    CHECK(string_places(spacing{.courses = {1}, .offset = 2 * mm}).front() == 2.0 * mm);
    const auto pair = string_places(spacing{.courses = {2}, .course_gap = 2 * mm});
    CHECK(near::within(pair[0], -1 * mm, 1e-12 * mm));
    CHECK(near::within(pair[1], 1 * mm, 1e-12 * mm));
    const auto many = string_places(spacing{.spread = 99 * mm, .courses = std::vector<int>(100, 1)});
    REQUIRE(many.size() == 100);
    CHECK(near::within(many[50], 0.5 * mm, 1e-11 * mm));
}

TEST_CASE("spacing: margins give spread and offset") {
    CHECK(near::within(spread_from_margins(43 * mm, 4 * mm, 3 * mm), 36 * mm, 1e-12 * mm));
    CHECK(near::within(offset_from_margins(4 * mm, 3 * mm), 0.5 * mm, 1e-12 * mm));
    const auto y = string_places(
        spacing{.spread = spread_from_margins(43 * mm, 4 * mm, 3 * mm), .offset = offset_from_margins(4 * mm, 3 * mm)});
    CHECK(near::within(y.front() - -21.5 * mm, 4 * mm, 1e-12 * mm));
    CHECK(near::within(21.5 * mm - y.back(), 3 * mm, 1e-12 * mm));
}

TEST_CASE("spacing: nut slots are the gauges and their clearance, and leave walls") {
    const std::vector<length<double>> gauges = {1.1 * mm, 0.6 * mm, 0.3 * mm};
    const auto widths = slot_widths(gauges, 0.05 * mm);
    CHECK(near::within(widths[0], 1.15 * mm, 1e-12 * mm));
    CHECK(near::within(widths[2], 0.35 * mm, 1e-12 * mm));
    const auto walls = walls_between({-3 * mm, 0 * mm, 0.4 * mm}, widths);
    CHECK(near::within(walls[0], 3 * mm - 0.9 * mm, 1e-12 * mm));
    CHECK(walls[1] < 0.0 * mm);
    CHECK_THROWS_AS((void)slot_widths(gauges, -0.1 * mm), invalid_input);
    CHECK_THROWS_AS((void)slot_widths(std::vector<length<double>>{0.0 * mm}, 0.1 * mm), invalid_input);
    CHECK_THROWS_AS((void)walls_between({0.0 * mm}, widths), invalid_input);
    CHECK(walls_between<double>({}, {}).empty());
}

TEST_CASE("spacing: the spread's derivative reaches every string") {
    using D = dual<double, 1>;
    const auto y = string_places(basic_spacing<D>{.spread = D::variable(0.035, 0) * metre});
    CHECK(near::relative(y[0].value().partial[0], -0.5, 1e-14));
    CHECK(near::relative(y[4].value().partial[0], 0.3, 1e-14));
    CHECK(string_places(basic_spacing<float>{.spread = 35 * mm}).size() == 6);
}

TEST_CASE("spacing: bad input is named") {
    CHECK(validate(spacing{}).front().sentence() == "spread must be more than 0 mm.");
    CHECK(validate(spacing{.spread = 30 * mm, .courses = {}}).front().sentence() ==
          "courses must name at least one course.");
    CHECK(validate(spacing{.spread = 30 * mm, .courses = {2, 0}}).front().field == "courses[1]");
    CHECK(validate(spacing{.spread = 30 * mm, .courses = {2, 2}}).front().field == "course_gap");
    CHECK_THROWS_AS((void)string_places(spacing{.spread = 30 * mm, .rule = spacing_rule::equal_gaps}), invalid_input);
    CHECK_THROWS_WITH_AS((void)string_places(spacing{.spread = 5 * mm, .courses = {3, 3}, .course_gap = 2 * mm}),
                         "spacing.spread is 5 mm; it must leave room between the courses: the strings in them fill 8 mm.",
                         invalid_input);
    CHECK_THROWS_AS((void)spread_from_margins(10 * mm, 6 * mm, 6 * mm), invalid_input);
}

TEST_CASE("spacing: courses, gauges and margins are looked at") {
    using doctest::Contains;
    CHECK_THROWS_WITH((void)string_places(spacing{.spread = 30 * mm, .courses = {2, 0}}),
                      Contains("spacing.courses[1] is 0"));
    CHECK_THROWS_WITH((void)string_places(spacing{.spread = 30 * mm}, std::vector<length<double>>(6)),
                      Contains("gauge is 0 mm"));
    CHECK_THROWS_WITH((void)spread_from_margins(0 * mm, 0 * mm, 0 * mm), Contains("width is 0 mm"));
    CHECK_THROWS_WITH((void)spread_from_margins(40 * mm, -1 * mm, 3 * mm), Contains("bass margin is -1 mm"));
    CHECK_THROWS_WITH((void)spread_from_margins(40 * mm, 3 * mm, -1 * mm), Contains("treble margin is -1 mm"));
}
