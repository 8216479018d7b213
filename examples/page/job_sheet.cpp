// Makes the page of a job file, as bench_sheet writes it, or the list of mistakes in the file.

#include <job.hpp>
#include <page.hpp>
#include <ready_file.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/answer.hpp>
#include <tautline/job/numbered_paths.hpp>
#include <tautline/strings/wire_materials.hpp>
#include <tautline/version.hpp>

#include "answers.hpp"
#include "json.hpp"

namespace page {

namespace {

namespace tl = tautline;

/// The most mistakes that are listed. A file with more is no job file.
constexpr std::size_t most_mistakes_told = 100;

std::string mistake_json(std::uint32_t line, const std::string& sentence) {
    return json::object({{"line", json::number(line)}, {"sentence", json::text(sentence)}});
}
/// "ten string cittern" for "ten_string_cittern".
std::string words_of(std::string_view name) {
    std::string words(name);
    for (char& c : words) { c = c == '_' ? ' ' : c; }
    return words;
}

} // namespace

std::string choices() {
    std::vector<std::string> materials, instruments;
    for (const auto& m : tl::wire_materials()) { materials.push_back(json::text(m.name)); }
    for (const auto& one : tl::ready_made::all()) {
        instruments.push_back(json::object({{"name", json::text(one.name)}, {"words", json::text(words_of(one.name))}}));
    }
    return json::object({{"materials", json::list(materials)},
                         {"instruments", json::list(instruments)},
                         {"version", json::text(tl::version_text)}});
}

std::string starting_job(const question& q) {
    const auto* found = tl::ready_made::find_instrument(q.value("instrument"));
    tl::require_that(found != nullptr, "instrument", "must be one of the ready-made instruments");
    return json::object(
        {{"text", json::text(job_file::ready_file(found->make(), "To begin with: " + words_of(found->name)))}});
}

std::string job_sheet(const question& q) {
    const job_file::read_job read = job_file::parse_job(q.rest());
    std::vector<std::string> mistakes;
    const auto told = [&](std::uint32_t line, const std::string& sentence) {
        if (mistakes.size() < most_mistakes_told) { mistakes.push_back(mistake_json(line, sentence)); }
    };
    for (const job_file::mistake& m : read.mistakes) { told(m.line, m.text); }
    std::string html;
    if (read.mistakes.empty()) {
        try {
            const tl::job_answers answers = tl::answer(read.job);
            const std::string_view units = q.value("units");
            html = bench_sheet::bench_page({read.job, answers}, units == "imperial" ? tl::measures::imperial
                                                                : units == "both"   ? tl::measures::both
                                                                                    : tl::measures::metric);
        } catch (const tl::invalid_input& e) {
            const auto names = tl::names_of(tl::courses_of(read.job.instrument), read.job.strings);
            for (tl::problem p : e.problems()) {
                const auto line = p.field.empty() ? 0 : job_file::line_near(p.field, read.file);
                p.field = tl::path_with_string(p.field, names);
                told(line, job_file::shown(p.sentence()));
            }
        }
    }
    return json::object({{"mistakes", json::list(mistakes)},
                         {"title", json::text(job_file::shown(read.job.title))},
                         {"html", json::text(html)}});
}

} // namespace page
