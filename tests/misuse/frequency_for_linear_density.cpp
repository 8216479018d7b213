// The string's mass per length is not its pitch.
// expected pattern: wanted_are<.*LINEAR_DENSITY.*LENGTH.*FREQUENCY>|wanted are a LINEAR DENSITY, a LENGTH
#include <tautline/core/units.hpp>
#include <tautline/strings/tension.hpp>

#ifdef MISTAKE
#define GIVEN 330 * Hz
#else
#define GIVEN 0.56 * g_per_m
#endif

using namespace tautline;
using namespace tautline::units;

const auto pull = tension(GIVEN, 25.5 * inch, 330 * Hz);
