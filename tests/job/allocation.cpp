// A plan into a plan that was made before allocates nothing: every allocation of this program is counted here.

#include <tautline/core/leaves.hpp>
#include <tautline/instrument/ready_made.hpp>
#include <tautline/instrument/ready_made_bent.hpp>
#include <tautline/job/plan.hpp>

#include <cmath>

#include <doctest/doctest.h>

#include "counted_allocations.hpp"
#include "setup/demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

strung_instrument hung() { return {demo::four_course(), demo::unison_pairs()}; }
wishes heights() {
    return {.first_fret_bass = 0.5 * mm, .first_fret_treble = 0.4 * mm, .action_bass = 2.2 * mm, .action_treble = 1.8 * mm};
}
/// Every number of a plan and of its setup, by path.
std::vector<std::pair<std::string, double>> numbers_of(const setup_plan& p) {
    std::vector<std::pair<std::string, double>> all;
    const auto add = [&](std::string_view path, const auto& x) { all.emplace_back(path, number_of(x)); };
    for_each_leaf(p, add);
    for_each_leaf(p.solved, add);
    for_each_leaf(p.untouched, add);
    for_each_leaf(p.base, add);
    for_each_leaf(p.adjusted, add);
    return all;
}
bool same(const setup_plan& a, const setup_plan& b) {
    const auto x = numbers_of(a), y = numbers_of(b);
    if (x.size() != y.size() || a.shortfalls.size() != b.shortfalls.size() || a.remarks.size() != b.remarks.size()) {
        return false;
    }
    for (std::size_t i = 0; i < x.size(); ++i) {
        const bool both_none = std::isnan(x[i].second) && std::isnan(y[i].second);
        if (x[i].first != y[i].first || (x[i].second != y[i].second && !both_none)) { return false; }
    }
    return a.saddle_at_limit == b.saddle_at_limit && a.reset.has_value() == b.reset.has_value() &&
           a.reset_instead.has_value() == b.reset_instead.has_value();
}

/// A plan is made, the neck changed a little, and the plan made into the first: that allocates nothing and leaves no trace.
void check_planned_in_place(strung_instrument on, const wishes& w) {
    setup_plan p;
    make_plan(on, w, p);
    REQUIRE(p.shortfalls.empty());
    on.instrument.neck.board_modulus = on.instrument.neck.board_modulus * 1.01;
    const std::size_t counted = allocations;
    make_plan(on, w, p);
    CHECK(allocations == counted);
    CHECK(same(p, make_plan(on, w)));
}

} // namespace

TEST_SUITE("plans in place") {
    TEST_CASE("a plan into a plan that was made before allocates nothing") {
        const auto on = hung();
        auto in_tune = heights();
        in_tune.in_tune = true;
        auto pressed = in_tune;
        pressed.down_force = 60 * N;
        auto reset = pressed;
        reset.reset = reset_wish{.heel_depth = 80 * mm};
        const wishes nothing;
        for (const wishes& w : {nothing, heights(), in_tune, pressed, reset}) { check_planned_in_place(on, w); }
    }
    TEST_CASE("nor does one for single saddles, alone and in pieces, or for strings with nuts of their own") {
        auto single = ready_made::flat_top();
        auto& saddle = single.instrument.saddle;
        saddle = single_saddles<double>(
            saddle.spacing, std::vector<single_saddle>(6, {.height = 12 * mm, .setback = 2 * mm}), saddle.board_line);
        auto pieces = single;
        pieces.instrument.saddle.pieces = {3, 3};
        const auto banjo = ready_made::five_string_banjo();
        const wishes w{.in_tune = true};
        for (const auto& o : {single, pieces, banjo}) {
            check_planned_in_place({o.instrument, string_up(o.strings, o.a4)}, w);
        }
    }
    TEST_CASE("what a plan held before leaves no trace in the next") {
        const auto on = hung();
        auto out_of_reach = heights(), reset = heights(), pressed = heights();
        out_of_reach.lowest_saddle = 25 * mm;
        reset.reset = reset_wish{.heel_depth = 80 * mm};
        pressed.down_force = 60 * N;
        pressed.in_tune = true;
        const std::vector<wishes> all{out_of_reach, wishes{}, reset, pressed, heights(), out_of_reach, reset};
        setup_plan p;
        for (const wishes& w : all) {
            make_plan(on, w, p);
            CHECK(same(p, make_plan(on, w)));
        }
        CHECK(p.reset);
        CHECK_FALSE(make_plan(on, out_of_reach).shortfalls.empty());
    }
}
