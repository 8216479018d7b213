#include <cmath>

#include <nlohmann/json.hpp>
#include <tautline/strings/wire_materials.hpp>

#include "run_program.hpp"

using namespace program;
namespace tl = tautline;

// Which string is which: numbers as the trade counts, beside paths that run bass first.

namespace {

const std::string baritone = std::string(JOBS) + "/baritone_flat_top.toml";

/// The baritone as found, its list of strings replaced.
std::string baritone_with(const std::string& strings) {
    const std::string text = read_all(baritone);
    return text.substr(0, text.find("[[strings]]")) + strings;
}
std::string ordered(const std::string& number, const std::string& note, const std::string& gauge) {
    return "[[strings]]\n" + (number.empty() ? "" : "number = " + number + "\n") + "note = \"" + note + "\"\ngauge = \"" +
           gauge + "\"\n";
}
const char* const notes[] = {"B1", "E2", "A2", "D3", "F#3", "B3"};
/// All six plain, with numbers: only their order matters.
std::string six(const std::vector<std::string>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < 6; ++i) { text += ordered(numbers[i], notes[i], "20 thou"); }
    return text;
}
run_result run_text(const std::string& text, const std::string& arguments = "") {
    std::ofstream(scratch() + "/job.toml", std::ios::binary) << text;
    return run(scratch() + "/job.toml " + arguments);
}
std::string line_in(const std::string& text, const std::string& part) {
    const auto at = text.find(part);
    REQUIRE(at != std::string::npos);
    return ":" + std::to_string(1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n')) + ":";
}
void check_mistake(const std::string& text, const std::string& at, const std::string& said) {
    const auto r = run_text(text);
    CHECK(r.code == 2);
    CHECK_MESSAGE(has(r.err, line_in(text, at) + " " + said), r.err);
}

} // namespace

TEST_SUITE("bench_sheet: strings") {
    TEST_CASE("a number is 6 for the bass string and 1 for the treble one; a wrong one is told with what there is") {
        CHECK(run_text(baritone_with(six({"6", "5", "4", "3", "2", "1"})), "--check").code == 0);
        CHECK(run_text(baritone_with(six({"\"6\"", "", "4", "", "\"2\"", ""})), "--check").code == 0);
        const std::string turned = baritone_with(six({"1", "5", "4", "3", "2", "\"1a\""}));
        check_mistake(
            turned, "number = 1\n",
            "strings[0].number (6 B1) is \"1\"; it must be 6: the list stands bass first, and this is string 6 (B1); "
            "there are strings 1 (B3) to 6 (B1)");
        check_mistake(turned, "number = \"1a\"", "strings[5].number (1 B3) is \"1a\"; it must be 1: ");
        check_mistake(baritone_with(six({"true", "", "", "", "", ""})), "number = true",
                      "strings[0].number (6 B1) is true; expected the number of a string, 6 or \"4a\"");
    }
    TEST_CASE("the strings of a course have letters, a nearest the bass") {
        std::string text = read_all(four_courses);
        std::size_t at = 0;
        for (const char* number : {"4a", "4b", "3a", "3b", "2a", "2b", "1a", "1b"}) {
            at = text.find("[[strings]]", at) + 12;
            text.insert(at, "number = \"" + std::string(number) + "\"\n");
        }
        CHECK(run_text(text, "--check").code == 0);
        text.replace(text.find("\"4a\""), 4, "4   ");
        check_mistake(
            text, "number = 4 ",
            "strings[0].number (4a G2) is \"4\"; it must be 4a: the list stands bass first, and this is course 4 (G2), "
            "its bass-side string; there are courses 1 (E4) to 4 (G2)");
    }
    TEST_CASE("what a short or slipped name was taken for is told on the sheet, in JSON and on the page") {
        std::string text = read_all(four_courses);
        const std::string wrap = "wrap = \"phosphor bronze\"";
        REQUIRE(text.find(wrap) != std::string::npos);
        CHECK_FALSE(has(run(four_courses).out, "was taken for"));
        CHECK_FALSE(nlohmann::json::parse(run(four_courses + " --json").out).contains("taken_for"));
        text.replace(text.find(wrap), wrap.size(), "wrap = \"phosfor bronze\"");
        const std::string said = "was taken for phosphor bronze: wrap of string 4a G2.";
        CHECK(has(run_text(text).out, "note: \"phosfor bronze\" " + said));
        const auto j = nlohmann::json::parse(run_text(text, "--json").out);
        REQUIRE(j["taken_for"].size() == 1);
        CHECK(j["taken_for"][0]["meant"] == "phosphor bronze");
        CHECK(j["taken_for"][0]["paths"][0] == "strings[0].wrap");
        CHECK(run_text(text, "--page " + scratch() + "/taken.html").code == 0);
        CHECK(has(read_all(scratch() + "/taken.html"), said));
    }
    TEST_CASE("a set that is listed treble first is a mistake with its line, found or planned") {
        std::string set;
        for (int i = 5; i >= 0; --i) { set += ordered("", notes[i], i < 3 ? "30 thou" : "14 thou"); }
        const std::string said =
            " must stand bass first, but each sounds lower than the one before: turn the list round, so "
            "that string 1, the highest, stands last";
        check_mistake(baritone_with(set), "[[strings]]", "strings" + said);
        std::string planned = set;
        for (auto at = planned.find("[[strings"); at != std::string::npos; at = planned.find("[[strings", at + 1)) {
            planned.insert(at + 2, "planned.");
        }
        const std::string text = read_all(baritone);
        check_mistake(text.substr(0, text.find("[[planned.strings]]")) + planned, "[[planned.strings]]",
                      "planned.strings" + said);
        // Numbers that run the same wrong way are not told string by string as well.
        std::string numbered;
        for (int i = 5; i >= 0; --i) { numbered += ordered(std::to_string(6 - i), notes[i], "20 thou"); }
        CHECK_FALSE(has(run_text(baritone_with(numbered)).err, "number"));
    }
    TEST_CASE("posts that are mirrored are a mistake with their line, posts in another order a finding") {
        std::string text = read_all(baritone);
        for (auto at = text.find("across = \""); at != std::string::npos; at = text.find("across = \"", at + 1)) {
            if (text[at + 10] == '-') {
                text.erase(at + 10, 1);
            } else {
                text.insert(at + 10, "-");
            }
        }
        check_mistake(text, "posts = [",
                      "posts must stand in the strings' order, bass first and the bass side negative, but "
                      "every one is on the other side of the centre line than its string.");
        text = read_all(baritone);
        const auto near = text.find("\"52 mm\""), far = text.find("\"128 mm\"");
        text.replace(far, 8, "\"52 mm\"");
        text.replace(near, 7, "\"128 mm\"");
        const auto r = run_text(text);
        CHECK(r.code == 0);
        CHECK(has(r.out, "warning: Two strings cross between the nut and their posts: string 6 (B1); and string "));
        CHECK_FALSE(has(run(baritone).out, "cross between"));
    }
    TEST_CASE("a short fifth string keeps its five, and its tuning is asked about once") {
        std::string text = read_all(baritone);
        text = text.substr(0, text.find("[[strings]]"));
        const auto without_line = [&](const std::string& part) {
            const auto at = text.find(part);
            REQUIRE(at != std::string::npos);
            text.erase(at, text.find('\n', at) + 1 - at);
        };
        without_line("    { along = \"128 mm\", across = \"17 mm\"");
        without_line("slot_heights = [");
        text.insert(text.find("[nut]\n") + 6, "slot_heights = [\"1.5 mm\"]\n");
        text += ordered("5", "G4", "8 thou") + ordered("4", "D3", "20 thou") + ordered("3", "G3", "15 thou") +
                ordered("2", "B3", "12 thou") + ordered("1", "D4", "10 thou");
        const auto r = run_text(text);
        REQUIRE_MESSAGE(r.code == 0, r.err);
        CHECK(has(r.out, "\n  5         G4 "));
        CHECK(has(r.out, "\n  1         D4 "));
        CHECK(has(r.out, "over fret 1, string 5 (G4)"));
        const std::string asked = "A re-entrant tuning: string 5 (G4) sounds higher than its neighbour";
        CHECK(has(r.out, asked));
        CHECK(r.out.find(asked) == r.out.rfind(asked));
    }
    TEST_CASE("a number of the sheet is named by its string's number or by its path, and is shown with both") {
        const auto by_number = run(four_courses + " --explain 'string 4a.heights[11]'");
        CHECK(by_number.code == 0);
        CHECK(by_number.out == run(four_courses + " --explain 'strings[0].heights[11]'").out);
        CHECK(has(by_number.out, "height over fret 12 of course 4 (G2), its bass-side string, as planned: 2.20"));
        CHECK(has(by_number.out, "named: planned.strings[0].heights[11] (4a G2)"));
        CHECK(
            has(run(four_courses + " --explain 'found.string 1b.tension'").out, "strings[7].string.core.diameter (1b E4)"));
        const auto none = run(four_courses + " --explain 'string 5a.tension'");
        CHECK(none.code == 2);
        CHECK(has(none.err,
                  "--explain is \"string 5a.tension\"; it must be of a string that is there; there are courses 1 (E4) to "
                  "4 (G2); 4a is course 4 (G2), its bass-side string"));
        const std::string vary =
            " --through 'string 1b.string.core.diameter' '11 thou, 12 thou' --table 'string 1b.tension' ";
        const auto table = run(four_courses + vary);
        CHECK(table.code == 0);
        CHECK(has(table.out, "strings[7].string.core.diameter (1b E4)  strings[7].tension (1b E4)"));
        CHECK(has(run(four_courses + vary + "--csv").out, "strings[7].tension (1b E4),strings[7].tension (1b E4) unit"));
        CHECK(run(four_courses + " --through a4 '440 Hz' --table 'string 9.tension'").code == 2);
    }
    TEST_CASE("--list names the string of every number that has one") {
        const auto list = run(baritone + " --list");
        REQUIRE(list.code == 0);
        std::istringstream lines(list.out);
        int named = 0;
        for (std::string line; std::getline(lines, line);) {
            const std::string name = line.substr(2, line.find(' ', 2) - 2);
            const auto at = name.find("strings[");
            if (at == std::string::npos || name.find("bridge_strings") != std::string::npos) { continue; }
            const int place = name[at + 8] - '0';
            CHECK_MESSAGE(has(line, "string " + std::to_string(6 - place) + " (" + notes[place] + ")"), line);
            ++named;
        }
        CHECK(named > 600);
        for (const char* row : {"change of the nut slot of string 6 (B1)", "change of the saddle slot of string 1 (B3)"}) {
            CHECK(has(list.out, row));
        }
    }
    TEST_CASE("where doubt comes from names the string whose measurement it is") {
        std::string found = read_all(four_courses);
        found.erase(found.find("# What is planned"));
        found.replace(found.find("gauge = \"11 thou\""), 17, "gauge = \"11 ± 0.3 thou\"");
        CHECK(has(run_text(found, "--budget").out, "strings[6].gauge (1a E4)"));
        // Measurements that err together may be named by number as well; one that is not there is told.
        std::string text = read_all(four_courses);
        text.replace(text.find("gauge = \"39 thou\""), 17, "gauge = \"39 ± 0.2 thou\"");
        const auto first = text.find("\"saddle.height_bass\"");
        text.replace(first, 20, "\"string 4a.gauge\"");
        CHECK_MESSAGE(run_text(text, "--check").code == 0, run_text(text, "--check").err);
        text.replace(first, 17, "\"string 9a.gauge\"");
        check_mistake(
            text, "\"string 9a.gauge\"",
            "correlated[0].first is \"string 9a.gauge\"; it must be of a string that is there; there are courses 1 (E4)");
    }
    TEST_CASE("a sweep takes the name of a result as --list writes it") {
        const std::string vary = " --through a4 '440 Hz' ";
        const auto planned = run(four_courses + vary + "--table planned.relief.gap");
        CHECK(planned.code == 0);
        CHECK(planned.out == run(four_courses + vary + "--table relief.gap").out);
        const auto twice = run(four_courses + vary + "--table relief.gap --table planned.relief.gap");
        CHECK(twice.code == 2);
        CHECK(has(twice.err, "it must name each result once."));
        const auto found = run(four_courses + vary + "--table found.relief.gap");
        CHECK(found.code == 2);
        CHECK(has(found.err,
                  "--table is \"found.relief.gap\"; it must be a result of the instrument as planned, which is what is "
                  "varied: planned.relief.gap"));
        std::string alone = read_all(four_courses);
        alone.erase(alone.find("# What is planned"));
        CHECK(run_text(alone, vary + "--table found.relief.gap").code == 0);
        CHECK(run_text(alone, vary + "--table planned.relief.gap").code == 2);
    }
    TEST_CASE("a gauge of what no string is made is refused") {
        for (const char* gauge : {"0.12 thou", "0.09 mm", "46 mm", "8.1 mm"}) {
            const auto r = run_with("gauge = \"16 thou\"", "gauge = \"" + std::string(gauge) + "\"");
            CHECK(r.code == 2);
            CHECK(has(r.err, ":" + line_number_of("gauge = \"16 thou\"") + ": strings[4].gauge (2a A3) is \"" + gauge +
                                 "\"; it must be at least 0.1 mm and at most 8 mm"));
        }
        CHECK(run_with("gauge = \"16 thou\"", "gauge = \"0.12 mm\"", "--check").code == 0);
        const auto core = run_with("core = \"14 thou\"", "core = \"0.14 thou\"");
        CHECK(core.code == 2);
        CHECK(has(core.err, "strings[2].core (3a D3) is \"0.14 thou\"; it must be at least 0.1 mm"));
    }
    TEST_CASE("a doubt as large as what it doubts is refused where zero cannot be") {
        const auto told = [](const std::string& from, const std::string& to, const std::string& said) {
            const auto r = run_with(from, to);
            CHECK(r.code == 2);
            CHECK_MESSAGE(has(r.err, ":" + line_number_of(from) + ": " + said), r.err);
        };
        told("thickness = \"5.2 ± 0.1 mm\"", "thickness = \"5.8 ± 9 mm\"",
             "board.thickness is \"5.8 ± 9 mm\"; with its doubt it may be -3.2 mm, but it must be at least 0.1 mm and at "
             "most 30 mm: expected a smaller doubt than 9 mm");
        told("thickness = \"5.2 ± 0.1 mm\"", "thickness = \"5.8 ± 5.8 mm\"", "board.thickness is \"5.8 ± 5.8 mm\"; ");
        told("a4 = \"440 Hz\"", "a4 = \"440 ± 300 Hz\"",
             "a4 is \"440 ± 300 Hz\"; with its doubt it may be 140 Hz, but it must ");
        told("gauge = \"16 thou\"", "gauge = \"16 ± 14 thou\"", "strings[4].gauge (2a A3) is \"16 ± 14 thou\"; ");
        // What may fairly be near zero may be as doubtful as it is large, but not beyond all that is allowed.
        CHECK(run_with("setback_treble = \"1.6 mm\"", "setback_treble = \"1.6 ± 2 mm\"", "--check").code == 0);
        CHECK(run_with("wear = [\"0.16 mm\"", "wear = [\"0.05 ± 0.1 mm\"", "--check").code == 0);
        CHECK(run_with("z = \"-0.10 mm\"", "z = \"-0.10 ± 0.1 mm\"", "--check").code == 0);
        told("setback_bass = \"3.4 mm\"", "setback_bass = \"3.4 ± 90 mm\"", "saddle.setback_bass is \"3.4 ± 90 mm\"; ");
        CHECK(run_with("thickness = \"5.2 ± 0.1 mm\"", "thickness = \"5.8 ± 5.6 mm\"", "--check").code == 0);
    }
    TEST_CASE("JSON says where a string stands in lists, and what it is called") {
        const auto j = nlohmann::json::parse(run(baritone + " --json").out);
        const auto& strings = j["found"]["strings"];
        REQUIRE(strings.size() == 6);
        for (std::size_t i = 0; i < 6; ++i) {
            CHECK(strings[i]["place"] == i);
            CHECK(strings[i]["number"] == std::to_string(6 - i));
            CHECK(strings[i]["note"] == notes[i]);
            CHECK(strings[i]["name"] == "string " + std::to_string(6 - i) + " (" + notes[i] + ")");
        }
        int of_strings = 0;
        for (const auto& step : j["plan"]["steps"]) {
            for (const auto& line : step["lines"]) {
                if (!line.contains("string")) { continue; }
                ++of_strings;
                CHECK(has(line["what"], "string " + std::string(line["string"]["number"]) + " (" +
                                            std::string(line["string"]["note"]) + ")"));
            }
        }
        CHECK(of_strings == 8 + 12 + 12 + 12 + 6); // heights twice, slots, saddle, holes for pins, tensions
        const auto pairs = nlohmann::json::parse(
            run_with("note = \"E4\"\ngauge = \"11 thou\"", "note = \"E5\"\ngauge = \"11 thou\"", "--json").out);
        const auto& findings = pairs["found"]["findings"];
        const auto breaks =
            std::find_if(findings.begin(), findings.end(), [](const auto& f) { return f["severity"] == "stop"; });
        REQUIRE(breaks != findings.end());
        CHECK((*breaks)["string"] == nlohmann::json{{"place", 6}, {"number", "1a"}, {"note", "E5"}});
        CHECK(has((*breaks)["sentence"], "Course 1 (E5), its bass-side string: its core bears "));
    }
    TEST_CASE("one string of a set is planned by its number; the others stay on") {
        const std::string text = read_all(baritone), found = text.substr(0, text.find("# What is planned"));
        const std::string one = "\n[planned]\ntitle = \"one string\"\n[[planned.strings]]\n"
                                "number = 3\ngauge = \"26 "
                                "thou\"\ncore = \"14 thou\"\nwrap = \"80/20\"\n";
        const auto r = run_text(found + one, "--json");
        REQUIRE_MESSAGE(r.code == 0, r.err);
        const auto j = nlohmann::json::parse(r.out);
        for (std::size_t i = 0; i < 6; ++i) {
            const double was = j["found"]["strings"][i]["gauge_mm"], is = j["planned"]["strings"][i]["gauge_mm"];
            CHECK((i == 3) == (std::abs(is - was) > 1e-6));
            CHECK(j["planned"]["strings"][i]["note"] == notes[i]);
        }
        // What was measured of another string is as sure as before; of the new one nothing is left of what was measured.
        const auto budget = run_text(found + one, "--budget").out;
        const auto planned = budget.substr(budget.find("one string"));
        CHECK(has(planned, "planned.strings[3].gauge (3 D3)"));
        CHECK_FALSE(has(budget, "planned.strings[0].gauge"));
        // Wrong numbers, and a number twice.
        const std::string twice = one + "[[planned.strings]]\n"
                                        "number = \"3\"\ngauge = \"27 thou\"\n";
        check_mistake(found + twice, "number = \"3\"", "planned.strings has the number \"3\"; expected each string once");
        std::string none = one;
        none.replace(none.find("number = 3"), 10, "number = 7");
        check_mistake(found + none, "number = 7",
                      "planned.strings has the number 7; expected that of a string: there are strings 1 (B3) to 6 (B1)");
        none.replace(none.find("number = 7\n"), 11, "");
        check_mistake(
            found + none, "[[planned.strings]]",
            "planned.strings has 1 entries, the set 6; expected the whole set, or the number of each string that is new");
        // A mistake in it is told where it stands, by its place in the set.
        std::string wrong = one;
        wrong.replace(wrong.find("26 thou"), 7, "26 feet");
        check_mistake(found + wrong, "gauge = \"26 feet\"", "planned.strings[3].gauge (3 D3) is \"26 feet\"; expected ");
        wrong = one;
        wrong.erase(wrong.find("gauge = \"26 thou\"\n"), 18);
        check_mistake(found + wrong, "[[planned.strings]]", "the key \"planned.strings[3].gauge\" (3 D3) is missing");
    }
    TEST_CASE("strings by weight, by packet, with a hexagonal core, two wraps, ground or flat") {
        const std::string text = read_all(baritone), found = text.substr(0, text.find("# What is planned"));
        const auto with = [&](const std::string& more) {
            std::string job = found;
            const std::string after = "note = \"D3\"\ngauge = \"27 thou\"\ncore = \"14 thou\"\n";
            const auto at = job.find(after);
            REQUIRE(at != std::string::npos);
            return job.replace(at, after.size(), "note = \"D3\"\ngauge = \"27 thou\"\n" + more + "\n");
        };
        const auto pull = [&](const std::string& more) {
            const auto r = run_text(with(more), "--json");
            REQUIRE_MESSAGE(r.code == 0, r.err);
            return nlohmann::json::parse(r.out)["found"]["strings"][3]["tension_N"].get<double>();
        };
        const double built = pull("core = \"14 thou\"");
        const double light = pull("core = \"14 thou\"\nweight = \"2.0 g\"\nweight_length = \"1 m\"");
        CHECK(std::abs(pull("core = \"14 thou\"\nweight = \"4.4 g\"\nweight_length = \"2.2 m\"") / light - 1) < 1e-12);
        CHECK(std::abs(pull("core = \"14 thou\"\nweight = \"2.2 g\"\nweight_length = \"1 m\"") / light - 1.1) < 2e-3);
        // A hexagon is wider over its corners, which leaves a thinner wrap of the heavier metal.
        const double hexagonal = pull("core_flats = \"14 thou\"");
        CHECK(hexagonal < built);
        CHECK(hexagonal > 0.9 * built);
        CHECK(pull("core = \"14 thou\"\ninner_wrap = \"nylon\"\ninner_wire = \"2 thou\"") < built);
        CHECK(built < pull("core = \"14 thou\"\nground = \"1 thou\""));
        CHECK(built < pull("core = \"14 thou\"\nribbon_width = \"20 thou\""));
        // A packet's tension at the instrument's own scale and note is the string's.
        CHECK(std::abs(pull("core = \"14 thou\"\npacket_pull = \"110 N\"\npacket_scale = \"27.125 in\"") / 110 - 1) < 0.02);
        // A doubtful weight is a doubt of the pull.
        CHECK(has(run_text(with("core = \"14 thou\"\nweight = \"2.0 ± 0.1 g\"\nweight_length = \"1 m\""), "--budget").out,
                  "strings[3].weight (3 D3)"));
    }
    TEST_CASE("the table of materials names each with its values and where they are from") {
        const auto r = run("--materials");
        CHECK(r.code == 0);
        for (const tl::wire_material& m : tl::wire_materials()) {
            CHECK(has(r.out, "\n| " + std::string(m.name) + " | "));
            CHECK(has(r.out, std::string(m.source)));
        }
        CHECK(has(r.out, "| 7850 | 203.4 | 2797 MPa at 0.2 mm, 2154 at 1 mm |"));
        CHECK(has(r.out, "| nylon | polyamide, pa | 1134 | 5 | unknown |"));
    }
}
