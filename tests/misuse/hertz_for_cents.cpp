// An interval is not a difference of frequencies.
// expected: interval
#include <tautline/core/interval.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 5 * Hz
#else
#define GIVEN 5 * cents
#endif

using namespace tautline;
using namespace tautline::units;

const interval<> detune = GIVEN;
