#include <string>

#include <doctest/doctest.h>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/setup/findings_told.hpp>
#include <tautline/setup/solve.hpp>

#include "near.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

const finding* find(const setup& s, finding_kind kind) {
    for (const auto& f : s.findings) {
        if (f.kind == kind) { return &f; }
    }
    return nullptr;
}

} // namespace

TEST_SUITE("findings about the saddle") {
    TEST_CASE("a saddle that barely stands out of its bridge") {
        auto on = string_up(ready_made::flat_top());
        const auto told = [&](double exposed_mm) {
            on.instrument.pins->saddle_exposed = exposed_mm * mm;
            return solve(on);
        };
        CHECK_FALSE(find(told(4), finding_kind::saddle_barely_out));
        CHECK_FALSE(find(told(1), finding_kind::saddle_barely_out));
        const setup s = told(0.6);
        const auto* f = find(s, finding_kind::saddle_barely_out);
        REQUIRE(f);
        CHECK(f->severity == severity::warning);
        CHECK(near::within(f->number.as<length<>>(), 0.6 * mm, 1e-12 * mm));
        CHECK(
            sentence_of(*f, s.names) ==
            "The saddle stands 0.60 mm out of its slot: below about 1.00 mm nothing is left to cut, and strings come near "
            "the bridge's wood. A neck reset would let it stand higher.");
        CHECK_FALSE(find(solve(string_up(ready_made::octave_mandolin())), finding_kind::saddle_barely_out));
    }
    TEST_CASE("a single saddle beyond its own travel, each side of both measures") {
        const auto begun = string_up(ready_made::fanned_bass());
        REQUIRE_FALSE(find(solve(begun), finding_kind::saddle_beyond_travel));
        const auto told = [&](auto&& set) {
            auto on = begun;
            auto& one = on.instrument.saddle.single[1];
            one.lowest = field<length<>>(one.height - 1 * mm);
            one.highest = field<length<>>(one.height + 1 * mm);
            one.least_setback = field<length<>>(one.setback - 1 * mm);
            one.most_setback = field<length<>>(one.setback + 1 * mm);
            set(one);
            const setup s = solve(on);
            const auto* f = find(s, finding_kind::saddle_beyond_travel);
            if (f) {
                CHECK(f->string_index == std::size_t{1});
                CHECK(f->severity == severity::warning);
            }
            return f ? sentence_of(*f, s.names) : std::string();
        };
        CHECK(told([](auto&) {}).empty());
        CHECK(told([](auto& one) { one.height = *one.highest; }).empty());
        CHECK(told([](auto& one) { one.height = *one.highest + 0.5 * mm; }).find("the height of its saddle is ") !=
              std::string::npos);
        CHECK(told([](auto& one) { one.height = *one.lowest - 0.5 * mm; }).find("the height of its saddle is ") !=
              std::string::npos);
        CHECK(told([](auto& one) {
                  one.least_setback = field<length<>>(-3 * mm);
                  one.setback = -10 * mm;
              })
                  .ends_with(
                      "the setback of its saddle is -10.00 mm, beyond the -3.00 mm that it can be set to: measure both "
                      "again."));
        CHECK(told([](auto& one) { one.setback = *one.most_setback + 0.5 * mm; }).find("the setback of its saddle is ") !=
              std::string::npos);
    }
    TEST_CASE("what a plan sets right is told as found") {
        auto on = string_up(ready_made::fanned_bass());
        auto& one = on.instrument.saddle.single[0];
        one.highest = field<length<>>(one.height - 0.5 * mm);
        const setup found = solve(on);
        one.height = *one.highest;
        const setup last = solve(on);
        const auto told = told_as_found_only(found.findings, last.findings, found.names);
        REQUIRE(told.size() == 1);
        CHECK(told[0].kind == finding_kind::saddle_beyond_travel);
        CHECK(told_as_found_only(found.findings, found.findings, found.names).empty());
        CHECK(told_as_found_only(last.findings, last.findings, found.names).empty());
    }
    TEST_CASE("scales of a fan that are exchanged") {
        auto on = string_up(ready_made::fanned_bass());
        CHECK_FALSE(find(solve(on), finding_kind::bass_scale_shorter));
        auto& fan = *on.instrument.board.scale.fan;
        const length<> bass = fan.bass_scale, treble = fan.treble_scale;
        fan.bass_scale = treble;
        fan.treble_scale = bass;
        const setup s = solve(on);
        const auto* f = find(s, finding_kind::bass_scale_shorter);
        REQUIRE(f);
        CHECK(f->severity == severity::note);
        CHECK(f->number.as<length<>>() == treble);
        CHECK(f->limit.as<length<>>() == bass);
        CHECK(sentence_of(*f, s.names).ends_with("see that the two are not exchanged."));
        fan.treble_scale = fan.bass_scale;
        CHECK_FALSE(find(solve(on), finding_kind::bass_scale_shorter));
    }
}
