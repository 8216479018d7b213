// A parameter beside a model is a door too.
// expected: a LENGTH is needed here: write 12*thou, 25.5*inch or 640*mm
// forbidden: no match for
// forbidden: no matching function
#include <tautline/board/board.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 100
#else
#define GIVEN 100 * mm
#endif

using namespace tautline;
using namespace tautline::units;

const auto half = half_width_at(board(), GIVEN);
