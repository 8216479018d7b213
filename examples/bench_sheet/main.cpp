/// @file
/// bench_sheet: reads a job file, solves the setup and prints the sheet.
///
/// Exit codes: 0 the sheet was printed; 1 the sheet could not be written; 2 the job file or the command line is wrong.

#include <fstream>
#include <iostream>
#include <iterator>
#include <map>

#include <CLI/CLI.hpp>

#include "job.hpp"
#include "json_sheet.hpp"
#include "sheet.hpp"

namespace {

constexpr int wrote = 0, not_written = 1, wrong_input = 2;

/// The whole of a file, or nothing where it cannot be read.
std::optional<std::string> read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) { return std::nullopt; }
    std::string text;
    // One character more than is allowed is enough to know that the file is too long.
    text.resize(bench_sheet::longest_job_file + 1);
    file.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (file.bad()) { return std::nullopt; }
    text.resize(static_cast<std::size_t>(file.gcount()));
    return text;
}

int run(const std::string& path, bench_sheet::measures measures, bool json) {
    const std::optional<std::string> text = read_file(path);
    if (!text) {
        std::cerr << "bench_sheet: cannot read " << bench_sheet::shown(path) << "\n";
        return wrong_input;
    }
    const bench_sheet::read_job job = bench_sheet::parse_job(*text);
    for (const auto& m : job.mistakes) {
        std::cerr << bench_sheet::shown(path) << ":" << (m.line ? std::to_string(m.line) + ":" : "") << " " << m.text
                  << "\n";
    }
    if (!job.mistakes.empty()) { return wrong_input; }

    std::string out;
    try {
        const tautline::setup setup = tautline::solve(job.found.instrument, job.strung);
        out = json
                  ? bench_sheet::json_sheet(job, setup).dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n"
                  : bench_sheet::sheet(job, setup, measures);
    } catch (const tautline::invalid_input& e) {
        for (const auto& p : e.problems()) { std::cerr << bench_sheet::shown(path) << ": " << p.sentence() << "\n"; }
        return wrong_input;
    }
    std::cout << out << std::flush;
    return std::cout ? wrote : not_written;
}

} // namespace

int main(int argc, char** argv) {
    CLI::App app("Prints the bench sheet of a job: tensions, relief, action, clearances and forces.\n"
                 "Numbers are estimates; where a failure would hurt someone, a qualified repairer decides.",
                 "bench_sheet");
    std::string path;
    bool json = false;
    auto measures = bench_sheet::measures::metric;
    const std::map<std::string, bench_sheet::measures> systems{{"metric", bench_sheet::measures::metric},
                                                               {"imperial", bench_sheet::measures::imperial},
                                                               {"both", bench_sheet::measures::both}};
    app.add_option("job", path, "the job file (TOML; see examples/jobs)")->required();
    app.add_option("--units", measures, "metric, imperial or both")
        ->transform(CLI::CheckedTransformer(systems))
        ->option_text("NAME");
    app.add_flag("--json", json, "the same numbers for programs, as JSON");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) { return app.exit(e) == 0 ? wrote : wrong_input; }
    return run(path, measures, json);
}
