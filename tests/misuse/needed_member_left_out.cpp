// A member without a fair default stands in every braced list. clang tells its sentence and the member in notes below its
// first error, whose words are its own; g++ tells the first in the error's own line and the member in a warning below.
// expected pattern: needed<.*give_it_by_name>|chosen constructor is explicit
// expected pattern: give_it_by_name>|a needed member is left out of the braces: give it by name
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
