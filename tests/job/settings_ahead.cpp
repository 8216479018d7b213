#include <tautline/instrument/ready_made.hpp>
#include <tautline/instrument/ready_made_bent.hpp>
#include <tautline/job/plan.hpp>
#include <tautline/job/settings_ahead.hpp>

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "near.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// One round that leaves a share of what each setting misses, held to a lowest saddle.
void set_round(instrument& i, double left) {
    const auto toward = [left](auto& q, const length<>& there) { q = there + (q - there) * left; };
    toward(i.saddle.height_bass, 15 * mm);
    toward(i.saddle.height_treble, 14 * mm);
    toward(i.saddle.setback_bass, 3 * mm);
    i.saddle.height_treble = std::max(length<>(i.saddle.height_treble), 16 * mm);
}
/// A round with a step ahead; returns whether it went ahead.
bool round_ahead(instrument& i, double left, kernel::plan_room<double>& room) {
    kernel::take_settings(i, room.before_round);
    set_round(i, left);
    const bool leads = kernel::look_ahead(i, room);
    if (leads) { kernel::add_to_settings<double>(room.ahead, i); }
    return leads;
}

} // namespace

TEST_SUITE("settings ahead") {
    TEST_CASE("where every round leaves the same share, the second ends where all would") {
        for (const double left : {0.25, -0.3, 0.45}) {
            CAPTURE(left);
            auto i = demo::four_course();
            i.saddle.height_treble = 16 * mm;
            kernel::plan_room<double> room;
            CHECK_FALSE(round_ahead(i, left, room));
            CHECK(std::abs((i.saddle.height_bass - 15 * mm) / mm) > 0.1);
            CHECK(round_ahead(i, left, room));
            CHECK(near::within(i.saddle.height_bass, 15 * mm, 1e-9 * mm));
            CHECK(near::within(i.saddle.setback_bass, 3 * mm, 1e-9 * mm));
            CHECK(i.saddle.height_treble == 16 * mm); // held by its limit, and not moved off it
        }
    }
    TEST_CASE("rounds that hardly come closer lead nowhere") {
        auto i = demo::four_course();
        kernel::plan_room<double> room;
        for (int round = 0; round < 4; ++round) { CHECK_FALSE(round_ahead(i, 0.8, room)); }
    }
    TEST_CASE("slots that are added begin anew") {
        auto i = demo::four_course();
        i.nut.slot_heights.resize(1);
        kernel::plan_room<double> room;
        CHECK_FALSE(round_ahead(i, 0.25, room));
        i.nut.slot_heights.resize(8, i.nut.slot_heights.front());
        CHECK_FALSE(round_ahead(i, 0.25, room));
        CHECK(round_ahead(i, 0.25, room));
    }
    TEST_CASE("property: a plan is at rest, a further round moves nothing, and its setup is that of a whole solve") {
        const auto made = [](const ordered_instrument& o) {
            return strung_instrument{o.instrument, string_up(o.strings, o.a4)};
        };
        for (const auto& on : {made(ready_made::ten_string_cittern()), made(ready_made::flat_top()),
                               made(ready_made::five_string_banjo())}) {
            for (const double more : {-0.2, 0.0, 0.3}) {
                const auto now = solve(on);
                wishes w{.action_bass = now.strings.front().heights[11] + more * mm,
                         .action_treble = now.strings.back().heights[11] + more * mm,
                         .in_tune = true};
                if (on.instrument.short_strings.empty()) {
                    w.first_fret_bass = 0.5 * mm;
                    w.first_fret_treble = 0.4 * mm;
                }
                if (on.instrument.neck.rod) { w.relief = now.relief->gap - 0.02 * mm; }
                const auto& tail = on.instrument.tailpiece;
                if (tail && !tail->pressed_height && !on.instrument.pressing_bar) { w.down_force = now.down_force * 1.1; }
                const auto p = make_plan(on, w);
                const auto s = solve(p.adjusted);
                // One arc does not suit all strings: those between the outer ones may be told.
                REQUIRE(std::none_of(p.shortfalls.begin(), p.shortfalls.end(),
                                     [](const shortfall& f) { return !f.string_index; }));
                for (std::size_t k = 0; k < s.strings.size(); ++k) {
                    CHECK(near::within(s.strings[k].heights[11], p.solved.strings[k].heights[11], 1e-12 * mm));
                    CHECK(s.strings[k].tension == p.solved.strings[k].tension);
                }
                CHECK(near::within(s.strings.front().heights[11], *w.action_bass, 1e-6 * mm));
                CHECK(near::within(s.strings.back().heights[11], *w.action_treble, 1e-6 * mm));
                if (w.down_force) { CHECK(near::within(s.down_force, *w.down_force, 1e-5 * N)); }
                const auto again = make_plan(p.adjusted, w);
                CHECK(near::within(again.saddle_change.front(), 0 * mm, 1e-5 * mm));
                CHECK(near::within(again.setback_change_bass, 0 * mm, 1e-5 * mm));
                for (const auto& c : again.slot_change) { CHECK(near::within(c, 0 * mm, 1e-5 * mm)); }
            }
        }
    }
}
