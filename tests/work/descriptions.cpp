#include <tautline/work/bench_work.hpp>
#include <tautline/work/reset.hpp>
#include <tautline/work/work_done.hpp>

#include <doctest/doctest.h>

#include "described.hpp"

using namespace tautline;

TEST_CASE("work: descriptions leave no member out") {
    CHECK(described::gaps<basic_board_details>() == "");
    CHECK(described::gaps<basic_sanding>() == "");
    CHECK(described::gaps<basic_fret_levelling>() == "");
    CHECK(described::gaps<basic_bench_work>() == "");
    CHECK(described::gaps<basic_reset>() == "");
    CHECK(described::gaps<basic_work_numbers>() == "");
}

TEST_CASE("work: what each member may be, told a second time") {
    CHECK(described::ranges<basic_board_details>() == "binding_height: at least 0.1 mm and at most 30 mm\n"
                                                      "binding_thickness: at least 0 mm and at most 30 mm\n"
                                                      "inlay_thickness: at least 0.01 mm and at most 30 mm");
    CHECK(described::ranges<basic_sanding>() == "radius: at least 1 mm and at most 1000000000 mm\n"
                                                "radius_at_end: at least 1 mm and at most 1000000000 mm\n"
                                                "cone_length: at least 1 mm and at most 3000 mm\n"
                                                "hollow: at least 0 mm and at most 3 mm\n"
                                                "allowance: at least 0 mm and at most 10 mm\n"
                                                "slot_clearance: at least 0 mm and at most 30 mm\n"
                                                "least_edge: at least 0 mm and at most 30 mm\n"
                                                "least_binding: at least 0 mm and at most 30 mm\n"
                                                "least_inlay: at least 0 mm and at most 30 mm");
    CHECK(described::ranges<basic_fret_levelling>() == "hollow: at least 0 mm and at most 3 mm\n"
                                                       "least_crown: at least 0 mm and at most 10 mm");
    CHECK(described::ranges<basic_reset>() == "turn: at least -3.4 deg and at most 3.4 deg\n"
                                              "leave: at least 0 mm and at most 20 mm\n"
                                              "edge_depth: at least 0 mm and at most 100 mm");
}

TEST_CASE("work: what each member is unless told otherwise, told a second time") {
    CHECK(described::defaults<basic_sanding>() == "slot_clearance: 0.3 mm\n"
                                                  "least_edge: 2 mm");
    CHECK(described::defaults<basic_fret_levelling>() == "least_crown: 0.5 mm");
    CHECK(described::defaults<basic_board_details>() == "");
    CHECK(described::defaults<basic_bench_work>() == "");
    CHECK(described::defaults<basic_reset>() == "turn: not a number");
    CHECK(described::defaults<basic_work_numbers>() == "");
}

TEST_CASE("work: what is worked out is nothing before it is filled") { CHECK(basic_levelling_way<double>{}.too_low == 0); }
