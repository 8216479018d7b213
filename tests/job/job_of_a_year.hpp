#pragma once
/// @file
/// The invented four courses with the airs of a year, for the tests: measured at 45 % of relative humidity, lived in
/// between 30 and 65 %. What moisture does to it nobody measured.

#include "job_of_demo.hpp"

namespace demo {

inline bench_job job_of_a_year() {
    bench_job j = job_as_found();
    j.adjusting.usual_doubts = false;
    j.season = noted_season{};
    j.season->measured_in = {.celsius = 21, .humidity = 45};
    j.season->dry = {.celsius = 21, .humidity = 30};
    j.season->damp = {.celsius = 21, .humidity = 65};
    return j;
}

} // namespace demo
