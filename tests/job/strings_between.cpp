// Strings between the outer ones that miss a wish are named, with the amount and what would give it.
#include <algorithm>

#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/plan.hpp>

#include <doctest/doctest.h>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

wishes both_actions(const length<>& bass, const length<>& treble) {
    wishes w;
    w.action_bass = bass;
    w.action_treble = treble;
    return w;
}
const shortfall* missed_by(const setup_plan& p, std::size_t string) {
    const auto at = std::find_if(p.shortfalls.begin(), p.shortfalls.end(),
                                 [&](const shortfall& f) { return f.string_index == string; });
    return at == p.shortfalls.end() ? nullptr : &*at;
}

} // namespace

TEST_SUITE("strings between") {
    TEST_CASE("a string whose place does not lie on the saddle's arc is not met, and a slot of its own gives it") {
        auto on = demo::strung();
        on.instrument.nut.slot_heights[3] = on.instrument.nut.slot_height(3) + 0.8 * mm;
        const auto w = both_actions(2.2 * mm, 1.8 * mm);
        const auto p = make_plan(on, w);
        const auto* f = missed_by(p, 3);
        REQUIRE(f);
        CHECK(f->wish == "action_bass");
        const auto& s = p.solved;
        const double share =
            (s.strings[3].y_at_nut - s.strings[0].y_at_nut) / (s.strings[7].y_at_nut - s.strings[0].y_at_nut);
        const length<> wanted = 2.2 * mm - 0.4 * mm * share, is = s.strings[3].heights[11];
        CHECK(near::within(f->wanted.as<length<>>(), wanted, 1e-6 * mm));
        CHECK(near::within(f->nearest.as<length<>>(), is, 1e-9 * mm));
        REQUIRE(is - wanted > 0.1 * mm);
        CHECK(f->why.find("leaves it " + fixed_text(length<>(is - wanted), mm, 2) + " mm too high") != std::string::npos);
        // Its saddle is twice as far from the nut as fret 12: on that arc a slot deeper by about twice as much gives it.
        auto cut = p.adjusted;
        cut.instrument.saddle.slot_offsets.assign(8, 0 * mm);
        cut.instrument.saddle.slot_offsets[3] = -2 * (is - wanted);
        CHECK(near::within(solve(cut).strings[3].heights[11], wanted, 0.03 * mm));
        CHECK(f->why.find("on that arc its slot would lie ") != std::string::npos);
        CHECK(f->why.find(" mm deeper in the saddle") != std::string::npos);
        // A string that is within what a rule tells is met.
        CHECK_FALSE(missed_by(make_plan(demo::strung(), w), 4));
    }
    TEST_CASE("where the outer strings miss a limit all others follow them, and are not told besides") {
        auto w = both_actions(1.2 * mm, 1.0 * mm);
        w.lowest_saddle = 17 * mm;
        const auto p = make_plan(demo::strung(), w);
        REQUIRE(p.saddle_at_limit);
        for (std::size_t i = 0; i < 8; ++i) { CHECK_FALSE(missed_by(p, i)); }
    }
    TEST_CASE("a short string noted on the treble side: the treble wish is still that of the treble string") {
        auto banjo = string_up(ready_made::five_string_banjo());
        banjo.instrument.short_strings[0].across = -banjo.instrument.short_strings[0].across;
        const auto s = solve(banjo);
        const auto w = both_actions(s.strings.front().heights[11], s.strings.back().heights[11] - 0.4 * mm);
        const auto p = make_plan(banjo, w);
        CHECK(near::within(p.solved.strings.back().heights[11], *w.action_treble, 1e-5 * mm));
        CHECK(near::within(p.solved.strings.front().heights[11], *w.action_bass, 1e-5 * mm));
    }
}
