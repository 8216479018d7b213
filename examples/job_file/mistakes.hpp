#pragma once
/// @file
/// What is wrong with a job file: line, key and what was expected, gathered until all of the file has been read.

#include <cstdint>
#include <string>
#include <string_view>

#include <tautline/core/near_names.hpp>

#include "../text/shown.hpp"

namespace job_file {

/// One mistake in a job file.
struct mistake {
    std::uint32_t line = 0; ///< 1 is the first; 0 where the file as a whole is meant
    std::string text;
    std::string path{}; ///< of the key it is about, where it is about one
};

using safe_text::shown;
using tautline::nearest;
using tautline::nearest_or;

} // namespace job_file
