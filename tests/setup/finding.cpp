#include <tautline/core/units.hpp>
#include <tautline/setup/finding.hpp>

#include <doctest/doctest.h>

using namespace tautline;
using namespace tautline::units;

TEST_CASE("a finding's number knows its kind, is given back in it only, or is none") {
    const any_quantity none, plain = 0.5, height = 1.5 * mm, pull = 60 * N;
    CHECK_FALSE(none.has_value());
    CHECK(none.kind().empty());
    CHECK(plain.kind() == "number");
    CHECK(plain.as<double>() == 0.5);
    CHECK(height.kind() == "length");
    CHECK(height.si() == (1.5 * mm).value());
    CHECK(height.as<length<>>() == 1.5 * mm);
    CHECK(pull.as<force<>>() == 60 * N);
    CHECK_THROWS_AS((void)pull.as<length<>>(), invalid_input);
    CHECK_THROWS_AS((void)none.as<double>(), invalid_input);
}
