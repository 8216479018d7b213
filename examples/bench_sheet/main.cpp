/// @file
/// bench_sheet: reads a job file, solves the instrument as found and as planned, and prints the sheet.
///
/// Exit codes: 0 done; 1 something could not be written; 2 the job file or the command line is wrong.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>

#include <drawing.hpp>
#include <file.hpp>
#include <program.hpp>

#include "../text/printed.hpp"
#include "command_line.hpp"
#include "csv_sheet.hpp"
#include "explain.hpp"
#include "job.hpp"
#include "json_sheet.hpp"
#include "keys.hpp"
#include "page.hpp"
#include "pictures.hpp"
#include "sheet.hpp"
#include "sweeping.hpp"

namespace {

using namespace bench_sheet;

constexpr int done = 0, not_written = 1, wrong_input = 2; // the first two as safe_text::printed has them
/// More than a job file has keys, so that all mistakes are printed at once.
constexpr std::size_t most_mistakes_told = 1000;

/// The whole text of a file; nothing if it cannot be read.
std::optional<std::string> read_file(const std::string& path) {
    std::ifstream file(outside::path_of(path), std::ios::binary);
    if (!file) { return std::nullopt; }
    std::string text;
    // One character more than is allowed is enough to know that the file is too long.
    text.resize(longest_job_file + 1);
    file.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (file.bad()) { return std::nullopt; }
    text.resize(static_cast<std::size_t>(file.gcount()));
    return text;
}

/// Prints a text to standard output.
int print(const std::string& text) { return safe_text::printed(text, "bench_sheet"); }
/// The name of the file to write; empty for standard output.
const std::string& file_of(const request& r) { return r.page.empty() ? r.out : r.page; }
/// Writes a text to standard output, or to the file of the request. A file is written whole or not at all.
int write(const request& r, const std::string& text) {
    if (file_of(r).empty()) { return print(text); }
    outside::write_file(outside::path_of(file_of(r)), text,
                        r.start != nullptr ? outside::standing::is_kept : outside::standing::is_replaced);
    return done;
}
/// The reason why the file of the request must not be written, if there is one. The job file is never replaced.
std::optional<std::string> why_not_written(const request& r) {
    namespace fs = std::filesystem;
    std::error_code none; // a missing file is the same as no other file
    const std::string is = (r.page.empty() ? "--out is \"" : "--page is \"") + shown(file_of(r)) + "\", which ";
    if (!r.path.empty() && fs::equivalent(outside::path_of(file_of(r)), outside::path_of(r.path), none)) {
        return is + "is the job file itself; expected another file";
    }
    if (r.start && fs::is_regular_file(outside::path_of(r.out), none)) {
        return is + "exists; expected a new file: --new replaces none";
    }
    return std::nullopt;
}
int tell(const std::string& mistake) {
    std::cerr << "bench_sheet: " << mistake << "\n";
    return wrong_input;
}

int draw(const request& r, const whole_job& w) {
    const auto states = subjects_of(w, r.sheet.fine);
    drawing::options how;
    how.head = {.title = w.job.title, .paper = r.paper, .measures = drawn_in(r.sheet.units)};
    const auto drawn =
        drawing::write_all(outside::path_of(r.drawings), states.front(), states.size() > 1 ? &states.back() : nullptr, how);
    std::string text;
    const auto add = [&](const char* head, const std::vector<std::filesystem::path>& files) {
        if (!files.empty()) { text += head; }
        for (const auto& file : files) { text += "  " + shown(outside::text_of(file)) + "\n"; }
    };
    add("Drawn:\n", drawn.written);
    add("Removed, drawn here before:\n", drawn.removed);
    add("Named like drawings, but not drawn by this program; left there:\n", drawn.not_ours);
    if (!drawing::makes_pdf_and_png()) { text += drawing::no_pdf_or_png + std::string(".\n"); }
    return print(text + "Print templates at 100 % and measure their 100 mm bar before any wood is cut.\n");
}

/// Writes a sweep piece by piece, so that no long table is held in memory. A file is written whole or not at all.
int write_sweep(const request& r, const whole_job& w) {
    std::optional<outside::waiting_file> file;
    int outcome = done;
    const auto take = [&](const std::string& text) {
        if (r.out.empty()) {
            outcome = print(text);
        } else if (!file) {
            file.emplace(outside::path_of(r.out), text);
        } else {
            file->add(text);
        }
        return outcome == done;
    };
    tell_sweep(w, r.sweep, r.csv, r.sheet.units, take, &std::cerr);
    if (!r.out.empty()) { outside::put_in_place(file ? *file : file.emplace(outside::path_of(r.out), "")); }
    return outcome;
}

int answer_request(const request& r, const whole_job& w) {
    if (!r.drawings.empty()) { return draw(r, w); }
    if (!r.page.empty()) { return write(r, bench_page(w, r.sheet.units, r.sheet.fine)); }
    if (r.sweep.wanted()) { return write_sweep(r, w); }
    if (r.list) { return write(r, explain_list(w, r.sheet.units)); }
    if (!r.explain.empty()) { return write(r, explain_text(w, r.explain, r.sheet.units)); }
    if (r.csv) { return write(r, csv_sheet(w)); }
    if (r.json) { return write(r, json_sheet(w).dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n"); }
    return write(r, sheet(w, r.sheet));
}

int run(const request& r) {
    if (!file_of(r).empty()) {
        if (const auto why = why_not_written(r)) { return tell(*why); }
    }
    if (r.start) { return write(r, starting_file(*r.start)); }
    if (r.document != nullptr) { return write(r, r.document()); }
    const std::optional<std::string> text = read_file(r.path);
    if (!text) { return tell("cannot read " + shown(r.path)); }
    read_job read = parse_job(*text);
    read.job.adjusting.as_read = read.job.adjusting.as_read || r.as_read;
    const auto told = [&](std::uint32_t line, const std::string& sentence) {
        std::cerr << shown(r.path) << ":" << (line ? std::to_string(line) + ":" : "") << " " << sentence << "\n";
    };
    for (std::size_t i = 0; i < read.mistakes.size() && i < most_mistakes_told; ++i) {
        told(read.mistakes[i].line, read.mistakes[i].text);
    }
    if (read.mistakes.size() > most_mistakes_told) {
        told(0, std::to_string(read.mistakes.size() - most_mistakes_told) + " more mistakes follow");
    }
    if (!read.mistakes.empty()) { return wrong_input; }
    tl::job_answers answers;
    try {
        answers = answers_of(read.job);
    } catch (const tl::invalid_input& e) {
        const auto names = tl::names_of(tl::courses_of(read.job.instrument), read.job.strings);
        for (tl::problem p : e.problems()) {
            const auto line = p.field.empty() ? 0 : line_near(p.field, read.file);
            p.field = tl::path_with_string(p.field, names);
            told(line, shown(p.sentence()));
        }
        return wrong_input;
    }
    if (r.check) { return write(r, shown(r.path) + ": nothing is wrong.\n"); }
    return answer_request(r, {read.job, answers});
}

} // namespace

int main(int argc, char** argv) {
    const outside::program own(argc, argv);
    std::vector<const char*> arguments;
    for (const std::string& a : own.arguments()) { arguments.push_back(a.c_str()); }
    read_command command = read_command_line(static_cast<int>(arguments.size()), arguments.data());
    if (!command.help.empty()) { return print(command.help); }
    for (const std::string& mistake : command.mistakes) { (void)tell(mistake); }
    if (!command.mistakes.empty()) { return tell("--help says what there is"); }
    request& r = command.asked;
    r.sheet.bold = r.out.empty() && outside::program::shows_bold() && std::getenv("NO_COLOR") == nullptr;
    try {
        return run(r);
    } catch (const tl::invalid_input& e) { return tell(shown(e.what())); } catch (const outside::cannot_write& e) {
        (void)tell(shown(e.what()));
        return not_written;
    } catch (const drawing::not_a_drawing& e) { return tell(e.what()); } catch (const drawing::cannot_draw& e) {
        return tell(shown(e.what()));
    }
}
