// The side view, measured in its files.
#include <algorithm>
#include <map>

#include <noted.hpp>
#include <side_view.hpp>
#include <template_parts.hpp>
#include <templates.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "read_back.hpp"
#include "solved.hpp"

using namespace tautline;
using namespace tautline::units;
using drawn::stroke;

namespace {

std::string words_in(const drawing::sheets& s) {
    const files::scratch_folder folder;
    return drawn::output_of("pdftotext -layout '" + folder.write("s.pdf", drawing::pdf_of(s.pages, "")).string() + "' -");
}
/// The long strokes of a pen from one end of the frets' panels to the other: the strings, bass first.
std::vector<stroke> string_lines(const std::vector<stroke>& all, double width, bool dashed) {
    std::vector<stroke> out;
    for (const stroke& s : all) {
        if (s.is_line() && s.dashed == dashed && std::abs(s.width - width) < 0.005 && !s.level() &&
            s.points[1].x - s.points[0].x > 150) {
            out.push_back(s);
        }
    }
    std::sort(out.begin(), out.end(), [](const stroke& a, const stroke& b) { return a.points[0].y < b.points[0].y; });
    return out;
}

} // namespace

TEST_CASE("string lines have the heights of the setup times the factor that is printed") {
    const auto found = drawn::four_course(), planned = drawn::four_course_planned();
    const auto made = drawing::side_view({"T", drawing::paper::a4, drawing::measures::metric}, found, &planned);
    REQUIRE(made.pages.size() == 1);
    const auto strokes = drawn::strokes_of(drawing::svg_of(made.pages[0]));
    const std::string words = words_in(made);

    // "heights 15x" of each panel in turn.
    std::vector<double> factors;
    const std::regex printed("heights ([0-9.]+)x");
    for (std::sregex_iterator it(words.begin(), words.end(), printed), end; it != end; ++it) {
        factors.push_back(std::stod((*it)[1]));
    }
    REQUIRE(factors.size() == 3);
    CHECK(factors[1] >= 5);

    const auto now = string_lines(strokes, 0.25, true), then = string_lines(strokes, 0.4, false);
    REQUIRE(now.size() == 2);
    REQUIRE(then.size() == 2);
    for (std::size_t k = 0; k < 2; ++k) {
        const auto check = [&](const stroke& s, const string_line& line) {
            const double scale = (s.points[1].x - s.points[0].x) / (line.saddle_x / mm);
            CHECK(near::within((s.points[0].y - s.points[1].y) / scale, (line.saddle_z - line.nut_z) / mm * factors[k + 1],
                               0.05));
        };
        check(now[k], found.setup.strings[k == 0 ? 0 : 7].line);
        check(then[k], planned.setup.strings[k == 0 ? 0 : 7].line);
        // Both in one frame: the found nut slot lies as much higher as it is.
        const double scale =
            (then[k].points[1].x - then[k].points[0].x) / (planned.setup.strings[k == 0 ? 0 : 7].line.saddle_x / mm);
        const double higher =
            (found.setup.strings[k == 0 ? 0 : 7].line.nut_z - planned.setup.strings[k == 0 ? 0 : 7].line.nut_z) / mm;
        CHECK(near::within((then[k].points[0].y - now[k].points[0].y) / scale, higher * factors[k + 1], 0.05));
    }
}

TEST_CASE("what was read stands where it was read, as long as its doubt, and is ringed where it disagrees") {
    auto found = drawn::four_course();
    found.read = {{0, 12, found.setup.strings[0].heights[11] + length<>(0.2 * mm), length<>(0.1 * mm), true}};
    const auto made = drawing::side_view({"T", drawing::paper::a4, drawing::measures::metric}, found, nullptr);
    const std::string words = words_in(made);
    CHECK(words.find("as read, ± its doubt; ringed: disagrees") != std::string::npos);
    std::smatch factor;
    std::string panel = words.substr(words.find("bass side"));
    REQUIRE(std::regex_search(panel, factor, std::regex("heights ([0-9.]+)x")));
    std::vector<stroke> bars, strings;
    for (const stroke& s : drawn::strokes_of(drawing::svg_of(made.pages[0]))) {
        if (!s.is_line()) { continue; }
        const bool upright = std::abs(s.points[1].x - s.points[0].x) < 0.01;
        if (upright && std::abs(s.width - 0.2) < 0.005) { bars.push_back(s); }
        if (!upright && !s.level() && s.points[1].x - s.points[0].x > 150 && s.width > 0.3) { strings.push_back(s); }
    }
    REQUIRE(bars.size() == 1);
    REQUIRE(!strings.empty());
    std::sort(strings.begin(), strings.end(),
              [](const stroke& a, const stroke& b) { return a.points[0].y < b.points[0].y; });
    const stroke &string = strings.front(), &bar = bars.front();
    const double scale = (string.points[1].x - string.points[0].x) / (found.setup.strings[0].line.saddle_x / mm);
    const double up = scale * std::stod(factor[1]);
    CHECK(near::within(std::abs(bar.points[1].y - bar.points[0].y), 0.2 * up, 0.02));
    const double along = (bar.points[0].x - string.points[0].x) / (string.points[1].x - string.points[0].x);
    const double line = string.points[0].y + along * (string.points[1].y - string.points[0].y);
    CHECK(near::within(line - (bar.points[0].y + bar.points[1].y) / 2, 0.2 * up, 0.02 * up));
}

TEST_CASE("the numbers are those of the setup, in the measures asked") {
    const auto found = drawn::four_course(), planned = drawn::four_course_planned();
    for (const auto m : {drawing::measures::metric, drawing::measures::imperial, drawing::measures::both}) {
        const std::string words = words_in(drawing::side_view({"T", drawing::paper::letter, m}, found, &planned));
        const auto row = [&](const std::string& what, const std::string& one, const std::string& other) {
            return std::regex_search(words, std::regex(what + " +" + one + " +" + other));
        };
        const auto& first = found.setup.strings[0];
        const auto& then = planned.setup.strings[0];
        const bool metric = m != drawing::measures::imperial, imperial = m != drawing::measures::metric;
        CHECK(row("action, fret 1, mm", fixed_text(first.heights[0], mm, 2), fixed_text(then.heights[0], mm, 2)) == metric);
        CHECK(row("action, fret 12, thou", fixed_text(first.heights[11], thou, 1), fixed_text(then.heights[11], thou, 1)) ==
              imperial);
        CHECK(row("relief, frets 1-12, mm", fixed_text(found.setup.relief->gap, mm, 2),
                  fixed_text(planned.setup.relief->gap, mm, 2)) == metric);
        CHECK(row("strings pull together, N", fixed_text(found.setup.total_tension, N, 1),
                  fixed_text(planned.setup.total_tension, N, 1)) == metric);
        CHECK(row("press on the saddle, lbf", fixed_text(found.setup.down_force, lbf, 1),
                  fixed_text(planned.setup.down_force, lbf, 1)) == imperial);
        for (const char* said : {"as found", "planned", "qualified repairer", "tailpiece", "soundboard", "posts"}) {
            CHECK(words.find(said) != std::string::npos);
        }
    }
}

TEST_CASE("of a bridge on a solid body neither pins nor a soundboard are drawn or told") {
    const auto bass = drawn::solid_body();
    const drawing::heading head{"T", drawing::paper::a4, drawing::measures::metric};
    const std::string side = words_in(drawing::side_view(head, bass, nullptr));
    for (const char* said : {"strings' ends", "body's face", "saddle over body"}) {
        CHECK_MESSAGE(side.find(said) != std::string::npos, side);
    }
    const std::string templates = words_in(drawing::templates(head, bass, nullptr));
    CHECK(templates.find("Lower line: the body.") != std::string::npos);
    CHECK(templates.find("over body") != std::string::npos);
    for (const char* word : {"soundboard", "pins", "tailpiece"}) {
        CHECK(side.find(word) == std::string::npos);
        CHECK(templates.find(word) == std::string::npos);
    }
}

TEST_CASE("what was found is drawn alone where nothing is planned") {
    const auto found = drawn::four_course();
    const auto made = drawing::side_view({"T", drawing::paper::a4, drawing::measures::metric}, found, nullptr);
    const auto strokes = drawn::strokes_of(drawing::svg_of(made.pages[0]));
    CHECK(string_lines(strokes, 0.25, true).empty());
    CHECK(string_lines(strokes, 0.4, false).size() == 2);
    CHECK(words_in(made).find("planned") == std::string::npos);
}

TEST_CASE("action is drawn and told over the fret where it is wished, else over the octave's, found by its pitch") {
    auto found = drawn::four_course(), planned = drawn::four_course_planned();
    found.action_fret = planned.action_fret = 15;
    const auto told = words_in(drawing::side_view({"T", drawing::paper::a4, drawing::measures::metric}, found, &planned));
    CHECK(std::regex_search(told,
                            std::regex("B +action, fret 15, mm +" + fixed_text(found.setup.strings[0].heights[14], mm, 2) +
                                       " +" + fixed_text(planned.setup.strings[0].heights[14], mm, 2))));
    CHECK(told.find("action, fret 12") == std::string::npos);
    // A board whose octave is its fret 7.
    const auto diatonic = drawn::diatonic();
    const auto words =
        words_in(drawing::side_view({"T", drawing::paper::a4, drawing::measures::metric}, diatonic, nullptr));
    CHECK(std::regex_search(
        words, std::regex("B +action, fret 7, mm +" + fixed_text(diatonic.setup.strings[0].heights[6], mm, 2))));
}

TEST_CASE(
    "the last frets of a long bass and of a diatonic board have their numbers, under the strings and on the template") {
    for (const auto& s : {drawn::pinned(4, 1060, 24), drawn::diatonic(), drawn::pinned(6, 640, 60)}) {
        const drawing::heading head{"T", drawing::paper::a4, drawing::measures::metric};
        const auto page = drawing::side_view(head, s, nullptr).pages[0];
        const auto board = drawing::fret_template(s, head.measures);
        std::map<std::string, int> side, below;
        for (const auto& t : drawing::note(page.sheet, page.draw).texts) { ++side[t.letters]; }
        for (const auto& t : drawing::note({0, 0, board.width, board.height}, board.draw).texts) { ++below[t.letters]; }
        for (std::size_t n = 1; n <= s.setup.fret_x.size(); ++n) {
            CAPTURE(n);
            CHECK(side[std::to_string(n)] == 2);
            CHECK(below[std::to_string(n)] >= 1); // the rule may have the same number
        }
    }
}
