// Strings that press their saddle by less than the doubt of that force.
#include <string>

#include <doctest/doctest.h>
#include <tautline/job/answer.hpp>
#include <tautline/setup/finding_sentence.hpp>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// The demo on pins, the height of their holes told to 0.5 mm, of two standard doubts.
bench_job pinned_at(double hole_mm) {
    bench_job j = demo::job_as_found();
    j.instrument.tailpiece.reset();
    j.instrument.pins = pins{
        .distance = 22 * mm, .height = hole_mm * mm, .spread = 50 * mm, .top_thickness = 3 * mm, .saddle_exposed = 8 * mm};
    j.adjusting.usual_doubts = false;
    j.doubts.push_back({.path = "pins.height", .standard = length<>(0.25 * mm)});
    return j;
}
std::vector<finding> asked(const setup& s) {
    std::vector<finding> all;
    for (const finding& f : s.findings) {
        if (f.kind == finding_kind::may_lift_off_saddle) { all.push_back(f); }
    }
    return all;
}

} // namespace

TEST_SUITE("strings that may not stay down") {
    TEST_CASE("a doubt that reaches below nothing is said of each string, and only of those") {
        const auto firm = answer(pinned_at(7));
        CHECK(asked(firm.setups.found).empty());
        // Holes nearly as high as the strings' line over the saddle: the break is a degree or so, half a millimetre in
        // 20 mm is more.
        std::size_t some = 0;
        for (const double hole : {15.5, 16.0, 16.5, 17.0, 17.5, 18.0}) {
            const auto a = answer(pinned_at(hole));
            const setup& s = a.setups.found;
            const auto told = asked(s);
            for (std::size_t i = 0; i < s.strings.size(); ++i) {
                const double press = s.strings[i].at_saddle.down().value();
                // By hand: the hole 0.5 mm higher or lower, on the same strings.
                auto higher = pinned_at(hole + 0.5), lower = pinned_at(hole - 0.5);
                const double by = (setups_of(lower).found.strings[i].at_saddle.down().value() -
                                   setups_of(higher).found.strings[i].at_saddle.down().value()) /
                                  2;
                if (std::abs(press - by) < 0.02 * by) { continue; }
                bool is_told = false;
                for (const finding& f : told) { is_told = is_told || f.string_index == i; }
                CHECK(is_told == (0 < press && press < by));
                some += is_told ? 1 : 0;
            }
        }
        CHECK(some > 0);
    }
    TEST_CASE("its sentence names string, force and doubt; the plan's setup has it too") {
        // The hole at which the first string just stays down, as the first case finds it: none lifts off yet.
        double hole = 15;
        const auto least_press = [](const setup& s) {
            double least = 1e9;
            for (const auto& one : s.strings) { least = std::min(least, one.at_saddle.down().value()); }
            return least;
        };
        while (least_press(setups_of(pinned_at(hole + 0.05)).found) > 0) { hole += 0.05; }
        bench_job j = pinned_at(hole);
        j.planned = plan_as_found(j);
        const auto a = answer(j);
        const auto told = asked(a.setups.last());
        REQUIRE_FALSE(told.empty());
        CHECK(told.front().severity == severity::warning);
        const std::string said = sentence_of(told.front(), a.setups.last().names);
        CHECK(said.find(": it presses the saddle with ") != std::string::npos);
        CHECK(said.find(" N, give or take ") != std::string::npos);
        CHECK(said.ends_with(" N: it may not stay down."));
    }
}
