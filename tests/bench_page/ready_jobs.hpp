#pragma once
/// @file
/// Jobs of the ready-made kinds, read as the program reads them, and answered.

#include <string>
#include <vector>

#include <job.hpp>
#include <tautline/job/answer.hpp>
#include <whole_job.hpp>

namespace paged {

/// A job that was read, and its answers.
struct answered {
    job_file::read_job read;
    tautline::job_answers a;

    [[nodiscard]] bench_sheet::whole_job whole() const { return {read.job, a}; }
};
/// The answers to a text. Many tests ask for the same: it is answered once and kept.
/// @param doubts whether usual doubts count, which take most of the time
const answered& answer_text(const std::string& toml, bool doubts = false);
/// The ready-made kinds by their names.
std::vector<std::string> kinds();
/// The text that `--new KIND` writes.
std::string text_of(const std::string& kind);
/// The same with lower action and lower slots wished for.
std::string planned_text_of(const std::string& kind);

} // namespace paged
