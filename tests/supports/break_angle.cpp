#include <tautline/supports/break_angle.hpp>

#include <random>
#include <vector>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const point nut{.x = 0 * mm, .y = 0 * mm, .z = 0 * mm};
}

TEST_CASE("a straight string does nothing to what it passes") {
    const point at{.x = 600 * mm, .y = 10 * mm, .z = 6 * mm};
    const point on{.x = 900 * mm, .y = 15 * mm, .z = 9 * mm};
    const auto load = support_load(nut, at, on, 80 * N);
    CHECK(near::within(load.break_angle, 0 * deg, 1e-6 * deg));
    CHECK(near::within(load.on_support.size(), 0 * N, 1e-12 * N));
    CHECK_FALSE(support_load(nut, at, {.x = 900 * mm, .y = 15 * mm, .z = 9.1 * mm}, 80 * N).seated());
}

TEST_CASE("a string over a saddle presses it down, forward or back by its angles") {
    // Level speaking side, 20 degrees down behind: the saddle is pulled back toward the tailpiece's side by T (cos 20 - 1).
    const point saddle{.x = 600 * mm, .z = 0 * mm};
    const point tail{.x = 600 * mm + 100 * std::cos(20 * deg / rad) * mm, .z = -100 * std::sin(20 * deg / rad) * mm};
    const auto load = support_load(nut, saddle, tail, 100 * N);
    CHECK(near::within(load.break_angle, 20 * deg, 1e-9 * deg));
    CHECK(near::within(load.down_break, 20 * deg, 1e-9 * deg));
    CHECK(near::within(load.side_angle, 0 * deg, 1e-9 * deg));
    CHECK(near::relative(load.down(), 100 * std::sin(20 * deg / rad) * N, 1e-12));
    CHECK(near::relative(load.on_support.x, 100 * (std::cos(20 * deg / rad) - 1) * N, 1e-12));
    CHECK(near::relative(load.on_support.size(), support_force_size(100 * N, 20 * deg), 1e-12));
    CHECK(load.seated());
}

TEST_CASE("the distance of two points is the diagonal of their box") {
    // 2, 3, 6 and 7 are whole numbers with 4 + 9 + 36 = 49.
    const point a{.x = 10 * mm, .y = -5 * mm, .z = 1 * mm}, b{.x = 12 * mm, .y = -8 * mm, .z = 7 * mm};
    CHECK(near::relative(distance_between(a, b), 7 * mm, 1e-14));
    CHECK(distance_between(b, a) == distance_between(a, b));
    CHECK(distance_between(a, a) == 0 * mm);
    CHECK(near::relative(distance_between(a, {.x = 10 * mm, .y = -5 * mm, .z = 4 * mm}), 3 * mm, 1e-12));
}

TEST_CASE("a string that bends sideways only presses sideways only") {
    const point at{.x = 300 * mm};
    const auto toward_treble = support_load(nut, at, {.x = 400 * mm, .y = 10 * mm}, 50 * N);
    CHECK(near::within(toward_treble.side_angle, atan2(10 * mm, 100 * mm), 1e-9 * deg));
    CHECK(near::within(toward_treble.down_break, 0 * deg, 1e-9 * deg));
    CHECK(toward_treble.on_support.y > 0 * N);
    CHECK(support_load(nut, at, {.x = 400 * mm, .y = -10 * mm}, 50 * N).side_angle < 0 * deg);
}

TEST_CASE("property: the force has the size 2 T sin(theta/2) whatever the geometry") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> place(-1, 1);
    for (int i = 0; i < 500; ++i) {
        const auto any = [&] {
            return point{.x = place(random) * metre, .y = place(random) * metre, .z = place(random) * metre};
        };
        const auto t = (1 + 100 * std::abs(place(random))) * N;
        const auto load = support_load(any(), any(), any(), t);
        CHECK(near::relative(load.on_support.size(), support_force_size(t, load.break_angle), 1e-9));
    }
}

TEST_CASE("property: a mirrored string mirrors its force") {
    std::mt19937 random(12);
    std::uniform_real_distribution<double> place(-1, 1);
    for (int i = 0; i < 100; ++i) {
        const auto any = [&] {
            return point{.x = place(random) * metre, .y = place(random) * metre, .z = place(random) * metre};
        };
        const auto mirrored = [](point p) {
            p.y = -p.y;
            return p;
        };
        const point a = any(), b = any(), c = any();
        const auto one = support_load(a, b, c, 10 * N);
        const auto other = support_load(mirrored(a), mirrored(b), mirrored(c), 10 * N);
        CHECK(near::within(one.on_support.y, -other.on_support.y, 1e-12 * N));
        CHECK(near::within(one.on_support.z, other.on_support.z, 1e-12 * N));
        CHECK(near::within(one.side_angle, -other.side_angle, 1e-9 * deg));
    }
}

TEST_CASE(
    "a support that rubs: the anchor bears the tension of its own side, and support and anchor together the other's") {
    // Level speaking side; behind it 3 mm back for 4 mm down, to the side by nothing.
    const point saddle{.x = 600 * mm}, pin{.x = 603 * mm, .z = -4 * mm};
    const auto load = support_load(nut, saddle, pin, 80 * N, 100 * N);
    CHECK(near::within(load.on_anchor.x, -60 * N, 1e-12 * N));
    CHECK(near::within(load.on_anchor.y, 0 * N, 1e-12 * N));
    CHECK(near::within(load.on_anchor.z, 80 * N, 1e-12 * N)); // the string pulls its pin up by 100 * 4/5
    CHECK(near::within(load.on_support.x, (60 - 80) * N, 1e-12 * N));
    CHECK(near::within(load.down(), 80 * N, 1e-12 * N));
    std::mt19937 random(13);
    std::uniform_real_distribution<double> place(-1, 1);
    for (int i = 0; i < 100; ++i) {
        const auto any = [&] {
            return point{.x = place(random) * metre, .y = place(random) * metre, .z = place(random) * metre};
        };
        const point a = any(), b = any(), c = any();
        const auto before = (1 + 100 * std::abs(place(random))) * N, after = (1 + 100 * std::abs(place(random))) * N;
        const auto l = support_load(a, b, c, before, after);
        CHECK(near::relative(l.on_anchor.size(), after, 1e-12));
        // The piece of string from the anchor over the support to its speaking side is at rest.
        const auto whole = l.on_support + l.on_anchor;
        const auto toward = direction_between(b, a);
        CHECK(near::within(whole.x, toward.x * before, 1e-9 * N));
        CHECK(near::within(whole.y, toward.y * before, 1e-9 * N));
        CHECK(near::within(whole.z, toward.z * before, 1e-9 * N));
    }
    const std::vector<basic_support_load<double>> both{load, support_load(nut, saddle, pin, 10 * N, 30 * N)};
    CHECK(near::within(total_anchor_pull<double>(both).z, (80 + 24) * N, 1e-12 * N));
}

TEST_CASE("forces add") {
    const auto a = support_load(nut, {.x = 1 * metre}, {.x = 1.1 * metre, .z = -10 * mm}, 50 * N);
    const auto b = support_load(nut, {.x = 1 * metre}, {.x = 1.1 * metre, .z = -30 * mm}, 70 * N);
    const std::vector<basic_support_load<double>> both{a, b};
    CHECK(near::relative(total_force<double>(both).down(), a.down() + b.down(), 1e-12));
    CHECK(total_force<double>({}).size() == 0 * N);
    // A vector says by itself which numbers it holds.
    CHECK(total_force(both).down() == total_force<double>(both).down());
    CHECK(near::relative(total_anchor_pull(both).size(), (a.on_anchor + b.on_anchor).size(), 1e-12));
}

TEST_CASE("number types: float follows double, a dual carries the derivative") {
    const auto down = [](auto height) {
        using R = real_of_t<decltype(height)>;
        basic_point<R> a{}, b{}, c{};
        b.x = over<R>(600 * mm);
        b.z = height;
        c.x = over<R>(700 * mm);
        c.z = over<R>(-8 * mm);
        return support_load(a, b, c, 70 * N).down();
    };
    using D = dual<double, 1>;
    const auto exact = down(length<D>::from_value(D::variable(0.012, 0))).value().partial[0];
    const double h = 1e-6;
    const double by_difference = (down((0.012 + h) * metre) - down((0.012 - h) * metre)).value() / (2 * h);
    CHECK(near::relative(exact, by_difference, 1e-7));
    CHECK(near::relative(static_cast<double>(down(12.0f * mm).value()), down(12 * mm).value(), 1e-5));
    CHECK(near::relative(static_cast<double>(down(12.0L * mm).value()), down(12 * mm).value(), 1e-12));
}

TEST_CASE("a dual on a straight string has finite partials") {
    using D = dual<double, 1>;
    basic_point<D> a{}, b{}, c{};
    b.x = length<D>::from_value(D(0.6));
    b.z = length<D>::from_value(D::variable(0, 0));
    c.x = length<D>::from_value(D(0.9));
    const auto load = support_load(a, b, c, 70 * N);
    CHECK(near::relative(load.down().value().partial[0], 70 * (1 / 0.6 + 1 / 0.3), 1e-12));
    CHECK(std::isfinite(load.break_angle.value().partial[0]));
}

TEST_CASE("bad input is named") {
    CHECK_THROWS_AS((void)support_load(nut, nut, {.x = 1 * mm}, 1 * N), invalid_input);
    CHECK_THROWS_AS((void)support_load(nut, {.x = 1 * mm}, {.x = 1 * mm}, 1 * N), invalid_input);
    CHECK_THROWS_WITH((void)support_load(nut, {.x = 1 * mm}, {.x = 2 * mm}, -1 * N),
                      "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_AS((void)support_load(nut, {.x = std::nan("") * mm}, {.x = 2 * mm}, 1 * N), invalid_input);
    CHECK_THROWS_AS((void)support_force_size(10 * N, -1 * deg), invalid_input);
    CHECK_THROWS_AS((void)direction_between(nut, nut), invalid_input);
}
