// Scale length and pitch change places.
// expected pattern: wanted_are<.*LINEAR_DENSITY.*LENGTH.*FREQUENCY>|wanted are a LINEAR DENSITY, a LENGTH
#include <tautline/core/units.hpp>
#include <tautline/strings/tension.hpp>

#ifdef MISTAKE
#define GIVEN 330 * Hz, 25.5 * inch
#else
#define GIVEN 25.5 * inch, 330 * Hz
#endif

using namespace tautline;
using namespace tautline::units;

const auto pull = tension(0.56 * g_per_m, GIVEN);
