// Readings in a job file: what the sheet says of them, and what is refused.
#include <fstream>
#include <iterator>
#include <regex>

#include "changed_job.hpp"
#include "job.hpp"
#include "sheet.hpp"

namespace {

std::string cittern_file() {
    std::ifstream file(JOBS "/ten_string_cittern.toml");
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}
std::string page_of(const std::string& text) {
    const auto read = job_file::parse_job(text);
    for (const auto& m : read.mistakes) { MESSAGE(m.text); }
    REQUIRE(read.mistakes.empty());
    const auto a = bench_sheet::answers_of(read.job);
    return std::regex_replace(bench_sheet::sheet({read.job, a}, {}), std::regex("\\s+"), " ");
}
/// The first mistake of a file, with its line.
std::string mistake_of(const std::string& text) {
    const auto read = job_file::parse_job(text);
    if (read.mistakes.empty()) { return ""; }
    return std::to_string(read.mistakes[0].line) + ": " + read.mistakes[0].text;
}
bool on_page(const std::string& page, const char* words) { return page.find(words) != std::string::npos; }

} // namespace

TEST_SUITE("readings in a job file") {
    TEST_CASE("the demo's readings agree, and the sheet says what they are worth") {
        const auto page = page_of(cittern_file());
        CHECK(on_page(page, "What the readings say All 5 readings agree"));
        CHECK(on_page(page, "Board's line at the saddle: 14.60 ± 0.20 mm as read,"));
        CHECK(on_page(page, "with all readings, ± 0.16 mm without them."));
        CHECK(on_page(page, "Read next: height over fret"));
    }
    TEST_CASE("a reading far off is no mistake of the file: it is named on the sheet") {
        const auto page = page_of(changed_job::with(
            cittern_file(), {{"readings[2].value", "\"3.95 ± 0.05 mm\""}, {"readings[0].value", "\"0.25 ± 0.05 mm\""}}));
        CHECK(on_page(page, "Height over fret 12 of course 5 (D2), its bass-side string"));
        CHECK((on_page(page, "disagrees with all the others") || on_page(page, "contradict each other")));
    }
    TEST_CASE("mistakes are told with line and key") {
        const auto text = cittern_file();
        const auto wrong = [&](const char* key, const char* value) {
            return mistake_of(changed_job::with(text, {{key, value}}));
        };
        CHECK(on_page(wrong("readings[2].string", "\"9\""), "readings[2].string"));
        CHECK(on_page(wrong("readings[2].of", "\"tallness\""), "must be one of: \"relief\", \"height\""));
        CHECK(on_page(wrong("readings[2].value", "\"3.3 ± 0 mm\""), "must have a doubt of more than 0"));
        CHECK(on_page(wrong("readings[2].value", "\"3.3\""), "must be a length with its unit"));
        CHECK(on_page(wrong("readings[2].fret", "\"twelve\""), "expected a whole number"));
        // The line is that of the key.
        const auto told = wrong("readings[2].string", "\"9\"");
        const auto changed = changed_job::with(text, {{"readings[2].string", "\"9\""}});
        const auto at = changed.find("string = \"9\"");
        const auto line = 1 + std::count(changed.begin(), changed.begin() + static_cast<std::ptrdiff_t>(at), '\n');
        CHECK(told.rfind(std::to_string(line) + ": ", 0) == 0);
    }
    TEST_CASE("readings of two visits in a file give back what a season does to the instrument that made them") {
        // The instrument of the file, as it would be read with these coefficients.
        const double bow = 6e-5;
        const tautline::length<> top = 0.08 * tautline::units::mm;
        std::string text = cittern_file();
        text.erase(text.find("\n[[readings]]"),
                   text.find("\n[", text.rfind("\n[[readings]]") + 2) - text.find("\n[[readings]]"));
        text += "\n[season.measured_in]\ncelsius = 21\nhumidity = 60\n[season.dry]\ncelsius = 21\nhumidity = 30\n"
                "[season.damp]\ncelsius = 21\nhumidity = 70\n"
                "\n[[states]]\nname = \"in winter\"\nair = { celsius = 21, humidity = 35 }\n";
        const auto bare = job_file::parse_job(text);
        for (const auto& m : bare.mistakes) { MESSAGE(m.text); }
        REQUIRE(bare.mistakes.empty());
        const auto on = tautline::strung_as_found(bare.job);
        const double gained =
            tautline::moisture_gained(bare.job.season->measured_in.climate(), bare.job.states.back().air->climate());
        const std::array shows{tautline::solve(on),
                               tautline::solve(tautline::moistened(on, {.bow = bow, .top = top}, gained))};
        for (std::size_t k = 0; k < 2; ++k) {
            const std::string when = k == 0 ? "at pitch" : "in winter";
            const auto add = [&](const std::string& keys, const tautline::length<>& q) {
                text += "\n[[readings]]\n" + keys + "when = \"" + when + "\"\nvalue = \"" +
                        tautline::fixed_text(q, tautline::units::mm, 4) + " ± 0.02 mm\"\n";
            };
            add("of = \"relief\"\n", shows[k].relief->gap);
            add("of = \"height\"\nstring = \"5a\"\nfret = 12\n", shows[k].strings.front().heights[11]);
            add("of = \"height\"\nstring = \"1b\"\nfret = 12\n", shows[k].strings.back().heights[11]);
        }
        const auto read = job_file::parse_job(text);
        for (const auto& m : read.mistakes) { MESSAGE(m.text); }
        REQUIRE(read.mistakes.empty());
        const auto a = bench_sheet::answers_of(read.job);
        REQUIRE(a.year);
        CHECK(std::abs(a.year->known.response.bow - bow) < 0.6e-5);
        CHECK(std::abs(a.year->known.response.top.value() - top.value()) < 0.02e-3);
        CHECK(a.year->known.by_readings);
        const auto page = page_of(text);
        CHECK_MESSAGE(on_page(page, "for 1 % of moisture: "), page);
        CHECK(on_page(page, "Through the year"));
        CHECK(on_page(page, "fret ends stand out"));
        CHECK(on_page(page, "least clearance of any string"));
        const auto& least = a.year->lines[3];
        REQUIRE(least.places[1]);
        CHECK(on_page(page, "its string, pressed at, over fret"));
        CHECK(on_page(page, tautline::words_of(*least.places[1], a.setups.last().names).c_str()));
        CHECK_FALSE(on_page(page, "was not measured"));
    }
}
