// A developer: by how much does the pull rise for each hundredth of a millimetre of gauge?
// prints: 4.5 N for 0.01 mm
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    using number = dual<double, 1>;
    const auto gauge = number::variable(0.30, 0) * mm;
    const auto string = plain_string(over<number>(music_wire()), gauge);
    const auto pull = tension(string, 530 * mm, pitch_of("E4"));
    std::printf("%.1f N for 0.01 mm\n", (pull / N).partial[0] * 0.01);
}
