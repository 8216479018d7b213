// An embedding developer: everything in float, the same function in derivatives, and a promise kept by the compiler.
// prints: 88.12 N; a hundredth of a millimetre more gauge gives 6.29 N more, a millimetre more scale 0.27 N
#include <cstdio>
#include <tautline/core/dual.hpp>
#include <tautline/strings/pitch.hpp>
#include <tautline/strings/tension.hpp>
#include <tautline/strings/wire_materials.hpp>

namespace tl = tautline;
namespace u = tautline::units;

template <class R>
R newtons(R gauge_mm, R scale_mm, R hertz) {
    const auto wire = tl::over<R>(tl::music_wire());
    return tl::tension(tl::plain_string(wire, gauge_mm * u::mm), scale_mm * u::mm, hertz * u::Hz) / u::N;
}

static_assert(tl::tension(tl::plain_string(tl::music_wire(), 10 * u::thou), 648 * u::mm, tl::pitch_of("E4")) < 73 * u::N);

int main() {
    using slopes = tl::dual<float, 2>;
    const float pull = newtons(0.28F, 650.0F, 329.6F);
    const slopes moved = newtons<slopes>(slopes::variable(0.28F, 0), slopes::variable(650.0F, 1), 329.6F);
    std::printf("%.2f N; a hundredth of a millimetre more gauge gives %.2f N more, a millimetre more scale %.2f N\n",
                static_cast<double>(pull), static_cast<double>(moved.partial[0]) * 0.01,
                static_cast<double>(moved.partial[1]));
}
