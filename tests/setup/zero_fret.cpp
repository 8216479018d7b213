// Strings on a zero fret, and on a nut behind it that stands too high.
#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/finding_sentence.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

std::vector<finding> on_nut(const setup& s) {
    std::vector<finding> all;
    for (const finding& f : s.findings) {
        if (f.kind == finding_kind::lies_on_nut) { all.push_back(f); }
    }
    return all;
}

} // namespace

TEST_SUITE("a nut behind a zero fret") {
    TEST_CASE("a slot as high as the crown holds its string off it") {
        auto on = string_up(ready_made::zero_fret_guitar()); // crown 1.05 mm, slots 0.6 mm
        CHECK(on_nut(solve(on)).empty());
        on.instrument.nut.slot_heights[2] = 2 * mm;
        on.instrument.nut.slot_heights[3] = 1.05 * mm;
        on.instrument.nut.slot_heights[4] = 1.04 * mm;
        const setup s = solve(on);
        const auto told = on_nut(s);
        REQUIRE(told.size() == 2);
        CHECK(told[0].string_index == 2);
        CHECK(told[1].string_index == 3);
        CHECK(told[0].severity == severity::stop);
        CHECK(
            sentence_of(told[0], s.names) ==
            "String 4 (D3): its nut slot stands 2.00 mm over the board, and the zero fret 1.05 mm: it lies on the nut and "
            "not on the zero fret, for which all heights are told. Cut the slot well below the crown.");
        // The crown that counts is the zero fret's own.
        on.instrument.frets.zero_crown = field<length<>>(2.1 * mm);
        CHECK(on_nut(solve(on)).empty());
        on.instrument.frets.zero_crown = field<length<>>(0.5 * mm);
        CHECK(on_nut(solve(on)).size() == 6);
        on.instrument.frets.zero_crown.reset();
        on.instrument.board.scale.zero_fret = false;
        CHECK(on_nut(solve(on)).empty());
    }
}
