// A maker: frets by the rule of eighteen beside equal steps, in sixty-fourths, and quarter tones.
// prints: fret 12: 12 3/8 in, by eighteen 12 9/32 in
// prints: the last of 36 quarter tones: 387.9 mm
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const scale equal{.scale_length = 24.75 * inch, .frets = 22};
    scale eighteen = equal;
    eighteen.divisor = 18;
    const auto places = fret_positions(equal), old_places = fret_positions(eighteen);
    for (const std::size_t fret : {5U, 12U}) {
        std::printf("fret %zu: %s, by eighteen %s\n", fret, to_fraction_text(places[fret]).c_str(),
                    to_fraction_text(old_places[fret]).c_str());
    }
    const auto quarter_tones = fret_positions({.scale_length = 60 * cm, .steps = 24, .frets = 36});
    std::printf("the last of 36 quarter tones: %s\n", bench_text(quarter_tones.back()).c_str());
}
