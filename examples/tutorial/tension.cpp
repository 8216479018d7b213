// Tutorial 1: how hard does one string pull, and how sure is that?
#include <cstdio>
#include <string>
#include <tautline/doubt/uncertainty.hpp>
#include <tautline/tautline.hpp>
#include <vector>

using namespace tautline;
using namespace tautline::units;

int main() {
    // A number with three slopes: by gauge, by length, by pitch.
    using number = dual<double, 3>;
    const auto gauge = number::variable(12 * thou / metre, 0) * metre;
    const auto speaking_length = number::variable(645 * mm / metre, 1) * metre;
    const auto pitch = number::variable(pitch_of("E4") / Hz, 2) * Hz;
    const auto pull = tension(plain_string(over<number>(music_wire()), gauge), speaking_length, pitch);

    // Give or take at the bench, and half of it: the standard uncertainty.
    const std::vector<std::string> names{"gauge, 0.002 mm", "length, 0.5 mm", "pitch, 2 cents"};
    const std::vector<force<>> parts{contribution(pull, 0, 0.002 * mm / metre / 2),
                                     contribution(pull, 1, 0.5 * mm / metre / 2),
                                     contribution(pull, 2, pitch_of("E4") / Hz * 2 / 1731 / 2)};
    std::printf("E4 pulls %.1f N, give or take %.1f N\n", (pull / N).value,
                coverage_factor * combined_uncertainty<unit::force>(parts) / N);
    for (const auto& line : budget<unit::force>(names, parts)) {
        std::printf("  %-16s makes %4.1f %% of it\n", line.input.c_str(), 100 * line.share);
    }
}
