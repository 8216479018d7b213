#pragma once
/// @file
/// What is laid out at the bench, as a block of a sheet: the centre line at bridge and tail, wire piece by piece, dots,
/// gaps.

#include <string>

#include <tautline/job/bench_layout.hpp>
#include <tautline/job/job_state.hpp>

namespace job_file {

/// How what lies under the strings clears them, and how it would lie along them; empty where nothing does.
std::string objects_text(const tautline::job_state& j, tautline::measures units);

/// The block; empty where nothing is asked for.
std::string layout_text(const tautline::bench_layout& layout, tautline::measures units);

} // namespace job_file
