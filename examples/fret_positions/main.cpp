// Where do the frets go? Distances from the nut for a scale, beside the old rule of 18.
//
//   fret_positions ["scale length" [frets [steps]]]      fret_positions "25 1/2 in" 22

#include <cstdio>
#include <cstdlib>
#include <exception>

#include <tautline/board/scale.hpp>
#include <tautline/core/quantity_text.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

length<double> length_from(const char* text) {
    const auto q = parse_quantity<length<double>>(text);
    require_that(q.has_value(), text, "must be a length with its unit, such as 12 in or 305 mm");
    return *q;
}

} // namespace

int main(int argc, char** argv) try {
    scale equal{.scale_length = 560 * mm, .frets = 20};
    if (argc > 1) { equal.scale_length = length_from(argv[1]); }
    if (argc > 2) { equal.frets = std::atoi(argv[2]); }
    if (argc > 3) { equal.steps = std::atoi(argv[3]); }
    scale old = equal;
    old.divisor = 18.0;

    const auto places = fret_positions(equal);
    const auto spaces = fret_spacings(equal);
    std::printf("Scale %.2f mm (%.3f in), %d steps to the octave. Distances from the front face of the nut.\n\n",
                equal.scale_length / mm, equal.scale_length / inch, equal.steps);
    std::printf("                                        rule of 18: off by, saddle at the\n");
    std::printf("fret   place mm   place in   space mm   length divided   twice its octave fret\n");
    const bool has_octave = old.frets >= old.steps;
    for (int n = 1; n <= equal.frets; ++n) {
        const auto i = static_cast<std::size_t>(n);
        std::printf("%4d %10.2f %10.3f %10.2f %8.1f cents", n, places[i] / mm, places[i] / inch, spaces[i - 1] / mm,
                    fret_error(old, n, old.scale_length) / cents);
        if (has_octave) { std::printf(" %16.1f cents", fret_error(old, n, octave_length(old)) / cents); }
        std::printf("\n");
    }
    std::printf(
        "\n+ is sharp: the fret stands too near the saddle. The saddle itself stands further back, by its compensation.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
