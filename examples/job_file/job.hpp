#pragma once
/// @file
/// A job file: the library's own job in the trade's words, a quantity as text with its unit.

#include <map>

#include <tautline/job/bench_job.hpp>

#include "mistakes.hpp"

namespace job_file {

namespace tl = tautline;

/// Notes about a file, beside its values.
struct file_notes {
    std::map<std::string, std::uint32_t> lines{};     ///< the line of each key and section
    std::map<std::string, tl::any_quantity> doubts{}; ///< standard uncertainty, by path
    std::vector<std::string> given{};                 ///< keys that hold a value or a list of sections
};

/// The result of reading a job file: a job to work on, or the mistakes in the file.
struct read_job {
    tl::bench_job job;
    std::vector<mistake> mistakes{};
    file_notes file{};
};

/// The largest job file that is read. A real one has some ten thousand characters.
inline constexpr std::size_t longest_job_file = 1 << 20;

/// The line of a key, or of the nearest section above it; 0 if there is neither.
std::uint32_t line_near(std::string path, const file_notes& file);

/// Reads a job from the text of a file. While there are mistakes, no part of the job may be used.
read_job parse_job(std::string_view text);

} // namespace job_file
