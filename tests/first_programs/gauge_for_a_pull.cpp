// A student: which gauge of music wire pulls 70 N at A4 on 330 mm, and what does a spring of 60 N/mm pull at 1 mm?
// prints: 0.37 mm
// prints: 60 N
#include <cstdio>
#include <tautline/tautline.hpp>

using namespace tautline;
using namespace tautline::units;

int main() {
    const auto string = for_tension(music_wire(), 70 * N, 330 * mm, pitch_of("A4"));
    std::printf("%s\n", to_text(gauge(string), {.digits = 2}).c_str());
    const auto spring = 60 * N / mm;
    std::printf("%s\n", to_text(spring * (1 * mm)).c_str());
}
