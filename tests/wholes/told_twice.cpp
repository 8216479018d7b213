/// @file
/// Told twice: every number of a setup is what its folder's public functions give when they are fed from measures and plain
/// geometry, never from a member that the solve filled.
///
/// Each header of the library is right by itself; a whole goes wrong where one part hands another the wrong number: a force
/// of the wrong body, a height in a frame that has moved. Such a mistake is invisible to a test that takes its own inputs
/// from the solved setup. Here the second telling starts from the instrument's measures alone and finds its own balance of
/// top, neck, tailpiece and strings (retold.hpp).
///
/// The numbers are walked over as `describe` lists them: a result without a second telling fails.

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include <tautline/core/leaves.hpp>
#include <tautline/setup/solve.hpp>

#include "check.hpp"
#include "retold.hpp"

namespace {

using namespace wholes;

/// `strings[3].at_nut.on_support.x` as `strings[].at_nut.on_support.x`.
std::string family(std::string_view path) {
    std::string f;
    bool in = false;
    for (const char c : path) {
        in = c == '[' || (in && c != ']');
        if (!in || c == '[') { f += c; }
    }
    return f;
}

/// How far a solved number is off its second telling, in units of what is allowed.
bool agrees(const told& t, double number) {
    if (std::abs(number - t.number) <= t.allowed) { return true; }
    return std::any_of(t.or_else.begin(), t.or_else.end(),
                       [&](double also) { return std::abs(number - also) <= t.allowed + 1e-9 * std::abs(also); });
}

/// Compares the numbers whose family begins with one of the given words; all where none are given.
invariant told_twice(std::vector<std::string> words) {
    return [words = std::move(words)](const whole& w, complaints& wrong) {
        const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
        const auto again = retell(w);
        if (again.empty()) { return false; }
        std::set<std::string> seen;
        const auto asked = [&](const std::string& path) {
            const auto f = family(path);
            return words.empty() || std::any_of(words.begin(), words.end(),
                                                [&](const auto& word) { return f.compare(0, word.size(), word) == 0; });
        };
        tautline::for_each_leaf(s, [&](std::string_view where, const auto& leaf) {
            const std::string path(where);
            seen.insert(path);
            if (!asked(path)) { return; }
            const auto found = again.find(path);
            if (found == again.end()) {
                wrong.unless(false, path + " is told once only");
            } else if (const double number = tautline::number_of(leaf); !agrees(found->second, number)) {
                wrong.unless_near(path, number,
                                  found->second.or_else.empty() ? found->second.number : found->second.or_else[0],
                                  found->second.allowed);
            }
        });
        for (const auto& [path, t] : again) {
            if (asked(path)) { wrong.unless(seen.count(path) == 1, path + " is not told by the solve"); }
        }
        return true;
    };
}

} // namespace

TEST_SUITE("told twice") {
    TEST_CASE("strings: places, pitch, tension, what their cores bear") {
        must_hold(
            "strings", 150,
            told_twice({"strings[].gauge", "strings[].pitch", "strings[].mass", "strings[].speaking", "strings[].tension",
                        "strings[].core", "strings[].share", "strings[].y_", "total_tension", "fret_x"}));
    }
    TEST_CASE("neck: its rise, relief, the line of the crests") {
        must_hold("neck", 300,
                  told_twice({"nut_rise", "relief", "board_relief", "bass_relief", "treble_relief", "line_at_saddle"}));
    }
    TEST_CASE("top: what it bears and how it gives") { must_hold("top", 150, told_twice({"top"})); }
    TEST_CASE("nut: breaks, forces, dead bands") {
        must_hold("nut", 150, told_twice({"strings[].at_nut", "strings[].nut_"}));
    }
    TEST_CASE("saddle and anchors: breaks, forces, dead bands, the tailpiece's angle") {
        must_hold("saddle", 150,
                  told_twice({"strings[].at_saddle", "strings[].saddle_", "down_force", "push_along", "anchor_pull",
                              "tailpiece_rise"}));
    }
    TEST_CASE("a pinned bridge: what tries to turn it, shear it off, lean its saddle") {
        must_hold("pinned", 150, told_twice({"pinned"}));
    }
    TEST_CASE("a floating bridge: how it stands") { must_hold("standing", 150, told_twice({"standing"})); }
    TEST_CASE("heights and clearances, open, pressed and plucked") {
        must_hold("heights", 150,
                  told_twice({"strings[].line", "strings[].crest", "strings[].heights", "strings[].clearances",
                              "strings[].plucks"}));
    }
    TEST_CASE("notes, setbacks, the straight saddle") {
        must_hold("sound", 150, told_twice({"strings[].notes", "strings[].octave", "straight_saddle"}));
    }
    TEST_CASE("no number is left out, on either side") {
        must_hold("all numbers", 100, [](const whole& w, complaints& wrong) {
            std::set<std::string> solved, again;
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            tautline::for_each_leaf(s, [&](std::string_view path, const auto&) { solved.emplace(path); });
            for (const auto& [path, t] : retell(w)) { again.insert(path); }
            if (again.empty()) { return false; }
            for (const auto& path : solved) { wrong.unless(again.count(path) == 1, path + " is told once only"); }
            for (const auto& path : again) { wrong.unless(solved.count(path) == 1, path + " is not told by the solve"); }
            return true;
        });
    }
    TEST_CASE("survey" * doctest::skip(!survey::wanted())) {
        survey all;
        must_hold("survey", 1000, [&](const whole& w, complaints&) {
            const auto again = retell(w);
            const auto s = tautline::solve(tautline::strung_instrument{w.built, w.stringing});
            tautline::for_each_leaf(s, [&](std::string_view where, const auto& leaf) {
                const auto found = again.find(std::string(where));
                if (found == again.end()) { return; }
                const auto& t = found->second;
                double off = std::abs(tautline::number_of(leaf) - t.number);
                for (const double also : t.or_else) { off = std::min(off, std::abs(tautline::number_of(leaf) - also)); }
                all.note(family(where), off, t.allowed + (t.or_else.empty() ? 0 : 1e-9), w.from);
            });
            return true;
        });
        all.print("told twice");
    }
}
