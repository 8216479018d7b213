// A height is not so many newtons.
// expected: a quantity is read as a number in a unit of its own KIND
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN N
#else
#define GIVEN mm
#endif

using namespace tautline;
using namespace tautline::units;

double shown(length<> height) { return height / GIVEN; }
