// A tailpiece's height with a derivative, nut and saddle without.
// expected pattern: NUMBER.TYPES.do.not.mix.{1,2}carry.(one|each.point).over
#include <tautline/core/units.hpp>
#include <tautline/supports/break_angle.hpp>

using namespace tautline;
using namespace tautline::units;

using number_type = dual<double, 1>;
const point nut{.z = 1 * mm}, saddle{.x = 640 * mm, .z = 9 * mm};
const basic_point<number_type> tailpiece{.x = 750 * mm, .z = number_type::variable(-10, 0) * mm};

#ifdef MISTAKE
#define GIVEN nut, saddle
#else
#define GIVEN over<number_type>(nut), over<number_type>(saddle)
#endif

const auto load = support_load(GIVEN, tailpiece, 70 * N);
