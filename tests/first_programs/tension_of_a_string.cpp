// A student: what does an E string of 0.30 mm pull, and what does Mersenne's law give by hand, without the stretch?
// prints: 67.4 N, by hand 67.7 N
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const auto string = plain_string(music_wire(), 0.30 * mm);
    const auto pull = tension(string, 530 * mm, pitch_of("E4"));
    const auto mu = 7850 * kg_per_m3 * 3.14159265 / 4.0 * (0.30 * mm) * (0.30 * mm);
    const auto speed = 2 * (530 * mm) * pitch_of("E4");
    std::printf("%.1f N, by hand %.1f N\n", pull / N, mu * speed * speed / N);
}
