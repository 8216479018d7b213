// Where the letters of all drawings lie: on nothing, whole, and none left out. Measured as they are drawn, over the
// ready-made kinds, as found and with something planned.
#include <algorithm>
#include <set>

#include <buzz_map.hpp>
#include <noted.hpp>
#include <pictures.hpp>
#include <side_view.hpp>
#include <template_parts.hpp>
#include <templates.hpp>

#include <doctest/doctest.h>

#include <labels.hpp>

#include "ready_jobs.hpp"
#include "sanitized.hpp"
#include "scratch_folder.hpp"

using drawing::box;
using drawing::noted_marks;
using drawing::noted_text;

namespace {

/// What ink a line's letters may take at most: no lower than the base line where no letter goes below it.
box letters_of(const noted_text& t) {
    box b = t.around;
    constexpr double below = 0.24;
    // An upward line is higher than wide, but for a single letter; none of ours is one.
    const bool goes_below = t.letters.find_first_of("gjpqy,;()|/") != std::string::npos;
    if (b.height > b.width && t.letters.size() > 2) {
        if (!goes_below) { b.width *= 1 - below; }
    } else if (!goes_below) {
        b.height *= 1 - below;
    }
    constexpr double spare = 0.1; // mm
    return {b.left + spare, b.top + spare, b.width - 2 * spare, b.height - 2 * spare};
}

/// Everything that is wrong with the letters of a page.
std::vector<std::string> wrong_with(const box& sheet, const noted_marks& m) {
    std::vector<std::string> wrong;
    for (std::size_t i = 0; i < m.texts.size(); ++i) {
        const noted_text& t = m.texts[i];
        const box b = letters_of(t);
        if (!drawing::lies_in(b, sheet)) { wrong.push_back("\"" + t.letters + "\" runs off the sheet"); }
        if (!drawing::lies_in(b, t.window)) { wrong.push_back("\"" + t.letters + "\" is cut"); }
        for (std::size_t k = i + 1; k < m.texts.size(); ++k) {
            if (drawing::overlap_by(b, letters_of(m.texts[k]))) {
                wrong.push_back("\"" + t.letters + "\" lies on \"" + m.texts[k].letters + "\"");
            }
        }
        for (const drawing::noted_shape& s : m.shapes) {
            if (t.backed && s.order < t.order) { continue; }     // on a white ground
            if (!drawing::overlap_by(b, s.window)) { continue; } // not seen there
            if (drawing::passes_through(s, b)) {
                wrong.push_back("a line of " + std::to_string(s.with.width) + " mm passes through \"" + t.letters + "\"");
            }
        }
    }
    return wrong;
}
void check_page(const std::string& what, const drawing::page& p) {
    const noted_marks m = drawing::note(p.sheet, p.draw);
    for (const std::string& w : wrong_with(p.sheet, m)) { FAIL_CHECK(what << ": " << w); }
}
std::multiset<std::string> words_on(const std::vector<drawing::page>& pages) {
    std::multiset<std::string> words;
    for (const auto& p : pages) {
        for (const noted_text& t : drawing::note(p.sheet, p.draw).texts) { words.insert(t.letters); }
    }
    return words;
}

/// Calls `f(name, subjects, job)` for each kind, as found and with something planned, and for the jobs of the examples:
/// pairs of strings, readings, a left-handed one.
template <class F>
void over_kinds(F&& f) {
    for (const char* file : {"/ten_string_cittern.toml", "/baritone_flat_top.toml"}) {
        for (const bool left : {false, true}) {
            const auto& job =
                paged::answer_text((left ? "left_handed = true\n" : "") + files::read_all(std::string(JOBS) + file));
            const auto whole = job.whole();
            REQUIRE(whole.states.size() == 2);
            f(std::string(file) + (left ? ", planned, left-handed" : ", planned"), bench_sheet::subjects_of(whole), whole);
        }
    }
    for (const std::string& kind : paged::kinds()) {
        for (const bool planned : {false, true}) {
            const auto& job = paged::answer_text(planned ? paged::planned_text_of(kind) : paged::text_of(kind));
            const auto whole = job.whole();
            REQUIRE(whole.states.size() == (planned ? 2 : 1));
            f(kind + (planned ? ", planned" : ", found"), bench_sheet::subjects_of(whole), whole);
        }
    }
}

} // namespace

TEST_CASE("no letters of any drawing lie on other letters or a line, run off or are cut" * doctest::skip(sanitized)) {
    over_kinds([](const std::string& name, const std::vector<drawing::subject>& states, const auto& whole) {
        const drawing::subject* planned = states.size() > 1 ? &states.back() : nullptr;
        for (const auto on : {drawing::paper::a4, drawing::paper::letter}) {
            for (const auto in : {drawing::measures::metric, drawing::measures::both}) {
                const drawing::heading head{"An instrument", on, in};
                for (const auto& sheets :
                     {drawing::side_view(head, states.front(), planned), drawing::buzz_map(head, states.front(), planned),
                      drawing::templates(head, states.front(), planned)}) {
                    for (std::size_t n = 0; n < sheets.pages.size(); ++n) {
                        check_page(name + (on == drawing::paper::a4 ? ", A4, " : ", Letter, ") + sheets.name + " " +
                                       std::to_string(n + 1),
                                   sheets.pages[n]);
                    }
                }
            }
        }
        for (const auto in : {tautline::measures::metric, tautline::measures::imperial, tautline::measures::both}) {
            for (const auto& p : bench_sheet::pictures_of(whole, in)) { check_page(name + ", " + p.heading, p.drawn); }
        }
    });
}

TEST_CASE("every fret has its number from the side and on the template, every string its label") {
    over_kinds([](const std::string& name, const std::vector<drawing::subject>& states, const auto&) {
        CAPTURE(name);
        const drawing::heading head{"T", drawing::paper::a4, drawing::measures::metric};
        const drawing::subject& s = states.back();
        const auto side = words_on(drawing::side_view(head, s, nullptr).pages);
        const std::size_t panels = s.setup.strings.size() > 1 ? 2 : 1;
        for (std::size_t n = 1; n <= s.setup.fret_x.size(); ++n) {
            CAPTURE(n);
            CHECK(side.count(std::to_string(n)) == panels);
        }
        const auto board = drawing::fret_template(s, head.measures);
        std::size_t numbered = 0;
        for (const noted_text& t : drawing::note({0, 0, board.width, board.height}, board.draw).texts) {
            for (std::size_t n = 1; n <= s.setup.fret_x.size(); ++n) {
                numbered += t.letters.rfind(std::to_string(n) + "  ", 0) == 0 ? 1 : 0;
            }
        }
        const bool fan = s.instrument.board.scale.fan.has_value();
        CHECK(numbered == (fan ? 2 : 1) * s.setup.fret_x.size());
        const auto map = words_on(drawing::buzz_map(head, s, nullptr).pages);
        for (std::size_t i = 0; i < s.setup.strings.size(); ++i) { CHECK(map.count(drawing::string_label(s, i)) >= 1); }
    });
}

TEST_CASE("what goes over several sheets has each of its labels whole on one, and no sheet holds a table alone") {
    over_kinds([](const std::string& name, const std::vector<drawing::subject>& states, const auto&) {
        CAPTURE(name);
        const drawing::subject& s = states.back();
        for (const auto on : {drawing::paper::a4, drawing::paper::letter}) {
            const drawing::heading head{"T", on, drawing::measures::both};
            const auto made = drawing::templates(head, s, nullptr);
            const auto there = words_on(made.pages);
            const auto board = drawing::fret_template(s, head.measures);
            for (const noted_text& t : drawing::note({0, 0, board.width, board.height}, board.draw).texts) {
                CHECK_MESSAGE(there.count(t.letters) >= 1, t.letters);
            }
            for (const auto& p : made.pages) {
                const auto marks = drawing::note(p.sheet, p.draw);
                // What is drawn stands in a window of its own; tables draw no line.
                const auto lines = std::count_if(marks.shapes.begin(), marks.shapes.end(),
                                                 [&](const auto& shape) { return shape.window.width < p.sheet.width; });
                CHECK(lines > 0);
            }
        }
    });
}

TEST_CASE("each height in a drawing says whether the strings are slack or at pitch") {
    over_kinds([](const std::string& name, const std::vector<drawing::subject>& states, const auto&) {
        CAPTURE(name);
        const drawing::heading head{"T", drawing::paper::a4, drawing::measures::metric};
        const auto count_with = [](const std::multiset<std::string>& words, const std::string& part) {
            return std::count_if(words.begin(), words.end(),
                                 [&](const std::string& w) { return w.find(part) != std::string::npos; });
        };
        const auto side = words_on(drawing::side_view(head, states.back(), nullptr).pages);
        const auto panels = count_with(side, ": heights ");
        CHECK(panels >= 2);
        CHECK(count_with(side, "at pitch: heights ") == panels);
        CHECK(count_with(side, "strings at pitch") >= panels); // over the numbers of each
        const auto map = words_on(drawing::buzz_map(head, states.back(), nullptr).pages);
        CHECK(count_with(map, "strings at pitch") >= 1);
        for (const auto& t : drawing::slot_templates(states.back(), head.measures)) {
            const auto words = drawing::note({0, 0, t.width, t.height}, t.draw);
            std::string all = t.name;
            for (const auto& w : words.texts) { all += " " + w.letters; }
            CHECK_MESSAGE(all.find("slack") != std::string::npos, all);
        }
    });
}
