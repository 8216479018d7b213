// A wound string from two diameters that do not say which of gauge, core and wrap they are.
// expected: a wound string takes its GAUGE and its CORE by name
// expected: .gauge = 46 * thou, .core = 18 * thou
// forbidden: no match for
// forbidden: no matching function
#include <tautline/strings/music_string.hpp>
#include <tautline/strings/wire_materials.hpp>
#include <tautline/strings/wound_string.hpp>

using namespace tautline;
using namespace tautline::units;

#ifdef MISTAKE
const auto s = wound_string(music_wire(), 46 * thou, phosphor_bronze(), 18 * thou);
#else
const auto s = wound_string(
    {.gauge = 46 * thou, .core = 18 * thou, .core_material = music_wire(), .wrap_material = phosphor_bronze()});
#endif
