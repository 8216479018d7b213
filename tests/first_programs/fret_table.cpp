// A maker: where are the frets of a 25 1/2 inch scale, to the nearest sixty-fourth?
// prints: 1  1 7/16 in
// prints: 12  12 3/4 in
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;

int main() {
    const auto scale_length = *parse_quantity<length<>>("25 1/2 in");
    for (int fret = 1; fret <= 12; ++fret) {
        const auto place = equal_step_position(scale_length, fret);
        std::printf("%d  %s\n", fret, to_fraction_text(place).c_str());
    }
}
