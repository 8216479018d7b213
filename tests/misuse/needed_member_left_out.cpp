// A member without a fair default stands in every braced list. g++ names the member in a warning below, clang in a note.
// expected: needed
// expected: crown_height
#include <tautline/board/fret_wire.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN
#else
#define GIVEN .crown_height = 1 * mm,
#endif

using namespace tautline;
using namespace tautline::units;

const fret_wire wire{GIVEN.crown_width = 2 * mm};
