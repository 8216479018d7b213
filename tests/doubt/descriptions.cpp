#include <tautline/doubt/read_season.hpp>
#include <tautline/doubt/stated_doubts.hpp>
#include <tautline/doubt/sweep.hpp>
#include <tautline/doubt/tolerance.hpp>
#include <tautline/doubt/uncertainty.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("doubt: descriptions leave no member out") {
    CHECK(described::gaps<basic_correlated_readings>() == "");
    CHECK(described::gaps<basic_read_season>() == "");
}

TEST_CASE("doubt: what each member of a season may be, told a second time") {
    CHECK(described::ranges<basic_read_season>() == "bow: at least -0.0002 and at most 0.0002\n"
                                                    "top: at least -0.5 mm and at most 0.5 mm\n"
                                                    "stiffness: at least -0.05 and at most 0.05");
}

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
