#include <tautline/core/climate.hpp>
#include <tautline/core/describe.hpp>
#include <tautline/core/invalid_input.hpp>
#include <tautline/core/line_fit.hpp>
#include <tautline/core/linear_programme.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("core: descriptions leave no member out") { CHECK(described::gaps<basic_climate>() == ""); }

TEST_CASE("core: what each member may be, told a second time") {}

TEST_CASE("core: what is worked out is nothing before it is filled") {
    CHECK_FALSE(allowed_range{}.low_open);
    CHECK_FALSE(allowed_range{}.high_open);
    CHECK_FALSE(messages::shown_number{}.shown);
    CHECK(basic_line_fit<double>{}.freedom == 0);
    CHECK(basic_programme_result<double>{}.value == 0);
    CHECK_FALSE(basic_programme_result<double>{}.degenerate);
    CHECK_FALSE(basic_programme_result<double>{}.unique);
}
