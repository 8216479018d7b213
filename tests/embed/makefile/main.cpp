#include <cstdio>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>
#include <tautline/version.hpp>

int main() {
    using namespace tautline;
    using namespace tautline::units;
    static_assert(TAUTLINE_VERSION >= 100);
    const auto pull = tension(plain_string(music_wire(), 11 * thou), 22.0625 * inch, pitch_of("E4"));
    std::printf("%.1f N\n", pull / N);
}
