// Tutorial 2: the same string's frets, in millimetres and sixty-fourths, and the same frets as a fan.
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const auto places = fret_positions({.scale_length = 645 * mm, .frets = 20});

    // The treble keeps its 645 mm; the bass gets 670 mm. Fret 7 stands square.
    const fan two_scales{.bass_scale = 670 * mm,
                         .treble_scale = 645 * mm,
                         .square_fret = 7,
                         .frets = 20,
                         .y_bass_at_nut = -18.5 * mm,
                         .y_treble_at_nut = 18.5 * mm,
                         .y_bass_at_saddle = -27 * mm,
                         .y_treble_at_saddle = 27 * mm};

    std::puts("fret  from the nut               fan: bass end  treble end  leans");
    for (const int fret : {1, 2, 5, 7, 12, 14, 20}) {
        const auto place = places[static_cast<std::size_t>(fret)];
        const auto line = fret_line(two_scales, fret);
        std::printf("%4d  %6.2f mm  %14s      %7.2f mm  %7.2f mm  %+4.1f deg\n", fret, place / mm,
                    to_fraction_text(place).c_str(), line.bass.x / mm, line.treble.x / mm, fret_angle(line) / deg);
    }
}
