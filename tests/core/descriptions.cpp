#include <tautline/core/climate.hpp>
#include <tautline/core/describe.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("core: descriptions leave no member out") { CHECK(described::gaps<basic_climate>() == ""); }

TEST_CASE("core: what each member may be, told a second time") {}
