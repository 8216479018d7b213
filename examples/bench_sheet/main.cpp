/// @file
/// bench_sheet: reads a job file, solves the instrument as found and as planned, and prints what to do.
///
/// Exit codes: 0 done; 1 something could not be written; 2 the job file or the command line is wrong.

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <map>

#include <CLI/CLI.hpp>
#include <drawing.hpp>
#include <unistd.h>

#include "csv_sheet.hpp"
#include "explain.hpp"
#include "json_sheet.hpp"
#include "keys.hpp"
#include "sheet.hpp"
#include "sweeping.hpp"

namespace {

using namespace bench_sheet;

constexpr int done = 0, not_written = 1, wrong_input = 2;

/// What the command line asks for.
struct request {
    std::string path;
    sheet_options sheet{};
    bool json = false, csv = false, check = false, list = false, start = false, keys = false;
    std::string explain, out, drawings;
    drawing::paper paper = drawing::paper::a4;
    sweep_request sweep{};
};

/// The whole of a file, or nothing where it cannot be read.
std::optional<std::string> read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) { return std::nullopt; }
    std::string text;
    // One character more than is allowed is enough to know that the file is too long.
    text.resize(longest_job_file + 1);
    file.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (file.bad()) { return std::nullopt; }
    text.resize(static_cast<std::size_t>(file.gcount()));
    return text;
}

/// To the file that was asked for, whole or not at all; else to standard output.
int write(const request& r, const std::string& text) {
    if (!r.out.empty()) {
        drawing::write_file(r.out, text);
        return done;
    }
    std::cout << text << std::flush;
    if (std::cout) { return done; }
    std::cerr << "bench_sheet: standard output cannot be written\n";
    return not_written;
}

drawing::measures drawn_in(measures m) {
    return m == measures::imperial ? drawing::measures::imperial : drawing::measures::metric;
}

int draw(const request& r, const read_job& job, const answers& a) {
    const auto told = job.found.wanted.action_fret;
    const drawing::subject found{job.found.instrument, job.strung, a.found, {}, told};
    std::optional<drawing::subject> planned;
    if (a.planned) { planned = drawing::subject{a.plan.set.instrument, a.plan.set.strung, a.plan.solved, {}, told}; }
    drawing::options how;
    how.head = {.title = job.found.title, .paper = r.paper, .measures = drawn_in(r.sheet.units)};
    std::string text = "Drawn:\n";
    for (const auto& file : drawing::write_all(r.drawings, found, planned ? &*planned : nullptr, how)) {
        text += "  " + shown(file.string()) + "\n";
    }
    return write(r, text + "Print templates at 100 % and measure their 100 mm bar before any wood is cut.\n");
}

int answer_request(const request& r, const read_job& job) {
    whole_job w{job, answer(job), {}, {}};
    if (!r.drawings.empty()) { return draw(r, job, w.a); }
    if (r.sweep.wanted()) { return write(r, sweep_text(job, w.a, r.sweep, r.sheet.units, &std::cerr)); }
    w.found = doubt_found(job);
    if (w.a.planned) { w.planned = doubt_planned(job, w.a); }
    if (r.list) { return write(r, explain_list(w, r.sheet.units)); }
    if (!r.explain.empty()) {
        if (const auto text = explain_text(w, r.explain, r.sheet.units)) { return write(r, *text); }
        const std::string close = nearest_name(w, r.explain);
        std::cerr << "bench_sheet: no number is named \"" << shown(r.explain) << "\""
                  << (close.empty() ? "" : "; did you mean \"" + close + "\"?") << " --list names them all.\n";
        return wrong_input;
    }
    if (r.csv) { return write(r, csv_sheet(w)); }
    if (r.json) { return write(r, json_sheet(w).dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n"); }
    return write(r, sheet(w, r.sheet));
}

int run(const request& r) {
    if (r.start) { return write(r, starting_file()); }
    if (r.keys) { return write(r, key_document()); }
    const std::optional<std::string> text = read_file(r.path);
    if (!text) {
        std::cerr << "bench_sheet: cannot read " << shown(r.path) << "\n";
        return wrong_input;
    }
    const read_job job = parse_job(*text);
    for (const auto& m : job.mistakes) {
        std::cerr << shown(r.path) << ":" << (m.line ? std::to_string(m.line) + ":" : "") << " " << m.text << "\n";
    }
    if (!job.mistakes.empty()) { return wrong_input; }
    try {
        if (r.check) {
            (void)answer(job);
            return write(r, shown(r.path) + ": nothing is wrong.\n");
        }
        return answer_request(r, job);
    } catch (const tl::invalid_input& e) {
        for (const auto& p : e.problems()) {
            const auto line = p.field.empty() ? 0 : line_near(p.field, job.file);
            std::cerr << shown(r.path) << ":" << (line ? std::to_string(line) + ":" : "") << " " << shown(p.sentence())
                      << "\n";
        }
        return wrong_input;
    }
}

} // namespace

int main(int argc, char** argv) {
    CLI::App app("Prints the bench sheet of a job: as found, as planned, and the steps between.\n"
                 "Numbers are estimates; where a failure would hurt someone, a qualified repairer decides.",
                 "bench_sheet");
    request r;
    const std::map<std::string, measures> systems{
        {"metric", measures::metric}, {"imperial", measures::imperial}, {"both", measures::both}};
    const std::map<std::string, drawing::paper> papers{{"a4", drawing::paper::a4}, {"letter", drawing::paper::letter}};
    app.add_option("job", r.path, "the job file (TOML; see docs/job_file.md and examples/jobs)");
    app.add_option("--units", r.sheet.units, "metric, imperial or both")
        ->transform(CLI::CheckedTransformer(systems))
        ->option_text("NAME");
    app.add_flag("--detail", r.sheet.detail, "every string over every fret, forces at every end");
    app.add_flag("--steps", r.sheet.steps, "every number of every step");
    app.add_flag("--changes", r.sheet.changes, "every result that the plan changes");
    app.add_flag("--budget", r.sheet.budget, "every measurement's part in every doubt");
    app.add_option("--explain", r.explain, "how a number was made: formula, source, what moves it")->option_text("NAME");
    app.add_flag("--list", r.list, "the names of all numbers that can be explained");
    app.add_flag("--json", r.json, "the numbers for programs (docs/tautline-sheet.schema.json)");
    app.add_flag("--csv", r.csv, "every result for a spreadsheet");
    app.add_option("--drawings", r.drawings, "draw into this folder: side view, buzz map, full-size templates")
        ->option_text("FOLDER");
    app.add_option("--paper", r.paper, "a4 or letter")->transform(CLI::CheckedTransformer(papers))->option_text("NAME");
    app.add_option("--vary", r.sweep.ranges, "an input in equal steps: NAME FROM TO COUNT; may be given again")
        ->type_size(4)
        ->option_text("...");
    app.add_option("--through", r.sweep.lists, "an input through values: NAME \"V, V, V\"; may be given again")
        ->type_size(2)
        ->option_text("...");
    app.add_option("--sample", r.sweep.sample, "so many random variants of what the file doubts")->option_text("COUNT");
    app.add_option("--seed", r.sweep.seed, "which random variants")->option_text("N");
    app.add_option("--table", r.sweep.results, "a result to table (see --list); may be given again")
        ->type_size(1)
        ->option_text("NAME");
    app.add_option("--out", r.out, "write to this file instead")->option_text("FILE");
    app.add_flag("--check", r.check, "only say what is wrong with the file");
    app.add_flag("--new", r.start, "print a commented job file to begin with");
    app.add_flag("--keys", r.keys, "print what each key of a job file means");
    try {
        app.parse(argc, argv);
        if (r.path.empty() && !r.start && !r.keys) { throw CLI::RequiredError("job"); }
    } catch (const CLI::ParseError& e) { return app.exit(e) == 0 ? done : wrong_input; }
    r.sweep.csv = r.csv;
    r.sheet.bold = r.out.empty() && isatty(STDOUT_FILENO) != 0 && std::getenv("NO_COLOR") == nullptr;
    try {
        return run(r);
    } catch (const drawing::cannot_write& e) {
        std::cerr << "bench_sheet: " << shown(e.what()) << "\n";
        return not_written;
    } catch (const drawing::cannot_draw& e) {
        std::cerr << "bench_sheet: " << shown(e.what()) << "\n";
        return wrong_input;
    }
}
