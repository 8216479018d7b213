#pragma once
/// @file
/// A whole job for the tests: the invented four courses, strings as they are ordered.

#include <tautline/job/bench_job.hpp>

#include "setup/demo.hpp"

namespace demo {

inline std::vector<ordered_string> ordered_pairs() {
    std::vector<ordered_string> list;
    const auto pair = [&](const char* note, double gauge, double core) {
        ordered_string s{.note = note, .gauge = gauge * thou};
        if (core > 0) {
            s.core = core * thou;
            s.wrap = "phosphor bronze";
        }
        for (int k = 0; k < 2; ++k) { list.push_back(s); }
    };
    pair("G2", 39, 18);
    pair("D3", 26, 14);
    pair("A3", 16, 0);
    pair("E4", 11, 0);
    return list;
}

/// As found; nothing is planned or wanted.
inline bench_job job_as_found() {
    bench_job j;
    j.title = "four courses";
    j.instrument = four_course();
    j.details.slot = slot{.depth = 2 * mm, .width = 0.6 * mm};
    j.strings = ordered_pairs();
    return j;
}

} // namespace demo
