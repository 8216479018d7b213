// How far is each fretted note off, and where should the saddle stand? An invented octave mandolin, one string of each
// course.
//
//   intonation_table

#include <cstdio>
#include <exception>
#include <vector>

#include <tautline/action/compensation.hpp>
#include <tautline/action/straight_saddle.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr auto scale = 560 * mm;
constexpr int frets = 19;

struct course {
    const char* number; // from the treble
    const char* note;
    music_string string;
    length<double> y_nut, y_saddle;
    length<double> over_first_fret, action; // over frets 1 and 12

    [[nodiscard]] sounding_string sounding() const {
        const auto pull = tension(string, scale, pitch_of(note));
        return {.mass_per_length = mass_per_length_at(string, pull),
                .open_pitch = pitch_of(note),
                .axial_stiffness = axial_stiffness(string),
                .bending_stiffness = core_bending_stiffness(string)};
    }
};

struct board_of_frets {
    std::vector<length<double>> x, z;
    board_of_frets() {
        for (int n = 1; n <= frets; ++n) {
            x.push_back(scale * (1 - std::exp2(-n / 12.0)));
            z.push_back(0.9 * mm);
        }
    }
};

/// The string that clears frets 1 and 12 as given, its saddle at the scale length.
string_line line_of(const course& c, const board_of_frets& b, length<double> action) {
    const auto slope = ratio(action - c.over_first_fret, b.x[11] - b.x[0]);
    const auto at = [&](length<double> x) { return b.z[0] + c.over_first_fret + slope * (x - b.x[0]); };
    return {.nut_x = 0 * mm,
            .nut_z = at(0 * mm),
            .saddle_x = scale,
            .saddle_z = at(scale),
            .nut_y = c.y_nut,
            .saddle_y = c.y_saddle};
}

} // namespace

int main() try {
    const auto steel = music_wire(), bronze = phosphor_bronze();
    const course courses[] = {
        {"4", "G2", wound_string({.gauge = 39 * thou, .core = 15 * thou, .core_material = steel, .wrap_material = bronze}),
         -13 * mm, -24 * mm, 0.35 * mm, 2.4 * mm},
        {"3", "D3", wound_string({.gauge = 26 * thou, .core = 12 * thou, .core_material = steel, .wrap_material = bronze}),
         -4 * mm, -8 * mm, 0.30 * mm, 2.2 * mm},
        {"2", "A3", plain_string<double>(steel, 16 * thou), 4 * mm, 8 * mm, 0.25 * mm, 2.0 * mm},
        {"1", "E4", plain_string<double>(steel, 11 * thou), 13 * mm, 24 * mm, 0.20 * mm, 1.8 * mm}};
    const board_of_frets board;
    const finger_press finger; // 10 mm behind the fret, 0.1 mm below its crown
    const length<double> lower = 0.4 * mm;

    std::vector<length<double>> y, wanted;
    std::vector<std::vector<pressed_note>> as_built, lowered;
    std::printf("Setback of the saddle from %.0f mm that brings fret 12 in tune, and what nut and saddle together would do "
                "(frets 1 to 12)\n\n",
                scale / mm);
    std::printf("          tension   saddle alone        saddle and nut            with the action\n");
    std::printf("course      N       mm   rms cents   mm    nut, mm   rms cents  %.1f mm lower, mm\n", lower / mm);
    for (const auto& c : courses) {
        const auto s = c.sounding();
        const auto line = line_of(c, board, c.action), low = line_of(c, board, c.action - lower);
        const auto alone = setback_for_fret(s, line, finger, board.x, board.z);
        const auto fewest = compensation_over(s, line, finger, board.x, board.z, 1, 12, false);
        const auto both = compensation_over(s, line, finger, board.x, board.z, 1, 12, true);
        const auto when_low = setback_for_fret(s, low, finger, board.x, board.z);
        if (!alone || !fewest || !both || !when_low) {
            throw std::runtime_error("No saddle place brings this course in tune.");
        }
        std::printf("%s %-4s   %7.1f  %6.2f  %6.2f    %6.2f  %6.2f    %6.2f      %6.2f\n", c.number, c.note,
                    tension(c.string, scale, pitch_of(c.note)) / N, *alone / mm, fewest->root_mean_square / cents,
                    both->setback / mm, both->nut_advance / mm, both->root_mean_square / cents, *when_low / mm);
        y.push_back(c.y_saddle);
        wanted.push_back(scale + *alone);
    }
    const auto saddle = straight_saddle<double>(y, wanted);
    std::printf("\nOne straight saddle: %.2f mm back on the centre line, %.2f mm under G2, %.2f mm under E4.\n\n",
                (saddle.at_centre - scale) / mm, (saddle.at(y.front()) - scale) / mm, (saddle.at(y.back()) - scale) / mm);

    std::printf("Error at each fret in cents: saddle at %.0f mm, then on that straight line\n\nfret", scale / mm);
    for (const auto& c : courses) { std::printf("%6s %s       ", c.number, c.note); }
    std::printf("\n");
    for (std::size_t n = 1; n <= frets; ++n) {
        std::printf("%4zu", n);
        for (const auto& c : courses) {
            auto line = line_of(c, board, c.action);
            const auto plain = pressed_at(c.sounding(), line, finger, board.x, board.z, n);
            line.saddle_x = saddle.at(c.y_saddle);
            const auto set = pressed_at(c.sounding(), line, finger, board.x, board.z, n);
            std::printf("  %6.1f %6.1f ", plain.error / cents, set.error / cents);
        }
        std::printf("\n");
    }
    std::printf("\nPlain strings with ends half clamped (1/2 and 1/2), wound ones bending with their core alone: both are "
                "calibrated by ear\nor by a tuner on the instrument. Slacken before moving a nut or a saddle; wear eye "
                "protection.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
