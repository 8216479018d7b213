// Where does it buzz? Draws a board to scale with the least clearance of every string pressed at every fret, at rest or
// while it is plucked. An invented octave mandolin with worn frets and one that has come up.
//
//   buzz_map > map.svg
//   buzz_map "0.5 N" > map.svg      plucked with that force, square to the board

#include <cstdio>
#include <exception>
#include <vector>

#include <tautline/action/pluck.hpp>
#include <tautline/core/quantity_text.hpp>
#include <tautline/strings/string_names.hpp>
#include <tautline/strings/tuning.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

constexpr auto scale = 560 * mm;
constexpr int frets = 19, strings = 8;
constexpr double pulls[strings] = {86, 86, 92, 92, 78, 78, 83, 83}; // N
const string_names names{.courses = {2, 2, 2, 2}, .notes = parse_tuning("G2 G2 D3 D3 A3 A3 E4 E4").notes};

struct instrument {
    std::vector<length<double>> x{};
    std::vector<string_line> lines{};
    std::vector<std::vector<length<double>>> crests{}; // of each string

    instrument() {
        for (int n = 1; n <= frets; ++n) { x.push_back(scale * (1 - std::exp2(-n / 12.0))); }
        for (int i = 0; i < strings; ++i) {
            const double treble = i / (strings - 1.0);
            lines.push_back({.nut_x = 0 * mm,
                             .nut_z = (1.30 - 0.10 * treble) * mm,
                             .saddle_x = scale + 2 * mm,
                             .saddle_z = (5.4 - 1.5 * treble) * mm});
            crests.emplace_back();
            for (int n = 1; n <= frets; ++n) {
                const double along = x[std::size_t(n) - 1] / mm / 280;
                const double relief = n <= 12 ? -0.12 * 4 * along * (1 - along) : 0.0; // hollow, mm
                const double wear = n <= 5 ? 0.06 - 0.02 * treble : 0.01;              // under the fingers, mm
                const double risen = n == 10 && i >= 5 ? 0.08 : n >= 15 ? 0.012 * (n - 14) : 0.0;
                crests.back().push_back((0.80 + relief - wear + risen) * mm);
            }
        }
    }
};

/// The lighter the farther; ink that can be read on it.
struct shade {
    int red, green, blue;
    const char* ink;
};
shade shade_of(length<double> gap) {
    if (gap <= 0 * mm) { return {150, 40, 27, "#fff"}; }
    const double t = std::min(1.0, gap / mm / 0.5), s = std::sqrt(t);
    return {int(38 + 204 * s), int(70 + 175 * s), int(83 + 160 * s), s < 0.3 ? "#fff" : "#111"};
}

constexpr double left = 60, top_edge = 74, row = 30, wide = 1320; // px; the board ends at the last fret
double px(length<double> at) { return left + wide * ratio(at, scale * (1 - std::exp2(-frets / 12.0))); }

} // namespace

int main(int argc, char** argv) try {
    const auto given = parse_quantity<force<double>>(argc > 1 ? argv[1] : "0 N");
    require_that(given.has_value(), "pluck", "must be a force with its unit, such as \"0.5 N\"");
    require("pluck", *given, between(0 * N, 50 * N));
    const double newtons = *given / N;
    const auto from_saddle = 110 * mm;
    const instrument it;
    std::printf("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\" font-family=\"sans-serif\" "
                "font-size=\"11\" text-anchor=\"middle\">\n",
                left + wide + 20, top_edge + strings * row + 76);
    std::printf("<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n<text x=\"%.0f\" y=\"24\" font-size=\"17\" "
                "text-anchor=\"start\">Least clearance ahead of the pressed fret, mm</text>\n",
                left);
    std::printf("<text x=\"%.0f\" y=\"44\" text-anchor=\"start\" fill=\"#444\">%s</text>\n", left,
                newtons > 0 ? ("plucked with " + number_text(newtons) + " N square to the board, " +
                               fixed_text(from_saddle, mm, 0) + " mm from the saddle; small: the fret that is nearest")
                                  .c_str()
                            : "strings at rest; small: the fret that is nearest");
    for (int n = 1; n <= frets; ++n) {
        const auto before = n == 1 ? 0 * mm : it.x[std::size_t(n) - 2], here = it.x[std::size_t(n) - 1];
        std::printf("<text x=\"%.1f\" y=\"%.0f\" fill=\"#444\">%d</text>\n", (px(before) + px(here)) / 2, top_edge - 8, n);
        for (int i = 0; i < strings; ++i) {
            const auto k = std::size_t(i), p = std::size_t(n);
            const double y = top_edge + i * row, middle = (px(before) + px(here)) / 2;
            if (n == 1) {
                std::printf("<text x=\"%.0f\" y=\"%.1f\">%s</text>\n", left - 26, y + 19, names.label(k).c_str());
            }
            const auto displacement =
                pluck_displacement(newtons * N, from_saddle, it.lines[k].saddle_x - here, pulls[i] * N);
            const auto least = plucked_clearance(it.lines[k], it.x, it.crests[k], p, from_saddle, displacement);
            if (!least) { // no fret ahead
                std::printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" stroke=\"#bbb\"/>\n",
                            px(before) + 1, y + 1, px(here) - px(before) - 2, row - 2);
                continue;
            }
            const shade s = shade_of(least->gap);
            std::printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"rgb(%d,%d,%d)\"/>\n",
                        px(before) + 1, y + 1, px(here) - px(before) - 2, row - 2, s.red, s.green, s.blue);
            std::printf("<text x=\"%.1f\" y=\"%.1f\" fill=\"%s\">%s</text><text x=\"%.1f\" y=\"%.1f\" fill=\"%s\" "
                        "font-size=\"8\">%d</text>\n",
                        middle, y + 15, s.ink, fixed_text(least->gap, mm, 2).c_str(), middle, y + 25, s.ink,
                        least->fret_number());
        }
    }
    const double foot = top_edge + strings * row + 14;
    const char* words[] = {"touches", "0.05", "0.1", "0.2", "0.3", "0.5 and more"};
    const double steps[] = {0, 0.05, 0.1, 0.2, 0.3, 0.5};
    for (int i = 0; i < 6; ++i) {
        const shade s = shade_of(steps[i] * mm);
        std::printf("<rect x=\"%.0f\" y=\"%.0f\" width=\"96\" height=\"20\" fill=\"rgb(%d,%d,%d)\"/><text x=\"%.0f\" "
                    "y=\"%.0f\" fill=\"%s\">%s</text>\n",
                    left + 100 * i, foot, s.red, s.green, s.blue, left + 100 * i + 48, foot + 14, s.ink, words[i]);
    }
    std::printf("<text x=\"%.0f\" y=\"%.0f\" text-anchor=\"start\" fill=\"#444\">Limp string, first swings, both "
                "directions of the pluck. "
                "An estimate from measured crests: level nothing before a straightedge agrees.</text>\n</svg>\n",
                left, foot + 44);
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
