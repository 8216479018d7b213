#include <doctest/doctest.h>
#include <tautline/core/format.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("format: a header that is included brings quantities into std::format, or nothing where there is none") {
#ifdef __cpp_lib_format
    const field<length<>> gap = 0.25 * mm;
    const needed<length<>> width = 43 * mm;
    CHECK(std::format("gap {}, {}, pull {}, off {}", gap, width, 70.5 * N, interval<>::from_cents(-3)) ==
          "gap 0.25 mm, 43 mm, pull 70.5 N, off -3 cents");
    CHECK(std::format("{:>10}|{:<8}|{:*^9}", 0.25 * mm, 12 * deg, any_quantity(1 * N)) == "   0.25 mm|12 deg  |***1 N***");
#endif
    CHECK(to_text(0.25 * mm) == "0.25 mm");
}
