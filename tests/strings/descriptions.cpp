#include <tautline/strings/choice.hpp>
#include <tautline/strings/music_string.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/stiff_string.hpp>
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
    CHECK(described::gaps<basic_wrap>() == "");
    CHECK(described::gaps<basic_bare_ends>() == "");
    CHECK(described::gaps<basic_wire_material>() == "");
}
