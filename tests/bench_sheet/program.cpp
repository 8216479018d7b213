// The program as a user meets it: what it prints, what it says of a wrong file, and its exit codes.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include <sys/wait.h>

#include <nlohmann/json.hpp>

#include <doctest/doctest.h>

namespace {

struct run_result {
    int code = -1;
    std::string out, err;
};

std::string read_all(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}
std::string scratch() {
    static const std::string folder = [] {
        std::string name = "/tmp/bench_sheet_test_XXXXXX";
        REQUIRE(mkdtemp(name.data()) != nullptr);
        return name;
    }();
    return folder;
}
run_result run(const std::string& arguments) {
    const std::string out = scratch() + "/out", err = scratch() + "/err";
    const int status =
        std::system((std::string(BENCH_SHEET) + " " + arguments + " >" + out + " 2>" + err + " </dev/null").c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_all(out), read_all(err)};
}
const std::string mandolin = std::string(JOBS) + "/octave_mandolin.toml";

/// The demo job with one piece of its text replaced.
run_result run_with(const std::string& from, const std::string& to) {
    std::string text = read_all(mandolin);
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
    std::ofstream(scratch() + "/job.toml", std::ios::binary) << text;
    return run(scratch() + "/job.toml");
}
std::string line_number_of(const std::string& part) {
    const std::string text = read_all(mandolin);
    const auto at = text.find(part);
    REQUIRE(at != std::string::npos);
    return std::to_string(1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// A wrong file: exit code 2, nothing on standard output, the line and these words on standard error.
void check_wrong(const std::string& from, const std::string& to, const std::string& said, int lines_down = 0) {
    const auto r = run_with(from, to);
    CHECK(r.code == 2);
    CHECK(r.out.empty());
    CHECK_MESSAGE(has(r.err, said), r.err);
    const std::string line = std::to_string(std::stoi(line_number_of(from)) + lines_down);
    CHECK_MESSAGE(has(r.err, "job.toml:" + line + ": "), r.err);
}

} // namespace

TEST_SUITE("bench_sheet") {
    TEST_CASE("both demo jobs print a sheet, in every system of units") {
        for (const char* name : {"/octave_mandolin.toml", "/baritone_flat_top.toml"}) {
            for (const char* units : {"metric", "imperial", "both"}) {
                const auto r = run(std::string(JOBS) + name + " --units " + units);
                CHECK(r.code == 0);
                CHECK(r.err.empty());
                for (const char* part : {"Strings at pitch", "Neck under load", "Action: open string", "Tightest place",
                                         "Saddle and nut", "Findings", "Cautions", "qualified"}) {
                    CHECK_MESSAGE(has(r.out, part), part);
                }
                CHECK(has(r.out, " mm") == (std::string(units) != "imperial"));
                CHECK(has(r.out, " lbf") == (std::string(units) != "metric"));
                for (const char* bad : {"nan", "inf ", "-0.00"}) { CHECK_MESSAGE(!has(r.out, bad), bad); }
            }
        }
    }
    TEST_CASE("the sheet's columns line up") {
        const auto r = run(mandolin);
        std::string text = r.out.substr(r.out.find("Action:"));
        text = text.substr(0, text.find("\n\n"));
        std::size_t width = 0;
        std::size_t start = text.find('\n') + 1; // below the heading
        while (start < text.size()) {
            const std::size_t end = std::min(text.find('\n', start), text.size());
            if (width == 0) { width = end - start; }
            CHECK(end - start == width);
            start = end + 1;
        }
        CHECK(width > 40);
    }
    TEST_CASE("--json prints the same numbers for programs") {
        const auto r = run(mandolin + " --json");
        REQUIRE(r.code == 0);
        const auto j = nlohmann::json::parse(r.out);
        CHECK(j["format"] == "tautline-sheet");
        CHECK(j["strings"].size() == 8);
        CHECK(j["strings"][0]["heights_mm"].size() == 19);
        double sum = 0;
        for (const auto& s : j["strings"]) { sum += s["tension_N"].get<double>(); }
        CHECK(std::abs(sum - j["total_tension_N"].get<double>()) < 1e-9);
        // The text says the same total.
        char total[32];
        std::snprintf(total, sizeof total, "pull %.1f N", sum);
        CHECK(has(run(mandolin).out, total));
    }
    TEST_CASE("measurements that say how sure they are make results that say so too") {
        const auto r = run(mandolin);
        CHECK(has(r.out, "How sure"));
        CHECK(has(r.out, "saddle.board_line"));
        const auto j = nlohmann::json::parse(run(mandolin + " --json").out);
        REQUIRE(j["uncertainty"]["results"].size() == 7);
        for (const auto& one : j["uncertainty"]["results"]) {
            double squares = 0;
            for (const auto& c : one["contributions_SI"]) { squares += c.get<double>() * c.get<double>(); }
            CHECK(std::abs(std::sqrt(squares) - one["standard_SI"].get<double>()) < 1e-12 + 1e-9 * std::sqrt(squares));
        }
        // A surer reading makes a surer result.
        const auto surer = run_with("board_line = \"13.4 ± 0.2 mm\"", "board_line = \"13.4 ± 0.02 mm\"");
        CHECK(surer.code == 0);
        CHECK(surer.out != r.out);
        CHECK(!has(surer.out.substr(surer.out.find("How sure")), "saddle.board_line"));
        // Readings that say nothing: no such section.
        CHECK(!has(run(std::string(JOBS) + "/baritone_flat_top.toml").out, "How sure"));
        check_wrong("\"13.4 ± 0.2 mm\"", "\"13.4 ± mm\"", "expected a length");
    }
    TEST_CASE("slots and saddle changed as the sheet says give the wanted heights") {
        const std::string out = run(mandolin).out;
        CHECK(has(out, "pickup at the board's end"));
        // String 1: slot from 1.50 mm, saddle from 18.6 mm at the bass.
        const auto at = out.find("For the wanted heights");
        double slot = 0, saddle = 0, stands = 0;
        REQUIRE(std::sscanf(out.c_str() + out.find("  1 ", at), " 1 G2 %lf %lf %lf", &slot, &saddle, &stands) == 3);
        CHECK(slot < 0);
        CHECK(saddle < 0);
        std::string text = read_all(mandolin);
        const auto put = [&](const std::string& from, const std::string& to) {
            REQUIRE(text.find(from) != std::string::npos);
            text.replace(text.find(from), from.size(), to);
        };
        put("[\"1.50 mm\"", "[\"" + std::to_string(1.50 + slot) + " mm\"");
        put("height_bass = \"18.6 ± 0.1 mm\"", "height_bass = \"" + std::to_string(18.6 + saddle) + " mm\"");
        std::ofstream(scratch() + "/planned.toml") << text;
        const auto j = nlohmann::json::parse(run(scratch() + "/planned.toml --json").out);
        // The lower saddle lets the neck and the top come back a little: within a tenth.
        CHECK(std::abs(j["strings"][0]["heights_mm"][0].get<double>() - 0.55) < 0.06);
        CHECK(std::abs(j["strings"][0]["heights_mm"][11].get<double>() - 2.2) < 0.1);
    }
    TEST_CASE("a tailpiece hung as the sheet says presses as was wanted; what cannot be is said with the nearest") {
        const std::string out = run(mandolin).out;
        const auto at = out.find("the tailpiece hangs ");
        REQUIRE(at != std::string::npos);
        double below = 0;
        REQUIRE(std::sscanf(out.c_str() + at, "the tailpiece hangs %lf mm below", &below) == 1);
        const auto moved =
            run_with("hinge_height = \"-12 ± 2 mm\"", "hinge_height = \"" + std::to_string(-below) + " mm\"");
        REQUIRE_MESSAGE(moved.code == 0, moved.err);
        double down = 0;
        const auto total = moved.out.find("press the saddle down with ");
        REQUIRE(std::sscanf(moved.out.c_str() + total, "press the saddle down with %lf N", &down) == 1);
        CHECK(std::abs(down - 110) < 0.5); // the soundboard sinks a little more under it
        CHECK(has(run_with("down_force = \"110 N\"", "down_force = \"400 N\"").out, "that is the nearest that is allowed"));
        check_wrong("down_force = \"110 N\"", "saddle_break = \"20 deg\"", "must be left out where there are no pins");
    }
    TEST_CASE("doubt in a gauge reaches the string it belongs to, plain or wound") {
        const auto plain = run_with("gauge = \"11 thou\"", "gauge = \"11 ± 0.3 thou\"");
        REQUIRE_MESSAGE(plain.code == 0, plain.err);
        CHECK(has(plain.out, "strings[6].gauge"));
        const auto wound = run_with("core = \"18 thou\"", "core = \"18 ± 1 thou\"");
        REQUIRE_MESSAGE(wound.code == 0, wound.err);
    }
    TEST_CASE("wrong files: line, key, what was expected") {
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"32 furlongs\"",
                    "board.width_at_nut is \"32 furlongs\"; expected a length");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = 32", "board.width_at_nut is 32; expected a length");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"-32 mm\"", "must be more than 0 mm");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nutt = \"32 mm\"", "did you mean \"width_at_nut\"?");
        check_wrong("gauge = \"11 thou\"", "gauge = \"11\"", "expected a length as text with its unit");
        check_wrong("note = \"E4\"", "note = \"H4\"", "must be a letter A to G");
        check_wrong("wrap = \"phosphor bronze\"", "wrap = \"phosphor brnze\"", "expected one of: music wire");
        check_wrong("core = \"18 thou\"", "core = \"40 thou\"", "core must be less than the string's gauge");
        check_wrong("joint_fret = 12", "joint_fret = 99", "neck.joint_fret must be one of the board's 19 frets");
        check_wrong("[nut]", "[nut", "this is not TOML");
    }
    TEST_CASE("what is missing is named") {
        const auto r = run_with("scale_length = \"22 1/16 in ± 1/64 in\"", "");
        CHECK(r.code == 2);
        CHECK(has(r.err, "the key \"board.scale.scale_length\" is missing; expected a length"));
        const auto t = run_with("[tailpiece]", "[tailpiece_of_the_other]");
        CHECK(t.code == 2);
        CHECK(has(t.err, "unknown key \"tailpiece_of_the_other\""));
    }
    TEST_CASE("no file, a folder, an empty file, a binary file, a file that is too long") {
        CHECK(run(scratch() + "/none.toml").code == 2);
        CHECK(has(run(scratch() + "/none.toml").err, "cannot read"));
        CHECK(run(scratch()).code == 2);
        std::ofstream(scratch() + "/empty.toml") << "";
        CHECK(run(scratch() + "/empty.toml").code == 2);
        std::ofstream(scratch() + "/binary.toml", std::ios::binary) << std::string("\x00\x01\xff\xfe\x80", 5);
        CHECK(run(scratch() + "/binary.toml").code == 2);
        std::ofstream(scratch() + "/long.toml") << std::string(2'000'000, '#');
        const auto r = run(scratch() + "/long.toml");
        CHECK(r.code == 2);
        CHECK(has(r.err, "longer than a job file may be"));
    }
    TEST_CASE("the command line: help, unknown options, unknown units") {
        CHECK(run("--help").code == 0);
        CHECK(has(run("--help").out, "examples/jobs"));
        CHECK(run("").code == 2);
        CHECK(run(mandolin + " --colour").code == 2);
        CHECK(run(mandolin + " --units furlongs").code == 2);
    }
    TEST_CASE("a sheet that cannot be written is not a success") {
        if (std::ifstream("/dev/full")) {
            const int status = std::system((std::string(BENCH_SHEET) + " " + mandolin + " >/dev/full 2>/dev/null").c_str());
            CHECK(WEXITSTATUS(status) == 1);
        }
    }
}
