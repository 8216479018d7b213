#include <tautline/action/clearance.hpp>
#include <tautline/action/height.hpp>
#include <tautline/action/height_plan.hpp>
#include <tautline/action/intonation.hpp>
#include <tautline/action/neck_set.hpp>
#include <tautline/action/object_clearance.hpp>
#include <tautline/action/pluck.hpp>
#include <tautline/action/sounding_string.hpp>
#include <tautline/action/straight_saddle.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("action: descriptions leave no member out") {
    CHECK(described::gaps<basic_least_clearance>() == "");
    CHECK(described::gaps<basic_string_line>() == "");
    CHECK(described::gaps<basic_height_wish>() == "");
    CHECK(described::gaps<basic_finger_press>() == "");
    CHECK(described::gaps<basic_pressed_note>() == "");
    CHECK(described::gaps<basic_neck_joint>() == "");
    CHECK(described::gaps<basic_neck_set>() == "");
    CHECK(described::gaps<basic_flat_object>() == "");
    CHECK(described::gaps<basic_clean_pluck>() == "");
    CHECK(described::gaps<basic_sounding_string>() == "");
    CHECK(described::gaps<basic_straight_saddle>() == "");
}
