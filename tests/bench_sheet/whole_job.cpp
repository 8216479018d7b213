// The same job told twice: in a job file to the bench sheet, in C++ to the library.
#include <map>
#include <regex>
#include <sstream>

#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>

#include "job.hpp"
#include "run_program.hpp"

using program::has;

namespace {

template <class Model>
std::map<std::string, double> numbers_of(const Model& model) {
    std::map<std::string, double> all;
    tautline::for_each_leaf(model,
                            [&](std::string_view path, const auto& x) { all.emplace(path, tautline::number_of(x)); });
    return all;
}

} // namespace

TEST_SUITE("a job told twice") {
    TEST_CASE("the demo's instrument is the ready-made one, number by number") {
        const auto read = job_file::parse_job(program::read_all(program::cittern));
        REQUIRE(read.mistakes.empty());
        const auto made = tautline::ready_made::ten_string_cittern();
        const auto file = numbers_of(tautline::ordered_instrument{read.job.instrument, read.job.strings, read.job.a4});
        const auto ready = numbers_of(made);
        REQUIRE(file.size() == ready.size());
        for (const auto& one : file) {
            CAPTURE(one.first);
            CHECK(std::abs(one.second - ready.at(one.first)) <= 1e-9 * std::abs(one.second));
        }
    }
    TEST_CASE("the sheet of the file has every line that the program prints") {
        // The program has none of the file's readings.
        const auto sheet = program::run(program::cittern + " --as-read --fine");
        const auto whole = program::run_command(WHOLE_JOB);
        REQUIRE(sheet.code == 0);
        REQUIRE(whole.code == 0);
        const auto plain = [](const std::string& text) {
            return std::regex_replace(std::regex_replace(text, std::regex(" ± [0-9.]+"), ""), std::regex("\\s+"), " ");
        };
        const std::string page = plain(sheet.out);
        std::istringstream lines(whole.out);
        int count = 0;
        for (std::string line; std::getline(lines, line); ++count) {
            const std::string met = "not met: ";
            if (line.rfind(met, 0) == 0) { line.insert(met.size(), "wanted."); }
            CHECK_MESSAGE(has(page, plain(line)), line);
        }
        CHECK(count > 15);
    }
}
