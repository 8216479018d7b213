// What a job file wishes, and how the sheet answers it.
#include <fstream>
#include <iterator>
#include <regex>

#include "job.hpp"
#include "sheet.hpp"

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::string demo(const char* name) {
    std::ifstream file(name);
    REQUIRE(file);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}
/// The demo job's instrument with other plans and wishes.
std::string job_with(const char* name, const std::string& rest) {
    const std::string text = demo(name);
    return text.substr(0, text.find("# What is planned")) + rest;
}
const char* const four_courses = TEST_JOBS "/four_courses.toml";
const char* const baritone = JOBS "/baritone_flat_top.toml";

job_file::read_job parsed(const std::string& text) {
    auto job = job_file::parse_job(text);
    for (const auto& m : job.mistakes) { MESSAGE(m.text); }
    REQUIRE(job.mistakes.empty());
    return job;
}
/// The sheet as one line, so that wrapping does not matter.
/// @param fine whether numbers have all decimals, to be compared
std::string sheet_of(const std::string& text, bool fine = true) {
    const auto job = parsed(text);
    const auto a = bench_sheet::answers_of(job.job);
    const std::string page = bench_sheet::sheet({job.job, a}, {.fine = fine});
    return std::regex_replace(std::regex_replace(page, std::regex("\\s+"), " "), std::regex(" ± [0-9.]+"), "");
}
bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
/// The number after some words.
double number_after(const std::string& text, const std::string& words) {
    const auto at = text.find(words);
    REQUIRE_MESSAGE(at != std::string::npos, words);
    return std::stod(text.substr(at + words.size()));
}

std::string heights(double bass, double treble) {
    return "[wanted]\naction_bass = \"" + std::to_string(bass) + " mm\"\naction_treble = \"" + std::to_string(treble) +
           " mm\"\n";
}

} // namespace

TEST_SUITE("wishes of a job file") {
    TEST_CASE("the heel's depth has moved, and its old key is refused with the new one") {
        const auto job = job_file::parse_job(job_with(baritone, "[wanted]\nheel_depth = \"92 mm\"\n"));
        REQUIRE(job.mistakes.size() == 1);
        CHECK(job.mistakes[0].text ==
              "the key \"wanted.heel_depth\" is no longer read; it is now \"wanted.reset.heel_depth\"");
    }
    TEST_CASE("saddle or reset is said by the limits, and the reset has the right sign") {
        const auto free = sheet_of(job_with(baritone, heights(2.6, 2.0)));
        CHECK(has(free, "Decide: Saddle: it gives the wanted action within its limits"));
        CHECK_FALSE(has(free, "neck reset"));
        const char* const instead = "a neck reset that gives the action with it (+ head back and down) ";
        const auto low = sheet_of(job_with(baritone, heights(2.6, 2.0) + "lowest_saddle = \"12 mm\"\n"));
        CHECK(has(low, "Set the saddle as far as it goes"));
        CHECK(has(low, "not met: wanted.action_treble: the saddle would have to come below lowest_saddle"));
        CHECK(number_after(low, instead) > 0.1);
        const auto high = sheet_of(job_with(baritone, heights(4.2, 3.8) + "highest_saddle = \"13.4 mm\"\n"));
        CHECK(number_after(high, instead) < -0.1);
    }
    TEST_CASE("a wanted reset is a step with its numbers, and what it leaves to be done agrees with them") {
        const auto text = job_with(baritone, heights(2.6, 2.0) + "[wanted.reset]\nheel_depth = \"92 mm\"\n");
        const auto a = setups_of(parsed(text).job);
        const auto page = sheet_of(text);
        const double turn = number_after(page, " mm; turn (+ head back and down) ");
        CHECK(near::within(turn, a.plan.reset->turn / deg, 0.006));
        CHECK(near::within(number_after(page, "off the heel at its cap (- is to add) "), 92 * std::tan(turn / 57.29578),
                           0.02));
        // In steps of the bench no more wood comes off, and that step is no finer than its last.
        const double wood = number_after(sheet_of(text, false), "off the heel at its cap (- is to add) ");
        CHECK(wood <= *a.plan.reset->heel_cut / mm + 1e-6);
        CHECK(wood > *a.plan.reset->heel_cut / mm - 0.05);
        CHECK(std::abs(std::remainder(wood, 0.005)) < 1e-6);
        CHECK(has(page, "Decide: Reset: the neck brings the action"));
        CHECK(has(page, "Nothing out of range."));
    }
    TEST_CASE("out of the joint's range: not met, with the turn that can be had and the one it would take") {
        const auto page = sheet_of(job_with(baritone, heights(2.6, 2.0) + "[wanted.reset]\nmost_turn = \"0.1 deg\"\n"));
        CHECK(has(
            page,
            "not met: wanted.reset.most_turn: for the wanted saddle the neck would have to turn this far; the saddle takes "
            "the rest; nearest 0.10 deg, of 0."));
        CHECK(has(page, "Reset as far as the joint is allowed to turn; the saddle takes the rest."));
        CHECK_FALSE(has(page, "not met: wanted.action"));
    }
    TEST_CASE("a board line planned by hand prints its angle, beyond what sanding moved") {
        // The four_courses's joint is at its octave fret: 22 1/16 in give 280.2 mm from there to the saddle's line.
        const char* const says = "turn that the planned board line speaks of (+ head back and down) ";
        CHECK(near::within(
            number_after(sheet_of(job_with(four_courses, "[planned.saddle]\nboard_line = \"14.9 mm\"\n")), says),
            1.5 / 280.2 * 57.29578, 0.006));
        const auto sanded = job_with(four_courses, "[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n");
        const double moved = parsed(sanded).job.instrument.saddle.board_line / mm -
                             setups_of(parsed(sanded).job).plan.start.instrument.saddle.board_line / mm;
        REQUIRE(moved > 0.2);
        CHECK_FALSE(has(sheet_of(sanded), says));
        CHECK(near::within(
            number_after(sheet_of(job_with(four_courses, "[planned.sanding]\nheld = \"slack\"\nradius = \"290 mm\"\n"
                                                         "[planned.saddle]\nboard_line = \"14.9 mm\"\n")),
                         says),
            (1.5 + moved) / 280.2 * 57.29578, 0.006));
    }
    TEST_CASE("a reset told by the board's line that it leaves is the reset that was wished") {
        const auto wished =
            setups_of(parsed(job_with(baritone, heights(2.6, 2.0) + "[wanted.reset]\nsaddle_height = \"14 mm\"\n")).job);
        REQUIRE(wished.plan.reset->turn > 0.1 * deg);
        const std::string line = std::to_string(wished.plan.reset->board_line / mm);
        const auto told = setups_of(
            parsed(job_with(baritone, heights(2.6, 2.0) + "[planned.saddle]\nboard_line = \"" + line + " mm\"\n")).job);
        const setup &a = wished.plan.solved, &b = told.plan.solved;
        // Without turning the body along, the pins would stand higher by their distance times the turn.
        const auto &pins = *told.plan.adjusted.instrument.pins, &as_wished = *wished.plan.adjusted.instrument.pins;
        CHECK(near::within(pins.height, length<>(as_wished.height), 0.005 * mm));
        CHECK(near::within(pins.distance, length<>(as_wished.distance), 0.005 * mm));
        for (std::size_t k = 0; k < a.strings.size(); ++k) {
            CHECK(near::within(b.strings[k].at_saddle.break_angle, a.strings[k].at_saddle.break_angle, 0.02 * deg));
            CHECK(near::within(b.strings[k].notes[11].error / cents, a.strings[k].notes[11].error / cents, 0.05));
        }
        CHECK(near::relative(b.down_force, a.down_force, 1e-3));
        CHECK(near::within(told.objects[0].shape.z, length<>(wished.objects[0].shape.z), 0.005 * mm));
        // What is measured anew after the reset stands as it was written.
        const auto anew = setups_of(parsed(job_with(baritone, heights(2.6, 2.0) + "[planned.saddle]\nboard_line = \"" +
                                                                  line + " mm\"\n[planned.pins]\nheight = \"6 mm\"\n"))
                                        .job);
        CHECK(anew.plan.adjusted.instrument.pins->height == 6 * mm);
        CHECK(anew.plan.adjusted.instrument.pins->distance == pins.distance);
    }
    TEST_CASE("what lies on the body is told from the board as the reset leaves it") {
        const auto a =
            setups_of(parsed(job_with(baritone, heights(2.6, 2.0) + "[wanted.reset]\nsaddle_height = \"14 mm\"\n")).job);
        REQUIRE(a.plan.reset->turn > 0.1 * deg);
        // The pickup at 545 mm, the joint at fret 14: it lies lower under the board's line by the turn times the reach.
        const double reach = 545 - joint_place(a.plan.adjusted.instrument) / mm;
        CHECK(near::within(a.objects[0].shape.z / mm, -4 - reach * (a.plan.reset->turn / rad), 0.02));
    }
    TEST_CASE("any wish alone is taken; the other side keeps its height") {
        const auto alone = job_with(four_courses, "[wanted]\naction_treble = \"2 mm\"\n");
        const auto a = setups_of(parsed(alone).job);
        CHECK(near::within(a.plan.solved.strings.back().heights[11], 2 * mm, 1e-6 * mm));
        CHECK(near::within(a.plan.solved.strings.front().heights[11], a.found.strings.front().heights[11], 1e-6 * mm));
        const auto page = sheet_of(alone);
        CHECK_FALSE(has(page, "Cut the nut slots"));
        CHECK(has(page, "over fret 12, course 1 (E4), its treble-side string 3.20 mm 2.00 mm 2.00 mm"));
        CHECK(has(sheet_of(job_with(four_courses, "[wanted]\nfirst_fret_bass = \"0.6 mm\"\n")), "Cut the nut slots"));
    }
    TEST_CASE("the action's fret is used from the first step to the last") {
        const auto page = sheet_of(job_with(baritone, heights(3, 2.4) + "action_fret = 16\n"));
        CHECK(has(page, "over fret 16, string 6 (B1)"));
        CHECK_FALSE(has(page, "over fret 12"));
        CHECK(has(page.substr(page.find("Check the whole")), "height over fret 16 of string 6 (B1): 3.00 mm"));
        CHECK(has(page, "Action at pitch over fret 16"));
    }
    TEST_CASE("a zero fret: a note with its crown, no wish that is not met") {
        std::string text = job_with(four_courses, "[wanted]\nfirst_fret_bass = \"0.6 mm\"\n");
        text.replace(text.find("frets = 19"), 10, "frets = 19\nzero_fret = true");
        const auto page = sheet_of(text);
        CHECK_FALSE(has(page, "not met"));
        CHECK(has(page,
                  "note: wanted.first_fret_bass: the strings lie on the zero fret and its crown decides this height; for "
                  "the wish it would stand over the board by"));
    }
    TEST_CASE("a diatonic board is set in tune by the fret of the octave; one without is told so") {
        std::string places, text = job_with(four_courses, "[wanted]\nin_tune = true\n");
        for (const int step : {2, 4, 5, 7, 9, 11, 12, 14, 16}) {
            places +=
                (places.empty() ? "\"" : ", \"") + std::to_string(22.0625 * 25.4 * (1 - std::exp2(-step / 12.0))) + " mm\"";
        }
        const auto at = text.find("frets = 19");
        text.replace(at, 10, "frets = 9\nmeasured_places = [" + places + "]");
        text.replace(text.find("joint_fret = 12"), 15, "joint_fret = 7");
        const auto a = setups_of(parsed(text).job);
        CHECK(a.plan.shortfalls.empty());
        CHECK(std::abs(a.plan.solved.strings[0].notes[6].error / cents) < 10);
        CHECK(std::abs(a.found.strings[0].notes[6].error / cents) > 10);
        CHECK(has(sheet_of(text), "over fret 7, "));
        std::string few = job_with(four_courses, "[wanted]\nin_tune = true\n");
        few.replace(few.find("frets = 19"), 10, "frets = 11");
        few.replace(few.find("joint_fret = 12"), 15, "joint_fret = 11");
        CHECK(has(sheet_of(few),
                  "not met: wanted.in_tune: no fret of the board is for the octave, by which a saddle is placed."));
    }
}
