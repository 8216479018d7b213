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

using namespace tautline;
using namespace tautline::units;

namespace {

// The model: a lap dulcimer with three strings.
constexpr scale board{.scale_length = 27 * inch, .frets = 24};

struct course {
    const char* note;
    music_string string;

    [[nodiscard]] constexpr force<> pull() const { return tension(string, board.scale_length, pitch_of(note)); }
};
constexpr std::array courses{
    course{"D3", wound_string(music_wire(), 12 * thou, bronze_80_20(), 5 * thou)},
    course{"A3", plain_string(music_wire(), 12 * thou)},
    course{"D4", plain_string(music_wire(), 10 * thou)},
};

constexpr auto fret_table = [] {
    std::array<length<>, 25> places{};
    for (int n = 1; n <= board.frets; ++n) { places[static_cast<std::size_t>(n)] = fret_position(board, n); }
    return places;
}();
constexpr auto pulls = [] {
    std::array<force<>, courses.size()> of{};
    for (std::size_t i = 0; i < of.size(); ++i) { of[i] = courses[i].pull(); }
    return of;
}();
constexpr force<> together = pulls[0] + pulls[1] + pulls[2];

// What was promised about it.
static_assert(abs(fret_table[12] - board.scale_length / 2) < 1e-9 * mm, "the octave fret halves the string");
static_assert(together < 220 * N, "the box bears 220 N");
static_assert(share_of_strength(courses[0].string, pulls[0]) < 0.6 &&
                  share_of_strength(courses[1].string, pulls[1]) < 0.6 &&
                  share_of_strength(courses[2].string, pulls[2]) < 0.6,
              "no core bears more than 60 % of its least strength");
static_assert(gauge(courses[0].string) > 21.9 * thou && gauge(courses[0].string) < 22.1 * thou,
              "the nut's first slot is cut for 22 thou");

} // namespace

int main() {
    std::printf("fret   place mm\n");
    for (std::size_t n = 1; n < fret_table.size(); ++n) { std::printf("%4zu %10.2f\n", n, fret_table[n] / mm); }
    std::printf("\nnote   gauge thou   mass g/m   pull N\n");
    for (std::size_t i = 0; i < courses.size(); ++i) {
        const auto& c = courses[i];
        std::printf("%-4s %12.0f %10.3f %8.1f\n", c.note, gauge(c.string) / thou, mass_per_length(c.string) / g_per_m,
                    pulls[i] / N);
    }
    std::printf("together %28.1f\n", together / N);
    std::printf("\nA string at pitch can cut and can take an eye: slacken before working, wear eye protection.\n");
}
