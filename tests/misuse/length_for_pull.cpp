// A model's parameter that wants a force.
// expected: a FORCE is needed here: write 70*N, 16*lbf or 7*kgf
// forbidden: no match for
// forbidden: no matching function
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 70 * mm
#else
#define GIVEN 70 * N
#endif

using namespace tautline;
using namespace tautline::units;

struct bridge {
    field<force<>> down{};
};
const bridge b{.down = GIVEN};
