// What the program must not lose: the job file, a file that stands where it writes, a number of a table; and what a title
// must not do.
#include <filesystem>
#include <thread>
#include <vector>

#include <sys/stat.h>
#include <unistd.h>

#include <nlohmann/json.hpp>

#include <csv_sheet.hpp>
#include <job_depth.hpp>

#include "hostile_text.hpp"
#include "own_nodes.hpp"
#include "run_program.hpp"

namespace {

using namespace program;
namespace fs = std::filesystem;

/// A folder of its own with a copy of the demo job in it.
struct bench {
    files::scratch_folder scratch{};
    fs::path folder = scratch.path;
    std::string text = read_all(four_courses);
    std::string job = scratch.write("job.toml", text).string();

    [[nodiscard]] std::string at(const std::string& name) const { return (folder / name).string(); }
    [[nodiscard]] std::size_t files() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
    }
    /// Exit code 2, these words, nothing printed, and not a file more or less.
    void check_refused(const std::string& arguments, const std::string& said) const {
        const std::size_t before = files();
        const auto r = run(arguments);
        CHECK(r.code == 2);
        CHECK(r.out.empty());
        CHECK_MESSAGE(has(r.err, said), r.err);
        CHECK(files() == before);
        CHECK(read_all(job) == text);
    }
};

/// The cells of comma-separated values without quotes in them.
std::vector<std::vector<std::string>> rows_of(const std::string& csv) {
    std::vector<std::vector<std::string>> rows(1);
    rows.back().emplace_back();
    bool quoted = false;
    for (std::size_t i = 0; i < csv.size(); ++i) {
        if (csv[i] == '"') {
            quoted = !quoted;
        } else if (csv[i] == ',' && !quoted) {
            rows.back().emplace_back();
        } else if (csv[i] == '\n' && !quoted) {
            rows.push_back({""});
        } else if (csv[i] != '\r') {
            rows.back().back() += csv[i];
        }
    }
    rows.pop_back();
    return rows;
}
/// A cell as a spreadsheet takes it: a number and nothing else.
double number(const std::string& cell) {
    char* end = nullptr;
    const double v = std::strtod(cell.c_str(), &end);
    CHECK_MESSAGE((!cell.empty() && *end == '\0'), cell);
    return v;
}

} // namespace

TEST_SUITE("nothing lost") {
    TEST_CASE("--out onto the job file is refused, whatever leads there") {
        const bench b;
        fs::create_symlink("job.toml", b.folder / "link");
        fs::create_symlink(b.folder / "link", b.folder / "second_link");
        fs::create_hard_link(b.job, b.folder / "hard_link");
        const std::string said = "which is the job file itself; expected another file";
        for (const char* name : {"job.toml", "link", "second_link", "hard_link", "../" /* and down again */}) {
            const std::string out =
                name == std::string("../") ? b.at("../" + b.folder.filename().string() + "/job.toml") : b.at(name);
            b.check_refused(b.job + " --out " + out, said);
            b.check_refused(b.job + " --json --out " + out, said);
            b.check_refused(b.job + " --check --out " + out, said);
        }
        b.check_refused(b.at("second_link") + " --out " + b.at("hard_link"), said);
        b.check_refused("/dev/stdin --out " + b.job + " <" + b.job, said);
        CHECK(fs::is_symlink(b.at("link")));
        // Beside it is no matter.
        CHECK(run(b.job + " --out " + b.at("sheet.txt")).code == 0);
        CHECK(read_all(b.job) == b.text);
    }
    TEST_CASE("--new KIND --out replaces nothing") {
        const bench b;
        fs::create_symlink("job.toml", b.folder / "link");
        const std::string said = "which exists; expected a new file: --new replaces none";
        b.check_refused("--new pinned --out " + b.job, said);
        b.check_refused("--new pinned --out " + b.at("link"), said);
        CHECK(run("--new pinned --out " + b.at("new.toml")).code == 0);
        b.check_refused("--new pinned --out " + b.at("new.toml"), said);
        CHECK(read_all(b.at("new.toml")) == run("--new pinned").out);
        fs::create_symlink("made.toml", b.folder / "dangling");
        CHECK(run("--new pinned --out " + b.at("dangling")).code == 0);
        CHECK(fs::is_symlink(b.at("dangling")));
        CHECK(read_all(b.at("made.toml")) == run("--new pinned").out);
    }
    TEST_CASE("--out follows links, keeps the mode and writes pipes through") {
        const bench b;
        const std::string sheet = run(b.job).out;
        (void)b.scratch.write("sheet", "before");
        REQUIRE(chmod(b.at("sheet").c_str(), 0440) == 0);
        fs::create_symlink("sheet", b.folder / "link");
        REQUIRE(run(b.job + " --out " + b.at("link")).code == 0);
        CHECK(fs::is_symlink(b.at("link")));
        CHECK(read_all(b.at("sheet")) == sheet);
        struct stat now {};
        REQUIRE(::stat(b.at("sheet").c_str(), &now) == 0);
        CHECK((now.st_mode & 07777U) == 0440U);
        REQUIRE(mkfifo(b.at("pipe").c_str(), 0600) == 0);
        std::string got;
        std::thread reader([&] { got = read_all(b.at("pipe")); });
        const auto r = run(b.job + " --out " + b.at("pipe"));
        if (r.code != 0) { std::ofstream(b.at("pipe")) << ""; } // so that nobody waits
        reader.join();
        CHECK(r.code == 0);
        CHECK(got == sheet);
        CHECK(fs::is_fifo(b.at("pipe")));
        // What the shell appends to is not begun anew.
        (void)b.scratch.write("log", "first\n");
        CHECK(run_command(std::string(BENCH_SHEET) + " " + b.job + " --out /dev/stdout >>" + b.at("log")).code == 0);
        CHECK(read_all(b.at("log")) == "first\n" + sheet);
        CHECK(b.files() == 5);
    }
    TEST_CASE("a full disk or a kill leaves the old file whole and nothing beside it") {
        const bench b;
        (void)b.scratch.write("sheet", "as it was");
        // No file may grow past a kilobyte or so: the signal that tells it kills, in the middle of writing.
        const auto killed =
            run_command("ulimit -f 2; exec " + std::string(BENCH_SHEET) + " " + b.job + " --out " + b.at("sheet"));
        CHECK(killed.code != 0);
        CHECK(read_all(b.at("sheet")) == "as it was");
        // And where the signal is not heard, an error.
        const auto told = run_command("trap '' XFSZ; ulimit -f 2; exec " + std::string(BENCH_SHEET) + " " + b.job +
                                      " --out " + b.at("sheet"));
        CHECK(told.code == 1);
        CHECK(has(told.err, "cannot write " + b.at("sheet") + ": File too large"));
        CHECK(read_all(b.at("sheet")) == "as it was");
        // What a kill left where files cannot be without a name goes with the next one; what others left stays.
        (void)b.scratch.write("sheet.new-tautline-1-0", "left");
        (void)b.scratch.write("sheet.new-1", "somebody's");
        REQUIRE(run(b.job + " --out " + b.at("sheet")).code == 0);
        CHECK(!fs::exists(b.at("sheet.new-tautline-1-0")));
        CHECK(fs::exists(b.at("sheet.new-1")));
        CHECK(b.files() == 3);
        const files::small_disk disk(b.folder / "disk");
        if (!disk.is_there()) {
            MESSAGE("not looked at: a disk of one's own needs the superuser");
            return;
        }
        const std::string on_disk = b.at("disk/sheet");
        std::ofstream(on_disk) << "as it was";
        const auto full = run(b.job + " --json --out " + on_disk);
        CHECK(full.code == 1);
        CHECK(has(full.err, "cannot write " + on_disk + ": No space left on device"));
        CHECK(read_all(on_disk) == "as it was");
        CHECK(std::distance(fs::directory_iterator(b.folder / "disk"), fs::directory_iterator()) == 1);
    }
    TEST_CASE("standard output that is closed or full is an error, with --help too") {
        for (const std::string& arguments : {four_courses, std::string("--help"), std::string("--keys")}) {
            const auto r = run(arguments + " >&-");
            CHECK(r.code == 1);
            CHECK(has(r.err, "standard output cannot be written"));
        }
        // Nothing that is meant for a closed standard error gets into a file.
        const bench b;
        REQUIRE(run(b.job + " --out " + b.at("sheet") + " >&- 2>&- <&-").code == 0);
        CHECK(read_all(b.at("sheet")) == run(b.job).out);
    }
    TEST_CASE("--drawings leaves no page of an earlier job, and all that is not its own") {
        const bench b;
        const std::string folder = b.at("drawings");
        REQUIRE(run(std::string(JOBS) + "/baritone_flat_top.toml --paper letter --drawings " + folder).code == 0);
        fs::copy_file(folder + "/templates_1.svg", folder + "/templates_77.svg");
        std::ofstream(folder + "/templates_78.svg") << "<svg/>";
        std::ofstream(folder + "/notes.txt") << "mine";
        const auto r = run(b.job + " --drawings " + folder);
        REQUIRE_MESSAGE(r.code == 0, r.err);
        CHECK(has(r.out, "Removed, drawn here before:\n"));
        CHECK(has(r.out, "templates_77.svg\n"));
        CHECK(has(r.out, "left there:\n  " + folder + "/templates_78.svg\n"));
        CHECK(!fs::exists(folder + "/templates_77.svg"));
        CHECK(read_all(folder + "/templates_78.svg") == "<svg/>");
        CHECK(read_all(folder + "/notes.txt") == "mine");
        // What stands in the folder is what is told as drawn, and those two.
        std::size_t told = 0, there = 0;
        for (const auto& entry : fs::directory_iterator(folder)) {
            ++there;
            told += has(r.out.substr(0, r.out.find("Removed")), "  " + entry.path().string() + "\n") ? 1 : 0;
        }
        CHECK(told == there - 2);
        std::ofstream(folder + "/side_view.pdf") << "mine";
        const auto refused = run(b.job + " --drawings " + folder);
        CHECK(refused.code == 2);
        CHECK(has(refused.err, "side_view.pdf was not drawn by this program; move it away"));
        CHECK(read_all(folder + "/side_view.pdf") == "mine");
    }
    TEST_CASE("--csv of a sweep: one number a cell, its unit beside it, a reason for what was refused") {
        const std::string sweep =
            four_courses + " --vary tailpiece.hinge_height '-14 mm' '-12 mm' 3 --vary neck.depth_at_nut '-1 mm' '22 mm' 2 "
                           "--table 'strings[7].notes[11].error' --table down_force --csv";
        const auto r = run(sweep);
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto rows = rows_of(r.out);
        REQUIRE(rows.size() == 7);
        CHECK(rows[0] == std::vector<std::string>{"tailpiece.hinge_height", "tailpiece.hinge_height unit",
                                                  "neck.depth_at_nut", "neck.depth_at_nut unit",
                                                  "strings[7].notes[11].error (1b E4)",
                                                  "strings[7].notes[11].error (1b E4) unit", "down_force",
                                                  "down_force unit", "refused because"});
        int negative = 0;
        for (std::size_t i = 1; i < rows.size(); ++i) {
            const auto& row = rows[i];
            REQUIRE(row.size() == 9);
            CHECK(number(row[0]) == doctest::Approx(-14 + static_cast<double>((i - 1) / 2)));
            CHECK((row[1] == "mm" && row[3] == "mm"));
            const bool refused = number(row[2]) < 0;
            CHECK(refused == (i % 2 == 1));
            if (refused) {
                CHECK((row[4].empty() && row[5].empty() && row[6].empty() && row[7].empty()));
                CHECK(has(row[8], "neck.depth_at_nut is -1 mm; it must be at least 1 mm"));
            } else {
                negative += number(row[4]) < 0 ? 1 : 0;
                CHECK(number(row[6]) > 10);
                CHECK((row[5] == "cents" && row[7] == "N" && row[8].empty()));
            }
        }
        const auto imperial = rows_of(run(sweep + " --units imperial").out);
        REQUIRE(imperial.size() == 7);
        CHECK(number(imperial[2][0]) == doctest::Approx(-14 / 25.4));
        CHECK(imperial[2][1] == "in");
        CHECK(number(imperial[2][6]) == doctest::Approx(number(rows[2][6]) / 4.4482216152605)); // NIST SP 811, lbf
        CHECK(imperial[2][7] == "lbf");
        // A sample, too.
        const auto sample = rows_of(run(four_courses + " --sample 60 --csv --table 'strings[7].notes[11].error'").out);
        REQUIRE(sample.size() == 2);
        CHECK(sample[0].size() == 9);
        CHECK(sample[1][1] == "cents");
        for (const std::size_t cell : {2U, 3U, 4U, 5U}) { negative += number(sample[1][cell]) < 0 ? 1 : 0; }
        CHECK(negative > 0);
        CHECK((sample[1][6] == "60" && sample[1][7] == "0" && sample[1][8].empty()));
    }
    TEST_CASE("what acts or hides in a title or a name does nothing on a terminal, in JSON and in CSV") {
        const std::string name = hostile::name_in_toml(), shown = hostile::name_shown();
        const auto with = [&](const std::string& arguments) {
            std::string text = read_all(four_courses);
            for (const std::string key : {"title = \"", "name = \""}) {
                for (auto at = text.find(key); at != std::string::npos;
                     at = text.find(key, at + key.size() + name.size())) {
                    text.insert(at + key.size(), name);
                }
            }
            std::ofstream(scratch() + "/hostile.toml", std::ios::binary) << text;
            auto r = run(scratch() + "/hostile.toml " + arguments);
            CHECK(r.code == 0);
            CHECK(!hostile::is_in(r.out));
            CHECK(!hostile::is_in(r.err));
            return r.out;
        };
        const std::string sheet = with("--detail");
        CHECK(sheet.starts_with(shown + "Four courses"));
        CHECK(has(sheet, "Planned: " + shown));
        CHECK(has(sheet, "  " + shown + "guard"));
        CHECK(has(with("--explain 'objects[0].open'"), shown));
        CHECK(has(with("--list"), shown));
        (void)with("--csv");
        const auto json = nlohmann::json::parse(with("--json"));
        CHECK(json["title"].get<std::string>().starts_with(shown));
        CHECK(json["planned_title"].get<std::string>().starts_with(shown));
        bool object = false;
        for (const auto& o : json["planned"]["objects"]) {
            object = object || o["name"].get<std::string>().starts_with(shown);
        }
        CHECK(object);
        CHECK(bench_sheet::csv_field(hostile::name()) == shown);
        // A mistake, and a name on the command line.
        const auto wrong = run_with("note = \"E4\"", "note = \"" + name + "\"");
        CHECK(wrong.code == 2);
        CHECK(!hostile::is_in(wrong.err));
        const auto none = run(four_courses + " --explain \"$(printf 'a\\033[31m\\302\\233\\342\\200\\256')\"");
        CHECK(none.code == 2);
        CHECK(has(none.err, "\"a\\x1b[31m\\xc2\\x9b\\xe2\\x80\\xae\""));
        const auto file = run("\"$(printf 'no\\342\\200\\213ne')\"");
        CHECK(has(file.err, "cannot read no\\xe2\\x80\\x8bne"));
        const auto option = run(four_courses + " \"$(printf -- '--\\033[31m')\"");
        CHECK(option.code == 2);
        CHECK(has(option.err, "unknown option \"--\\x1b[31m\""));
    }
    TEST_CASE("how deep a job file goes is told by line, before anything could overflow") {
        const auto told = [](const std::string& text, const std::string& said) {
            std::ofstream(scratch() + "/deep.toml", std::ios::binary) << text;
            const auto r = run(scratch() + "/deep.toml");
            CHECK(r.code == 2);
            CHECK_MESSAGE(has(r.err, "deep.toml:" + said), r.err.substr(0, 300));
            CHECK(std::count(r.err.begin(), r.err.end(), '\n') == 1);
        };
        const auto times = [](std::size_t n, const std::string& text) {
            std::string all;
            for (std::size_t i = 0; i < n; ++i) { all += text; }
            return all;
        };
        const std::string parts = " this key has more than 16 parts with dots between",
                          inside = " more than 16 lists or sections";
        told("title = \"x\"\n" + times(99999, "a.") + "a = 1\n", "2:" + parts);
        told("\n[" + times(99999, "\"a\" . ") + "a]\n", "2:" + parts);
        told("a = {\n" + times(99999, "a.") + "a = 1}\n", "2:" + parts);
        told("a = " + times(300000, "[") + "\n", "1:" + inside);
        told("a = " + times(200000, "{a=") + "\n", "1:" + inside);
        told("a = [\n" + times(17, "[\n"), "17:" + inside);
        // At the bound it is the library that reads on.
        const auto bound = job_file::too_deep(times(15, "a.") + "a = " + times(16, "[") + times(16, "]") + "\n");
        CHECK(!bound);
        // Neither text nor comments nor numbers are deep.
        const std::string flat = "a = \"" + times(50, ".[{") + "\\\"" + times(50, "[") + "\"\nb = '" + times(50, ".[") +
                                 "'\nc = \"\"\"\n" + times(50, "[.\n") + "\\\"\"\"\"\n# " + times(50, ".[") + "\nlast = [" +
                                 times(50, "1.5, ") + "]\n";
        CHECK(!job_file::too_deep(flat));
        CHECK(job_file::too_deep(flat + times(16, "a.") + "a = 1")->line == 3 + 50 + 4);
        CHECK(!job_file::too_deep(read_all(four_courses)));
    }
}
