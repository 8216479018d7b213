#include <sstream>

#include <doctest/doctest.h>
#include <tautline/core/stream.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("stream: a quantity is written with its unit, in the middle of other things") {
    std::ostringstream out;
    out << "gap " << 0.25 * mm << ", pull " << 70.5 * N << ", off " << interval<>::from_cents(-3) << ", "
        << any_quantity(12 * deg) << any_quantity() << '.';
    CHECK(out.str() == "gap 0.25 mm, pull 70.5 N, off -3 cents, 12 deg.");
    out.str("");
    out << 0.25f * mm << ", " << 70.5L * N << ", " << interval<float>::from_cents(-3);
    CHECK(out.str() == "0.25 mm, 70.5 N, -3 cents");
}
TEST_CASE("stream: width and fill are those of a text") {
    std::ostringstream out;
    out.width(10);
    out << 0.25 * mm;
    CHECK(out.str() == "   0.25 mm");
}
