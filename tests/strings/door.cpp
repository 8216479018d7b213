#include <tautline/strings/mass_by_layer.hpp>
#include <tautline/strings/music_string.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/stiff_string.hpp>
#include <tautline/strings/stock.hpp>
#include <tautline/strings/stretch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/tuning.hpp>
#include <tautline/strings/wire.hpp>
#include <tautline/strings/wire_gauge.hpp>
#include <tautline/strings/wire_materials.hpp>

#include <doctest/doctest.h>

#include <limits>

// What each function of strings refuses, and the sentence it says: field, value and range, or the rule.

using namespace tautline;
using namespace tautline::units;

namespace {
const wound_rule rule{.core_material = music_wire(), .core_share = 0.36, .wrap_material = phosphor_bronze()};
const music_string s = plain_string(music_wire(), 0.3 * mm);
const music_string none = music_string();
/// Of 300 mm bare core at each end: over 600 mm nothing is wound.
music_string bare_at_ends() {
    auto w = wound_string({.gauge = 1 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()});
    w.bare = {.at_nut = 300 * mm, .at_saddle = 300 * mm};
    return w;
}
const music_string bare = bare_at_ends();
} // namespace

TEST_CASE("strings' door: choice of a gauge") {
    CHECK_THROWS_WITH(
        (void)wound_string(wound_rule{rule.core_material, rule.section, 0.04, 0 * mm, rule.wrap_material}, 1 * mm),
        "rule.core_share is 0.04; it must be at least 0.05 and at most 0.95.");
    CHECK_THROWS_WITH((void)wound_string(rule, 0 * mm), "gauge is 0 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)wound_string(rule, 20.1 * mm),
                      "gauge is 20.1 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH(
        (void)wound_string(wound_rule{rule.core_material, rule.section, 0.5, 0.5 * mm, rule.wrap_material}, 1 * mm),
        "gauge must be wider than the core that the rule gives it.");
    CHECK_THROWS_WITH((void)for_tension(wound_rule{rule.core_material, rule.section, 0.96, 0 * mm, rule.wrap_material},
                                        80 * N, 640 * mm, 110 * Hz),
                      "rule.core_share is 0.96; it must be at least 0.05 and at most 0.95.");
    CHECK_THROWS_WITH((void)for_tension(rule, 0 * N, 640 * mm, 110 * Hz), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)for_tension(rule, 80 * N, 0 * mm, 110 * Hz),
                      "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)for_tension(rule, 80 * N, 640 * mm, 0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)for_tension(music_wire(), 0 * N, 640 * mm, 110 * Hz),
                      "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_AS((void)for_tension(wire_material(), 80 * N, 640 * mm, 110 * Hz), invalid_input);
    const auto wrapped = [](double core, double t, double l, double f) {
        (void)for_tension(string_core{.material = music_wire(), .diameter = core * mm}, nickel(), t * N, l * mm, f * Hz);
    };
    CHECK_THROWS_WITH(wrapped(0, 80, 640, 110), "core.diameter is 0 mm; it must be at least 0.01 mm and at most 20 mm.");
    CHECK_THROWS_WITH(wrapped(0.4, 0, 640, 110), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH(wrapped(0.4, 80, 0, 110), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH(wrapped(0.4, 80, 640, 0), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_AS((void)for_tension(s.core, wire_material(), 80 * N, 640 * mm, 110 * Hz), invalid_input);
    CHECK_THROWS_AS((void)mass_by_layer(none), invalid_input);
    CHECK_THROWS_AS((void)core_perimeter(none), invalid_input);
    CHECK_THROWS_WITH((void)of_gauge(none, 1 * mm),
                      doctest::Contains("string.core.material.mass_density is not given, or not a number; it must be at "
                                        "least 100 kg/m^3 and at most 25000 kg/m^3."));
    CHECK_THROWS_WITH((void)of_gauge(s, 0 * mm), "gauge is 0 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)of_gauge(s, 20.1 * mm), "gauge is 20.1 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)for_tension(none, 80 * N, 640 * mm, 110 * Hz),
                      doctest::Contains("string.core.material.mass_density is not given, or not a number; it must be at "
                                        "least 100 kg/m^3 and at most 25000 kg/m^3."));
    CHECK_THROWS_WITH((void)for_tension(s, 0 * N, 640 * mm, 110 * Hz), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)for_tension(s, 80 * N, 0 * mm, 110 * Hz),
                      "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)for_tension(s, 80 * N, 640 * mm, 0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH(
        (void)for_tension(bare, 80 * N, 600 * mm, 110 * Hz),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH((void)for_same_tension(s, 640 * mm, 0 * Hz, 600 * mm, 110 * Hz),
                      "pitch is 0 Hz; it must be more than 0 Hz.");
}

TEST_CASE("strings' door: choice from a stock") {
    const std::vector<string_place> places{{.speaking_length = 640 * mm, .pitch = 110 * Hz}};
    const std::vector<force<double>> pulls{80 * N};
    CHECK_THROWS_WITH((void)nearest_in_stock<double>({}, 80 * N, 640 * mm, 110 * Hz),
                      "stock must have at least one string to choose from.");
    CHECK_THROWS_WITH((void)nearest_in_stock<double>({s}, 0 * N, 640 * mm, 110 * Hz),
                      "wanted tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)nearest_in_stock<double>({s}, 80 * N, 0 * mm, 110 * Hz),
                      "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)shared_pull<double>(0 * N, {1, 1}), "total pull is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)shared_pull<double>(300 * N, {}), "weights must have one for each string.");
    CHECK_THROWS_WITH((void)shared_pull<double>(300 * N, {1, 0}), "weight is 0; it must be more than 0.");
    CHECK_THROWS_WITH((void)even_feel<double>(300 * N, {places[0], string_place{640 * mm, 20001 * Hz}}),
                      "places[1].pitch is 20001 Hz; it must be at least 1 Hz and at most 20000 Hz.");
    CHECK_THROWS_WITH((void)choose_set<double>({s}, places, {}), "wanted pulls must be one for each string.");
    CHECK_THROWS_WITH((void)choose_set<double>({s}, {}, {}), "places must have at least one string.");
    CHECK_THROWS_WITH((void)choose_set<double>({s}, {string_place{640 * mm, 20001 * Hz}}, pulls),
                      "places[0].pitch is 20001 Hz; it must be at least 1 Hz and at most 20000 Hz.");
    CHECK_THROWS_WITH((void)choose_set<double>({s}, {places[0], string_place{5001 * mm, 100 * Hz}}, {80 * N, 80 * N}),
                      "places[1].speaking_length is 5001 mm; it must be at least 1 mm and at most 5000 mm.");
    CHECK_THROWS_WITH((void)pull_of_string_set<double>({80 * N, -1 * N}), "pull is -1 N; it must be at least 0 N.");
}

TEST_CASE("strings' door: what a string is built of") {
    CHECK_THROWS_WITH((void)plain_string(music_wire(), 0 * mm),
                      "diameter is 0 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH((void)plain_string(music_wire(), 20.1 * mm),
                      "diameter is 20.1 mm; it must be more than 0 mm and at most 20 mm.");
    const auto ordered = [](length<> gauge, length<> core, core_section section = core_section::round) {
        (void)wound_string(
            {.gauge = gauge, .core = core, .section = section, .core_material = music_wire(), .wrap_material = nickel()});
    };
    CHECK_THROWS_WITH(ordered(0 * mm, 0.4 * mm), "gauge is 0 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH(ordered(20.1 * mm, 0.4 * mm), "gauge is 20.1 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH(ordered(1 * mm, 0 * mm), "core is 0 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH(ordered(1 * mm, 20.1 * mm), "core is 20.1 mm; it must be more than 0 mm and at most 20 mm.");
    CHECK_THROWS_WITH(ordered(1 * mm, 1 * mm),
                      "core must be narrower than the gauge of 1 mm, which is over core and wrap together.");
    // 0.9 mm across the flats is 1.04 mm over the corners.
    CHECK_THROWS_WITH(ordered(1 * mm, 0.9 * mm, core_section::hexagonal),
                      "core must be narrower than the gauge of 1 mm, which is over core and wrap together.");
    CHECK_NOTHROW(ordered(1 * mm, 0.9 * mm));
    wound_order no_gauge;
    no_gauge.core = 0.4 * mm;
    no_gauge.core_material = music_wire();
    no_gauge.wrap_material = nickel();
    CHECK_THROWS_WITH((void)wound_string(no_gauge),
                      "gauge is not given, or not a number; it must be more than 0 mm and at most 20 mm.");
    const auto core = "string.core.material.mass_density is not given, or not a number; ";
    for (const auto& answer :
         std::initializer_list<void (*)()>{[] { (void)gauge(none); }, [] { (void)mass_per_length(none); },
                                           [] { (void)core_area(none); }, [] { (void)axial_stiffness(none); },
                                           [] { (void)core_bending_stiffness(none); }, [] { (void)breaking_tension(none); },
                                           [] { (void)strain(none, 1 * N); }, [] { (void)core_stress(none, 1 * N); }}) {
        CHECK_THROWS_WITH(answer(), doctest::Contains(core));
    }
}

TEST_CASE("strings' door: notes and pitches") {
    CHECK_THROWS_WITH((void)in_finer_steps(note{69}, 0), "parts is 0; it must be 1 to 10.");
    CHECK_THROWS_WITH((void)in_finer_steps(note{69}, 11), "parts is 11; it must be 1 to 10.");
    CHECK_THROWS_WITH((void)in_finer_steps(note{}, 2), "note is not given; it must be a number from -10000 to 10000.");
    CHECK_THROWS_WITH((void)in_finer_steps(note{10001}, 1), "note is 10001; it must be a number from -10000 to 10000.");
    CHECK(in_finer_steps(note{1}, 10).number == 10);
    CHECK_THROWS_WITH((void)name_of(note{-1}), "note is -1; it must be from C-1 (number 0) to B10 (143).");
    CHECK_THROWS_WITH((void)name_of(note{144}), "note is 144; it must be from C-1 (number 0) to B10 (143).");
    CHECK(name_of(note{0}) == "C-1");
    CHECK(name_of(note{143}) == "B10");
    CHECK_THROWS_WITH((void)pitch_of(note{69}, pitch_standard{.a4 = 199 * Hz}),
                      "standard.a4 is 199 Hz; it must be at least 200 Hz and at most 900 Hz.");
    CHECK_THROWS_WITH((void)pitch_of(note{69}, pitch_standard{.steps = 0}),
                      "standard.steps is 0; it must be at least 1 and at most 120.");
    CHECK_THROWS_WITH((void)pitch_of(note{69}, pitch_standard{.steps = 121}),
                      "standard.steps is 121; it must be at least 1 and at most 120.");
    CHECK_THROWS_WITH((void)pitch_of(note{69}, pitch_standard{.offsets = {1 * cents}}),
                      "standard.offsets must be one for each of the 12 steps of the octave, but there are 1.");
    CHECK(pitch_of(note{69}, pitch_standard{.steps = 1}) == 440 * Hz);
    // A temperament's steps, each of them.
    for (const double step : {5000.0, -601.0, double(NAN)}) {
        pitch_standard wild;
        wild.offsets.assign(12, 0 * cents);
        wild.offsets[3] = step * cents;
        CHECK_THROWS_WITH((void)pitch_of(note{60}, wild), doctest::Contains("standard.offsets[3] is "));
        CHECK_THROWS_WITH((void)pitches_of(tuning{{note{60}}}, wild), doctest::Contains("standard.offsets[3] is "));
        CHECK_THROWS_WITH((void)pitches_of(tuning{}, wild), doctest::Contains("standard.offsets[3] is "));
    }
    CHECK_THROWS_WITH((void)pitches_of(tuning{{note{60}, note{}}}),
                      doctest::Contains("note is not given; it must be less"));
    CHECK_THROWS_WITH((void)pitch_of(note{60}, pitch_standard{.a4_number = 100000}),
                      "standard.a4_number is 100000; it must be at least 0 and at most 1500.");
    CHECK(pitch_of(note{69}, pitch_standard{.steps = 120}) == 440 * Hz);
    for (const int octaves : {-20, 20}) {
        const note far{69 + 12 * octaves}, near{far.number - octaves / 20};
        CHECK_THROWS_WITH((void)pitch_of(far),
                          doctest::Contains("it must be less than 20 octaves from A4: a number from -170 to 308."));
        CHECK_THROWS_WITH((void)pitch_of(far, pitch_standard{}),
                          doctest::Contains("it must be less than 20 octaves from A4"));
        CHECK_NOTHROW((void)pitch_of(near));
        CHECK_NOTHROW((void)pitch_of(near, pitch_standard{}));
    }
    // A number so large that its distance from A4 is no int.
    CHECK_THROWS_WITH((void)pitch_of(note{std::numeric_limits<int>::max()}, pitch_standard{.steps = 120}),
                      doctest::Contains("it must be less than 20 octaves from A4: a number from -2330 to 2468."));
    CHECK_THROWS_WITH((void)pitch_of(note{std::numeric_limits<int>::min() + 69}, pitch_standard{.steps = 120}),
                      doctest::Contains("it must be less than 20 octaves from A4: a number from -2330 to 2468."));
    CHECK_THROWS_WITH((void)nearest_note(0.9 * Hz), "frequency is 0.9 Hz; it must be at least 1 Hz and at most 100000 Hz.");
    CHECK_THROWS_WITH((void)nearest_note(100001 * Hz),
                      "frequency is 100001 Hz; it must be at least 1 Hz and at most 100000 Hz.");
    CHECK_THROWS_WITH((void)nearest_note(440.0 * Hz, pitch_standard{.a4 = 901 * Hz}),
                      "standard.a4 is 901 Hz; it must be at least 200 Hz and at most 900 Hz.");
}

TEST_CASE("strings' door: tunings") {
    CHECK_THROWS_WITH((void)parse_tuning(" , "), "tuning must have at least one note, as in \"E2 A2 D3 G3 B3 E4\".");
    CHECK_THROWS_WITH((void)parse_tuning("E2 H2 A2"),
                      "note is \"H2\"; it must be a letter A to G, then sharps (#) or flats (b) if any, then the octave -1 "
                      "to 10, as in E2, F#3 or Bb1, from C-1 to B10.");
    CHECK_THROWS_WITH((void)parse_courses(""), "courses must have at least one, as in \"G3/G3 D4/D4 A4/A4 E5/E5\".");
    CHECK_THROWS_WITH((void)parse_courses("G3/ A4/A4"), "course is \"G3/\"; it must have a note on both sides of a slash.");
    CHECK_THROWS_WITH((void)parse_courses("/G3"), "course is \"/G3\"; it must have a note on both sides of a slash.");
    CHECK_THROWS_WITH((void)parse_courses("G3//G3"), "course is \"G3//G3\"; it must have a note on both sides of a slash.");
    CHECK_THROWS_WITH((void)parse_courses("G3/H3"),
                      "note is \"H3\"; it must be a letter A to G, then sharps (#) or flats (b) if any, then the octave -1 "
                      "to 10, as in E2, F#3 or Bb1, from C-1 to B10.");
    const auto t = parse_tuning("G3 D4");
    CHECK_THROWS_WITH((void)doubled(t, -1), "octave courses must be 0 to the number of courses.");
    CHECK_THROWS_WITH((void)doubled(t, 3), "octave courses must be 0 to the number of courses.");
    CHECK(name_of(strings_of(doubled(t, 2))) == "G3 G4 D4 D5");
    CHECK(name_of(strings_of(doubled(t, 0))) == "G3 G3 D4 D4");
}

TEST_CASE("strings' door: stiff strings") {
    const auto mu = 0.4 * g_per_m;
    const auto ei = 1e-5 * N_m2;
    const string_ends loose{.nut = -0.1};
    CHECK_THROWS_WITH((void)inharmonicity(-1e-9 * N_m2, 80 * N, 640 * mm),
                      "bending stiffness is -0.000000001 N m^2; it must be at least 0 N m^2.");
    CHECK_THROWS_WITH((void)inharmonicity(ei, 0.0 * N, 640 * mm), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)inharmonicity(ei, 80 * N, 0.0 * mm), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)partial(0, mu, 640 * mm, 80 * N, ei), "partial is 0; it must be 1 (the fundamental) to 200.");
    CHECK_THROWS_WITH((void)partial(201, mu, 640 * mm, 80 * N, ei),
                      "partial is 201; it must be 1 (the fundamental) to 200.");
    CHECK_NOTHROW((void)partial(200, mu, 640 * mm, 80 * N, ei));
    CHECK_THROWS_WITH((void)partial(1, mu, 640 * mm, 80 * N, ei, loose),
                      "ends.nut is -0.1; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)partial(1, 0.0 * g_per_m, 640 * mm, 80 * N, ei),
                      "mass per length is 0 g/m; it must be more than 0 g/m.");
    CHECK_THROWS_WITH((void)partial(1, mu, 0 * mm, 80 * N, ei), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)partial(1, mu, 640 * mm, 0 * N, ei), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)partial(1, mu, 640 * mm, 80 * N, -1e-9 * N_m2),
                      "bending stiffness is -0.000000001 N m^2; it must be at least 0 N m^2.");
    CHECK_THROWS_WITH((void)partial(1, mu, 100 * mm, 1 * N, 0.0001024 * N_m2),
                      "bending share sqrt(EI/T)/L is 0.101193; it must be at least 0 and at most 0.1.");
    CHECK_THROWS_WITH((void)partial(1, s, 0 * mm, 80 * N), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH(
        (void)partial(1, bare, 600 * mm, 80 * N),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH((void)tension_of_stiff(mu, 640 * mm, 110 * Hz, ei, loose),
                      "ends.nut is -0.1; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)tension_of_stiff(mu, 640 * mm, 110 * Hz, -1e-9 * N_m2),
                      "bending stiffness is -0.000000001 N m^2; it must be at least 0 N m^2.");
    // Mersenne's pull is 1 N: the share is sqrt(EI)/L, and the answer lies below it.
    CHECK_THROWS_WITH((void)tension_of_stiff(1.0 * kg_per_m, 100 * mm, 5 * Hz, 6.4e-5 * N_m2),
                      "bending share sqrt(EI/T)/L is 0.104; it must be at least 0 and at most 0.1.");
    CHECK_NOTHROW((void)tension_of_stiff(1.0 * kg_per_m, 100 * mm, 5 * Hz, 5.6e-5 * N_m2));
    CHECK_THROWS_WITH((void)tension_of_stiff(s, 640 * mm, 110 * Hz, loose),
                      "ends.nut is -0.1; it must be at least 0 and at most 1.");
    CHECK_THROWS_WITH((void)tension_of_stiff(s, 640 * mm, 0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
}

TEST_CASE("strings' door: stretch") {
    const sideways_bend b{.nut_to_finger = 300 * mm, .finger_to_saddle = 340 * mm};
    CHECK_THROWS_WITH((void)length_drawn_in(s, 0 * mm, 80 * N), "whole path is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)post_turns(-1 * mm, 6 * mm, 1 * mm), "length wound up is -1 mm; it must be at least 0 mm.");
    CHECK_THROWS_WITH((void)post_turns(1 * mm, 0.0 * mm, 1 * mm), "post diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)post_turns(1 * mm, 6 * mm, 0.0 * mm), "gauge is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pitch_by_path(s, 0 * mm, 80 * N), "whole path is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pitch_by_path(s, 900 * mm, 0 * N), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)lateral_stiffness(0.0 * N, 300 * mm, 340 * mm), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)lateral_stiffness(80 * N, 0.0 * mm, 340 * mm),
                      "length to one side is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)lateral_stiffness(80 * N, 300 * mm, 0.0 * mm),
                      "length to the other side is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)bent(none, b, 80 * N, 1 * mm),
                      doctest::Contains("string.core.material.mass_density is not given, or not a number; it must be at "
                                        "least 100 kg/m^3 and at most 25000 kg/m^3."));
    CHECK_THROWS_WITH(
        (void)bent(s, sideways_bend(), 80 * N, 1 * mm),
        doctest::Contains(
            "bend.nut_to_finger is not given, or not a number; it must be at least 0.01 mm and at most 5000 mm."));
    CHECK_THROWS_WITH((void)bent(s, b, 0 * N, 1 * mm), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)bent(s, b, 80 * N, -1 * mm),
                      "distance aside is -1 mm; it must be at least 0 mm and at most 1000 mm.");
    CHECK_THROWS_WITH((void)bent(s, b, 80 * N, 1001 * mm),
                      "distance aside is 1001 mm; it must be at least 0 mm and at most 1000 mm.");
    CHECK_THROWS_WITH((void)distance_aside_for(s, b, 80 * N, -1 * cents),
                      "rise is -1 cents; it must be at least 0 cents and at most 12000 cents.");
    CHECK_THROWS_WITH((void)distance_aside_for(s, b, 80 * N, 12001 * cents),
                      "rise is 12001 cents; it must be at least 0 cents and at most 12000 cents.");
    CHECK_THROWS_WITH((void)distance_aside_for(s, b, 80 * N, 100 * cents, -1 * mm),
                      "distance aside is -1 mm; it must be at least 0 mm and at most 1000 mm.");
    CHECK_THROWS_WITH((void)warmed(s, 0 * N, 0 * per_kelvin, 10 * kelvin), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)warmed(s, 80 * N, 0.0011 * per_kelvin, 10 * kelvin),
                      "body expansion is 0.0011 1/K; it must be at least -0.001 1/K and at most 0.001 1/K.");
    CHECK_THROWS_WITH((void)warmed(s, 80 * N, -0.0011 * per_kelvin, 10 * kelvin),
                      "body expansion is -0.0011 1/K; it must be at least -0.001 1/K and at most 0.001 1/K.");
    CHECK_THROWS_WITH((void)warmed(s, 80 * N, 0 * per_kelvin, 201 * kelvin),
                      "temperature difference is 201 K; it must be at least -200 K and at most 200 K.");
    CHECK_THROWS_WITH((void)warmed(s, 80 * N, 0 * per_kelvin, -201 * kelvin),
                      "temperature difference is -201 K; it must be at least -200 K and at most 200 K.");
}

TEST_CASE("strings' door: tension") {
    const auto mu = 0.4 * g_per_m;
    CHECK_THROWS_WITH((void)wave_speed(0.0 * g_per_m, 80 * N), "mass per length is 0 g/m; it must be more than 0 g/m.");
    CHECK_THROWS_WITH((void)wave_speed(mu, 0.0 * N), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)tension(0.0 * g_per_m, 640 * mm, 110 * Hz),
                      "mass per length is 0 g/m; it must be more than 0 g/m.");
    CHECK_THROWS_WITH((void)tension(mu, 0.0 * mm, 110 * Hz), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)tension(mu, 640 * mm, 0.0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)pitch_at(mu, 0.0 * mm, 80 * N), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)speaking_length_at(mu, 0.0 * Hz, 80 * N), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)mass_per_length_for(0.0 * N, 640 * mm, 110 * Hz), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH((void)mass_per_length_for(80 * N, 0.0 * mm, 110 * Hz),
                      "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)mass_per_length_for(80 * N, 640 * mm, 0.0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)tension(none, 640 * mm, 110 * Hz),
                      doctest::Contains("string.core.diameter is not given, or not a number; it must be"));
    CHECK_THROWS_WITH((void)tension(s, 0 * mm, 110 * Hz), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)tension(s, 640 * mm, 0 * Hz), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH(
        (void)tension(bare, 600 * mm, 110 * Hz),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH((void)strain(s, -1 * N), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)mass_per_length_at(s, -1 * N), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)pitch_at(s, 0 * mm, 80 * N), "speaking length is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)pitch_at(s, 640 * mm, 0 * N), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH(
        (void)pitch_at(bare, 600 * mm, 80 * N),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH((void)speaking_length_at(s, 0 * Hz, 80 * N), "pitch is 0 Hz; it must be more than 0 Hz.");
    CHECK_THROWS_WITH((void)speaking_length_at(s, 110 * Hz, 0 * N), "tension is 0 N; it must be more than 0 N.");
    CHECK_THROWS_WITH(
        (void)speaking_length_at(bare, 2000 * Hz, 80 * N),
        "string.bare must leave a wound part: both bare ends together must be less than the speaking length.");
    CHECK_THROWS_WITH((void)core_stress(s, -1 * N), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)share_of_strength(s, -1 * N), "tension is -1 N; it must be at least 0 N.");
    CHECK_THROWS_WITH((void)highest_pitch(s, 640 * mm, 0.0),
                      "share of strength is 0; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)highest_pitch(s, 640 * mm, 1.05),
                      "share of strength is 1.05; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)longest_speaking_length(s, 110 * Hz, 0.0),
                      "share of strength is 0; it must be more than 0 and at most 1.");
    CHECK_THROWS_WITH((void)longest_speaking_length(s, 110 * Hz, 1.05),
                      "share of strength is 1.05; it must be more than 0 and at most 1.");
}

TEST_CASE("strings' door: wire") {
    CHECK_THROWS_WITH((void)modulus_at(music_wire(), 0 * mm), "diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)modulus_at(wire_material(), 1 * mm), "modulus is not a number; it must be more than 0 MPa.");
    CHECK_THROWS_WITH((void)minimum_strength(music_wire(), 0 * mm), "diameter is 0 mm; it must be more than 0 mm.");
    CHECK_THROWS_WITH((void)awg_diameter(-4), "AWG number is -4; it must be -3 (0000) to 56.");
    CHECK_THROWS_WITH((void)awg_diameter(57), "AWG number is 57; it must be -3 (0000) to 56.");
    CHECK_NOTHROW((void)awg_diameter(-3));
    CHECK_NOTHROW((void)awg_diameter(56));
    CHECK_THROWS_WITH((void)music_wire_gauge_diameter(-6), "music wire gauge is -6; it must be -5 (6/0) to 26.");
    CHECK_THROWS_WITH((void)music_wire_gauge_diameter(27), "music wire gauge is 27; it must be -5 (6/0) to 26.");
    CHECK_THROWS_WITH((void)nearest_music_wire_gauge(0.0 * mm), "diameter is 0 mm; it must be more than 0 mm.");
}

TEST_CASE("strings' door: what fits together in a string") {
    const auto taken = [](const auto& change) {
        auto w =
            wound_string({.gauge = 1 * mm, .core = 0.4 * mm, .core_material = music_wire(), .wrap_material = nickel()});
        change(w, w.layers[0]);
        require_valid(w, "it");
    };
    using M = music_string;
    CHECK_NOTHROW(taken([](M&, wrap&) {}));
    CHECK_THROWS_WITH(taken([](M&, wrap& w) { w.form = layer_form::ribbon; }),
                      "it.layers[0].ribbon_width must be more than 0 mm for a ribbon.");
    CHECK_NOTHROW(taken([](M&, wrap& w) {
        w.form = layer_form::ribbon;
        w.ribbon_width = 0.5 * mm;
    }));
    CHECK_THROWS_WITH(taken([](M&, wrap& w) {
                          w.form = layer_form::ribbon;
                          w.ribbon_width = 0.5 * mm;
                          w.ground = 0.1 * mm;
                      }),
                      "it.layers[0].ground must be absent except for round wire.");
    CHECK_THROWS_WITH(taken([](M&, wrap& w) { w.ground = w.thickness; }),
                      "it.layers[0].ground must be less than the diameter of the wrap wire.");
    CHECK_NOTHROW(taken([](M&, wrap& w) { w.ground = 0.29 * mm; }));
    CHECK_THROWS_WITH(taken([](M&, wrap& w) {
                          w.form = layer_form::sleeve;
                          w.pitch = 1 * mm;
                      }),
                      "it.layers[0].pitch must be absent for a sleeve.");
    // Once around at the middle of the wrap: pi (0.4 + 0.3) mm, 2.1991 mm; where round wire touches, 0.3028 mm a turn.
    CHECK_THROWS_WITH(taken([](M&, wrap& w) {
                          w.form = layer_form::ribbon;
                          w.ribbon_width = 2.2 * mm;
                      }),
                      "it.layers[0].ribbon_width must be less than once around the string.");
    CHECK_NOTHROW(taken([](M&, wrap& w) {
        w.form = layer_form::ribbon;
        w.ribbon_width = 2.19 * mm;
    }));
    CHECK_THROWS_WITH(taken([](M&, wrap& w) { w.pitch = 0.3 * mm; }),
                      "it.layers[0].pitch must be at least 0.302831 mm, where the turns touch.");
    CHECK_NOTHROW(taken([](M&, wrap& w) { w.pitch = 0.3029 * mm; }));
    // The second layer goes around the first.
    CHECK_THROWS_WITH(
        taken([](M& two, wrap&) {
            two.layers.push_back(
                {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.1 * mm, .ribbon_width = 3.5 * mm});
        }),
        "it.layers[1].ribbon_width must be less than once around the string.");
    CHECK_NOTHROW(taken([](M& two, wrap&) {
        two.layers.push_back(
            {.material = nickel(), .form = layer_form::ribbon, .thickness = 0.1 * mm, .ribbon_width = 3.4 * mm});
    }));
    CHECK_THROWS_WITH(require_valid(pitch_standard{.offsets = {1 * cents, 2 * cents}}, "it"),
                      "it.offsets must be one for each of the 12 steps of the octave, but there are 2.");
}
