// Where do the frets go? Distances from the nut for a scale; for twelve steps beside the old rule of 18.
//
//   fret_positions ["scale length" [frets [steps]]]      fret_positions "25 1/2 in" 22

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <cstring>
#include <exception>

#include <tautline/board/scale.hpp>
#include <tautline/core/quantity_text.hpp>

using namespace tautline;
using namespace tautline::units;

namespace {

int whole_from(const char* text) {
    int n = 0;
    const char* end = text + std::strlen(text);
    const auto read = std::from_chars(text, end, n);
    require_that(read.ec == std::errc() && read.ptr == end, text, "must be a whole number");
    return n;
}

} // namespace

int main(int argc, char** argv) try {
    scale equal{.scale_length = 560 * mm, .frets = 20};
    if (argc > 1) { equal.scale_length = quantity_from_text<length<>>(argv[1], "scale length"); }
    if (argc > 2) { equal.frets = whole_from(argv[2]); }
    if (argc > 3) { equal.steps = whole_from(argv[3]); }
    const auto places = fret_positions(equal);
    const auto spaces = fret_spacings(equal);
    scale old = equal;
    old.frets = std::max(equal.frets, equal.steps); // up to its octave
    old.divisor = 18.0;
    const bool compare = equal.steps == 12;

    std::printf("Scale %.2f mm (%.3f in), %d steps to the octave. Distances from the front face of the nut.\n\n",
                equal.scale_length / mm, equal.scale_length / inch, equal.steps);
    if (compare) { std::printf("                                         rule of 18: off by, saddle at the\n"); }
    std::printf("fret   place mm   place in   space mm%s\n", compare ? "   length divided   twice its octave" : "");
    for (int n = 1; n <= equal.frets; ++n) {
        const auto i = static_cast<std::size_t>(n);
        std::printf("%4d %10.2f %10.3f %10.2f", n, places[i] / mm, places[i] / inch, spaces[i - 1] / mm);
        if (compare) {
            std::printf(" %10.1f cents %12.1f cents", fret_error(old, n, old.scale_length) / cents,
                        fret_error(old, n, octave_length(old)) / cents);
        }
        std::printf("\n");
    }
    if (compare) { std::printf("\n+ is sharp: the fret stands too near the saddle.\n"); }
    std::printf("The saddle itself stands further back than the scale length, by its compensation.\n");
} catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
}
