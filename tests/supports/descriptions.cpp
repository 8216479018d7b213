#include <tautline/supports/break_angle.hpp>
#include <tautline/supports/bridge.hpp>
#include <tautline/supports/bridge_adjusters.hpp>
#include <tautline/supports/floating_bridge.hpp>
#include <tautline/supports/friction.hpp>
#include <tautline/supports/nut.hpp>
#include <tautline/supports/pinned_bridge.hpp>
#include <tautline/supports/tailpiece.hpp>
#include <tautline/supports/tailpiece_plan.hpp>
#include <tautline/supports/top.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("supports: descriptions leave no member out") {
    CHECK(described::gaps<basic_point>() == "");
    CHECK(described::gaps<basic_support_force>() == "");
    CHECK(described::gaps<basic_support_load>() == "");
    CHECK(described::gaps<basic_bridge_string>() == "");
    CHECK(described::gaps<basic_bridge_adjusters>() == "");
    CHECK(described::gaps<basic_adjuster_moves>() == "");
    CHECK(described::gaps<basic_side_point>() == "");
    CHECK(described::gaps<basic_floating_bridge>() == "");
    CHECK(described::gaps<basic_bridge_stand>() == "");
    CHECK(described::gaps<basic_bridge_summary>() == "");
    CHECK(described::gaps<basic_friction>() == "");
    CHECK(described::gaps<basic_interval_range>() == "");
    CHECK(described::gaps<basic_headstock>() == "");
    CHECK(described::gaps<basic_tuner_post>() == "");
    CHECK(described::gaps<basic_pinned_bridge>() == "");
    CHECK(described::gaps<basic_pinned_load>() == "");
    CHECK(described::gaps<basic_hinged_tailpiece>() == "");
    CHECK(described::gaps<basic_tail_string>() == "");
    CHECK(described::gaps<basic_rigid_tailpiece>() == "");
    CHECK(described::gaps<basic_soundboard>() == "");
    CHECK(described::gaps<basic_top_give>() == "");
}
