// The shop's program as a user meets it: instruments that stay, setups that follow measurements, files of older and newer
// versions, wrong input, and a program killed while it writes.
#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <sqlite3.h>

#include <tautline/core/quantity_text.hpp>
#include <tautline/setup/solve.hpp>

#include "hostile_text.hpp"
#include "importing.hpp"
#include "near.hpp"
#include "own_nodes.hpp"
#include "scratch_folder.hpp"

namespace {

using namespace tautline;
using namespace tautline::units;
using words = std::vector<std::string>;

struct run_result {
    int code = -1; ///< of the program; -1 when it was killed
    std::string out, err;
};

using files::read_all;
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// A folder for one test, gone afterwards.
struct bench {
    files::scratch_folder scratch{};
    std::string folder = scratch.path.string();
    std::string file = folder + "/shop.db";

    [[nodiscard]] pid_t start(const words& arguments) const {
        std::vector<std::string> all{SHOP_TOOL, file};
        all.insert(all.end(), arguments.begin(), arguments.end());
        const pid_t child = fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            std::vector<char*> argv;
            for (std::string& a : all) { argv.push_back(a.data()); }
            argv.push_back(nullptr);
            dup2(open((folder + "/out").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), 1);
            dup2(open((folder + "/err").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), 2);
            execv(SHOP_TOOL, argv.data());
            _exit(127);
        }
        return child;
    }
    static int wait_for(pid_t child) {
        int status = 0;
        REQUIRE(waitpid(child, &status, 0) == child);
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
    [[nodiscard]] run_result run(const words& arguments) const {
        const int code = wait_for(start(arguments));
        return {code, read_all(folder + "/out"), read_all(folder + "/err")};
    }
    /// Runs what must succeed and returns what it prints.
    [[nodiscard]] std::string good(const words& arguments) const {
        const auto r = run(arguments);
        CHECK_MESSAGE(r.code == 0, r.err);
        CHECK(r.err.empty());
        return r.out;
    }
    /// Runs SQL on the file with nothing of the program in between; the first value of the first row, as text.
    std::string sql(const std::string& text) const {
        sqlite3* db = nullptr;
        REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
        std::string first = "(nothing)";
        const auto take = [](void* to, int, char** values, char**) {
            auto& kept = *static_cast<std::string*>(to);
            if (kept == "(nothing)" && values[0]) { kept = values[0]; }
            return 0;
        };
        const int code = sqlite3_exec(db, text.c_str(), take, &first, nullptr);
        CHECK_MESSAGE(code == SQLITE_OK, sqlite3_errmsg(db));
        sqlite3_close(db);
        return first;
    }
    [[nodiscard]] double kept(const std::string& table, const std::string& name, const std::string& path) const {
        return std::stod(sql("SELECT value FROM " + table + " JOIN instruments ON id = instrument WHERE name = '" + name +
                             "' AND path = '" + path + "'"));
    }
    /// Exit code 2, these words on standard error, nothing on standard output, and the file as it was.
    void check_wrong(const words& arguments, const std::string& said) const {
        const std::string before = read_all(file);
        const auto r = run(arguments);
        CHECK(r.code == 2);
        CHECK(r.out.empty());
        CHECK_MESSAGE(has(r.err, said), r.err);
        CHECK(read_all(file) == before);
    }
};

constexpr const char* version_1 = R"(
    PRAGMA application_id = 1415673204; PRAGMA user_version = 1;
    CREATE TABLE instruments (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, pattern TEXT NOT NULL);
    CREATE TABLE measurements (instrument INTEGER NOT NULL REFERENCES instruments ON DELETE CASCADE, path TEXT NOT NULL,
        value REAL NOT NULL, PRIMARY KEY (instrument, path)) WITHOUT ROWID;
    CREATE TABLE notes (instrument INTEGER NOT NULL REFERENCES instruments ON DELETE CASCADE, string INTEGER NOT NULL,
        note TEXT NOT NULL, PRIMARY KEY (instrument, string)) WITHOUT ROWID;
    INSERT INTO instruments VALUES (7, 'old one', 'flat_top'), (9, 'impossible', 'octave_mandolin');
    INSERT INTO measurements VALUES (7, 'board.scale.scale_length', 0.63), (9, 'board.thickness', 9.0);
    INSERT INTO notes VALUES (7, 0, 'D2');)";

} // namespace

TEST_SUITE("shop_tool") {
    TEST_CASE("a setup follows its measurements, and what is kept is what the library says") {
        const bench b;
        CHECK(b.good({"add", "No 1", "flat_top"}).empty());
        CHECK(b.good({"add", "No 2", "octave_mandolin"}).empty());
        CHECK(b.good({"list"}) == "No 1  flat_top\nNo 2  octave_mandolin\n");
        auto model = string_up(ready_made::flat_top());
        CHECK(near::relative(b.kept("results", "No 1", "total_tension"), solve(model).total_tension.value(), 1e-12));

        CHECK(b.good({"set", "No 1", "neck.depth_at_nut", "22 1/2 mm", "strings[0].pitch", "D2"}).empty());
        model.instrument.neck.depth_at_nut = 22.5 * mm;
        model.stringing.strings[0].pitch = parse_note("D2");
        const auto s = solve(model);
        CHECK(near::relative(b.kept("measurements", "No 1", "neck.depth_at_nut"),
                             model.instrument.neck.depth_at_nut.value(), 1e-12));
        CHECK(near::relative(b.kept("results", "No 1", "total_tension"), s.total_tension.value(), 1e-12));
        CHECK(near::relative(b.kept("results", "No 1", "relief.gap"), s.relief->gap.value(), 1e-12));
        const std::string sheet = b.good({"sheet", "No 1"});
        CHECK(has(sheet, "  D2  "));
        CHECK(has(sheet, "All strings pull " + fixed_text(s.total_tension, N, 1) + " N"));
        CHECK(has(sheet, "Relief " + fixed_text(s.relief->gap, mm, 2) + " mm"));
        CHECK(has(sheet, "qualified repairer"));
        CHECK(has(b.good({"show", "No 1"}), "neck.depth_at_nut = 22.5 mm\n"));
        CHECK(b.good({"check"}) == "2 setups are what their measurements give\n");

        // A string is named by its number, from the treble, as well as by its place in the list, from the bass.
        CHECK(has(b.good({"show", "No 1"}), "strings[0].pitch = D2    # string 6 (D2)\n"));
        CHECK(b.good({"set", "No 1", "string 6.pitch", "C#2"}).empty());
        CHECK(has(b.good({"show", "No 1"}), "strings[0].pitch = C#2    # string 6 (C#2)\n"));
        CHECK(has(b.good({"sheet", "No 1"}), "       6   C#2 "));
        CHECK(has(b.good({"show", "No 2"}), "strings[0].pitch = G2    # course 4 (G2), its bass-side string\n"));
        CHECK(has(b.good({"sheet", "No 2"}), "      1b    E4 "));

        CHECK(b.good({"remove", "No 1"}).empty());
        CHECK(b.good({"list"}) == "No 2  octave_mandolin\n");
        CHECK(b.sql("SELECT count(*) FROM results WHERE instrument NOT IN (SELECT id FROM instruments)") == "0");
        CHECK(b.sql("SELECT count(*) FROM results") != "0");
    }
    TEST_CASE("every ready-made instrument is a pattern, kept and read back to the last bit") {
        const bench b;
        for (const auto& one : ready_made::all()) {
            const std::string name(one.name);
            CHECK(b.good({"add", "the " + name, name}).empty());
            CHECK(near::relative(b.kept("results", "the " + name, "total_tension"),
                                 solve(string_up(one.make())).total_tension.value(), 1e-12));
            CHECK(has(b.run({"frobnicate"}).err, name)); // the usage names it
        }
        CHECK(b.good({"check"}) == "9 setups are what their measurements give\n");
    }
    TEST_CASE("findings are kept and printed") {
        const bench b;
        (void)b.good({"add", "tight", "flat_top"});
        (void)b.good({"set", "tight", "strings[5].pitch", "A4"});
        auto model = string_up(ready_made::flat_top());
        model.stringing.strings[5].pitch = parse_note("A4");
        const auto s = solve(model);
        REQUIRE(!s.findings.empty());
        for (const auto& f : s.findings) { CHECK(has(b.good({"sheet", "tight"}), ": " + sentence_of(f, s.names) + "\n")); }
    }
    TEST_CASE("CSV holds every number exactly, a line each") {
        const bench b;
        (void)b.good({"add", "a, \"b\"", "octave_mandolin"});
        const std::string csv = b.good({"export"});
        CHECK(csv.starts_with("instrument,table,path,value,kind\r\n\"a, \"\"b\"\"\",measurements,"));
        auto model = string_up(ready_made::octave_mandolin());
        const auto s = solve(model);
        long lines = 1;
        for_each_leaf(model, [&](std::string_view, const auto&) { ++lines; });
        for_each_leaf(s, [&](std::string_view, const auto&) { ++lines; });
        CHECK(std::count(csv.begin(), csv.end(), '\n') == lines);
        const std::string before = "results,\"total_tension\",";
        const auto at = csv.find(before);
        REQUIRE(at != std::string::npos);
        CHECK(near::relative(std::stod(csv.substr(at + before.size())), s.total_tension.value(), 1e-15));
        CHECK(has(csv.substr(at), ",\"force\"\r\n"));
    }
    TEST_CASE("wrong input is answered in a sentence, and nothing changes") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        b.check_wrong({"set", "one", "board.thickness", "-6 mm"}, "board.thickness is -6 mm; it must be at least 0.1 mm");
        b.check_wrong({"set", "one", "board.thickness", "6"},
                      "board.thickness is \"6\"; it must be a length with its unit");
        b.check_wrong({"set", "one", "board.thickness", "6 N"}, "mm, cm, m, in");
        b.check_wrong({"set", "one", "board.thicknes", "6 mm"}, "no measurement \"board.thicknes\"");
        b.check_wrong({"set", "one", "strings[0].pitch", "H2"}, "\"H2\" is not a note");
        b.check_wrong({"set", "one", "strings[6].pitch", "E2"}, "no measurement");
        b.check_wrong({"set", "one", "string 7.pitch", "E2"},
                      "There is no \"string 7.pitch\"; there are strings 1 (E4) to 6 (E2).");
        b.check_wrong({"set", "one", "neck.creep_factor", "1.2 mm"},
                      "neck.creep_factor is \"1.2 mm\"; it must be a number.");
        b.check_wrong({"set", "one", "board.thickness", "6 mm", "neck.depth_at_nut", "5 mm"}, "thickness of the board");
        b.check_wrong({"set", "two", "board.thickness", "6 mm"}, "no instrument \"two\"");
        b.check_wrong({"set", "one", "board.thickness"}, "usage");
        b.check_wrong({"add", "one", "flat_top"}, "already");
        b.check_wrong({"add", "", "flat_top"}, "1 to 200");
        b.check_wrong({"add", "two", "sitar"},
                      "no pattern \"sitar\": flat_top, octave_mandolin, solid_body_bass, nylon_strung, ten_string_cittern, "
                      "slotted_nylon, zero_fret_guitar, five_string_banjo, fanned_bass.");
        b.check_wrong({"sheet", "two"}, "no instrument \"two\"");
        b.check_wrong({"import", b.folder + "/nothing"}, "cannot be read");
        b.check_wrong({"frobnicate"}, "usage");
    }
    TEST_CASE("an import is all or nothing, and says the line") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        (void)b.good({"add", "two", "octave_mandolin"});
        const auto import = [&](const std::string& text) {
            std::ofstream(b.folder + "/in", std::ios::binary) << text;
            return words{"import", b.folder + "/in"};
        };
        CHECK(b.good(import("one\tboard.thickness\t6.3 mm\r\n\ntwo\tneck.depth_at_nut\t0.8 in\n")).empty());
        CHECK(near::relative(b.kept("measurements", "one", "board.thickness"), 6.3e-3, 1e-15));
        CHECK(near::relative(b.kept("measurements", "two", "neck.depth_at_nut"), 0.8 * 25.4e-3, 1e-15));
        CHECK(b.good({"check"}) == "2 setups are what their measurements give\n");
        b.check_wrong(import("one\tboard.thickness\t6.1 mm\ntwo\tneck.depth\t21 mm\n"), "in:2: There is no measurement");
        b.check_wrong(import("one\tboard.thickness\t6.1 mm\nthree\tneck.depth\t21 mm\n"), "in:2: There is no instrument");
        b.check_wrong(import("one\tboard.thickness\t6.1 mm\ntwo neck.depth 21 mm\n"), "in:2: A line is");
        b.check_wrong(import("one\tboard.thickness\t6.1 mm\ntwo\tboard.thickness\t-1 mm\n"),
                      "two: board.thickness is -1 mm");
    }
    TEST_CASE("what cannot be read to its end is no end: nothing is changed") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        b.check_wrong({"import", b.folder}, "cannot be read (Is a directory).\nNothing was changed.");
        // The kernel lets nobody read a program's memory at address 0.
        b.check_wrong({"import", "/proc/self/mem"}, "cannot be read (Input/output error)");
        if (geteuid() != 0) {
            std::ofstream(b.folder + "/secret") << "one\tboard.thickness\t6.3 mm\n";
            std::filesystem::permissions(b.folder + "/secret", std::filesystem::perms::none);
            b.check_wrong({"import", b.folder + "/secret"}, "Permission denied");
        }
        // A device that fails on its third line: two were good.
        struct cookie {
            std::string text = "one\tboard.thickness\t6.3 mm\none\tneck.depth_at_nut\t22 mm\none\tneck";
            std::size_t at = 0;
        } failing;
        const auto read = [](void* c, char* to, std::size_t size) -> ssize_t {
            auto& f = *static_cast<cookie*>(c);
            if (f.at == f.text.size()) {
                errno = EIO;
                return -1;
            }
            const std::size_t some = std::min({size, f.text.size() - f.at, std::size_t{7}});
            std::copy_n(f.text.data() + f.at, some, to);
            f.at += some;
            return static_cast<ssize_t>(some);
        };
        shop::lines lines("tape", fopencookie(&failing, "r", {read, nullptr, nullptr, nullptr}));
        std::string line;
        CHECK(lines.next(line));
        CHECK(line == "one\tboard.thickness\t6.3 mm");
        CHECK(lines.next(line));
        try {
            (void)lines.next(line);
            FAIL("the failing device was taken for the end");
        } catch (const shop::wrong_input& e) {
            CHECK(std::string(e.what()) == "The file tape cannot be read to its end (Input/output error).");
        }
        shop::instruments opened(b.file, shop::database::missing_file::is_an_error);
        failing.at = 0;
        CHECK_THROWS_AS((void)shop::measured_in(
                            shop::lines("tape", fopencookie(&failing, "r", {read, nullptr, nullptr, nullptr})), opened),
                        shop::wrong_input);
    }
    TEST_CASE("a line has an end: one that is too long is told, and nothing is changed") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        const std::string good = "one\tboard.thickness\t6.3 mm";
        const auto import = [&](const std::string& text) {
            std::ofstream(b.folder + "/in", std::ios::binary) << text;
            return words{"import", b.folder + "/in"};
        };
        const auto with_spaces = [&](std::size_t size) { return good + std::string(size - good.size(), ' '); };
        b.check_wrong(import(good + "\n" + std::string(5'000'000, 'x')), "in:2: This line is longer than 4000 letters");
        b.check_wrong(import(with_spaces(4001)), "in:1: This line is longer than 4000 letters");
        CHECK(b.good(import(with_spaces(4000))).empty());
        b.check_wrong({"import", "/dev/zero"}, "/dev/zero:1: This line is longer");
        // The last line needs no end, an empty file is nothing to change.
        CHECK(b.good(import("one\tboard.thickness\t6.4 mm")).empty());
        CHECK(near::relative(b.kept("measurements", "one", "board.thickness"), 6.4e-3, 1e-15));
        CHECK(b.good(import("")).empty());
    }
    TEST_CASE("no name begins a formula in an export, and each comes back from it as it was") {
        const std::vector<std::string> names{"=1+2",        "+3",       "-4",         "@five",
                                             "\tsix",       "'seven",   "'=eight",    "''nine",
                                             "\r=ten",      "a,b",      "\"quoted\"", "\\x3d11",
                                             "\x1b[1m",     "\\",       "\\x",        "x\\x0",
                                             "caf\xc3\xa9", "\xff\xfe", "n\no",       hostile::utf8(0x202e) + "=12"};
        const bench b;
        for (const auto& n : names) { (void)b.good({"add", n, "octave_mandolin"}); }
        (void)b.good({"add", hostile::name().substr(0, 190), "octave_mandolin"}); // as much of it as a name may have
        const std::string csv = b.good({"export"});
        CHECK(!hostile::is_in(csv));
        std::size_t lines = 0, measured = 0;
        std::string changed;
        for (std::size_t at = 0; at < csv.size(); ++lines) {
            const std::size_t end = csv.find("\r\n", at);
            std::string line = csv.substr(at, end - at);
            at = end + 2;
            const auto fields = shop::csv_fields(line);
            REQUIRE(fields);
            REQUIRE(fields->size() == 5);
            for (const std::size_t text : {0U, 2U, 4U}) {
                CHECK(std::string_view("=+-@\t\r").find((*fields)[text].front()) == std::string_view::npos);
            }
            // A spreadsheet gives each instrument a board of its own, and quotes what it likes.
            if ((*fields)[2] == "board.thickness") {
                line.replace(line.find(",0.00"), line.find(",\"length") - line.find(",0.00"),
                             ",\"" + std::to_string(0.005 + 1e-6 * static_cast<double>(++measured)) + "\"");
            }
            changed += line + "\n";
        }
        CHECK(measured == names.size() + 1);
        std::ofstream(b.folder + "/in", std::ios::binary) << "\xef\xbb\xbf" << changed;
        CHECK(b.good({"import", b.folder + "/in"}).empty());
        // Names in the order of the export, which is that of the list.
        std::vector<std::string> sorted = names;
        sorted.push_back(hostile::name().substr(0, 190));
        std::sort(sorted.begin(), sorted.end());
        for (std::size_t i = 0; i < sorted.size(); ++i) {
            const std::string shown = b.good({"show", sorted[i]});
            CHECK_MESSAGE(has(shown, "board.thickness = " + number_text(5 + 0.001 * static_cast<double>(i + 1)) + " mm\n"),
                          i);
        }
        CHECK(b.good({"check"}) == std::to_string(sorted.size()) + " setups are what their measurements give\n");
        const std::string again = b.good({"export"});
        CHECK(std::count(again.begin(), again.end(), '\n') == static_cast<long>(lines));
    }
    TEST_CASE("any name survives a field") {
        std::mt19937 random(3);
        const std::string bytes = "\\x1b=+-@'\",\t\xc2\x9b\xe2\x80\xae";
        for (int round = 0; round < 5000; ++round) {
            std::string name;
            for (std::size_t k = random() % 9; k > 0; --k) { name += bytes[random() % bytes.size()]; }
            const auto fields = shop::csv_fields("1," + shop::csv_field(name) + ",2");
            REQUIRE(fields);
            REQUIRE(fields->size() == 3);
            CHECK(shop::text_of_field((*fields)[1]) == name);
            CHECK(!shop::begins_formula((*fields)[1]));
        }
    }
    TEST_CASE("an export that was spoilt is refused by line, and nothing changes") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        const auto import = [&](const std::string& line) {
            std::ofstream(b.folder + "/in", std::ios::binary)
                << shop::csv_head << "\n\"one\",measurements,\"board.thickness\",0.0061,\"length\"\n"
                << line << "\n";
            return words{"import", b.folder + "/in"};
        };
        b.check_wrong(import("one,measurements,board.thickness,0.006"), "in:3: A line is an instrument, a table");
        b.check_wrong(import("\"one,measurements,board.thickness,0.006,length"), "in:3: A line is an instrument, a table");
        b.check_wrong(import("one,measurement,board.thickness,0.006,length"), "in:3: There is no table \"measurement\"");
        b.check_wrong(import("two,measurements,board.thickness,0.006,length"), "in:3: There is no instrument \"two\"");
        b.check_wrong(import("one,measurements,board.thicknes,0.006,length"), "in:3: There is no measurement");
        b.check_wrong(import("one,measurements,board.thickness,0.006,force"),
                      "in:3: board.thickness is a force; it must be a length with its unit");
        for (const char* value : {"6 mm", "", "nan", "inf", "1e999", "0.006x"}) {
            b.check_wrong(import(std::string("one,measurements,board.thickness,") + value + ",length"), "is not a number");
        }
        b.check_wrong(import("one,measurements,board.thickness,-0.006,length"), "one: board.thickness is -6 mm");
        CHECK(b.good(import("one,results,total_tension,1,force")).empty()); // what follows is not taken from there
        CHECK(near::relative(b.kept("measurements", "one", "board.thickness"), 6.1e-3, 1e-15));
        CHECK(b.kept("results", "one", "total_tension") > 100);
    }
    TEST_CASE("control characters of a name do nothing on the screen") {
        const bench b;
        const std::string name = "a\x1b[31m\nb\xc2\x9b"
                                 "1m \xc3\xa9";
        (void)b.good({"add", name, "octave_mandolin"});
        const std::string escaped = "a\\x1b[31m\\x0ab\\xc2\\x9b1m \xc3\xa9";
        CHECK(b.good({"list"}) == escaped + "  octave_mandolin\n");
        CHECK(b.good({"sheet", name}).starts_with(escaped + " (octave_mandolin)"));
        CHECK(has(b.good({"export", name}), "\n\"" + escaped + "\","));
        CHECK(has(b.run({"sheet", "\x1b[2J"}).err, "\"\\x1b[2J\""));
        const std::string all = hostile::name().substr(0, 190);
        (void)b.good({"add", all, "octave_mandolin"});
        for (const words& w : {words{"list"}, words{"sheet", all}, words{"export", all}}) {
            CHECK(!hostile::is_in(b.good(w)));
        }
        CHECK(!hostile::is_in(b.run({"add", all, "octave_mandolin"}).err));
    }
    TEST_CASE("a file of version 1 is brought up to date, setups and all") {
        const bench b;
        b.sql(version_1);
        std::filesystem::permissions(b.file, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
        std::ofstream(b.file + ".version-1") << "somebody's";
        std::ofstream(b.file + ".copying") << "left by a program that was killed";
        const auto first = b.run({"list"});
        CHECK(first.code == 0);
        CHECK(first.out == "impossible  octave_mandolin  cannot be solved\nold one  flat_top\n");
        // The file as it was is kept, told of, and no more readable than it.
        const std::string kept = b.file + ".version-1.2";
        CHECK(first.err == "shop_tool: " + b.file + ": its tables were brought up to date; the file as it was is kept as " +
                               kept + "\n");
        CHECK(read_all(b.file + ".version-1") == "somebody's");
        CHECK(!std::filesystem::exists(b.file + ".copying"));
        CHECK(std::filesystem::status(kept).permissions() ==
              (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
        const bench copy;
        std::filesystem::copy_file(kept, copy.file);
        CHECK(copy.sql("PRAGMA user_version") == "1");
        CHECK(copy.sql("PRAGMA integrity_check") == "ok");
        CHECK(copy.sql("SELECT group_concat(name) FROM (SELECT name FROM instruments ORDER BY id)") ==
              "old one,impossible");
        CHECK(copy.sql("SELECT value FROM measurements WHERE instrument = 9") == "9.0");
        CHECK(copy.sql("SELECT note FROM notes") == "D2");
        CHECK(b.sql("PRAGMA user_version") == "2");
        CHECK(b.sql("SELECT kind FROM measurements WHERE instrument = 7 AND path = 'board.scale.scale_length'") ==
              "length");
        CHECK(b.sql("SELECT count(*) FROM measurements WHERE kind = 'not known'") == "0");
        auto model = string_up(ready_made::flat_top());
        model.instrument.board.scale.scale_length = 0.63 * metre;
        model.stringing.strings[0].pitch = parse_note("D2");
        CHECK(near::relative(b.kept("results", "old one", "total_tension"), solve(model).total_tension.value(), 1e-12));
        // What could not be solved keeps its measurements and says what is wrong until it is mended.
        CHECK(has(b.run({"sheet", "impossible"}).err, "board.thickness"));
        CHECK(b.run({"sheet", "impossible"}).code == 2);
        (void)b.good({"set", "impossible", "board.thickness", "5 mm"});
        CHECK(has(b.good({"sheet", "impossible"}), "All strings pull"));
        CHECK(b.good({"check"}) == "2 setups are what their measurements give\n");
    }
    TEST_CASE("an old file that cannot be brought up to date stays as it was") {
        const bench b;
        b.sql(version_1);
        b.sql("INSERT INTO measurements VALUES (9, 'board.of_old', 1.0)");
        const std::string before = read_all(b.file);
        const auto r = b.run({"list"});
        CHECK(r.code == 1);
        CHECK(has(r.err, "board.of_old"));
        CHECK(read_all(b.file) == before);
        CHECK(std::distance(std::filesystem::directory_iterator(b.folder), std::filesystem::directory_iterator()) == 3);
    }
    TEST_CASE("a path that was renamed: kept measurements follow, the file as it was is kept, and a typed one is refused") {
        constexpr former_name made_up[] = {{"board.depth_of_old", "board.thickness"}, {"posts[].reach", "posts[].along"}};
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        (void)b.good({"add", "two", "octave_mandolin"});
        (void)b.good({"set", "one", "board.thickness", "6.3 mm", "posts[2].along", "91 mm"});
        const std::string before = b.good({"export"});
        // As a program that knew the old names had written it.
        b.sql("UPDATE measurements SET path = 'board.depth_of_old' WHERE path = 'board.thickness';"
              "UPDATE measurements SET path = replace(path, '.along', '.reach') WHERE path LIKE "
              "'posts[%].along'");
        CHECK(b.sql("SELECT count(*) FROM measurements WHERE path LIKE 'posts[%].reach'") == "14");
        CHECK(has(b.run({"show", "one"}).err, "has a measurement that is not known here: board.depth_of_old"));
        // Those names were never the library's.
        const std::string old = read_all(b.file);
        const auto opened = [&] { return shop::instruments(b.file, shop::database::missing_file::is_an_error, made_up); };
        {
            const auto shop = opened();
            CHECK(shop.kept_copy_of_old_file() == b.file + ".version-2");
            CHECK(read_all(b.file + ".version-2").size() == old.size());
        }
        const bench copy;
        std::filesystem::copy_file(b.file + ".version-2", copy.file);
        CHECK(copy.kept("measurements", "one", "board.depth_of_old") == 6.3e-3);
        CHECK(copy.sql("PRAGMA integrity_check") == "ok");
        // To the last digit what it was, setups and all; a second opening finds nothing to do.
        CHECK(b.good({"export"}) == before);
        CHECK(b.good({"check"}) == "2 setups are what their measurements give\n");
        auto shop = opened();
        CHECK(shop.kept_copy_of_old_file().empty());
        // Typed, an old name is answered with the present one; an export that a program wrote is understood.
        const auto is_refused = [&](const char* typed, const char* said) {
            auto model = string_up(ready_made::flat_top());
            try {
                shop::change(model, typed, "6 mm", shop.former());
                FAIL(typed);
            } catch (const shop::wrong_input& e) { CHECK(std::string(e.what()) == said); }
            CHECK(model.instrument.board.thickness == string_up(ready_made::flat_top()).instrument.board.thickness);
        };
        is_refused("board.depth_of_old", "\"board.depth_of_old\" is now named \"board.thickness\".");
        is_refused("posts[1].reach", "\"posts[1].reach\" is now named \"posts[1].along\".");
        is_refused("board.depth_of_all", "There is no measurement \"board.depth_of_all\"; `show` lists them.");
        const auto measured = [&](const std::string& text) {
            std::ofstream(b.folder + "/in", std::ios::binary) << text;
            return shop::measured_in(shop::lines(b.folder + "/in"), shop);
        };
        try {
            (void)measured("one\tneck.depth_at_nut\t22 mm\none\tboard.depth_of_old\t6.1 mm\n");
            FAIL("an old name was typed");
        } catch (const shop::wrong_input& e) {
            CHECK(std::string(e.what()) == b.folder + "/in:2: \"board.depth_of_old\" is now named \"board.thickness\".");
        }
        const auto models = measured(std::string(shop::csv_head) + "\none,measurements,board.depth_of_old,0.0059,length\n");
        CHECK(models.at("one").instrument.board.thickness.value() == 0.0059);
        CHECK_THROWS_AS(
            (void)measured(std::string(shop::csv_head) + "\none,measurements,board.depth_of_old,0.0059,force\n"),
            shop::wrong_input);
    }
    TEST_CASE("a renamed path in a file of version 1, and one that is there under both names") {
        constexpr former_name made_up[] = {{"board.scale.length", "board.scale.scale_length"}};
        const bench b, twice;
        for (const bench* one : {&b, &twice}) {
            one->sql(version_1);
            one->sql("UPDATE measurements SET path = 'board.scale.length' WHERE instrument = 7");
        }
        const shop::instruments shop(b.file, shop::database::missing_file::is_an_error, made_up);
        CHECK(shop.kept_copy_of_old_file() == b.file + ".version-1");
        CHECK(b.kept("measurements", "old one", "board.scale.scale_length") == 0.63);
        CHECK(b.sql("SELECT count(*) FROM measurements WHERE path = 'board.scale.length' OR kind = 'not known'") == "0");
        CHECK(b.kept("results", "old one", "total_tension") > 100);

        twice.sql("INSERT INTO measurements VALUES (7, 'board.scale.scale_length', 0.64)");
        const std::string before = read_all(twice.file);
        try {
            const shop::instruments refused(twice.file, shop::database::missing_file::is_an_error, made_up);
            FAIL("one of two measurements was chosen");
        } catch (const shop::database_error& e) {
            CHECK(has(e.what(),
                      "\"old one\" has a measurement twice: as board.scale.length and as board.scale.scale_length"));
        }
        CHECK(read_all(twice.file) == before);
        CHECK(!std::filesystem::exists(twice.file + ".version-1"));
    }
    TEST_CASE("an old file on a full disk stays as it was, with no copy") {
        const bench b;
        const files::small_disk disk(b.folder + "/disk");
        if (!disk.is_there()) {
            MESSAGE("not looked at: a disk of one's own needs the superuser");
            return;
        }
        bench there;
        there.file = b.folder + "/disk/shop.db";
        there.sql(version_1);
        const std::string before = read_all(there.file);
        const auto r = there.run({"list"});
        CHECK(r.code == 1);
        CHECK(has(r.err, "the disk is full; nothing was changed"));
        CHECK(read_all(there.file) == before);
        CHECK(std::distance(std::filesystem::directory_iterator(b.folder + "/disk"),
                            std::filesystem::directory_iterator()) == 1);
    }
    TEST_CASE("help, and output that cannot be written") {
        const auto run = [](const std::string& arguments) {
            const int status = std::system((std::string(SHOP_TOOL) + " " + arguments).c_str());
            return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        };
        const bench b;
        CHECK(run("--help >" + b.folder + "/help") == 0);
        CHECK(read_all(b.folder + "/help").starts_with("usage: shop_tool DATABASE COMMAND"));
        CHECK(run("--help >&- 2>" + b.folder + "/err") == 1);
        CHECK(has(read_all(b.folder + "/err"), "standard output cannot be written"));
    }
    TEST_CASE("files of a newer version, of other programs, and damaged ones are refused and left alone") {
        const auto refused = [](const bench& b, const std::string& said) {
            const std::string before = read_all(b.file);
            for (const words& w : {words{"list"}, words{"add", "one", "flat_top"}}) {
                const auto r = b.run(w);
                CHECK(r.code == 1);
                CHECK_MESSAGE(has(r.err, said), r.err);
                CHECK(read_all(b.file) == before);
            }
        };
        const bench newer, other, text, nowhere;
        (void)newer.good({"add", "one", "flat_top"});
        newer.sql("PRAGMA user_version = 3");
        refused(newer, "newer version");
        other.sql("CREATE TABLE songs (title TEXT)");
        refused(other, "another program");
        std::ofstream(text.file) << "Not a database, but long enough to have a header of one hundred letters and more: "
                                    "violin, viola, violoncello, double bass.\n";
        refused(text, "not an SQLite database");
        CHECK(nowhere.run({"list"}).code == 1);
        CHECK(!std::filesystem::exists(nowhere.file));
    }
    TEST_CASE("check notices a number that does not follow; refresh mends it") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        (void)b.good({"add", "two", "octave_mandolin"});
        b.sql("UPDATE results SET value = value * 1.0000001 WHERE path = 'total_tension' AND instrument = 2");
        auto r = b.run({"check"});
        CHECK(r.code == 1);
        CHECK(has(r.err, "give: \"two\"\n"));
        (void)b.good({"refresh"});
        CHECK(b.run({"check"}).code == 0);
        b.sql("DELETE FROM results WHERE path = 'total_tension' AND instrument = 1");
        CHECK(has(b.run({"check"}).err, "give: \"one\"\n"));
    }
    TEST_CASE("two programs that write at once both get their turn") {
        const bench b;
        (void)b.good({"add", "one", "flat_top"});
        const words paths{"neck.depth_at_nut", "neck.depth_at_joint", "board.width_at_nut", "saddle.height_bass"};
        std::vector<pid_t> children;
        for (const std::string& p : paths) { children.push_back(b.start({"set", "one", p, "30 mm"})); }
        for (const pid_t child : children) { CHECK(bench::wait_for(child) == 0); }
        for (const std::string& p : paths) { CHECK(b.kept("measurements", "one", p) == 30e-3); }
        CHECK(b.run({"check"}).code == 0);
    }
    TEST_CASE("killed while it writes: every setup is whole, and of one moment") {
        constexpr int count = 6;
        const bench b;
        for (int k = 0; k < count; ++k) {
            (void)b.good({"add", "i" + std::to_string(k), k % 2 ? "flat_top" : "octave_mandolin"});
        }
        const auto import = [&](int thickness) {
            std::ofstream file(b.folder + "/in");
            for (int k = 0; k < count; ++k) { file << "i" << k << "\tboard.thickness\t" << thickness << " um\n"; }
            return words{"import", b.folder + "/in"};
        };
        using clock = std::chrono::steady_clock;
        const auto start = clock::now();
        CHECK(b.good(import(6000)).empty());
        const auto whole = clock::now() - start;

        int cut_short = 0, journals = 0;
        int thickness = 6000;
        // Killed after more and more of the time that it takes, until it was caught in the middle of writing often enough.
        for (int round = 1; round <= 60 && (journals < 3 || round <= 10); ++round) {
            const auto child = b.start(import(6000 + round));
            std::this_thread::sleep_for(whole * (round % 10) / 10);
            kill(child, SIGKILL);
            const bool killed = bench::wait_for(child) == -1;
            cut_short += killed ? 1 : 0;
            journals += std::filesystem::exists(b.file + "-journal") ? 1 : 0;

            const auto kept = static_cast<int>(std::lround(b.kept("measurements", "i0", "board.thickness") * 1e6));
            CHECK((kept == thickness || kept == 6000 + round));
            CHECK((killed || kept == 6000 + round));
            thickness = kept;
            for (int k = 0; k < count; ++k) {
                CHECK(std::lround(b.kept("measurements", "i" + std::to_string(k), "board.thickness") * 1e6) == kept);
            }
            CHECK(b.sql("PRAGMA integrity_check") == "ok");
            CHECK(b.sql("SELECT count(*) FROM pragma_foreign_key_check") == "0");
            CHECK(b.good({"check"}) == std::to_string(count) + " setups are what their measurements give\n");
        }
        CHECK(cut_short >= 3);
        CHECK(journals >= 3);
    }
}
