// Where does it buzz? Draws a board to scale with the least clearance of every string pressed at every fret, at rest or
// while it is plucked. The ready-made ten-string cittern with worn frets, one of which has come up.
//
//   buzz_map > map.svg
//   buzz_map "0.5 N" > map.svg      plucked with that force, square to the board

#include <cstdio>
#include <exception>
#include <vector>

#include <tautline/core/quantity_text.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

/// The cittern with a low action, frets worn under the fingers and the tenth come up.
setup worn() {
    auto o = ready_made::ten_string_cittern();
    instrument& i = o.instrument;
    i.saddle.height_bass = 18.4 * mm;
    i.saddle.height_treble = 17.8 * mm;
    i.frets.wear = {0.10 * mm, 0.12 * mm, 0.10 * mm, 0.08 * mm, 0.08 * mm, 0.03 * mm, 0.03 * mm, 0.02 * mm, 0.02 * mm};
    setup s = solve(string_up(o));
    for (auto& string : s.strings) { string.crest_z[9] += 0.08 * mm; }
    return s;
}

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
double px(length<double> at, length<double> last_fret) { return left + wide * ratio(at, last_fret); }

} // namespace

int main(int argc, char** argv) try {
    const auto given = quantity_from_text<force<>>(argc > 1 ? argv[1] : "0 N", "pluck");
    require("pluck", given, between(0 * N, 50 * N));
    const double newtons = given / N;
    const auto from_saddle = 110 * mm;
    const setup it = worn();
    const auto strings = static_cast<double>(it.strings.size());
    const auto at = [&](length<double> x) { return px(x, it.fret_x.back()); };
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
    for (std::size_t n = 1; n <= it.fret_x.size(); ++n) {
        const length<double> before = n == 1 ? length<double>() : it.fret_x[n - 2], here = it.fret_x[n - 1];
        std::printf("<text x=\"%.1f\" y=\"%.0f\" fill=\"#444\">%zu</text>\n", (at(before) + at(here)) / 2, top_edge - 8, n);
        for (std::size_t k = 0; k < it.strings.size(); ++k) {
            const auto& one = it.strings[k];
            const double y = top_edge + static_cast<double>(k) * row, middle = (at(before) + at(here)) / 2;
            if (n == 1) {
                std::printf("<text x=\"%.0f\" y=\"%.1f\">%s</text>\n", left - 26, y + 19, it.names.label(k).c_str());
            }
            const auto displacement = pluck_displacement(newtons * N, from_saddle, one.line.saddle_x - here, one.tension);
            const auto least = plucked_clearance(one.line, it.fret_x, one.crest_z, n, from_saddle, displacement);
            if (!least) { // no fret ahead
                std::printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" stroke=\"#bbb\"/>\n",
                            at(before) + 1, y + 1, at(here) - at(before) - 2, row - 2);
                continue;
            }
            const shade s = shade_of(least->gap);
            std::printf("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"rgb(%d,%d,%d)\"/>\n",
                        at(before) + 1, y + 1, at(here) - at(before) - 2, row - 2, s.red, s.green, s.blue);
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
