#pragma once
/// @file
/// A job file that starts with a ready-made instrument.

#include <string>

#include <tautline/instrument/ordered_instrument.hpp>

namespace job_file {

/// The keys and values of an instrument and its strings as a job file writes them. A key's words follow its first value.
/// Keys that hold their presets are left out.
std::string ready_file(const tautline::ordered_instrument& made, const std::string& title);

} // namespace job_file
