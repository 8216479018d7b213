// A free formula asks for its kinds by name.
// expected pattern: wanted_are<.*LINEAR_DENSITY.*LENGTH.*FREQUENCY>|wanted are a LINEAR DENSITY, a LENGTH
#include <tautline/core/units.hpp>
#include <tautline/strings/tension.hpp>

#ifdef MISTAKE
#define GIVEN 330
#else
#define GIVEN 330 * Hz
#endif

using namespace tautline;
using namespace tautline::units;

const auto pull = tension(0.56 * g_per_m, 25.5 * inch, GIVEN);
