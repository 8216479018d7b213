// The jobs of examples/jobs, one of each kind: each answers without a complaint, and gives a sheet, a page and drawings.
#include <filesystem>
#include <set>
#include <sstream>
#include <vector>

#include "run_program.hpp"

using namespace program;

namespace {
/// The cells of a CSV table; a cell in quotes may hold commas.
std::vector<std::vector<std::string>> table_of(const std::string& csv) {
    std::vector<std::vector<std::string>> rows;
    std::istringstream lines(csv);
    for (std::string line; std::getline(lines, line);) {
        auto& cells = rows.emplace_back(1);
        bool quoted = false;
        for (const char c : line) {
            if (c == '"') {
                quoted = !quoted;
            } else if (c == ',' && !quoted) {
                cells.emplace_back();
            } else if (c != '\r') {
                cells.back() += c;
            }
        }
    }
    return rows;
}
} // namespace

TEST_SUITE("jobs filled in") {
    TEST_CASE("a sample of every job of examples/jobs loses fewer than one variant in a hundred") {
        int jobs = 0;
        for (const auto& entry : std::filesystem::directory_iterator(JOBS)) {
            const std::string file = entry.path().string();
            const auto r = run(file + " --sample 300 --seed 1 --table down_force --csv");
            REQUIRE_MESSAGE(r.code == 0, file << r.err);
            const auto rows = table_of(r.out);
            REQUIRE(rows.size() == 2);
            CHECK_MESSAGE(std::stoi(rows[1][7]) < 3, file << ": " << rows[1][8]);
            ++jobs;
        }
        CHECK(jobs >= 9);
    }
    TEST_CASE("a sample has mean and spread of the sheet and its give or take, where results are nearly linear") {
        for (const std::string job : {"nylon_guitar", "parlour_flat_top"}) {
            const std::string file = std::string(JOBS "/") + job + ".toml";
            const std::vector<std::string> names{"down_force", "strings[0].tension", "strings[0].at_saddle.break_angle"};
            std::string asked = file + " --sample 4000 --seed 1 --csv";
            for (const auto& n : names) { asked += " --table '" + n + "'"; }
            const auto sample = table_of(run(asked).out), sheet = table_of(run(file + " --csv").out);
            REQUIRE(sample.size() == names.size() + 1);
            for (std::size_t k = 0; k < names.size(); ++k) {
                CAPTURE(job);
                CAPTURE(names[k]);
                for (const auto& row : sheet) {
                    if (row[0] != names[k]) { continue; }
                    // The columns of the instrument that the sample is drawn about: as planned where something is.
                    const bool planned = !row[5].empty();
                    const double value = std::stod(row[planned ? 5 : 3]), give = std::stod(row[planned ? 6 : 4]);
                    const double mean = std::stod(sample[k + 1][2]), twice = std::stod(sample[k + 1][3]);
                    // Of 4000 the mean is off by 1/63 of a deviation, the deviation by 1/89: four of each, and a
                    // hundredth for what reflecting does to doubts that reach an end of their range.
                    CHECK(std::abs(mean - value) < give / 2 * (4.0 / 63 + 0.03));
                    CHECK(std::abs(twice / give - 1) < 4.0 / 89 + 0.02);
                }
            }
        }
    }
    TEST_CASE("every job of examples/jobs is checked, answered, drawn and made a page") {
        std::set<std::string> ends, kinds;
        int jobs = 0, slack = 0;
        for (const auto& entry : std::filesystem::directory_iterator(JOBS)) {
            if (entry.path().extension() != ".toml") { continue; }
            const std::string file = entry.path().string(), name = entry.path().stem().string();
            CAPTURE(name);
            ++jobs;
            const std::string text = read_all(file);
            CHECK(text.starts_with("# "));
            CHECK(has(text.substr(0, text.find("\n\n")), "nvented"));
            for (const char* end : {"tailpiece", "pins", "tie_block", "body_bridge"}) {
                if (has(text, "\n[" + std::string(end) + "]")) { ends.insert(end); }
            }
            for (const char* kind : {"[[saddle.single]]", "[[short_strings]]", "zero_fret = true", "[board.scale.fan]",
                                     "[[readings]]", "[[states]]", "[season.measured_in]", "[wanted.reset]"}) {
                if (has(text, "\n" + std::string(kind))) { kinds.insert(kind); }
            }
            const auto check = run(file + " --check");
            CHECK_MESSAGE(check.code == 0, check.err);
            CHECK(has(check.out, "nothing is wrong"));

            const auto sheet = run(file);
            CHECK(sheet.code == 0);
            CHECK(sheet.err.empty());
            for (const char* part : {"Steps", "Done when: ", "Cautions", "qualified"}) { CHECK(has(sheet.out, part)); }
            // Readings of one instrument agree, and nothing lies out of every range.
            for (const char* bad :
                 {"is missing", "STOP", "nan", "inf ", "contradict each other", "do not agree", "No state of the"}) {
                CHECK_FALSE_MESSAGE(has(sheet.out, bad), bad);
            }
            // Each step says what to take in hand, the next one what then.
            std::size_t steps = 0, hands = 0;
            for (auto at = sheet.out.find("Done when: "); at != std::string::npos;
                 at = sheet.out.find("Done when: ", at + 1)) {
                ++steps;
            }
            for (auto at = sheet.out.find("     In hand: "); at != std::string::npos;
                 at = sheet.out.find("     In hand: ", at + 1)) {
                ++hands;
                CHECK(sheet.out.substr(at, 16).find("In hand: .") == std::string::npos);
            }
            CHECK(steps > 5);
            CHECK(hands == steps);

            // What is worth reading slack stands where the slack instrument is measured.
            if (const auto at = sheet.out.find("reading: relief, slack."); at != std::string::npos) {
                const auto step = sheet.out.rfind("Measure it slack", at);
                REQUIRE(step != std::string::npos);
                CHECK_FALSE(has(sheet.out.substr(step, at - step), "Done when: "));
                ++slack;
            }

            const std::string folder = scratch() + "/filled_" + name, page = folder + ".html";
            const auto drawn = run(file + " --drawings " + folder), paged = run(file + " --page " + page);
            CHECK_MESSAGE(drawn.code == 0, drawn.err);
            CHECK_MESSAGE(paged.code == 0, paged.err);
            CHECK(has(read_all(page), "In hand:"));
            CHECK(has(read_all(page), "</html>"));
            for (const char* drawing : {"/side_view.svg", "/templates.pdf", "/buzz_map.pdf"}) {
                CHECK_MESSAGE(std::filesystem::exists(folder + drawing), drawing);
            }
        }
        CHECK(jobs >= 9);
        CHECK(slack > 0);
        CHECK(ends.size() == 4);
        CHECK(kinds.size() == 8);
    }
}
