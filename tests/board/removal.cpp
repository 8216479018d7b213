#include <tautline/board/removal.hpp>

#include <random>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

board board_of(const surface& s) {
    return {.width_at_nut = 43 * mm,
            .width_at_end = 57 * mm,
            .board_length = 470 * mm,
            .thickness = 9 * mm,
            .surface = s,
            .scale = {.scale_length = 640 * mm, .frets = 20}};
}
surface any_surface(std::mt19937& random) {
    std::uniform_real_distribution<double> radii(120, 600);
    std::uniform_int_distribution<int> kind(0, 2);
    switch (kind(random)) {
    case 0:
        return flat_surface();
    case 1:
        return cylinder(radii(random) * mm);
    default:
        return cone(radii(random) * mm, radii(random) * mm, 470 * mm);
    }
}

} // namespace

TEST_CASE("removal: property, never negative, at least the allowance, and touching the limit at two places of the board") {
    std::mt19937 random(6);
    std::uniform_real_distribution<double> allowances(0, 0.3), share(0, 1);
    for (int i = 0; i < 200; ++i) {
        const auto b = board_of(any_surface(random));
        const auto wanted = any_surface(random);
        const double allowance = allowances(random);
        const auto r = least_removal(b, wanted, allowance * mm);
        double least = 1e9, least_volume_side = 1e9;
        for (int k = 0; k <= 300; ++k) {
            const auto x = 470.0 * mm * (k / 300.0);
            const auto half = half_width_at(b, x);
            const double here = std::min(removal_at(r, x, 0 * mm) / mm, removal_at(r, x, half) / mm);
            CHECK(here > allowance - 2e-4);
            least = std::min(least, here);
            // On either side of the outline's centroid the line rests on something, or it could be turned lower.
            if (k > 157) { least_volume_side = std::min(least_volume_side, here); }
            const auto y = half * (2 * share(random) - 1);
            CHECK(removal_at(r, x, y) / mm > allowance - 2e-4);
        }
        CHECK(near::within(least, allowance, 2e-4));
        CHECK(near::within(least_volume_side, allowance, 2e-3));
    }
}

TEST_CASE("removal: zero when the surfaces agree, the allowance everywhere with one") {
    std::mt19937 random(9);
    for (int i = 0; i < 20; ++i) {
        const auto b = board_of(any_surface(random));
        for (const double allowance : {0.0, 0.15}) {
            const auto r = least_removal(b, b.surface, allowance * mm);
            CHECK(near::within(removal_at(r, 200 * mm, 13 * mm), allowance * mm, 1e-12 * mm));
            const double outline = 470.0 * (43 + 57) / 2;
            CHECK(near::within(removed_volume(b, r) / mm3, allowance * outline, 1e-6));
        }
    }
}

TEST_CASE(
    "removal: flattening takes most off the centre and nothing off the edges at nut and end; tightening the reverse") {
    const auto flattened = least_removal(board_of(cylinder(8 * inch)), cylinder(12 * inch));
    for (const double x : {0.0, 120.0, 235.0, 470.0}) {
        double before = 1e9;
        for (const double y : {0.0, 7.0, 14.0, 21.0}) {
            const double here = removal_at(flattened, x * mm, y * mm) / mm;
            CHECK(here < before);
            before = here;
        }
    }
    CHECK(near::within(removal_at(flattened, 0 * mm, 21.5 * mm), 0 * mm, 1e-12 * mm));
    CHECK(near::within(removal_at(flattened, 470 * mm, -28.5 * mm), 0 * mm, 1e-12 * mm));
    const auto tightened = least_removal(board_of(cylinder(12 * inch)), cylinder(8 * inch));
    CHECK(near::within(removal_at(tightened, 235 * mm, 0 * mm), 0 * mm, 1e-12 * mm));
    CHECK(removal_at(tightened, 235 * mm, 25 * mm) > 0.3 * mm);
}

TEST_CASE(
    "removal: from flat to a cylinder the volume is the segments' (circular segment, handbook formula, from memory)") {
    auto b = board_of(flat_surface());
    b.width_at_end = b.width_at_nut;
    const double r = 200, w = 43, angle_half = std::asin(w / 2 / r);
    const double segment = r * r * (angle_half - std::sin(2 * angle_half) / 2); // between arc and chord
    const double under_arc = w * (r - std::sqrt(r * r - w * w / 4)) - segment;
    CHECK(near::relative(removed_volume(b, least_removal(b, cylinder(r * mm))) / mm3, under_arc * 470, 1e-7));
}

TEST_CASE("removal: places where a removal chosen by hand does not reach count for nothing in the volume") {
    const auto b = board_of(cylinder(8 * inch));
    auto r = least_removal(b, cylinder(12 * inch));
    r.at_nut = -5 * mm;
    r.at_end = -5 * mm;
    CHECK(removed_volume(b, r).value() == 0);
    CHECK(removal_at(r, 100 * mm, 0 * mm) == -5.0 * mm);
}

TEST_CASE("removal: the saddle comes down so that the action stays, by the geometry of a line over the board") {
    std::mt19937 random(14);
    std::uniform_real_distribution<double> off(0, 1), at(100, 500);
    for (int i = 0; i < 50; ++i) {
        const double r_a = off(random), r_0 = off(random), x = at(random), l = 640;
        const double drop = saddle_drop_keeping_action(r_a * mm, r_0 * mm, x * mm, l * mm) / mm;
        // String falls by r_0 at the nut and by drop at the saddle: at x by as much as the surface.
        CHECK(near::within(r_0 + (drop - r_0) * x / l, r_a, 1e-12));
    }
    CHECK_THROWS_AS((void)saddle_drop_keeping_action(1 * mm, 1 * mm, 0 * mm, 640 * mm), invalid_input);
    CHECK_THROWS_AS((void)saddle_drop_keeping_action(1 * mm, 1 * mm, 700 * mm, 640 * mm), invalid_input);
}

TEST_CASE("removal: derivatives by the wanted radius against differences, in doubles' duals; floats agree") {
    using D = dual<double, 1>;
    const auto b = board_of(cylinder(8 * inch));
    const auto d = least_removal(over<D>(b), cylinder(D::variable(0.3, 0) * metre));
    const auto volume_d = removed_volume(over<D>(b), d).value().partial[0];
    const auto at = [&](double r) { return least_removal(b, cylinder(r * metre)); };
    const double h = 1e-5;
    CHECK(near::relative(d.at_end.value().partial[0], (at(0.3 + h).at_end - at(0.3 - h).at_end).value() / (2 * h), 1e-6));
    CHECK(near::relative(volume_d, (removed_volume(b, at(0.3 + h)) - removed_volume(b, at(0.3 - h))).value() / (2 * h),
                         1e-6));
    const auto f = least_removal(over<float>(b), cylinder(0.3f * metre));
    CHECK(near::within(static_cast<double>(f.at_end.value()), at(0.3).at_end.value(), 1e-7));
}

TEST_CASE("removal: bad input is named") {
    auto b = board_of(cylinder(8 * inch));
    b.thickness = 20 * mm;
    CHECK_THROWS_WITH_AS(
        (void)least_removal(b, cylinder(22 * mm)),
        "board with the wanted surface.surface.radius must be at least half the width of the board at the end.",
        invalid_input);
    CHECK_THROWS_AS((void)least_removal(b, flat_surface(), -1 * mm), invalid_input);
    CHECK_THROWS_AS((void)least_removal(board(), flat_surface()), invalid_input);
    CHECK_THROWS_AS((void)removal_at(least_removal(b, flat_surface()), 0 * mm, 300 * mm), invalid_input);
}

TEST_CASE("removal: a corner exactly over the middle of the board leaves a line that lies nowhere too high") {
    // Even width: the centroid is the middle, where this board is lowest.
    const board even{.width_at_nut = 45 * mm,
                     .width_at_end = 45 * mm,
                     .board_length = 400 * mm,
                     .thickness = 6 * mm,
                     .scale = {.scale_length = 640 * mm, .frets = 12}};
    for (const double far : {-0.2, -0.45}) {
        // Beside the corner the board stands high, and comes down again toward its end.
        const std::vector<basic_profile_mark<double>> shape{{.x = 0 * mm, .z = 0.1 * mm},
                                                            {.x = 200 * mm, .z = -0.5 * mm},
                                                            {.x = 225 * mm, .z = 0.2 * mm},
                                                            {.x = 400 * mm, .z = far * mm}};
        const auto off = least_removal(even, flat_surface(), 0.1 * mm, shape);
        length<> least = 1 * metre;
        for (int x = 0; x <= 400; ++x) { least = min(least, removal_at(off, x * mm, 0 * mm)); }
        CHECK(near::within(least, 0.1 * mm, 1e-6 * mm));
        CHECK(near::within(removal_at(off, 200 * mm, 0 * mm), 0.1 * mm, 1e-6 * mm)); // the line rests on the corner
    }
}

TEST_CASE("removal: board and lengths are looked at where they are used") {
    using doctest::Contains;
    const auto b = board_of(cylinder(8 * inch));
    CHECK_THROWS_WITH((void)least_removal(board(), flat_surface()), Contains("board.width_at_nut is not given"));
    CHECK_THROWS_WITH((void)removed_volume(board(), least_removal(b, flat_surface())),
                      Contains("board.width_at_nut is not given"));
    CHECK_THROWS_WITH((void)removal_at(basic_removal<double>(), 0 * mm, 0 * mm), Contains("board length is not a number"));
    CHECK_THROWS_WITH((void)saddle_drop_keeping_action(1 * mm, 0 * mm, 300 * mm, 0 * mm),
                      Contains("nut to saddle is 0 mm"));
}
