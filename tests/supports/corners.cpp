#include "corners.hpp"

#include <tautline/core/units.hpp>
#include <tautline/supports/break_angle.hpp>
#include <tautline/supports/top.hpp>

using namespace tautline;
using corners::everywhere;

TEST_CASE("corners: supports answer by a number or by a sentence, wherever their arguments lie") {
    everywhere<stiffness<>, force<>, moment<>>("top_give", [](auto s, auto down, auto turning) {
        return top_give(soundboard{.sink_stiffness = s}, down, turning);
    });
    everywhere<force<>, length<>>("measured_stiffness", [](auto f, auto l) { return measured_stiffness(f, l); });
    everywhere<length<>, length<>, length<>, force<>>("support_load", [](auto x, auto far, auto z, auto t) {
        const auto load = support_load(point{.x = x}, point{.x = far, .z = z}, point{.x = 2.0 * far}, t);
        return std::vector<force<>>{load.on_support.x, load.on_support.y, load.on_support.z};
    });
}
