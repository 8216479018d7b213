// Any bytes as a job file: read, or refused with mistakes that a terminal can show.
#include <cstdint>
#include <cstdlib>

#include "job.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const job_file::read_job read = job_file::parse_job(text);
    for (const auto& m : read.mistakes) {
        if (m.text.empty() || job_file::shown(m.text) != m.text) { std::abort(); }
    }
    // A file without mistakes holds what can be solved: the library's own rules find nothing.
    if (read.mistakes.empty() && !tautline::validate(tautline::strung_as_found(read.job)).empty()) { std::abort(); }
    return 0;
}
