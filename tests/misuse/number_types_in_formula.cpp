// Two derivatives by different numbers of inputs do not meet in one formula.
// expected pattern: NUMBER.TYPES.do.not.mix.{1,2}carry.one.over
#include <tautline/core/units.hpp>
#include <tautline/strings/tension.hpp>

using namespace tautline;
using namespace tautline::units;

#ifdef MISTAKE
#define GIVEN dual<double, 1>::variable(70, 0) * N
#else
#define GIVEN dual<double, 2>::variable(70, 1) * N
#endif

const auto speed = wave_speed(dual<double, 2>::variable(0.56, 0) * g_per_m, GIVEN);
