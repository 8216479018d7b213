// How far is each fretted note off, and where should the saddle stand? The ready-made octave mandolin, one string of each
// course.
//
//   intonation_table

#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include <tautline/action/moved_ends.hpp>
#include <tautline/action/straight_saddle.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

/// A string over its frets, its saddle brought to the scale length.
struct course {
    std::string name;
    sounding_string sounding;
    string_line line;
    std::vector<length<double>> z{}; // crests
    force<double> pull{};
};

/// The same string, lower by so much over fret 12.
string_line lowered(string_line line, length<double> x, length<double> by) {
    line.saddle_z = line.saddle_z - by * ratio(line.saddle_x, x);
    return line;
}

} // namespace

int main() try {
    const strung_instrument on = string_up(ready_made::octave_mandolin());
    const setup solved = solve(on);
    const length<double> scale = on.instrument.board.scale.scale_length;
    const auto& x = solved.fret_x;
    std::vector<course> courses;
    for (std::size_t i = 0; i < solved.strings.size(); i += 2) {
        const auto& one = solved.strings[i];
        const music_string& string = on.stringing.strings[i].string;
        course c{.name = solved.names.label(i),
                 .sounding = {.mass_per_length = one.mass_per_length,
                              .open_pitch = one.pitch,
                              .axial_stiffness = axial_stiffness(string),
                              .bending_stiffness = core_bending_stiffness(string)},
                 .line = one.line,
                 .z = one.crest_z,
                 .pull = one.tension};
        c.line.saddle_x = scale;
        courses.push_back(c);
    }
    const finger_press finger; // 10 mm behind the fret, 0.1 mm below its crown
    const length<double> lower = 0.4 * mm;

    std::vector<length<double>> y, wanted;
    std::printf("Setback of the saddle from %.0f mm that brings fret 12 in tune, and what nut and saddle together would do "
                "(frets 1 to 12)\n\n",
                scale / mm);
    std::printf("          tension   saddle alone        saddle and nut            with the action\n");
    std::printf("course      N       mm   rms cents   mm    nut, mm   rms cents  %.1f mm lower, mm\n", lower / mm);
    for (const auto& c : courses) {
        const auto alone = setback_for_fret(c.sounding, c.line, finger, x, c.z);
        const auto fewest = ends_moved_over(c.sounding, c.line, finger, x, c.z, 1, 12, false);
        const auto both = ends_moved_over(c.sounding, c.line, finger, x, c.z, 1, 12, true);
        const auto when_low = setback_for_fret(c.sounding, lowered(c.line, x[11], lower), finger, x, c.z);
        if (!alone || !fewest || !both || !when_low) {
            throw std::runtime_error("No saddle place brings this course in tune.");
        }
        std::printf("%-6s   %7.1f  %6.2f  %6.2f    %6.2f  %6.2f    %6.2f      %6.2f\n", c.name.c_str(), c.pull / N,
                    *alone / mm, fewest->root_mean_square / cents, both->setback / mm, both->nut_advance / mm,
                    both->root_mean_square / cents, *when_low / mm);
        y.push_back(c.line.saddle_y);
        wanted.push_back(scale + *alone);
    }
    const auto saddle = straight_saddle<double>(y, wanted);
    std::printf("\nOne straight saddle: %.2f mm back on the centre line, %.2f mm under %s, %.2f mm under %s.\n\n",
                (saddle.at_centre - scale) / mm, (saddle.at(y.front()) - scale) / mm, courses.front().name.c_str(),
                (saddle.at(y.back()) - scale) / mm, courses.back().name.c_str());

    std::printf("Error at each fret in cents: saddle at %.0f mm, then on that straight line\n\nfret", scale / mm);
    for (const auto& c : courses) { std::printf("   %-13s", c.name.c_str()); }
    std::printf("\n");
    for (std::size_t n = 1; n <= x.size(); ++n) {
        std::printf("%4zu", n);
        for (const auto& c : courses) {
            auto line = c.line;
            const auto plain = pressed_at(c.sounding, line, finger, x, c.z, n);
            line.saddle_x = saddle.at(line.saddle_y);
            const auto set = pressed_at(c.sounding, line, finger, x, c.z, n);
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
