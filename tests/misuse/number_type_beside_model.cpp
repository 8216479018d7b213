// A gauge with a derivative beside a material without: the material is to be carried over first.
// expected: this NUMBER TYPE does not fit the model beside it: carry the model over, as in
// expected: over<dual<double, 2>>(music_wire())
// forbidden: no match for
// forbidden: no matching function
#include <tautline/strings/music_string.hpp>
#include <tautline/strings/wire_materials.hpp>

using namespace tautline;
using namespace tautline::units;

using number_type = dual<double, 1>;

#ifdef MISTAKE
#define GIVEN music_wire()
#else
#define GIVEN over<number_type>(music_wire())
#endif

const auto s = plain_string(GIVEN, number_type::variable(0.28, 0) * mm);
