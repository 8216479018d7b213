// A shop that builds one model over and over knows its numbers before any program runs: the compiler works out the fret
// table and the pulls, and refuses to build when a change to the model breaks what was promised about it.
//
//   compile_time

#include <array>
#include <cstdio>

#include <tautline/board/scale.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>
#include <tautline/strings/wound_string.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

// The model: a box guitar with three strings.
constexpr scale board{.scale_length = 25 * inch, .frets = 20};

struct tuned {
    const char* note;
    music_string string;

    [[nodiscard]] constexpr force<> pull() const { return tension(string, board.scale_length, pitch_of(note)); }
};
constexpr std::array strings{
    tuned{"D3",
          wound_string(
              {.gauge = 22 * thou, .core = 12 * thou, .core_material = music_wire(), .wrap_material = bronze_80_20()})},
    tuned{"A3", plain_string(music_wire(), 12 * thou)},
    tuned{"D4", plain_string(music_wire(), 10 * thou)},
};

constexpr auto fret_table = [] {
    std::array<length<>, static_cast<std::size_t>(board.frets) + 1> places{};
    for (int n = 1; n <= board.frets; ++n) { places[static_cast<std::size_t>(n)] = fret_position(board, n); }
    return places;
}();
constexpr auto pulls = [] {
    std::array<force<>, strings.size()> of{};
    for (std::size_t i = 0; i < of.size(); ++i) { of[i] = strings[i].pull(); }
    return of;
}();
constexpr force<> together = pulls[0] + pulls[1] + pulls[2];

// What was promised about it.
static_assert(abs(fret_table[12] - board.scale_length / 2) < 1e-9 * mm, "the octave fret halves the string");
static_assert(together < 180 * N, "the box bears 180 N");
static_assert(
    [] {
        for (std::size_t i = 0; i < strings.size(); ++i) {
            if (share_of_strength(strings[i].string, pulls[i]).value() > 0.6) { return false; } // unknown: does not compile
        }
        return true;
    }(),
    "no core bears more than 60 % of its least strength");
static_assert(gauge(strings[0].string) > 21.9 * thou && gauge(strings[0].string) < 22.1 * thou,
              "the nut's first slot is cut for 22 thou");

} // namespace

int main() {
    std::printf("fret   place mm\n");
    for (std::size_t n = 1; n < fret_table.size(); ++n) { std::printf("%4zu %10.2f\n", n, fret_table[n] / mm); }
    std::printf("\nnote   gauge thou   mass g/m   pull N\n");
    for (std::size_t i = 0; i < strings.size(); ++i) {
        const auto& s = strings[i];
        std::printf("%-4s %12.0f %10.3f %8.1f\n", s.note, gauge(s.string) / thou, mass_per_length(s.string) / g_per_m,
                    pulls[i] / N);
    }
    std::printf("together %28.1f\n", together / N);
    std::printf("\nA string at pitch can cut and can take an eye: slacken before working, wear eye protection.\n");
}
