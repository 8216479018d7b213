#include "corners.hpp"

#include <tautline/board/scale.hpp>
#include <tautline/board/surface.hpp>
#include <tautline/core/units.hpp>

using namespace tautline;
using corners::everywhere;

TEST_CASE("corners: scales and arcs answer by a number or by a sentence, wherever their arguments lie") {
    everywhere<length<>>("equal_step_position", [](auto l) { return equal_step_position(l, 7); });
    everywhere<length<>, length<>>("sagitta", [](auto r, auto w) { return sagitta(r, w); });
    everywhere<length<>, length<>>("radius_from_sagitta", [](auto h, auto w) { return radius_from_sagitta(h, w); });
    everywhere<length<>>("cylinder", [](auto r) { return cylinder(r); });
    everywhere<length<>, length<>, length<>>("cone", [](auto a, auto b, auto l) { return cone(a, b, l); });
    everywhere<length<>, length<>, length<>>("surface_height",
                                             [](auto r, auto x, auto y) { return surface_height(cylinder(r), x, y); });
    everywhere<length<>, length<>>(
        "fret_error", [](auto l, auto saddle) { return fret_error(scale{.scale_length = l, .frets = 12}, 12, saddle); });
}
