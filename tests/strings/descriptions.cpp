#include <tautline/strings/mass_by_layer.hpp>
#include <tautline/strings/music_string.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/stiff_string.hpp>
#include <tautline/strings/stock.hpp>
#include <tautline/strings/stretch.hpp>
#include <tautline/strings/string_parts.hpp>
#include <tautline/strings/wire.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("strings: descriptions leave no member out") {
    CHECK(described::gaps<basic_wound_rule>() == "");
    CHECK(described::gaps<basic_string_place>() == "");
    CHECK(described::gaps<basic_music_string>() == "");
    CHECK(described::gaps<basic_pitch_standard>() == "");
    CHECK(described::gaps<basic_string_ends>() == "");
    CHECK(described::gaps<basic_sideways_bend>() == "");
    CHECK(described::gaps<basic_string_core>() == "");
    CHECK(described::gaps<basic_wound_order>() == "");
    CHECK(described::gaps<basic_mass_by_layer>() == "");
    CHECK(described::gaps<basic_wrap>() == "");
    CHECK(described::gaps<basic_bare_ends>() == "");
    CHECK(described::gaps<basic_wire_material>() == "");
}

TEST_CASE("strings: what each member may be, told a second time") {
    CHECK(described::ranges<basic_wound_rule>() == "core_share: at least 0.05 and at most 0.95\n"
                                                   "core_offset: at least 0 mm and at most 5 mm");
    CHECK(described::ranges<basic_string_place>() == "speaking_length: at least 1 mm and at most 5000 mm\n"
                                                     "pitch: at least 1 Hz and at most 20000 Hz");
    CHECK(described::ranges<basic_music_string>() == "weighed: at least 0.001 g/m and at most 1000 g/m");
    CHECK(described::ranges<basic_pitch_standard>() == "a4: at least 200 Hz and at most 900 Hz\n"
                                                       "steps: at least 1 and at most 120\n"
                                                       "a4_number: at least 0 and at most 1500\n"
                                                       "offsets: at least -600 cents and at most 600 cents");
    CHECK(described::ranges<basic_string_ends>() == "nut: at least 0 and at most 1\n"
                                                    "saddle: at least 0 and at most 1");
    CHECK(described::ranges<basic_sideways_bend>() == "nut_to_finger: at least 0.01 mm and at most 5000 mm\n"
                                                      "finger_to_saddle: at least 0.01 mm and at most 5000 mm\n"
                                                      "beyond: at least 0 mm and at most 5000 mm");
    CHECK(described::ranges<basic_string_core>() == "diameter: at least 0.01 mm and at most 20 mm");
    CHECK(described::ranges<basic_wrap>() == "thickness: at least 0.0001 mm and at most 10 mm\n"
                                             "ribbon_width: at least 0 mm and at most 50 mm\n"
                                             "pitch: at least 0.01 mm and at most 100 mm\n"
                                             "ground: at least 0.0000001 mm and at most 10 mm\n"
                                             "fill: at least 0.01 and at most 1");
    CHECK(described::ranges<basic_bare_ends>() == "at_nut: at least 0 mm and at most 2000 mm\n"
                                                  "at_saddle: at least 0 mm and at most 2000 mm");
    CHECK(described::ranges<basic_wire_material>() == "mass_density: at least 100 kg/m^3 and at most 25000 kg/m^3\n"
                                                      "modulus: at least 1 MPa and at most 1000000 MPa\n"
                                                      "strength: at least 0.1 MPa and at most 10000 MPa\n"
                                                      "expansion: at least -0.001 1/K and at most 0.001 1/K");
}

TEST_CASE("strings: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_pitch_standard>() == "a4: 440 Hz\n"
                                                         "steps: 12\n"
                                                         "a4_number: 69");
    CHECK(described::defaults<basic_string_ends>() == "nut: 0.5\n"
                                                      "saddle: 0.5");
    CHECK(described::defaults<basic_wrap>() == "thickness: not a number\n"
                                               "fill: 1");
    CHECK(described::defaults<basic_wound_rule>() == "core_share: not a number");
    CHECK(described::defaults<basic_string_place>() == "speaking_length: not a number\n"
                                                       "pitch: not a number");
    CHECK(described::defaults<basic_music_string>() == "");
    CHECK(described::defaults<basic_sideways_bend>() == "nut_to_finger: not a number\n"
                                                        "finger_to_saddle: not a number");
    CHECK(described::defaults<basic_string_core>() == "diameter: not a number");
    CHECK(described::defaults<basic_bare_ends>() == "at_nut: not a number\n"
                                                    "at_saddle: not a number");
    CHECK(described::defaults<basic_wire_material>() == "mass_density: not a number\n"
                                                        "modulus: not a number");
}

TEST_CASE("strings: what is worked out is nothing before it is filled") {
    CHECK(note{}.number == not_counted);
    CHECK(basic_chosen_string<double>{}.index == 0);
}
