#pragma once
/// @file
/// The file that `--out` names: what must not be lost is not written over.

#include <optional>
#include <string>

#include <sys/stat.h>

#include "mistakes.hpp"

namespace bench_sheet {

using namespace job_file;

/// Whether two paths lead to one file, under whatever names and links.
inline bool same_file(const std::string& a, const std::string& b) {
    struct stat one {
    }, other{};
    return ::stat(a.c_str(), &one) == 0 && ::stat(b.c_str(), &other) == 0 && one.st_dev == other.st_dev &&
           one.st_ino == other.st_ino;
}

/// Why a file must not be written, or nothing where it may be.
/// @param job the job file that is read; empty where none is
/// @param only_new what is written is to begin with, and takes the place of nothing
inline std::optional<std::string> why_not_written(const std::string& out, const std::string& job, bool only_new) {
    if (!job.empty() && same_file(out, job)) {
        return "--out is \"" + shown(out) + "\", which is the job file itself; expected another file";
    }
    struct stat there {};
    if (only_new && ::stat(out.c_str(), &there) == 0 && S_ISREG(there.st_mode)) {
        return "--out is \"" + shown(out) + "\", which exists; expected a new file: --new replaces none";
    }
    return std::nullopt;
}

} // namespace bench_sheet
