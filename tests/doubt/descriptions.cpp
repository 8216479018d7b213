#include <tautline/doubt/stated_doubts.hpp>
#include <tautline/doubt/sweep.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("doubt: descriptions leave no member out") { CHECK(described::gaps<basic_correlated_readings>() == ""); }

TEST_CASE("doubt: what is worked out is nothing before it is filled") {
    CHECK(!uncertain_result{}.value.has_value());
    CHECK(!doubt{}.standard.has_value());
    CHECK(moved_leaf{}.factor == 1);
    CHECK(sweep_settings{}.threads == 0);
    CHECK(sweep_problem{}.row == 0);
    CHECK(sweep_table{}.rows == 0);
    CHECK(correlation{}.first == 0);
    CHECK(correlation{}.second == 0);
    CHECK(correlation{}.coefficient == 0);
    CHECK(budget_line<double>{}.share == 0);
}
