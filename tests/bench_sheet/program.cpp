// The program as a user meets it: what it prints, what it says of a wrong file, and its exit codes.
#include <array>
#include <cstdio>
#include <regex>
#include <set>

#include <nlohmann/json.hpp>

#include "own_nodes.hpp"
#include "run_program.hpp"

namespace {

using namespace program;

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
        for (const char* name :
             {TEST_JOBS "/four_courses.toml", JOBS "/baritone_flat_top.toml", JOBS "/ten_string_cittern.toml"}) {
            for (const char* units : {"metric", "imperial", "both"}) {
                const auto r = run(std::string(name) + " --units " + units);
                CHECK(r.code == 0);
                CHECK(r.err.empty());
                for (const char* part : {"found", "planned", "wanted", "Strings, A4", "Steps",
                                         "Done when: ", "What changes most", "Cautions", "qualified"}) {
                    CHECK_MESSAGE(has(r.out, part), part);
                }
                CHECK((has(r.out, "Findings, as planned") || has(r.out, "First: what cannot be")));
                CHECK(!has(r.out, "Action: open string"));
                const auto all = run(std::string(name) + " --detail --units " + units);
                for (const char* part :
                     {"AS FOUND", "AS PLANNED", "Strings at pitch", "Neck under load", "Action: open string",
                      "Tightest place", "Intonation", "Saddle and nut", "Bridge and soundboard"}) {
                    CHECK_MESSAGE(has(all.out, part), part);
                }
                CHECK(has(r.out, " mm") == (std::string(units) != "imperial"));
                CHECK(has(r.out, " lbf") == (std::string(units) != "metric"));
                for (const char* bad : {"nan", "inf ", "-0.00"}) { CHECK_MESSAGE(!has(r.out, bad), bad); }
            }
        }
    }
    TEST_CASE("slots and saddle are told in steps of a bench and never deeper, with --fine as they are") {
        const std::string job = JOBS "/ten_string_cittern.toml";
        const auto plan = nlohmann::json::parse(run(job + " --json").out)["plan"];
        const std::size_t count = plan["saddle_height_mm"].size();
        REQUIRE(count == 10);
        for (const bool fine : {false, true}) {
            for (const bool inches : {false, true}) {
                const auto r = run(job + (fine ? " --fine" : "") + (inches ? " --units imperial" : ""));
                REQUIRE(r.code == 0);
                std::istringstream table(r.out.substr(r.out.find("\nStrings, A4")));
                std::string line;
                for (int heads = 0; heads < 3; ++heads) { std::getline(table, line); }
                const double unit = inches ? 0.0254 : 1;
                const double file = fine ? (inches ? 0.1 : 0.01) : inches ? 0.1 : 0.005; // the finest step of a slot
                for (std::size_t i = 0; i < count; ++i) {
                    std::getline(table, line);
                    CAPTURE(line);
                    std::istringstream cells(line);
                    std::string string, note;
                    double gauge = 0, found = 0, planned = 0, slot = 0, by = 0, saddle = 0, saddle_by = 0;
                    cells >> string >> note >> gauge >> found >> planned >> slot >> by >> saddle >> saddle_by;
                    REQUIRE(cells.good());
                    const auto told = [&](double cell, const char* key, double most) {
                        const double over = cell * unit - plan[key][i].get<double>();
                        CHECK(over > (fine ? -0.5001 * file * unit : -0.00051)); // so near to a step it lies on it
                        CHECK(over < (fine ? 0.5001 * file * unit : most));
                    };
                    CHECK(std::abs(std::remainder(by, file)) < 1e-6);
                    told(by, "slot_change_mm", 0.0127);
                    told(saddle, "saddle_height_mm", 0.0501);
                    told(saddle_by, "saddle_change_mm", 0.0501);
                    CHECK(slot > 0.8);
                }
            }
        }
    }
    TEST_CASE("the sheet's columns line up") {
        const auto r = run(four_courses + " --detail");
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
        const auto r = run(four_courses + " --json");
        REQUIRE(r.code == 0);
        const auto j = nlohmann::json::parse(r.out);
        CHECK(j["format"] == "tautline-sheet");
        CHECK(j["version"] == 4);
        for (const char* state : {"found", "planned"}) {
            CHECK(j[state]["strings"].size() == 8);
            CHECK(j[state]["strings"][0]["heights_mm"].size() == 19);
            double sum = 0;
            for (const auto& s : j[state]["strings"]) { sum += s["tension_N"].get<double>(); }
            CHECK(std::abs(sum - j[state]["total_tension_N"].get<double>()) < 1e-9);
            // The text says the same total.
            char total[32];
            std::snprintf(total, sizeof total, "  %.1f ±", sum);
            const std::string out = run(four_courses).out;
            CHECK(has(out.substr(out.find("pull of all strings"), 120), total));
        }
        CHECK(j["plan"]["steps"].size() > 8);
        CHECK(j["plan"]["shortfalls"].empty());
    }
    TEST_CASE("--json is what its schema says") {
        // The validator is Debian's python3-jsonschema; where it is not there, nothing is checked.
        if (std::system("/usr/bin/python3 -c 'import jsonschema' 2>/dev/null") != 0) { return; }
        // Also what only some jobs have: a reset that is wanted, one that is not, a zero fret's remark.
        const std::string baritone = read_all(std::string(JOBS) + "/baritone_flat_top.toml");
        const auto limited = [&](const std::string& more) {
            std::string text = baritone;
            text.replace(text.find("lowest_saddle = \"9 mm\""), 22, "lowest_saddle = \"12 mm\"");
            return text + more;
        };
        std::ofstream(scratch() + "/limit.toml", std::ios::binary) << limited("");
        std::ofstream(scratch() + "/reset.toml", std::ios::binary) << limited("\n[wanted.reset]\nheel_depth = \"92 mm\"\n");
        std::string zero = baritone;
        zero.replace(zero.find("frets = 20"), 10, "frets = 20\nzero_fret = true");
        std::ofstream(scratch() + "/zero.toml", std::ios::binary) << zero;
        // A year, told where nobody measured it, in which wishes fail and strings touch.
        std::ofstream(scratch() + "/year.toml", std::ios::binary)
            << baritone + "\n[season.measured_in]\ncelsius = 21\nhumidity = 50\n[season.dry]\ncelsius = 21\nhumidity = 25\n"
                          "[season.damp]\ncelsius = 21\nhumidity = 75\n";
        for (const auto& job : {four_courses, std::string(JOBS) + "/baritone_flat_top.toml", scratch() + "/limit.toml",
                                scratch() + "/reset.toml", scratch() + "/zero.toml", scratch() + "/year.toml"}) {
            REQUIRE(run(job + " --json --out " + scratch() + "/sheet.json").code == 0);
            const auto validates = [](const std::string& file) {
                return std::system(("/usr/bin/python3 -c 'import json,sys,jsonschema; "
                                    "jsonschema.Draft7Validator(json.load(open(sys.argv[1]))).validate(json.load(open(sys."
                                    "argv[2])))' " +
                                    std::string(SCHEMA) + " " + file + " 2>/dev/null")
                                       .c_str()) == 0;
            };
            CHECK(validates(scratch() + "/sheet.json"));
            if (job.ends_with("year.toml")) {
                const auto year = nlohmann::json::parse(read_all(scratch() + "/sheet.json"))["season"];
                REQUIRE(year["results"].size() == 5);
                const auto& room = year["results"][3];
                CHECK(room["path"] == "least_clearance");
                CHECK(room["dry_give_or_take_SI"] > 0);
                CHECK(room["damp_at"]["over_fret"] > room["damp_at"]["pressed_at"]);
                CHECK(room["measured_at"]["string"].contains("note"));
                CHECK_FALSE(year["misses"].empty());
                CHECK(year["response"]["bow_standard"] > 0);
            }
            auto wrong = nlohmann::json::parse(read_all(scratch() + "/sheet.json"));
            wrong["found"]["strings"][0]["tension_N"] = "much";
            std::ofstream(scratch() + "/wrong.json") << wrong;
            CHECK_FALSE(validates(scratch() + "/wrong.json"));
        }
    }
    TEST_CASE("--csv: a line a result, found and planned beside each other") {
        const auto r = run(four_courses + " --csv");
        REQUIRE(r.code == 0);
        const auto j = nlohmann::json::parse(run(four_courses + " --json").out);
        CHECK(r.out.rfind("path,result,unit,found,found give or take,planned,planned give or take\r\n", 0) == 0);
        const auto at = r.out.find("\r\ndown_force,");
        REQUIRE(at != std::string::npos);
        double found = 0, doubt = 0, planned = 0;
        REQUIRE(std::sscanf(r.out.c_str() + at + 2, "down_force,down-force of all strings on the saddle,N,%lf,%lf,%lf",
                            &found, &doubt, &planned) == 3);
        CHECK(std::abs(found - j["found"]["down_force_N"].get<double>()) < 1e-6);
        CHECK(std::abs(planned - j["planned"]["down_force_N"].get<double>()) < 1e-6);
        CHECK(doubt > 1);
    }
    TEST_CASE("measurements that say how sure they are make results that say so too") {
        const auto r = run(four_courses + " --budget");
        CHECK(has(r.out, "Where doubt comes from"));
        CHECK(has(r.out, "saddle.board_line"));
        const auto j = nlohmann::json::parse(run(four_courses + " --json").out);
        const auto& results = j["found"]["uncertainty"]["results"];
        REQUIRE(results.size() >= 7);
        for (const auto& one : results) {
            double squares = 0;
            for (const auto& c : one["contributions_SI"]) { squares += c.get<double>() * c.get<double>(); }
            // The two saddle heights err together: one gauge.
            squares += 2 * one["contributions_SI"]["saddle.height_bass"].get<double>() *
                       one["contributions_SI"]["saddle.height_treble"].get<double>();
            CHECK(std::abs(std::sqrt(squares) - one["standard_SI"].get<double>()) < 1e-12 + 1e-9 * std::sqrt(squares));
        }
        // A surer reading makes a surer result.
        const auto surer = run_with("board_line = \"13.4 ± 0.2 mm\"", "board_line = \"13.4 ± 0.002 mm\"");
        CHECK(surer.code == 0);
        CHECK(!has(surer.out.substr(surer.out.find("Where doubt")), "saddle.board_line"));
        // Where no measurement says how sure it is, what is usual counts, and the sheet says so.
        CHECK(has(run(std::string(JOBS) + "/baritone_flat_top.toml").out,
                  "the file states no doubt: all are what is usual at the bench"));
        check_wrong("\"13.4 ± 0.2 mm\"", "\"13.4 ± mm\"", "expected a length");
        check_wrong("first = \"saddle.height_bass\"", "first = \"saddle.height_base\"",
                    "expected the key of a measurement");
    }
    TEST_CASE("an instrument that is set as the plan says gives what was wanted") {
        // The job without its planned part: what remains is set to the plan's own numbers and solved again as found.
        std::string text = read_all(four_courses);
        text.erase(text.find("# What is planned"), text.find("[wanted]") - text.find("# What is planned"));
        const std::string wanted = text.substr(text.find("[wanted]"));
        std::ofstream(scratch() + "/wishes.toml") << text;
        const auto j = nlohmann::json::parse(run(scratch() + "/wishes.toml --json").out);
        const auto put = [&](const std::string& key, const std::string& value) {
            const auto at = text.find(key + " = ");
            REQUIRE(at != std::string::npos);
            text.replace(at, text.find('\n', at) - at, key + " = " + value);
        };
        const auto mm = [](double v) { return "\"" + std::to_string(v) + " mm\""; };
        const double old_slots[] = {1.50, 1.50, 1.42, 1.42, 1.36, 1.36, 1.30, 1.30};
        std::string slots;
        for (std::size_t i = 0; i < 8; ++i) {
            slots += (i ? ", " : "[") + mm(old_slots[i] + j["plan"]["slot_change_mm"][i].get<double>());
        }
        put("slot_heights", slots + "]");
        put("height_bass", mm(j["plan"]["saddle_height_mm"][0].get<double>()));
        put("height_treble", mm(j["plan"]["saddle_height_mm"][7].get<double>()));
        const std::string top = "height_treble = " + mm(j["plan"]["saddle_height_mm"][7].get<double>()) + "\nradius = ";
        REQUIRE(text.find(top) != std::string::npos);
        text.replace(text.find(top) + top.size(), std::string("\"210 mm\"").size(),
                     mm(j["plan"]["saddle_radius_mm"].get<double>()));
        put("setback_bass", mm(3.4 + j["plan"]["setback_change_mm"]["bass"].get<double>()));
        put("setback_treble", mm(1.6 + j["plan"]["setback_change_mm"]["treble"].get<double>()));
        put("hinge_height", mm(-12 + j["plan"]["hinge_change_mm"].get<double>()));
        text.erase(text.find("[[correlated]]"), text.find("[[strings]]") - text.find("[[correlated]]"));
        text.erase(text.find("[wanted]"));
        std::ofstream(scratch() + "/set.toml") << text;
        const auto r = run(scratch() + "/set.toml --json");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto s = nlohmann::json::parse(r.out)["found"];
        CHECK(std::abs(s["strings"][0]["heights_mm"][0].get<double>() - 0.55) < 0.001);
        CHECK(std::abs(s["strings"][0]["heights_mm"][11].get<double>() - 2.2) < 0.001);
        CHECK(std::abs(s["strings"][7]["heights_mm"][0].get<double>() - 0.45) < 0.001);
        CHECK(std::abs(s["strings"][7]["heights_mm"][11].get<double>() - 1.8) < 0.001);
        CHECK(std::abs(s["down_force_N"].get<double>() - 100) < 0.01);
    }
    TEST_CASE("a wish that cannot be is said with the nearest") {
        const auto r = run_with("down_force = \"100 N\"", "down_force = \"400 N\"");
        REQUIRE(r.code == 0);
        CHECK(has(r.out, "not met: wanted.down_force: the tailpiece would have to hang beyond"));
        CHECK(has(r.out, "nearest "));
        check_wrong("down_force = \"100 N\"", "saddle_break = \"20 deg\"", "must be left out where there are no pins");
    }
    TEST_CASE("what comes nearest is told in a step of the bench, and with --fine as it is") {
        const std::string job = JOBS "/ten_string_cittern.toml";
        const auto plan = nlohmann::json::parse(run(job + " --json").out)["plan"];
        REQUIRE(plan["shortfalls"].size() == 1);
        const double nearest = plan["shortfalls"][0]["nearest"]["mm"];
        const auto told = [&](const char* option) {
            const std::string out = run(job + option).out, before = "nearest ";
            return std::stod(out.substr(out.find(before) + before.size()));
        };
        CHECK(std::abs(told(" --fine") - nearest) < 0.00501);
        const double step = 0.02;
        CHECK(std::abs(std::remainder(told(""), step)) < 1e-9);
        CHECK(std::abs(told("") - nearest) < step / 2 + 1e-9);
        CHECK(told("") != told(" --fine"));
    }
    TEST_CASE("--explain: every number of the sheet has a name, a formula and a source") {
        const auto list = run(four_courses + " --list");
        REQUIRE(list.code == 0);
        const std::string small = scratch() + "/small.toml";
        REQUIRE(run("--new pinned --out " + small).code == 0);
        std::ofstream(small, std::ios::app) << "\n[wanted]\nfirst_fret_bass = \"0.55 mm\"\naction_bass = \"2.2 mm\"\n";
        for (const char* name : {"found.relief.gap", "planned.strings[0].heights[11]", "plan.slot_change[0]",
                                 "work.thickness_at_nut", "objects[0].open"}) {
            CHECK_MESSAGE(has(list.out, name), name);
            // What moves the plan is found by planning again for every eight inputs: a small job does.
            const bool plan = std::string(name).starts_with("plan.");
            const auto r = run((plan ? small : four_courses) + " --explain '" + name + "'");
            CHECK(r.code == 0);
            CHECK(has(r.out, "made as: "));
            CHECK(has(r.out, "after: "));
            CHECK(!has(r.out, "made as: \n"));
            if (plan) { CHECK(has(r.out, "wanted.first_fret_bass")); }
        }
        const auto height = run(four_courses + " --explain 'strings[0].heights[11]'").out;
        CHECK(has(height, "as planned: 2.20 ± "));
        CHECK(has(height, "saddle.height_bass"));
        const auto none = run(four_courses + " --explain releif.gap");
        CHECK(none.code == 2);
        CHECK(has(none.err,
                  "--explain is \"releif.gap\"; it must be the name of a number of the answers, such as relief.gap"));
    }
    TEST_CASE("--new KIND writes what applies to that kind; --check passes it, and it gives a sheet") {
        struct begun {
            const char* kind;
            std::set<std::string> there, absent;
        };
        for (const begun& b :
             {begun{"pinned", {"\n[pins]"}, {"[tailpiece]", "[feet]", "[body_bridge]", "down_force"}},
              begun{"floating", {"\n[tailpiece]", "\n[feet]"}, {"[pins]", "[body_bridge]", "saddle_break"}},
              begun{"solid", {"\n[body_bridge]"}, {"[pins]", "[tailpiece]", "[feet]", "[soundboard]"}},
              begun{"slotted_nylon", {"\n[tie_block]", "\nslot_start", "\nroller"}, {"[pins]", "[body_bridge]"}},
              begun{"zero_fret", {"\nzero_fret = true", "\n[posts.guide]"}, {"[pins]", "roller"}},
              begun{"banjo", {"\n[[short_strings]]", "\npressed_height"}, {"[pins]", "[body_bridge]"}},
              begun{"fanned_bass", {"\n[board.scale.fan]", "\n[[saddle.single]]"}, {"scale_length", "height_bass"}}}) {
            CAPTURE(b.kind);
            const std::string file = scratch() + "/new_" + b.kind + ".toml";
            REQUIRE(run(std::string("--new ") + b.kind + " --out " + file).code == 0);
            const std::string text = read_all(file);
            for (const auto& part : b.there) { CHECK_MESSAGE(has(text, part), part); }
            for (const auto& part : b.absent) { CHECK_FALSE_MESSAGE(has(text, part), part); }
            const auto check = run(file + " --check");
            CHECK_MESSAGE(check.code == 0, check.err);
            CHECK(has(check.out, "nothing is wrong"));
            const auto sheet = run(file);
            CHECK(sheet.code == 0);
            CHECK((has(sheet.out, "Travel guitar") || has(sheet.out, "To begin with: ")));
            CHECK_FALSE_MESSAGE(has(sheet.out, "STOP"), sheet.out);
            const std::string folder = scratch() + "/drawn_" + b.kind;
            const auto drawn = run(file + " --drawings " + folder);
            CHECK_MESSAGE(drawn.code == 0, drawn.err);
        }
        // Every line behind a comment sign is a line of the file too: all of them together are still TOML the reader knows.
        CHECK(run(four_courses + " --check").code == 0);
        std::string text = read_all(four_courses);
        text.replace(text.find("thickness"), 9, "thinness!");
        std::ofstream(scratch() + "/job.toml") << text;
        CHECK(run(scratch() + "/job.toml --check").code == 2);
    }
    TEST_CASE("the document of the keys is the program's") { CHECK(read_all(KEYS) == run("--keys").out); }
    TEST_CASE("--vary and --through table results over inputs; --sample spreads them as the doubts say") {
        const auto r =
            run(four_courses +
                " --vary saddle.height_bass '17 mm' '19 mm' 3 --table relief.gap --table 'strings[0].heights[11]'");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        double before = 0;
        for (const char* height : {"17.00 mm", "18.00 mm", "19.00 mm"}) {
            const auto at = r.out.find(height);
            REQUIRE(at != std::string::npos);
            double relief = 0, action = 0;
            REQUIRE(std::sscanf(r.out.c_str() + at + 8, " %lf mm %lf mm", &relief, &action) == 2);
            // Half the saddle's millimetre at the octave, the bow aside.
            CHECK((before == 0 || std::abs(action - before - 0.5) < 0.06));
            before = action;
        }
        const auto csv = run(four_courses + " --through a4 '432 Hz, 440 Hz' --table total_tension --csv");
        CHECK(csv.code == 0);
        CHECK(has(csv.out, "standard.a4,standard.a4 unit,total_tension,total_tension unit,refused because\r\n432,Hz,"));
        const auto power = run(four_courses + " --through neck.back_exponent '1.5, 20e-1' --table total_tension --csv");
        CHECK(has(power.out, "\r\n1.5,,"));
        CHECK(has(power.out, "\r\n2,,"));
        const auto bad = run(four_courses + " --through a4 '432 furlongs'");
        CHECK(bad.code == 2);
        CHECK(has(bad.err,
                  "bench_sheet: --through a4 is \"432 furlongs\"; it must be a frequency with its unit (Hz, kHz).\n"));
        CHECK(run(four_courses + " --through no.such '1 mm'").code == 2);
        const auto sample = run(four_courses + " --sample 400 --seed 7 --table 'strings[0].heights[11]'");
        CHECK(sample.code == 0);
        CHECK(sample.out == run(four_courses + " --sample 400 --seed 7 --table 'strings[0].heights[11]'").out);
        CHECK(sample.out != run(four_courses + " --sample 400 --seed 8 --table 'strings[0].heights[11]'").out);
        double mean = 0, spread = 0;
        REQUIRE(std::sscanf(sample.out.c_str() + sample.out.find("strings[0]"),
                            "strings[0].heights[11] (4a G2) %lf mm %lf mm", &mean, &spread) == 2);
        CHECK(std::abs(mean - 2.2) < 0.02);
        CHECK(std::abs(spread - 0.12) < 0.02);
    }
    TEST_CASE("files are whole or not there, and what cannot be written is said") {
        std::ofstream(scratch() + "/kept.txt") << "before";
        CHECK(run(scratch() + "/none.toml --out " + scratch() + "/kept.txt").code == 2);
        CHECK(read_all(scratch() + "/kept.txt") == "before");
        const auto r = run(four_courses + " --out " + scratch() + "/no/such/folder/sheet.txt");
        CHECK(r.code == 1);
        CHECK(has(r.err, "sheet.txt"));
        const auto drawn = run(four_courses + " --drawings " + scratch() + "/no/such/folder");
        CHECK(drawn.code == 1);
        const auto good = run(four_courses + " --drawings " + scratch() + "/drawings --paper letter");
        CHECK_MESSAGE(good.code == 0, good.err);
        for (const char* name : {"/drawings/side_view.pdf", "/drawings/side_view.svg", "/drawings/templates.pdf"}) {
            CHECK_MESSAGE(std::ifstream(scratch() + name).good(), name);
        }
    }
    TEST_CASE("hostile files: control characters never reach the terminal, numbers beyond reason are refused") {
        const auto loud = run_with("title = \"Four", "title = \"\\u001b[31mFour\\u0007");
        CHECK(loud.code == 0);
        CHECK(!has(loud.out, "\x1b"));
        CHECK(!has(loud.out, "\x07"));
        CHECK(has(loud.out, "\\x1b[31mFour"));
        const auto c1 = run_with("title = \"Four", "title = \"\\u009b31mFour");
        CHECK(!has(c1.out, "\xc2\x9b"));
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"1e999 mm\"", "board.width_at_nut is \"1e999 mm\"");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"nan mm\"", "expected a length");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = 32 ± 1 mm", "outside quotes");
        check_wrong("back_exponent = 1.8", "back_exponent = nan", "neck.back_exponent is");
        check_wrong("frets = 19", "frets = 99999999999", "expected a whole number");
        std::string deep;
        for (int i = 0; i < 20000; ++i) { deep += "["; }
        std::ofstream(scratch() + "/deep.toml") << "a = " << deep;
        CHECK(run(scratch() + "/deep.toml").code == 2);
        std::ofstream(scratch() + "/latin.toml", std::ios::binary) << "title = \"caf\xe9\"\n";
        CHECK(run(scratch() + "/latin.toml").code == 2);
        std::ofstream(scratch() + "/cut.toml", std::ios::binary) << read_all(four_courses).substr(0, 1500);
        CHECK(run(scratch() + "/cut.toml").code == 2);
        std::ofstream(scratch() + "/plan_only.toml") << "[planned.sanding]\nradius = \"290 mm\"\n";
        const auto only = run(scratch() + "/plan_only.toml");
        CHECK(only.code == 2);
        CHECK(has(only.err, "board.width_at_nut\" is missing"));
        // Contradictory: a plan for new frets and for the file at once.
        check_wrong("[planned.wire]", "[planned.levelling]\nheld = \"slack\"\n[planned.wire]",
                    "planned.levelling must be left out where new frets go in");
    }
    TEST_CASE("how a neck is held must be said, and a relief that contradicts it is told") {
        check_wrong("held = \"slack\"", "#", "\"planned.sanding.held\" is missing; expected \"slack\" or", -1);
        check_wrong("held = \"slack\"", "held = \"loose\"", "planned.sanding.held is \"loose\"; expected \"slack\" or");
        std::string flat_top = read_all(std::string(JOBS) + "/baritone_flat_top.toml");
        const auto held = flat_top.find("held = \"slack\"");
        REQUIRE(held != std::string::npos);
        flat_top.replace(held, 14, "held = \"as it will be\"");
        std::ofstream(scratch() + "/jig.toml") << flat_top;
        auto r = run(scratch() + "/jig.toml");
        CHECK(r.code == 2);
        CHECK_MESSAGE(has(r.err, "planned.levelling.held is \"as it will be\"; it must be otherwise: at pitch the relief "
                                 "is then the hollow, 0 mm, "
                                 "but wanted.relief is 0.15 mm; make both the same, or hold the neck otherwise"),
                      r.err);
        // The same said twice is no contradiction: the rod then stays as it is.
        flat_top.insert(held, "hollow = \"0.15 mm\"\n");
        std::ofstream(scratch() + "/jig.toml") << flat_top;
        r = run(scratch() + "/jig.toml");
        CHECK(r.code == 0);
        CHECK(std::regex_search(r.out, std::regex("relief +0\\.13 ± [0-9.]+ mm +0\\.15 ± [0-9.]+ mm +0\\.15 mm")));
        CHECK_FALSE(has(r.out, "Set the rod"));
    }
    TEST_CASE("courses left out are single strings, as many as there are") {
        std::string flat_top = read_all(std::string(JOBS) + "/baritone_flat_top.toml");
        CHECK(flat_top.find("courses") == std::string::npos);
        // A seventh string with all that goes with it, and still no word of courses.
        const auto add = [&](const std::string& before, const std::string& what) {
            const auto at = flat_top.find(before);
            REQUIRE(at != std::string::npos);
            flat_top.insert(at, what);
        };
        add("    { along = \"52 mm\", across = \"-13 mm\"",
            "    { along = \"30 mm\", across = \"-12 mm\", height = \"8 mm\" },\n");
        add("\"1.75 mm\", \"1.70 mm\"", "\"1.80 mm\", ");
        add("[[strings]]",
            "[[strings]]\nnote = \"F#1\"\ngauge = \"80 thou\"\ncore = \"22 thou\"\nwrap = \"80/20 bronze\"\n\n");
        flat_top.erase(flat_top.find("# What is planned"));
        std::ofstream(scratch() + "/seven.toml") << flat_top;
        const auto r = run(scratch() + "/seven.toml");
        CHECK_MESSAGE(r.code == 0, r.err);
        CHECK(has(r.out, "over fret 12, string 7 (F#1)"));
    }
    TEST_CASE("doubt in a gauge reaches the string it belongs to, plain or wound") {
        const auto plain = run_with("gauge = \"11 thou\"", "gauge = \"11 ± 0.3 thou\"");
        REQUIRE_MESSAGE(plain.code == 0, plain.err);
        CHECK(has(run(scratch() + "/job.toml --json").out, "\"strings[6].gauge\""));
        const auto wound = run_with("core = \"18 thou\"", "core = \"18 ± 1 thou\"");
        REQUIRE_MESSAGE(wound.code == 0, wound.err);
    }
    TEST_CASE("wrong files: line, key, what was expected") {
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"32 furlongs\"",
                    "board.width_at_nut is \"32 furlongs\"; expected a length");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = 32", "board.width_at_nut is 32; expected a length");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nut = \"-32 mm\"", "must be at least 1 mm");
        check_wrong("width_at_nut = \"32 mm\"", "width_at_nutt = \"32 mm\"", "did you mean \"width_at_nut\"?");
        check_wrong("gauge = \"11 thou\"", "gauge = \"11\"", "expected a length as text with its unit");
        check_wrong("note = \"E4\"", "note = \"H4\"", "must be a letter A to G");
        check_wrong("wrap = \"phosphor bronze\"", "wrap = \"pewter\"", "it must be one of: music wire");
        // A slip of the pen in a material is understood.
        const std::string slipped = run_with("wrap = \"phosphor bronze\"", "wrap = \"Phosphor-brnze\"").out;
        const auto numbers = [](const std::string& sheet) { return sheet.substr(0, sheet.find("Findings, as planned")); };
        CHECK(numbers(slipped) == numbers(run(four_courses).out));
        CHECK(has(slipped, "note: \"Phosphor-brnze\" was taken for phosphor bronze: wrap of string 4a G2."));
        check_wrong("core = \"18 thou\"", "core = \"40 thou\"",
                    "strings[0].core (4a G2) must be less than the string's gauge");
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
        CHECK(run(four_courses + " --colour").code == 2);
        CHECK(run(four_courses + " --units furlongs").code == 2);
    }
    TEST_CASE("a sheet that cannot be written is not a success") {
        const std::string full = scratch() + "/full";
        if (!files::make_full_device(full)) {
            MESSAGE("not looked at: a device of one's own needs the superuser");
            return;
        }
        for (const std::string& arguments : {four_courses, std::string("--help"), std::string("--new pinned")}) {
            const auto r = run(arguments + " >" + full);
            CHECK(r.code == 1);
            CHECK(has(r.err, "standard output cannot be written"));
        }
        const auto r = run(four_courses + " --out " + full);
        CHECK(r.code == 1);
        CHECK(has(r.err, "cannot write " + full + ": No space left on device"));
        CHECK(std::filesystem::is_character_file(full));
    }
}
