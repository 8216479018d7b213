#include <tautline/board/board.hpp>
#include <tautline/board/centre_line.hpp>
#include <tautline/board/fan.hpp>
#include <tautline/board/found_scale.hpp>
#include <tautline/board/fret_pieces.hpp>
#include <tautline/board/fret_slot.hpp>
#include <tautline/board/fret_wire.hpp>
#include <tautline/board/levelling.hpp>
#include <tautline/board/levelling_plan.hpp>
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
    CHECK(described::gaps<basic_plan_point>() == "");
    CHECK(described::gaps<basic_fret_line>() == "");
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
    CHECK(described::gaps<basic_two_scales>() == "");
    CHECK(described::gaps<basic_spacing>() == "");
    CHECK(described::gaps<basic_string_path>() == "");
    CHECK(described::gaps<basic_surface>() == "");
}

TEST_CASE("board: what each member may be, told a second time") {
    CHECK(described::ranges<basic_board>() == "width_at_nut: at least 1 mm and at most 400 mm\n"
                                              "width_at_end: at least 1 mm and at most 400 mm\n"
                                              "board_length: at least 10 mm and at most 3000 mm\n"
                                              "thickness: at least 0.1 mm and at most 30 mm\n"
                                              "thickness_at_end: at least 0.1 mm and at most 30 mm");
    CHECK(described::ranges<basic_edge_reading>() == "x: at least -1000 mm and at most 3000 mm\n"
                                                     "bass_edge: at least -1000 mm and at most 1000 mm\n"
                                                     "treble_edge: at least -1000 mm and at most 1000 mm");
    CHECK(described::ranges<basic_edge_readings>() == "reading_error: at least 0.0001 mm and at most 10 mm");
    CHECK(described::ranges<basic_fan>() == "bass_scale: at least 10 mm and at most 3000 mm\n"
                                            "treble_scale: at least 10 mm and at most 3000 mm\n"
                                            "square_fret: at least 0 and at most 240\n"
                                            "steps: at least 1 and at most 120\n"
                                            "frets: at least 0 and at most 240\n"
                                            "y_bass_at_nut: at least -500 mm and at most 500 mm\n"
                                            "y_treble_at_nut: at least -500 mm and at most 500 mm\n"
                                            "y_bass_at_saddle: at least -500 mm and at most 500 mm\n"
                                            "y_treble_at_saddle: at least -500 mm and at most 500 mm");
    CHECK(described::ranges<basic_fret_reading>() == "fret: at least 1 and at most 240\n"
                                                     "distance: at least 0.1 mm and at most 3000 mm");
    CHECK(described::ranges<basic_fret_readings>() == "steps: at least 1 and at most 120\n"
                                                      "resolution: at least 0 mm and at most 10 mm\n"
                                                      "outlier_limit: at least 0.1 and at most 1000");
    CHECK(described::ranges<basic_piece_rule>() == "overhang: at least 0 mm and at most 50 mm\n"
                                                   "tang_notch: at least 0 mm and at most 20 mm\n"
                                                   "waste: at least 0 mm and at most 50 mm\n"
                                                   "spare: at least 0 and at most 10");
    CHECK(described::ranges<basic_slot>() == "depth: at least 0.05 mm and at most 30 mm\n"
                                             "width: at least 0.05 mm and at most 5 mm");
    CHECK(described::ranges<basic_fret_wire>() == "crown_height: at least 0.05 mm and at most 10 mm\n"
                                                  "crown_width: at least 0.1 mm and at most 20 mm\n"
                                                  "tang_depth: at least 0.05 mm and at most 10 mm\n"
                                                  "tang_thickness: at least 0.05 mm and at most 5 mm\n"
                                                  "stud_width: at least 0.05 mm and at most 10 mm");
    CHECK(described::ranges<basic_frets>() == "wear: at least 0 mm and at most 10 mm\n"
                                              "wear_bass: at least 0 mm and at most 10 mm\n"
                                              "wear_treble: at least 0 mm and at most 10 mm\n"
                                              "zero_crown: at least 0.1 mm and at most 10 mm");
    CHECK(described::ranges<basic_plan_point>() == "x: at least -1000 mm and at most 4000 mm\n"
                                                   "y: at least -1000 mm and at most 1000 mm");
    CHECK(described::ranges<basic_crest_reading>() == "fret: at least 1 and at most 240\n"
                                                      "height: at least -50 mm and at most 50 mm\n"
                                                      "crown: at least 0.01 mm and at most 10 mm");
    CHECK(described::ranges<basic_levelling>() == "crown: at least 0.01 mm and at most 10 mm\n"
                                                  "least_crown: at least 0 mm and at most 10 mm\n"
                                                  "fall_away_from: at least 0 and at most 240\n"
                                                  "fall_away: at least 0 mm and at most 5 mm\n"
                                                  "relief: at least 0 mm and at most 5 mm\n"
                                                  "relief_from: at least 0 and at most 240\n"
                                                  "relief_to: at least 0 and at most 240");
    CHECK(described::ranges<basic_marker_layout>() == "singles: at least 1 and at most 11\n"
                                                      "without: at least 1 and at most 240\n"
                                                      "double_share: at least 0 and at most 1\n"
                                                      "side_share: at least 0 and at most 0.5");
    CHECK(described::ranges<basic_reradius>() == "allowance: at least 0 mm and at most 10 mm\n"
                                                 "chosen_at_nut: at least 0 mm and at most 30 mm\n"
                                                 "chosen_at_end: at least 0 mm and at most 30 mm\n"
                                                 "action_fret: at least 1 and at most 240\n"
                                                 "slot_clearance: at least 0 mm and at most 30 mm\n"
                                                 "binding_height: at least 0.1 mm and at most 30 mm\n"
                                                 "binding_thickness: at least 0 mm and at most 30 mm\n"
                                                 "least_binding: at least 0 mm and at most 30 mm\n"
                                                 "least_edge: at least 0 mm and at most 30 mm\n"
                                                 "inlay_thickness: at least 0.01 mm and at most 30 mm\n"
                                                 "least_inlay: at least 0 mm and at most 30 mm");
    CHECK(described::ranges<basic_two_scales>() == "bass_places: at least 0.1 mm and at most 3000 mm\n"
                                                   "treble_places: at least 0.1 mm and at most 3000 mm\n"
                                                   "nut_slant: at least -200 mm and at most 200 mm\n"
                                                   "bass_scale: at least 10 mm and at most 3000 mm\n"
                                                   "treble_scale: at least 10 mm and at most 3000 mm\n"
                                                   "square_fret: at least 0 and at most 240");
    CHECK(described::ranges<basic_scale>() == "scale_length: at least 10 mm and at most 3000 mm\n"
                                              "steps: at least 1 and at most 120\n"
                                              "frets: at least 0 and at most 240\n"
                                              "divisor: at least 2 and at most 1000\n"
                                              "measured_places: at least 0.1 mm and at most 3000 mm");
    CHECK(described::ranges<basic_spacing>() == "spread: at least 0 mm and at most 500 mm\n"
                                                "courses: at least 1 and at most 12\n"
                                                "course_gap: at least 0 mm and at most 50 mm\n"
                                                "offset: at least -250 mm and at most 250 mm");
    CHECK(described::ranges<basic_string_path>() == "y_at_nut: at least -500 mm and at most 500 mm\n"
                                                    "y_at_saddle: at least -500 mm and at most 500 mm\n"
                                                    "x_at_nut: at least -1000 mm and at most 1000 mm\n"
                                                    "x_at_saddle: at least -1000 mm and at most 4000 mm");
    CHECK(described::ranges<basic_surface>() == "radius: at least 1 mm and at most 1000000000 mm\n"
                                                "radius_at_end: at least 1 mm and at most 1000000000 mm\n"
                                                "cone_length: at least 1 mm and at most 3000 mm");
}

TEST_CASE("board: what each member is unless told otherwise, told a second time") {
    // A measurement that must be given is "not a number" until then, a count -1000000000: outside every range.
    CHECK(described::defaults<basic_fan>() == "bass_scale: not a number\n"
                                              "treble_scale: not a number\n"
                                              "square_fret: not a number\n"
                                              "steps: 12\n"
                                              "frets: -1000000000\n"
                                              "y_bass_at_nut: not a number\n"
                                              "y_treble_at_nut: not a number\n"
                                              "y_bass_at_saddle: not a number\n"
                                              "y_treble_at_saddle: not a number");
    CHECK(described::defaults<basic_fret_reading>() == "fret: -1000000000\n"
                                                       "distance: not a number");
    CHECK(described::defaults<basic_fret_readings>() == "steps: 12\n"
                                                        "resolution: 0.1 mm\n"
                                                        "outlier_limit: 4");
    CHECK(described::defaults<basic_piece_rule>() == "overhang: 3 mm\n"
                                                     "spare: 0.1");
    CHECK(described::defaults<basic_crest_reading>() == "fret: -1000000000\n"
                                                        "height: not a number");
    CHECK(described::defaults<basic_levelling>() == "one_reference: 1\n"
                                                    "crown: not a number\n"
                                                    "least_crown: 0.5 mm\n"
                                                    "relief_from: 1");
    CHECK(described::defaults<basic_marker_layout>() == "singles: 3\n"
                                                        "singles: 5\n"
                                                        "singles: 7\n"
                                                        "singles: 9\n"
                                                        "double_share: 0.5\n"
                                                        "side_share: 0.166667");
    CHECK(described::defaults<basic_reradius>() == "action_fret: 12");
    CHECK(described::defaults<basic_two_scales>() == "bass_scale: not a number\n"
                                                     "treble_scale: not a number\n"
                                                     "square_fret: not a number");
    CHECK(described::defaults<basic_scale>() == "scale_length: not a number\n"
                                                "steps: 12\n"
                                                "frets: -1000000000");
    CHECK(described::defaults<basic_spacing>() == "courses: 1\n"
                                                  "courses: 1\n"
                                                  "courses: 1\n"
                                                  "courses: 1\n"
                                                  "courses: 1\n"
                                                  "courses: 1");
    CHECK(described::defaults<basic_board>() == "width_at_nut: not a number\n"
                                                "width_at_end: not a number\n"
                                                "board_length: not a number\n"
                                                "thickness: not a number");
    CHECK(described::defaults<basic_edge_reading>() == "x: not a number\n"
                                                       "bass_edge: not a number\n"
                                                       "treble_edge: not a number");
    CHECK(described::defaults<basic_edge_readings>() == "");
    CHECK(described::defaults<basic_slot>() == "depth: not a number\n"
                                               "width: not a number");
    CHECK(described::defaults<basic_fret_wire>() == "crown_height: not a number\n"
                                                    "crown_width: not a number");
    CHECK(described::defaults<basic_frets>() == "");
    CHECK(described::defaults<basic_crest_line>() == "");
    CHECK(described::defaults<basic_string_path>() == "x_at_saddle: not a number");
    CHECK(described::defaults<basic_surface>() == "");
}

TEST_CASE("board: what is worked out is nothing before it is filled") {
    CHECK(basic_marker<double>{}.fret == 0);
    CHECK(basic_marker<double>{}.dots == 1);
    CHECK(basic_reradius_row<double>{}.fret == 0);
    const basic_reradius_caution<double> caution{};
    CHECK(caution.from_fret == 0);
    CHECK(caution.to_fret == 0);
    CHECK(caution.worst_fret == 0);
    CHECK(basic_fret_piece<double>{}.fret == 0);
    CHECK(basic_found_fret<double>{}.fret == 0);
    CHECK_FALSE(basic_found_fret<double>{}.outlier);
    const basic_crest_cut<double> crest{};
    CHECK(crest.line == 0);
    CHECK(crest.fret == 0);
    CHECK_FALSE(crest.touches);
    CHECK(crest.holds == 0);
    const basic_fret_cut<double> cut{};
    CHECK(cut.fret == 0);
    CHECK_FALSE(cut.replace);
    CHECK_FALSE(cut.holds_down);
    CHECK_FALSE(basic_levelling_plan<double>{}.other_surfaces);
}
