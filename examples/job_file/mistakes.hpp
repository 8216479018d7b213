#pragma once
/// @file
/// Mistakes in a job file: line, key and what was expected. They are collected until the whole file is read.

#include <cstdint>
#include <string>
#include <string_view>

#include <tautline/core/near_names.hpp>

#include "../text/shown.hpp"

namespace job_file {

/// One mistake in a job file.
struct mistake {
    std::uint32_t line = 0; ///< from 1; 0 means the file as a whole
    std::string text;
    std::string path{}; ///< of its key, if it is about one
};

using safe_text::shown;
using tautline::nearest;
using tautline::nearest_or;

} // namespace job_file
