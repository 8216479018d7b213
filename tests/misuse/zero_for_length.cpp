// A zero has no unit: Boost's own quantity would take it in silence.
// expected: a LENGTH is needed here: write 12*thou, 25.5*inch or 640*mm
// forbidden: no match for
// forbidden: no matching function
#include <tautline/board/fret_wire.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 0
#else
#define GIVEN 0 * mm
#endif

using namespace tautline;
using namespace tautline::units;

const fret_wire wire{.crown_height = 1 * mm, .crown_width = GIVEN};
