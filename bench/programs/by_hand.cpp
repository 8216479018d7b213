// The README's program written on Boost.Units alone: what its questions cost without a library, its checks, tables and
// names.
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace bu = boost::units;
namespace si = boost::units::si;
using std::numbers::pi;
using length = bu::quantity<si::length>;

int main() {
    const length inch = 0.0254 * si::metre, gauge = 11e-3 * inch, scale_length = 22.0625 * inch;
    const auto density = 7850.0 * si::kilogram_per_cubic_meter;
    const bu::quantity<si::frequency> pitch = 440 * std::exp2(-5 / 12.0) * si::hertz;
    const auto wave = 2.0 * scale_length * pitch;
    const bu::quantity<si::force> pull = density * (pi / 4 * gauge * gauge) * wave * wave;
    std::printf("E4 on %.1f mm: %.1f N (%.2f lbf)\n", scale_length.value() * 1000, pull.value(),
                pull.value() / 4.4482216152605);

    const length slot_z = 0.0013 * si::metre, saddle_z = 0.0055 * si::metre, tail_x = 0.66 * si::metre,
                 tail_z = -0.012 * si::metre;
    const double ahead = std::atan2((saddle_z - slot_z).value(), scale_length.value());
    const double behind = std::atan2((tail_z - saddle_z).value(), (tail_x - scale_length).value());
    const bu::quantity<si::force> down = pull * (std::sin(ahead) - std::sin(behind));
    std::printf("at the saddle it bends by %.1f deg and presses with %.1f N\n", (ahead - behind) * 180 / pi, down.value());

    const length at = scale_length * (1 - std::exp2(-1.0));
    const length action = slot_z + (saddle_z - slot_z) * double(at / scale_length) - 0.0008 * si::metre;
    std::printf("over the octave fret it stands %.2f mm high\n", action.value() * 1000);
}
