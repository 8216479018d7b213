#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const auto string = plain_string(music_wire(), 11 * thou);
    const auto scale_length = 22.0625 * inch;
    const auto pull = tension(string, scale_length, pitch_of("E4"));
    std::printf("E4 on %.1f mm: %.1f N (%.2f lbf), %.0f %% of the wire's least strength\n", scale_length / mm, pull / N,
                pull / lbf, 100 * *share_of_strength(string, pull));

    const point slot{.z = 1.3 * mm}, saddle{.x = scale_length, .z = 5.5 * mm}, tail{.x = 660 * mm, .z = -12 * mm};
    const auto load = support_load(slot, saddle, tail, pull);
    std::printf("at the saddle it bends by %.1f deg and presses with %.1f N\n", load.break_angle / deg, load.down() / N);

    const string_line line{.nut_z = slot.z, .saddle_x = saddle.x, .saddle_z = saddle.z};
    const auto action = height_over(line, equal_step_position(scale_length, 12), 0.8 * mm);
    std::printf("over the octave fret it stands %.2f mm high\n", action / mm);
}
