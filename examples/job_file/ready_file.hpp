#pragma once
/// @file
/// A job file that holds a ready-made instrument, to begin with.

#include <string>

#include <tautline/instrument/ordered_instrument.hpp>

namespace job_file {

/// The keys and values of an instrument and its strings as a job file has them, each key's words behind its first value.
/// Keys that hold what they hold when left out are left out.
std::string ready_file(const tautline::ordered_instrument& made, const std::string& title);

} // namespace job_file
