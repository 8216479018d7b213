#pragma once
/// @file
/// A job file: the library's own job in the trade's words, a quantity as text with its unit.

#include <map>

#include <tautline/job/bench_job.hpp>

#include "mistakes.hpp"

namespace job_file {

namespace tl = tautline;

/// What is kept of a file beside the values.
struct file_notes {
    std::map<std::string, std::uint32_t> lines{};     ///< where each key and section stands
    std::map<std::string, tl::any_quantity> doubts{}; ///< standard uncertainty, by path
    std::vector<std::string> given{};                 ///< keys that hold a value or a list of sections
};

/// What became of reading a job file: a job to work on, or what is wrong with the file.
struct read_job {
    tl::bench_job job;
    std::vector<mistake> mistakes{};
    file_notes file{};
};

/// Largest job file that is read; a real one has some ten thousand characters.
inline constexpr std::size_t longest_job_file = 1 << 20;

/// The line of a key, or of the nearest section above it; 0 where there is neither.
std::uint32_t line_near(std::string path, const file_notes& file);

/// Reads a job from the text of a file. Nothing of it is usable while there are mistakes.
read_job parse_job(std::string_view text);

} // namespace job_file
