#include "ready_jobs.hpp"

#include <map>
#include <utility>

#include <doctest/doctest.h>

#include <keys.hpp>
#include <sheet.hpp>

namespace paged {

const answered& answer_text(const std::string& toml, bool doubts) {
    static std::map<std::pair<std::string, bool>, answered> kept;
    if (const auto at = kept.find({toml, doubts}); at != kept.end()) { return at->second; }
    job_file::read_job read = job_file::parse_job(toml);
    for (const auto& m : read.mistakes) { FAIL_CHECK(m.line << ": " << m.text); }
    read.job.adjusting.usual_doubts = doubts;
    tautline::job_answers a = bench_sheet::answers_of(read.job);
    return kept.emplace(std::pair(toml, doubts), answered{std::move(read), std::move(a)}).first->second;
}
std::vector<std::string> kinds() {
    std::vector<std::string> names;
    for (const auto& k : job_file::starting_kinds()) { names.emplace_back(k.name); }
    return names;
}
std::string text_of(const std::string& kind) {
    for (const auto& k : job_file::starting_kinds()) {
        if (k.name == kind) { return job_file::starting_file(k); }
    }
    FAIL("no such kind");
    return {};
}
std::string planned_text_of(const std::string& kind) {
    // At the file's end, as a section may stand anywhere. A string with a nut of its own has no first fret.
    return text_of(kind) + "\n[wanted]\naction_bass = \"2.4 mm\"\naction_treble = \"2.0 mm\"\n" +
           (kind == "banjo" ? "" : "first_fret_bass = \"0.6 mm\"\nfirst_fret_treble = \"0.5 mm\"\n");
}

} // namespace paged
