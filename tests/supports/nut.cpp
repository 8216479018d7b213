#include <tautline/supports/nut.hpp>

#include <cmath>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
const point slot{.x = 0 * mm, .y = -15 * mm, .z = 1.5 * mm};
const point saddle{.x = 640 * mm, .y = -15 * mm, .z = 1.5 * mm};
} // namespace

TEST_CASE("a post on the face plane turns with the headstock") {
    const headstock head{.pitch = 14 * deg, .face_start = 5 * mm, .face_drop = 2 * mm};
    const tuner_post post{.along = 100 * mm, .across = -20 * mm, .height = 4 * mm};
    const point p = post_point(head, post);
    // By rotating the face's own coordinates about the across axis.
    const double c = std::cos(14 * deg / rad), s = std::sin(14 * deg / rad);
    CHECK(near::within(p.x, (-5 - 100 * c - 4 * s) * mm, 1e-9 * mm));
    CHECK(near::within(p.z, (-2 - 100 * s + 4 * c) * mm, 1e-9 * mm));
    CHECK(p.y == -20 * mm);
    // The height is square to the face: the post's foot lies straight below it along the face's normal.
    const point foot = post_point(head, {.along = 100 * mm, .across = -20 * mm, .height = 0 * mm});
    CHECK(near::within(distance_between(p, foot), 4 * mm, 1e-9 * mm));
}

TEST_CASE("break angle at the nut follows pitch and post") {
    // With the post's string lying in the face plane through the slot, the break angle is the pitch.
    const headstock head{.pitch = 14 * deg, .face_start = 0 * mm, .face_drop = -1.5 * mm};
    const auto load = nut_load(slot, saddle, head, {.along = 80 * mm, .across = -15 * mm, .height = 0 * mm}, 70 * N);
    CHECK(near::within(load.break_angle, 14 * deg, 1e-9 * deg));
    CHECK(near::relative(load.down(), 70 * std::sin(14 * deg / rad) * N, 1e-9));
    CHECK(near::within(load.side_angle, 0 * deg, 1e-9 * deg));
    // Higher on the post: less break. Farther to the bass: a side angle, and the string pulled against that wall.
    const auto high = nut_load(slot, saddle, head, {.along = 80 * mm, .across = -15 * mm, .height = 6 * mm}, 70 * N);
    CHECK(high.break_angle < load.break_angle);
    CHECK(high.down() < load.down());
    const auto aside = nut_load(slot, saddle, head, {.along = 80 * mm, .across = -25 * mm, .height = 0 * mm}, 70 * N);
    CHECK(aside.on_support.y < 0 * N);
    CHECK(aside.break_angle > load.break_angle);
}

TEST_CASE("a flat headstock seats a string only as far as the post is low") {
    const headstock flat{.pitch = 0 * deg, .face_start = 6 * mm, .face_drop = 6 * mm};
    const auto seated = nut_load(slot, saddle, flat, {.along = 60 * mm, .across = -15 * mm, .height = 5 * mm}, 60 * N);
    CHECK(near::within(seated.break_angle, atan2((1.5 + 6 - 5) * mm, 66 * mm), 1e-9 * deg));
    const auto loose = nut_load(slot, saddle, flat, {.along = 60 * mm, .across = -15 * mm, .height = 8 * mm}, 60 * N);
    CHECK_FALSE(loose.seated());
    CHECK(loose.down_break < 0 * deg);
}

TEST_CASE("the floor of a slot lies between the two sides of the string") {
    const headstock head{.pitch = 12 * deg, .face_start = 5 * mm, .face_drop = 2 * mm};
    const point post = post_point(head, {.along = 90 * mm, .across = -15 * mm, .height = 5 * mm});
    const point high_saddle{.x = 640 * mm, .y = -15 * mm, .z = 9 * mm};
    const auto floor = nut_slot_floor(slot, high_saddle, post);
    CHECK(floor.possible());
    CHECK(near::within(floor.least, atan2(7.5 * mm, 640 * mm), 1e-9 * deg));
    CHECK(near::within(floor.most - floor.least, support_load(high_saddle, slot, post, 1 * N).down_break, 1e-9 * deg));
    CHECK(near::within(floor.advised - floor.least, floor.most - floor.advised, 1e-9 * deg));
    CHECK_FALSE(nut_slot_floor(slot, high_saddle, {.x = -60 * mm, .y = -15 * mm, .z = 3 * mm}).possible());
}

TEST_CASE("a dual carries the derivative with respect to the pitch") {
    const auto down = [](auto pitch) {
        using R = real_of_t<decltype(pitch)>;
        basic_headstock<R> head{.pitch = pitch, .face_start = over<R>(5 * mm), .face_drop = over<R>(1 * mm)};
        basic_tuner_post<R> post{.along = over<R>(70 * mm), .across = over<R>(-20 * mm), .height = over<R>(5 * mm)};
        return nut_load(over<R>(slot), over<R>(saddle), head, post, 70 * N).down().value();
    };
    using D = dual<double, 1>;
    const double h = 1e-6;
    const double by_difference = (down((0.2 + h) * rad) - down((0.2 - h) * rad)) / (2 * h);
    CHECK(near::relative(down(angle<D>::from_value(D::variable(0.2, 0))).partial[0], by_difference, 1e-7));
}

TEST_CASE("bad input is named") {
    const tuner_post post{.along = 80 * mm, .across = 0 * mm, .height = 4 * mm};
    CHECK_THROWS_WITH((void)post_point<double>({.pitch = 90 * deg, .face_start = 5 * mm, .face_drop = 3 * mm}, post),
                      "headstock.pitch is 90 deg; it must be at least -30 deg and at most 60 deg.");
    CHECK_THROWS_AS((void)post_point<double>(headstock(), post), invalid_input);
    CHECK_THROWS_AS(
        (void)nut_load(slot, saddle, {.pitch = 10 * deg, .face_start = 5 * mm, .face_drop = 3 * mm}, post, -5 * N),
        invalid_input);
}

TEST_CASE("a string's way to its post: straight, under a guide, over the edge of its slot, to a roller") {
    const point nut{.x = 0 * mm, .y = 4 * mm, .z = 1.5 * mm};
    const headstock flat{.pitch = 0 * deg, .face_start = 5 * mm, .face_drop = 10 * mm};
    tuner_post post{.along = 95 * mm, .across = 14 * mm, .height = 6 * mm};
    const auto straight = way_from_nut(nut, flat, post, 1 * mm);
    CHECK_FALSE(straight.via.has_value());
    CHECK(near::within(straight.first.x, -100 * mm, 1e-9 * mm));
    CHECK(near::within(straight.first.z, -4 * mm, 1e-9 * mm));

    post.guide = string_guide{.along = 35 * mm, .height = 4 * mm};
    const auto guided = way_from_nut(nut, flat, post, 1 * mm);
    REQUIRE(guided.via);
    CHECK(near::within(guided.via->x, -40 * mm, 1e-9 * mm));
    CHECK(near::within(guided.via->z, -6.5 * mm, 1e-9 * mm)); // half a gauge under the guide
    // Laid out flat: 40 by 8 mm, then 60 by 2.5 mm rise.
    const double before = std::hypot(40, 8), behind = std::hypot(60, 2.5);
    CHECK(near::within(guided.via->y, (4 + 10 * before / (before + behind)) * mm, 1e-9 * mm));
    CHECK(near::within(guided.first.y, guided.via->y, 0 * mm));
    post.guide->across = 6 * mm;
    CHECK(near::within(way_from_nut(nut, flat, post, 1 * mm).via->y, 6 * mm, 1e-12 * mm));

    headstock slotted = flat;
    slotted.slot_start = 20 * mm;
    const tuner_post roller{.along = 45 * mm, .across = 14 * mm, .height = -20 * mm, .roller = field<length<>>(10 * mm)};
    const auto edged = way_from_nut(nut, slotted, roller, 1 * mm);
    REQUIRE(edged.via);
    CHECK(near::within(edged.via->x, -25 * mm, 1e-9 * mm));
    CHECK(near::within(edged.via->z, -9.5 * mm, 1e-9 * mm)); // half a gauge over the face
    CHECK(near::within(distance_between(edged.post, {.x = -50 * mm, .y = 14 * mm, .z = -30 * mm}), 5.5 * mm, 1e-9 * mm));
}

TEST_CASE("what stands wrong on the head is named") {
    const point nut{.z = 1.5 * mm};
    const headstock head{.pitch = 0 * deg, .face_start = 5 * mm, .face_drop = 10 * mm};
    tuner_post post{.along = 30 * mm, .across = 0 * mm, .height = -2 * mm};
    CHECK_THROWS_WITH((void)way_from_nut(nut, head, post, 1 * mm),
                      "post.height must be at least 0 mm without a roller: a post stands on the face.");
    post.height = 6 * mm;
    post.guide = string_guide{.along = 31 * mm, .height = 4 * mm};
    CHECK_THROWS_WITH((void)way_from_nut(nut, head, post, 1 * mm),
                      "post.guide.along must be less than the post's: the guide is on the string's way there.");
    post.guide->along = 20 * mm;
    CHECK_THROWS_WITH((void)nut_load(nut, {.x = 600 * mm, .z = 9 * mm}, head, post, 70 * N),
                      "post must be one that the string runs straight to: without guide or roller.");
    post.guide.reset();
    post.roller = 10 * mm;
    headstock slotted = head;
    slotted.slot_start = 25 * mm;
    CHECK_THROWS_WITH((void)way_from_nut(nut, slotted, post, 1 * mm),
                      "headstock.slot_start must be less: the roller lies in the slot.");
}
