#include "corners.hpp"

#include <tautline/action/height.hpp>
#include <tautline/action/pluck.hpp>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;
using corners::everywhere;

TEST_CASE("corners: heights and plucks answer by a number or by a sentence, wherever their arguments lie") {
    everywhere<length<>, length<>, length<>, length<>>("height_over", [](auto saddle, auto up, auto x, auto crest) {
        return height_over(string_line{.nut_z = 1 * mm, .saddle_x = saddle, .saddle_z = up}, x, crest);
    });
    everywhere<force<>, length<>, length<>, force<>>(
        "pluck_displacement", [](auto pull, auto at, auto l, auto t) { return pluck_displacement(pull, at, l, t); });
}
