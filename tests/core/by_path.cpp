#include <doctest/doctest.h>
#include <tautline/board/board.hpp>
#include <tautline/core/by_path.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {
board plain_board() {
    return {.width_at_nut = 43 * mm,
            .width_at_end = 56 * mm,
            .board_length = 450 * mm,
            .thickness = 6 * mm,
            .scale = {.scale_length = 640 * mm, .frets = 20}};
}
} // namespace

TEST_SUITE("by path") {
    TEST_CASE("a number is found by its path, with its kind") {
        const board b = plain_board();
        CHECK(get(b, "width_at_nut").as<length<>>() == 43 * mm);
        CHECK(kind_of(b, "width_at_nut") == "length");
        CHECK_FALSE(find_at(b, "no.such").has_value());
        CHECK_THROWS_WITH((void)get(b, "width_at_nutt"),
                          "width_at_nutt must be the path of a number that is there, such as width_at_nut.");
        CHECK_THROWS_WITH((void)get(b, "xyzzyplugh"), "xyzzyplugh must be the path of a number that is there.");
        CHECK_THROWS_AS((void)get(b, ""), invalid_input);
        CHECK(paths_of(b).front() == "width_at_nut");
    }
    TEST_CASE("a number is set, from a quantity or a text, and nothing else is") {
        board b = plain_board();
        set(b, "thickness", 5 * mm);
        CHECK(b.thickness == 5 * mm);
        set(b, "thickness", "1/4 in");
        CHECK(b.thickness == 0.25 * inch);
        CHECK_THROWS_AS(set(b, "surface.radius", "12 in"), invalid_input); // a flat board has none
        CHECK(get(b, "thickness").as<length<>>() == 0.25 * inch);
        CHECK_THROWS_WITH(
            set(b, "thickness", 5 * N),
            "thickness is a force; it must be a length with its unit (mm, cm, m, in, inch, inches, \", thou, um).");
        CHECK_THROWS_WITH(set(b, "thickness", any_quantity()),
                          "thickness must be a length with its unit (mm, cm, m, in, inch, inches, \", thou, um).");
        CHECK_THROWS_WITH(
            set(b, "thickness", "5"),
            "thickness is \"5\"; it must be a length with its unit (mm, cm, m, in, inch, inches, \", thou, um).");
        CHECK_THROWS_AS(set(b, "thick", "5 mm"), invalid_input);
        CHECK(b.thickness == 0.25 * inch);
    }
    TEST_CASE("of dual numbers the value is found, and set without a slope") {
        using D = dual<double, 1>;
        auto b = over<D>(plain_board());
        b.thickness = length<D>::from_value(D::variable(5e-3, 0));
        CHECK(get(b, "thickness").as<length<>>() == 5 * mm);
        set(b, "thickness", 4 * mm);
        CHECK(b.thickness.value().value == 4e-3);
        CHECK(b.thickness.value().partial[0] == 0);
    }
}
