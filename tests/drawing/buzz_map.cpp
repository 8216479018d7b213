// The map of clearances, read back from its files.
#include <algorithm>
#include <map>

#include <buzz_map.hpp>

#include <doctest/doctest.h>

#include "read_back.hpp"
#include "solved.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::string words_of(const drawing::sheets& s) {
    const files::scratch_folder folder;
    return drawn::output_of("pdftotext -layout '" + folder.write("s.pdf", drawing::pdf_of(s.pages, "")).string() + "' -");
}
/// How often each word stands there.
std::map<std::string, int> counted(const std::string& words) {
    std::map<std::string, int> count;
    std::istringstream in(words);
    for (std::string w; in >> w;) { ++count[w]; }
    return count;
}
/// Cells filled black.
long black_boxes(const std::string& svg) {
    long found = 0;
    for (const drawn::element& e : drawn::elements_of(svg)) {
        if (e.tag.rfind("<path", 0) != 0 || drawn::attribute(e.tag, "fill") != "#000") { continue; }
        const std::string d = drawn::attribute(e.tag, "d");
        found += std::count(d.begin(), d.end(), 'L') == 3 ? 1 : 0;
    }
    return found;
}

} // namespace

TEST_CASE("each string's least clearance at each fret stands on the map") {
    const auto s = drawn::four_course(), p = drawn::four_course_planned();
    for (const bool imperial : {false, true}) {
        const drawing::heading head{"T", drawing::paper::a4,
                                    imperial ? drawing::measures::imperial : drawing::measures::metric};
        const auto count = counted(words_of(drawing::buzz_map(head, s, &p)));
        std::map<std::string, int> wanted;
        for (const auto* of : {&s, &p}) {
            for (const auto& string : of->setup.strings) {
                CHECK(string.clearances.size() == 19); // open, and pressed at all frets but the last
                for (const auto& c : string.clearances) {
                    ++wanted[imperial ? fixed_text(c.gap, thou, 1) : fixed_text(c.gap, mm, 2)];
                }
            }
        }
        for (const auto& entry : wanted) {
            const std::string& number = entry.first;
            CAPTURE(number);
            CHECK(count.count(number) == 1);
            // The legend may name the same number.
            if (count.count(number) == 1) { CHECK(count.at(number) >= entry.second); }
        }
        CHECK(count.count("open") == 1);
        CHECK(count.at("open") == 2);
    }
}

TEST_CASE("touching places are marked, and only they") {
    const auto s = drawn::touching();
    long touching = 0;
    for (const auto& string : s.setup.strings) {
        touching += std::count_if(string.clearances.begin(), string.clearances.end(),
                                  [](const auto& c) { return c.gap <= 0 * mm; });
    }
    REQUIRE(touching > 0);
    REQUIRE(touching < 8 * 19);
    const drawing::heading head{"T", drawing::paper::a4, drawing::measures::metric};
    CHECK(black_boxes(drawing::svg_of(drawing::buzz_map(head, s, nullptr).pages[0])) == touching + 1); // and the legend's
    CHECK(black_boxes(drawing::svg_of(drawing::buzz_map(head, drawn::four_course(), nullptr).pages[0])) == 1);
}

TEST_CASE("many strings and frets go over several pages, each cell once") {
    const auto s = drawn::pinned(40, 640, 60);
    const auto made = drawing::buzz_map({"T", drawing::paper::letter, drawing::measures::metric}, s, nullptr);
    CHECK(made.pages.size() >= 4);
    const std::string words = words_of(made);
    const auto count = counted(words);
    CHECK(count.at("open") >= 2);
    for (const char* said : {"Page 1 of ", "strings 40-", "-60"}) { CHECK(words.find(said) != std::string::npos); }
    // The last fret has nothing before it: a dash for each string.
    CHECK(count.at("-") == 40);
}
