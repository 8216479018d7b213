// A member with a derivative in a model without.
// expected: this NUMBER TYPE does not fit the model beside it: carry the model over
// forbidden: no match for
// forbidden: no matching function
#include <tautline/board/fret_wire.hpp>
#include <tautline/core/units.hpp>

using namespace tautline;
using namespace tautline::units;

using number_type = dual<double, 1>;

#ifdef MISTAKE
#define GIVEN double
#else
#define GIVEN number_type
#endif

const basic_fret_wire<GIVEN> wire{.crown_height = number_type::variable(1.1, 0) * mm, .crown_width = 2 * mm};
