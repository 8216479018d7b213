#include <tautline/board/board.hpp>
#include <tautline/board/centre_line.hpp>
#include <tautline/board/fan.hpp>
#include <tautline/board/found_scale.hpp>
#include <tautline/board/fret_pieces.hpp>
#include <tautline/board/fret_slot.hpp>
#include <tautline/board/fret_wire.hpp>
#include <tautline/board/levelling.hpp>
#include <tautline/board/markers.hpp>
#include <tautline/board/reradius.hpp>
#include <tautline/board/scale.hpp>
#include <tautline/board/spacing.hpp>
#include <tautline/board/string_path.hpp>
#include <tautline/board/surface.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("board: descriptions leave no member out") {
    CHECK(described::gaps<basic_board>() == "");
    CHECK(described::gaps<basic_edge_reading>() == "");
    CHECK(described::gaps<basic_edge_readings>() == "");
    CHECK(described::gaps<basic_fan>() == "");
    CHECK(described::gaps<basic_fret_reading>() == "");
    CHECK(described::gaps<basic_fret_readings>() == "");
    CHECK(described::gaps<basic_piece_rule>() == "");
    CHECK(described::gaps<basic_slot>() == "");
    CHECK(described::gaps<basic_fret_wire>() == "");
    CHECK(described::gaps<basic_frets>() == "");
    CHECK(described::gaps<basic_crest_reading>() == "");
    CHECK(described::gaps<basic_crest_line>() == "");
    CHECK(described::gaps<basic_levelling>() == "");
    CHECK(described::gaps<basic_marker_layout>() == "");
    CHECK(described::gaps<basic_reradius>() == "");
    CHECK(described::gaps<basic_scale>() == "");
    CHECK(described::gaps<basic_spacing>() == "");
    CHECK(described::gaps<basic_string_path>() == "");
    CHECK(described::gaps<basic_surface>() == "");
}
