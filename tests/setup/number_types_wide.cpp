// A whole solve over the widest kinds of number. In a file of its own: it takes the compiler a minute and a gigabyte.
#include <boost/multiprecision/cpp_bin_float.hpp>

#include "number_types.hpp"

using namespace tautline;

TEST_CASE("a whole solve in duals of duals and in fifty digits says what double says") {
    const auto want = number_types::in_double();
    // A plain solve takes places side by side in rows, whose logarithms round in their own way, and finds setbacks by
    // secants.
    CHECK(number_types::worst<dual<dual<double, 1>, 1>>(want, 1e-4) < 1e-10);
    CHECK(number_types::worst<boost::multiprecision::cpp_bin_float_50>(want, 1e-4) < 1e-9);
}
