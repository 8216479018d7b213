// Printed tables of the frequencies of notes.

#include <tautline/strings/named_tunings.hpp>

#include "published/record.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {
struct row {
    const char* note;
    double hertz;
};
} // namespace

TEST_CASE("CRC Handbook of Chemistry and Physics, section 14, Musical Scales, Table 1" * published::seen) {
    constexpr row table[] = {{"C0", 16.352},  {"C#0", 17.324},  {"D0", 18.354},  {"D#0", 19.445}, {"E0", 20.602},
                             {"F0", 21.827},  {"C2", 65.406},   {"C#2", 69.296}, {"D2", 73.416},  {"D#2", 77.782},
                             {"E2", 82.407},  {"F2", 87.307},   {"C4", 261.63},  {"C#4", 277.18}, {"D4", 293.66},
                             {"D#4", 311.13}, {"E4", 329.63},   {"F4", 349.23},  {"C6", 1046.50}, {"C#6", 1108.73},
                             {"D6", 1174.66}, {"D#6", 1244.51}, {"E6", 1318.51}, {"F6", 1396.91}};
    for (const row& r : table) {
        CAPTURE(r.note);
        CHECK(published::within("pitches of notes", pitch_of(r.note), r.hertz * Hz,
                                (r.hertz < 100 ? 0.0005 : 0.005) * 1.0001 * Hz));
    }
}

TEST_CASE("B. H. Suits, Michigan Technological University, Frequencies of Musical Notes, A4 = 440 Hz" * published::quoted) {
    constexpr row table[] = {
        {"B0", 30.87},  {"E1", 41.20},  {"A1", 55.00},   {"D2", 73.42},  {"E2", 82.41},  {"F2", 87.31},  {"F#2", 92.50},
        {"G2", 98.00},  {"A2", 110.00}, {"B2", 123.47},  {"C3", 130.81}, {"D3", 146.83}, {"E3", 164.81}, {"F3", 174.61},
        {"G3", 196.00}, {"A3", 220.00}, {"A#3", 233.08}, {"B3", 246.94}, {"C4", 261.63}, {"D4", 293.66}, {"E4", 329.63},
        {"G4", 392.00}, {"A4", 440.00}, {"B4", 493.88},  {"C5", 523.25}, {"E5", 659.26}, {"A5", 880.00}, {"B5", 987.77}};
    for (const row& r : table) {
        CAPTURE(r.note);
        // Half the last printed digit; the table has 659.26 for 659.2551.
        CHECK(published::within("pitches of notes", pitch_of(r.note), r.hertz * Hz, 0.00501 * Hz));
    }
}

TEST_CASE("tonal 6.4.3, a general music-theory library: frequencies to full precision" * published::reference_program) {
    constexpr row table[] = {{"B0", 30.86770632850775},  {"E1", 41.20344461410874},  {"D2", 73.41619197935188},
                             {"E2", 82.40688922821748},  {"G2", 97.99885899543733},  {"D3", 146.8323839587038},
                             {"G3", 195.99771799087463}, {"B3", 246.94165062806206}, {"C4", 261.6255653005986},
                             {"E4", 329.6275569128699},  {"C8", 4186.009044809578}};
    for (const row& r : table) {
        CAPTURE(r.note);
        CHECK(published::relative("pitches of notes", pitch_of(r.note), r.hertz * Hz, 1e-14));
    }
    // The same library's MIDI numbers.
    CHECK(published::same("MIDI number of A4", parse_note("A4").number, 69));
    CHECK(published::same("MIDI number of C4", parse_note("C4").number, 60));
    CHECK(published::same("MIDI number of E2", parse_note("E2").number, 40));
}

TEST_CASE("OpenStax University Physics 1, 16.3: open strings of the guitar" * published::seen) {
    const double printed[] = {82.41, 110.00, 146.83, 196.00, 246.94, 329.63};
    const auto f = pitches_of(*find_tuning("guitar"));
    REQUIRE(f.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(published::within("pitches of open strings", f[i], printed[i] * Hz, 0.005 * Hz));
    }
}

TEST_CASE("quarter-comma meantone by its definition: fifths narrowed until the major thirds are pure, 5/4 (fifth and wolf "
          "from memory)" *
          published::own_computation) {
    const double fifth = 300 * std::log2(5.0); // a quarter of two octaves and a pure third
    pitch_standard meantone{};
    // Fifths above C, from E flat to G sharp, in the order of the keys.
    for (const int k : {0, 7, 2, -3, 4, -1, 6, 1, 8, 3, -2, 5}) { meantone.offsets.push_back(k * (fifth - 700) * cents); }
    const auto over_bass = [&](const char* low, const char* high) {
        return ratio<unit::frequency, double>(pitch_of(parse_note(high), meantone), pitch_of(parse_note(low), meantone));
    };
    for (const auto& [low, high] :
         {std::pair{"C4", "E4"}, {"D3", "F#3"}, {"G2", "B2"}, {"A3", "C#4"}, {"F4", "A4"}, {"Eb4", "G4"}}) {
        CHECK(published::relative("major third's ratio", over_bass(low, high), 1.25, 1e-12));
    }
    // The fifth is 696.578 cents, the wolf G#-Eb 737.637 (well known, from memory).
    CHECK(published::within("fifth, cents", 1200 * std::log2(over_bass("C4", "G4")), 696.578, 0.0005));
    CHECK(published::within("wolf, cents", 1200 * std::log2(over_bass("G#3", "Eb4")), 737.637, 0.0005));
    CHECK(published::relative("A4", pitch_of(note{69}, meantone), 440 * Hz, 1e-15));
}

TEST_CASE("equal temperaments of 19 and 31 steps: fifths of 694.737 and 696.774 cents (well known, from memory)" *
          published::from_memory) {
    struct row {
        int steps, fifth;
        double cents;
    };
    for (const row& r : {row{19, 11, 694.737}, {31, 18, 696.774}, {12, 7, 700.0}, {24, 14, 700.0}}) {
        const pitch_standard standard{.steps = r.steps, .a4_number = 5 * r.steps};
        const auto up = interval_between<double>(pitch_of(note{5 * r.steps}, standard),
                                                 pitch_of(note{5 * r.steps + r.fifth}, standard));
        CHECK(published::within("fifth, cents", up / cents, r.cents, 0.0005));
    }
}
