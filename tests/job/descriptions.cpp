#include <tautline/job/bench_step.hpp>
#include <tautline/job/compare.hpp>
#include <tautline/job/explanation.hpp>
#include <tautline/job/meaning.hpp>
#include <tautline/job/setup_plan.hpp>
#include <tautline/job/wishes.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("job: descriptions leave no member out") {
    CHECK(described::gaps<basic_reset_plan>() == "");
    CHECK(described::gaps<basic_pin_range>() == "");
    CHECK(described::gaps<basic_single_setting>() == "");
    // A plan's instruments, setups, shortfalls and remarks are no numbers of its own; nor is a string's construction a
    // result of a setup.
    CHECK(described::gaps<basic_setup_plan>() ==
          "after its begin, after reset, after reset_instead, after its begin, after reset, after reset_instead");
    CHECK(described::gaps<basic_reset_wish>() == "");
    CHECK(described::gaps<basic_wishes>() == "");
}

TEST_CASE("job: what each member may be, told a second time") {
    CHECK(described::ranges<basic_reset_wish>() == "saddle_height: at least 0.1 mm and at most 200 mm\n"
                                                   "heel_depth: more than 0 mm and at most 300 mm\n"
                                                   "pocket_length: more than 0 mm and at most 300 mm\n"
                                                   "leave: at least 0 mm and at most 20 mm\n"
                                                   "least_turn: at least -3.4 deg and at most 3.4 deg\n"
                                                   "most_turn: at least -3.4 deg and at most 3.4 deg\n"
                                                   "edge_depth: at least 0 mm and at most 100 mm");
    CHECK(described::ranges<basic_wishes>() == "relief: at least -5 mm and at most 5 mm\n"
                                               "first_fret_bass: more than 0 mm and at most 30 mm\n"
                                               "first_fret_treble: more than 0 mm and at most 30 mm\n"
                                               "action_bass: more than 0 mm and at most 30 mm\n"
                                               "action_treble: more than 0 mm and at most 30 mm\n"
                                               "action_fret: at least 2 and at most 240\n"
                                               "down_force: at least 0.1 N and at most 5000 N\n"
                                               "saddle_break: at least 0.1 deg and at most 90 deg\n"
                                               "most_rod_pull: at least 0.1 N and at most 100000 N\n"
                                               "lowest_slot: at least -2 mm and at most 20 mm\n"
                                               "lowest_saddle: at least 0.1 mm and at most 200 mm\n"
                                               "highest_saddle: at least 0.1 mm and at most 200 mm\n"
                                               "hinge_lowest: at least -150 mm and at most 150 mm\n"
                                               "hinge_highest: at least -150 mm and at most 150 mm");
}

TEST_CASE("job: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_reset_wish>() == "least_turn: -3.4 deg\n"
                                                     "most_turn: 3.4 deg");
    CHECK(described::defaults<basic_wishes>() == "most_rod_pull: 3000 N\n"
                                                 "hinge_lowest: -40 mm\n"
                                                 "hinge_highest: 20 mm");
    CHECK(described::defaults<basic_reset_plan>() == "");
    CHECK(described::defaults<basic_pin_range>() == "");
    CHECK(described::defaults<basic_single_setting>() == "");
    CHECK(described::defaults<basic_setup_plan>() == "");
}

TEST_CASE("job: what is worked out is nothing before it is filled") {
    CHECK(result_meaning{}.step == 0);
    CHECK(result_meaning{}.share == 0);
    const setup_change change{};
    CHECK(!change.found.has_value());
    CHECK(!change.planned.has_value());
    CHECK(change.weight == 0);
    CHECK(!explanation{}.value.has_value());
    CHECK(!moving_input{}.value.has_value());
    CHECK(!moving_input{}.effect.has_value());
    CHECK_FALSE(step_line{}.is_change);
    CHECK(basic_setup_plan<double>().action_fret == 0);
    CHECK_FALSE(basic_setup_plan<double>().saddle_at_limit);
    CHECK_FALSE(basic_setup_plan<double>().saddle_below_wood);
}
