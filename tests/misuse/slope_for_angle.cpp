// A slope is a plain ratio; an angle says its degrees.
// expected: an ANGLE is needed here: write 14*deg
// forbidden: no match for
// forbidden: no matching function
#include <tautline/core/units.hpp>
#include <tautline/supports/nut.hpp>

#ifdef MISTAKE
#define GIVEN 0.24
#else
#define GIVEN 14 * deg
#endif

using namespace tautline;
using namespace tautline::units;

const headstock head{.pitch = GIVEN, .face_start = 5 * mm, .face_drop = 1 * mm};
