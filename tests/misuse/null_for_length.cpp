// Nor has a null pointer.
// expected: a LENGTH is needed here: write 12*thou, 25.5*inch or 640*mm
// forbidden: no match for
// forbidden: no matching function
#include <tautline/board/fret_wire.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN nullptr
#else
#define GIVEN 1 * mm
#endif

using namespace tautline;
using namespace tautline::units;

const fret_wire wire{.crown_height = GIVEN, .crown_width = 2 * mm};
