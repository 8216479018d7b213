// One bad input for each key, made from the table that the program reads by, and some by hand: each is answered by line,
// key and what is expected, and nothing is written. Rules between keys are in rules.cpp.

#include <algorithm>
#include <fstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include <tautline/job/answer.hpp>

#include "job.hpp"
#include "keys.hpp"
#include "read_key.hpp"
#include "run_program.hpp"

using namespace job_file;
using program::has;

namespace {

const std::string baritone = std::string(JOBS) + "/baritone_flat_top.toml";

std::uint32_t line_count(const std::string& text) {
    return static_cast<std::uint32_t>(std::count(text.begin(), text.end(), '\n'));
}

/// The starting file with one key set, in a section of its own at the end or in the one that is there.
struct with_key {
    std::string text;
    std::uint32_t line = 0;
};
with_key set_key(const std::string& path, std::string value) {
    const std::size_t dot = path.rfind('.');
    const std::string section = dot == std::string::npos ? "" : path.substr(0, dot);
    std::string name = path.substr(dot + 1);
    if (name.ends_with("[]")) { // a list of texts
        name.resize(name.size() - 2);
        value = "[" + value + "]";
    }
    const bool list = section.ends_with("[]");
    std::string bare = section;
    for (auto at = bare.find("[]"); at != std::string::npos; at = bare.find("[]")) { bare.erase(at, 2); }
    const std::string head = section.empty() ? "" : list ? "[[" + bare + "]]\n" : "[" + bare + "]\n";
    static const std::string begun = starting_file(starting_kinds().front()); // made once: it is asked for a thousand times
    std::string text = begun;
    // Where the section begins: at its head, or at the top.
    const std::size_t at = head.empty() ? 0 : text.find("\n" + head);
    if (at == std::string::npos) {
        // A section in a section of a list that is not there either.
        const std::size_t outer = section.find("[].");
        if (outer != std::string::npos && text.find("\n[[" + section.substr(0, outer) + "]]\n") == std::string::npos) {
            text += "[[" + section.substr(0, outer) + "]]\n";
        }
        text += head + name + " = " + value + "\n";
        return {text, line_count(text)};
    }
    std::size_t inside = head.empty() ? 0 : at + 1 + head.size();
    const std::size_t end = std::min(text.find("\n[", inside), text.size());
    const std::size_t there = text.find("\n" + name + " = ", inside - (inside > 0 ? 1 : 0));
    if (there < end) {
        inside = there + 1;
        text.erase(inside, text.find('\n', inside) + 1 - inside);
    }
    text.insert(inside, name + " = " + value + "\n");
    return {text, line_count(text.substr(0, inside)) + 1};
}

/// A text without the places in its lists: which entry of a list got the key does not matter.
std::string without_places(std::string text) {
    for (std::size_t at = text.find('['); at != std::string::npos; at = text.find('[', at + 1)) {
        const std::size_t end = text.find_first_not_of("0123456789", at + 1);
        if (end != std::string::npos && text[end] == ']') { text.erase(at + 1, end - at - 1); }
    }
    return text;
}

void check_told(const with_key& file, const std::string& path, const std::string& words) {
    const auto job = parse_job(file.text);
    bool told = false;
    std::string all;
    for (const auto& m : job.mistakes) {
        told = told || (m.line == file.line && has(without_places(m.text), path) && has(m.text, words));
        all += std::to_string(m.line) + ": " + m.text + "\n";
    }
    CHECK_MESSAGE(told, "line ", file.line, ", ", path, ", \"", words, "\" expected in\n", all);
}

} // namespace

TEST_SUITE("bad input") {
    TEST_CASE("every key with a range: below it, above it") {
        int checked = 0;
        for (const auto& k : all_keys()) {
            for (const std::string& value : {k.too_low, k.too_high}) {
                if (value.empty()) { continue; }
                CAPTURE(k.path);
                CAPTURE(value);
                check_told(set_key(k.path, k.list ? "[" + value + "]" : value), k.path, "must be ");
                ++checked;
            }
        }
        CHECK(checked > 300);
    }
    TEST_CASE("every range has both ends, and what a key begins with has a reason") {
        for (const auto& k : all_keys()) {
            CAPTURE(k.path);
            const bool ranged = !k.allowed.empty();
            CHECK(k.too_low.empty() == !ranged);
            CHECK(k.too_high.empty() == !ranged);
            if (ranged && !k.required && !k.preset.empty()) {
                CHECK((has(k.preset, ": ") || has(std::string(meaning_of_key(k.path)), "left out: ")));
            }
        }
    }
    TEST_CASE("every key of another kind") {
        for (const auto& k : all_keys()) {
            CAPTURE(k.path);
            check_told(set_key(k.path, "1979-05-27"), k.path, "; expected ");
            check_told(set_key(k.path, k.expected == "true or false" ? "1" : "true"), k.path, "; expected ");
        }
    }
    TEST_CASE("every key that must be there, left out") {
        for (const auto& k : all_keys()) {
            if (!k.required) { continue; }
            CAPTURE(k.path);
            // An empty section where the file does not begin with one, else the line taken away.
            const std::string section = k.path.substr(0, k.path.rfind('.')), name = k.path.substr(k.path.rfind('.') + 1);
            with_key file = set_key(k.path, "\"marked\"");
            const auto at = file.text.find(name + " = \"marked\"\n");
            REQUIRE(at != std::string::npos);
            file.text.erase(at, name.size() + 12);
            const auto job = parse_job(file.text);
            CHECK(std::any_of(job.mistakes.begin(), job.mistakes.end(), [&](const mistake& m) {
                return has(without_places(m.text), "the key \"" + k.path + "\"") && has(m.text, "is missing") && m.line > 0;
            }));
        }
    }
    TEST_CASE("one round tells everything: rules of sound parts beside keys that are missing, found and planned") {
        std::string text = program::read_all(program::four_courses);
        const auto swap = [&](const std::string& from, const std::string& to) {
            const auto at = text.find(from);
            REQUIRE(at != std::string::npos);
            text.replace(at, from.size(), to);
        };
        swap("scale_length = \"22 1/16 in ± 1/64 in\"", "");         // missing
        swap("treble_foot = \"34 mm\"", "treble_foot = \"-44 mm\""); // a rule of the feet
        swap("reach = \"92 mm\"", "reach = \"192 mm\"");             // a rule of the tailpiece
        swap("note = \"D3\"", "note = \"H3\"");                      // a string that cannot be read
        swap("tang_depth = \"1.6 mm\"\n", "");                       // a rule of the plan
        swap("action_bass = \"2.2 mm\"", "action_bass = \"2.2\"");   // a unit
        const auto job = parse_job(text);
        std::string all;
        for (const auto& m : job.mistakes) { all += m.text + "\n"; }
        CAPTURE(all);
        CHECK(job.mistakes.size() == 6);
        for (const char* part : {"board.scale.scale_length", "feet.treble_foot", "tailpiece.reach", "strings[2].note",
                                 "planned.wire.tang_depth", "wanted.action_bass"}) {
            CHECK_MESSAGE(has(all, part), part);
        }
    }
    TEST_CASE("a string that cannot be made, kept by a plan of another pitch, is told once") {
        const auto job = parse_job("[[strings]]\nnote = \"E2\"\ngauge = \"42 thou\"\ncore = \"46 thou\"\n"
                                   "wrap = \"phosphor bronze\"\n[planned]\na4 = \"435 Hz\"\n");
        const auto told = std::count_if(job.mistakes.begin(), job.mistakes.end(),
                                        [](const mistake& m) { return has(m.text, "less than the string's gauge"); });
        CHECK(told == 1);
    }

    TEST_CASE("at either end of every range: numbers that are numbers, or a sentence that names key and line") {
        for (const std::string& demo : {program::four_courses, baritone}) {
            const std::string whole = program::read_all(demo);
            for (const auto& k : all_keys()) {
                const std::size_t dot = k.path.rfind('.');
                if (dot == std::string::npos || k.lowest.empty() || k.list || has(k.path, "[]")) { continue; }
                const std::string head = "\n[" + k.path.substr(0, dot) + "]\n", name = k.path.substr(dot + 1);
                const auto at = whole.find(head);
                if (at == std::string::npos) { continue; }
                const auto end = std::min(whole.find("\n[", at + head.size()), whole.size());
                for (const std::string& value : {k.lowest, k.highest}) {
                    CAPTURE(demo);
                    CAPTURE(k.path);
                    CAPTURE(value);
                    std::string text = whole;
                    const auto there = text.find("\n" + name + " = ", at + head.size() - 1);
                    if (there < end) { text.erase(there + 1, text.find('\n', there + 1) - there); }
                    text.insert(at + head.size(), name + " = " + value + "\n");
                    const auto job = parse_job(text);
                    for (const auto& m : job.mistakes) { CHECK_MESSAGE(m.line > 0, m.text); }
                    if (!job.mistakes.empty()) { continue; }
                    try {
                        const auto a = tautline::setups_of(job.job);
                        const auto finite = [](std::string_view path, const auto& q) {
                            CHECK_MESSAGE(tautline::all_finite(tautline::number_of(q)), path);
                        };
                        tautline::for_each_leaf(a.found, finite);
                        if (a.planned) { tautline::for_each_leaf(a.plan.solved, finite); }
                    } catch (const tautline::invalid_input& e) {
                        for (const auto& p : e.problems()) {
                            CHECK_MESSAGE(line_near(p.field, job.file) > 0, p.sentence());
                            CHECK_MESSAGE(is_read(p.field), p.sentence());
                        }
                    }
                }
            }
        }
    }
    TEST_CASE("what only solving shows is told by the key in the file, with its line") {
        const auto soft = program::run_with("sink_stiffness = \"520 N/mm\"", "sink_stiffness = \"3 N/mm\"");
        CHECK(soft.code == 2);
        CHECK_MESSAGE(
            has(soft.err, ":" + program::line_number_of("sink_stiffness") + ": soundboard.sink_stiffness must be more"),
            soft.err);
        // The library calls it work; in the file it stands under what is planned.
        const auto few = program::run_with("radius = \"290 mm\"", "radius = \"24 mm\"");
        CHECK(few.code == 2);
        CHECK_MESSAGE(has(few.err, "planned.sanding"), few.err);
        CHECK_FALSE(has(few.err, "work."));
    }
    TEST_CASE("a number that is named otherwise now is told with its name, wherever it is typed") {
        for (const char* option :
             {"--explain plan.neck_reset", "--vary plan.neck_reset 1 2 3", "--through plan.neck_reset 1,2",
              "--vary a4 \"430 Hz\" \"450 Hz\" 2 --table plan.neck_reset"}) {
            CAPTURE(option);
            const auto r = program::run(baritone + " " + option);
            CHECK(r.code == 2);
            CHECK_MESSAGE(has(r.err, "\"plan.neck_reset\"; it is now named \"plan.reset.turn\""), r.err);
        }
    }
    TEST_CASE("a pair of readings that names a key as it was is told the present one") {
        const auto job =
            parse_job(starting_file(starting_kinds().front()) + "[[correlated]]\nfirst = \"wanted.heel_depth\"\n"
                                                                "second = \"saddle.height_bass\"\ncoefficient = 0.5\n");
        CHECK(std::any_of(job.mistakes.begin(), job.mistakes.end(), [](const mistake& m) {
            return m.line > 0 && has(m.text, "correlated[0].first is \"wanted.heel_depth\"; it is now named "
                                             "\"wanted.reset.heel_depth\"");
        }));
    }
    TEST_CASE("by hand, through the program: line or key, expectation, exit 2, nothing written") {
        struct by_hand {
            std::string from, to, words;
        };
        const std::string out = program::scratch() + "/never.txt";
        for (const by_hand& c : std::vector<by_hand>{
                 {"board_line = \"13.4 ± 0.2 mm\"", "", "the key \"saddle.board_line\" is missing; expected a length"},
                 {"[headstock]", "[head]", "unknown key \"head\""},
                 {"pitch = \"13 deg\"", "", "headstock.pitch"},
                 {"pitch = \"13 deg\"", "pitch = \"13 degrees C\"", "expected an angle"},
                 {"pitch = \"13 deg\"", "pitch = 13", "headstock.pitch is 13; expected an angle"},
                 {"face_drop = \"3.5 mm\"", "face_drop = \"3,5 mm\"", "face_drop"},
                 {"face_drop = \"3.5 mm\"", "face_drop = \"nan mm\"", "face_drop"},
                 {"face_drop = \"3.5 mm\"", "face_drop = \"inf mm\"", "face_drop"},
                 {"face_drop = \"3.5 mm\"", "face_drop = \"1e400 mm\"", "face_drop"},
                 {"face_drop = \"3.5 mm\"", "face_drop = nan", "face_drop"},
                 {"frets = 19", "frets = 19.0", "board.scale.frets is 19; expected a whole number"},
                 {"frets = 19", "frets = \"19\"", "expected a whole number"},
                 {"frets = 19", "frets = -1", "must be at least 0"},
                 {"frets = 19", "", "the key \"board.scale.frets\" is missing"},
                 {"frets = 19", "frets = 99999999999999999999", "this is not TOML"},
                 {"frets = 19", "frets = 19\nfrets = 20", "this is not TOML"},
                 {"joint_fret = 12", "", "the key \"neck.joint_fret\" is missing"},
                 {"joint_fret = 12", "joint_fret = 0", "neck.joint_fret is 0; it must be at least 1"},
                 {"a4 = \"440 Hz\"", "a4 = \"44 Hz\"", "a4 is \"44 Hz\"; it must be at least 200 Hz"},
                 {"a4 = \"440 Hz\"", "a4 = \"440 mm\"", "expected a frequency"},
                 {"a4 = \"440 Hz\"", "a4 = 440", "a4 is 440; expected a frequency"},
                 {"title = \"Four", "title = 5 #\"Four", "title is 5; expected text"},
                 {"hinge_height = \"-12 ± 2 mm\"", "", "the key \"tailpiece.hinge_height\" is missing"},
                 {"spread = \"46 mm\"", "", "the key \"tailpiece.spread\" is missing"},
                 {"spread = \"52 mm\"", "", "saddle.spacing.spread must be more than 0 mm"},
                 {"setback_bass = \"3.4 mm\"", "", "the key \"saddle.setback_bass\" is missing"},
                 {"setback_bass = \"3.4 mm\"", "setback_bass = \"3.4 in\"", "saddle.setback_bass"},
                 {"bass_foot = \"-34 mm\"", "", "the key \"feet.bass_foot\" is missing"},
                 {"top_slope = \"0 deg\"", "", "the key \"feet.top_slope\" is missing"},
                 {"sink_stiffness = \"520 N/mm\"", "sink_stiffness = \"520 N\"", "expected a stiffness"},
                 {"sink_stiffness = \"520 N/mm\"", "sink_stiffness = \"1e-9 N/mm\"", "soundboard.sink_stiffness"},
                 {"board_modulus = \"14 GPa\"", "board_modulus = \"14 kPa\"", "neck.board_modulus"},
                 {"board_modulus = \"14 GPa\"", "board_modulus = \"ebony\"", "expected a stress"},
                 {"board_modulus = \"14 GPa\"", "", "the key \"neck.board_modulus\" is missing"},
                 {"note = \"E4\"", "", "is missing; expected text"},
                 {"note = \"E4\"", "note = \"\"", "strings[6].note"},
                 {"note = \"E4\"", "note = \"E\"", "is \"E\"; it must be"},
                 {"gauge = \"11 thou\"", "", "the key \"strings[6].gauge\" (1a E4) is missing"},
                 {"gauge = \"11 thou\"", "gauge = \"0.11 thou\"", "strings[6].gauge"},
                 {"gauge = \"11 thou\"", "gauge = \"11 in\"", "strings[6].gauge"},
                 {"core = \"18 thou\"", "", "a wound string needs both"},
                 {"wrap = \"phosphor bronze\"", "", "a wound string needs both"},
                 {"name = \"guard beside the board\"", "", "the key \"objects[0].name\" is missing"},
                 {"extent = \"60 mm\"", "", "the key \"objects[0].extent\" is missing"},
                 {"[[strings]]", "[strings]", "this is not TOML"},
                 {"radius = \"290 mm\"", "radius = \"290\"", "planned.sanding.radius is \"290\"; expected a length"},
                 {"allowance = \"0.05 mm\"", "allowance = \"-0.05 mm\"", "planned.sanding.allowance"},
                 {"held = \"slack\" ", "held = \"loose\" ", "planned.sanding.held is \"loose\"; expected \"slack\""},
                 {"in_tune = true", "in_tune = \"yes\"", "wanted.in_tune is \"yes\"; expected true or false"},
                 {"down_force = \"100 N\"", "down_force = \"100 kg\"", "expected a force"},
                 {"down_force = \"100 N\"", "down_force = \"0 N\"", "wanted.down_force"},
                 {"thread_pitch = \"0.7 mm\"", "", "the key \"wanted.adjusters.thread_pitch\" is missing"},
                 {"coefficient = 1.0", "coefficient = 2.0", "correlated[0].coefficient is 2; it must be"},
             }) {
            CAPTURE(c.from);
            CAPTURE(c.to);
            const auto r = program::run_with(c.from, c.to, "--out " + out);
            CHECK(r.code == 2);
            CHECK(r.out.empty());
            CHECK_MESSAGE(has(r.err, c.words), r.err);
            CHECK(has(r.err, "/job.toml:"));
            CHECK_FALSE(std::ifstream(out).good());
        }
    }
}
