#include "corners.hpp"

#include <tautline/core/units.hpp>
#include <tautline/strings/choice.hpp>
#include <tautline/strings/nylon_modulus.hpp>
#include <tautline/strings/stiff_string.hpp>
#include <tautline/strings/stretch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using corners::everywhere;

TEST_CASE("corners: strings answer by a number or by a sentence, wherever their arguments lie") {
    everywhere<linear_density<>, length<>, frequency<>>("tension", [](auto m, auto l, auto f) { return tension(m, l, f); });
    everywhere<linear_density<>, length<>, force<>>("pitch_at", [](auto m, auto l, auto t) { return pitch_at(m, l, t); });
    everywhere<linear_density<>, frequency<>, force<>>("speaking_length_at",
                                                       [](auto m, auto f, auto t) { return speaking_length_at(m, f, t); });
    everywhere<force<>, length<>, frequency<>>("mass_per_length_for",
                                               [](auto t, auto l, auto f) { return mass_per_length_for(t, l, f); });
    everywhere<linear_density<>, force<>>("wave_speed", [](auto m, auto t) { return wave_speed(m, t); });
    everywhere<flexural_rigidity<>, force<>, length<>>("inharmonicity",
                                                       [](auto e, auto t, auto l) { return inharmonicity(e, t, l); });
    everywhere<stress<>>("nylon_slow_modulus", [](auto s) { return nylon_slow_modulus(s); });
    everywhere<stress<>>("nylon_quick_modulus", [](auto s) { return nylon_quick_modulus(s); });
    everywhere<length<>, length<>, length<>>("post_turns", [](auto w, auto d, auto g) { return post_turns(w, d, g); });
    everywhere<force<>, length<>, length<>>("lateral_stiffness",
                                            [](auto t, auto a, auto b) { return lateral_stiffness(t, a, b); });
    everywhere<length<>, length<>, frequency<>>("a plain string's tension", [](auto d, auto l, auto f) {
        return tension<double>(plain_string(music_wire(), d), l, f);
    });
    everywhere<length<>, length<>, force<>>("a plain string's pitch", [](auto d, auto l, auto t) {
        return pitch_at<double>(plain_string(music_wire(), d), l, t);
    });
    everywhere<linear_density<>, length<>, frequency<>, flexural_rigidity<>>(
        "tension_of_stiff", [](auto m, auto l, auto f, auto e) { return tension_of_stiff<double>(m, l, f, e); });
    everywhere<linear_density<>, length<>, force<>, flexural_rigidity<>>(
        "partial", [](auto m, auto l, auto t, auto e) { return partial<double>(3, m, l, t, e); });
    everywhere<force<>, length<>, frequency<>>("a plain gauge for a tension", [](auto t, auto l, auto f) {
        return for_tension(music_wire(), t, l, f).core.diameter;
    });
    everywhere<length<>, force<>, length<>, frequency<>>("a wrap for a tension", [](auto d, auto t, auto l, auto f) {
        return for_tension(string_core{.material = music_wire(), .diameter = d}, nickel(), t, l, f);
    });
    everywhere<length<>, length<>, force<>>("length_drawn_in", [](auto d, auto l, auto t) {
        return length_drawn_in<double>(plain_string(music_wire(), d), l, t);
    });
}
