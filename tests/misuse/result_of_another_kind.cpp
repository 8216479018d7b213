// Tension times length is a moment, not a force.
// expected: a FORCE is needed here: write 70*N, 16*lbf or 7*kgf
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 2 * mm
#else
#define GIVEN 2
#endif

using namespace tautline;
using namespace tautline::units;

struct bridge {
    field<force<>> down{};
};
const bridge b{.down = 35 * N * GIVEN};
