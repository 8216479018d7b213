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
/// The same with a plan, measured all round: it does not move at all.
inline bench_job planned_for_a_year() {
    using namespace tautline::units;
    auto j = job_of_a_year();
    j.season->bow = 0.0;
    j.season->top = 0 * mm;
    j.season->stiffness = 0;
    j.wanted = wishes{};
    j.wanted->action_bass = 2.2 * mm;
    j.wanted->action_treble = 1.8 * mm;
    j.wanted->first_fret_bass = 0.6 * mm;
    return j;
}

} // namespace demo
