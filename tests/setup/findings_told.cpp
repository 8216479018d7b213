#include <tautline/setup/findings_told.hpp>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/solve.hpp>

using namespace tautline;
using namespace tautline::units;

TEST_SUITE("findings told") {
    TEST_CASE("six nylon strings of unknown strength are one sentence, the rest stays in its order") {
        const auto s = solve(string_up(ready_made::slotted_nylon()));
        const auto unknown = [](const auto& list) {
            return std::count_if(list.begin(), list.end(),
                                 [](const auto& f) { return f.kind == finding_kind::strength_unknown; });
        };
        const auto before = unknown(s.findings);
        REQUIRE(before > 1);
        const auto told = findings_told(s.findings, s.names);
        CHECK(unknown(told) == 1);
        CHECK(told.size() == s.findings.size() - static_cast<std::size_t>(before) + 1);
        const auto at =
            std::find_if(told.begin(), told.end(), [](const auto& f) { return f.kind == finding_kind::strength_unknown; });
        double least = 1e12, most = 0;
        for (const finding& f : s.findings) {
            if (f.kind != finding_kind::strength_unknown) { continue; }
            CHECK(at->sentence.find(s.names.label(*f.string_index)) != std::string::npos);
            least = std::min(least, f.number.si());
            most = std::max(most, f.number.si());
        }
        CHECK(at->sentence.find(bench_text(any_quantity(stress<>::from_value(least))) + " to " +
                                bench_text(any_quantity(stress<>::from_value(most)))) != std::string::npos);
        // What is not of that kind is told as it stands.
        auto place = told.begin();
        for (const finding& f : s.findings) {
            if (f.kind == finding_kind::strength_unknown) { continue; }
            place = std::find_if(place, told.end(),
                                 [&](const told_finding& t) { return t.sentence == sentence_of(f, s.names); });
            REQUIRE(place != told.end());
        }
    }
    TEST_CASE("in the units of who reads: numbers of a sentence are those of the finding") {
        const string_names names{{1, 1}, {*find_note("A3"), *find_note("D4")}};
        const finding lifts{.kind = finding_kind::lifts_off_saddle, .string_index = 0, .number = -2 * N};
        CHECK(sentence_of(lifts, names, measures::imperial) ==
              "String 2 (A3): nothing presses it onto the saddle (down-force -0.45 lbf).");
        const finding touches{.kind = finding_kind::open_string_touches,
                              .string_index = 1,
                              .fret = 7,
                              .number = -0.127 * mm,
                              .beside = {any_quantity(0.0)}};
        CHECK(sentence_of(touches, names) == "String 1 (D4): open, it touches fret 7 (clearance -0.127 mm).");
        CHECK(sentence_of(touches, names, measures::imperial) ==
              "String 1 (D4): open, it touches fret 7 (clearance -5.0 thou).");
        for (const auto& o : {ready_made::slotted_nylon(), ready_made::fanned_bass(), ready_made::flat_top()}) {
            const auto s = solve(string_up(o));
            for (const told_finding& f : findings_told(s.findings, s.names, measures::imperial)) {
                for (const char* metric : {" mm", " N ", " MPa"}) { CHECK(f.sentence.find(metric) == std::string::npos); }
            }
        }
    }
    TEST_CASE("what is said alike of several strings is said once, and what differs is not") {
        const string_names names{{1, 1, 1}, {*find_note("A3"), *find_note("D4"), *find_note("G4")}};
        const auto passes = [](std::size_t i, const char* part) {
            return finding{
                .kind = finding_kind::passes_untouched, .severity = severity::note, .string_index = i, .part = part};
        };
        const auto lifts = [](std::size_t i, force<> by) {
            return finding{
                .kind = finding_kind::lifts_off_nut, .severity = severity::note, .string_index = i, .number = by};
        };
        const auto told = findings_told(
            {passes(0, "guide"), lifts(1, -2 * N), passes(2, "guide"), lifts(2, -3 * N), passes(1, "bar")}, names);
        REQUIRE(told.size() == 4);
        CHECK(told[0].sentence == "Strings 3 A3, 1 G4, each: it passes its guide on the head without touching it.");
        CHECK(told[1].sentence == "String 2 (D4): nothing presses it into its nut slot (down-force -2.0 N).");
        CHECK(told[2].sentence == "String 1 (G4): nothing presses it into its nut slot (down-force -3.0 N).");
        CHECK(told[3].sentence == "String 2 (D4): it passes the pressing bar without touching it.");
        // A stop is not told with a note.
        auto stops = passes(1, "guide");
        stops.severity = severity::stop;
        CHECK(findings_told({passes(0, "guide"), stops}, names).size() == 2);
    }
    TEST_CASE("one such string keeps its own sentence; none is none") {
        const finding one{.kind = finding_kind::strength_unknown,
                          .severity = severity::note,
                          .string_index = 0,
                          .number = stress<>(70 * MPa)};
        const string_names names{{1}, {*find_note("E4")}};
        const auto told = findings_told({one}, names);
        REQUIRE(told.size() == 1);
        CHECK(told[0].sentence == "String 1 (E4): no strength is known for its core, which bears 70 MPa.");
        CHECK(findings_told({}, string_names{}).empty());
    }
}
