// Cuts that stop short, against simulated instruments: each differs from its file by what the file doubts.
#include <tautline/instrument/ready_made.hpp>
#include <tautline/job/answer.hpp>
#include <tautline/job/first_cut.hpp>

#include <algorithm>
#include <array>
#include <cmath>

#include <doctest/doctest.h>

#include "drawn_instrument.hpp"
#include "job_of_demo.hpp"
#include "near.hpp"
#include "sanitized.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Slots and saddle stand higher than they are to.
bench_job job_with_cuts() {
    auto j = demo::job_as_found();
    j.wanted = wishes{};
    for (auto& slot : j.instrument.nut.slot_heights) { slot = slot + 0.5 * mm; }
    j.wanted->first_fret_bass = 0.5 * mm;
    j.wanted->first_fret_treble = 0.35 * mm;
    j.wanted->action_bass = 2.0 * mm;
    j.wanted->action_treble = 1.6 * mm;
    return j;
}
struct cut_seen {
    double deep = 0, rows = 0, sum = 0, squares = 0;
    /// @param above what is left over the depth that the real instrument needs
    void see(double above) {
        ++rows;
        deep += above < 0 ? 1 : 0;
        sum += above;
        squares += above * above;
    }
    [[nodiscard]] double spread() const { return std::sqrt((squares - sum * sum / rows) / rows); }
};
/// Where the bottom of a slot was before the plan moved it.
double slot_before(const setup_plan& p, std::size_t i) {
    return (p.adjusted.instrument.nut.slot_height(i) - p.slot_change[i]).value();
}
double saddle_before(const setup_plan& p, std::size_t i) { return (p.saddle_height[i] - p.saddle_change[i]).value(); }

/// What a sheet tells of a cut, in metres: how far down, and what is left the first time.
struct told_cut {
    double change = 0, left = 0;

    told_cut(const any_quantity& by, const bench_rounding& how, const std::optional<length<>>& leave, bool inches)
        : change(told_at_bench(by, how, inches, false).value.si()) {
        const auto line = kernel::left_line("", leave.value_or(length<>()));
        left = told_at_bench(line.number, line.told, inches, false).value.si();
    }
};

void check_simulated(const bench_job& j) {
    const auto a = answer(j);
    const auto& p = a.setups.plan;
    const std::size_t count = p.solved.strings.size();
    std::vector<cut_seen> slots(count), saddle(count);
    // The same by what the sheet tells, in millimetres and in thousandths of an inch.
    std::vector<cut_seen> told_slots(2 * count), told_saddle(2 * count);
    const auto told_slot = [&](std::size_t i, std::size_t inches) {
        return told_cut(p.slot_change[i], a.room.of_slot(i), a.cuts.slots[i], inches == 1);
    };
    const auto told_top = [&](std::size_t i, std::size_t inches) {
        const auto how = a.room.of_saddle(p.adjusted.instrument.saddle, i);
        return told_cut(p.saddle_change[i], how, a.cuts.saddle[i], inches == 1);
    };
    constexpr std::size_t rows = 600;
    for (std::size_t row = 0; row < rows; ++row) {
        const auto real =
            make_plan(drawn::one_of_many(p.start, a.planned_doubts, 12, row, a.planned_doubts.cuts), *j.wanted);
        for (std::size_t i = 0; i < count; ++i) {
            // Cut by so much, from where it really was.
            if (a.cuts.slots[i]) {
                const double cut_to = slot_before(real, i) + (p.slot_change[i] + *a.cuts.slots[i]).value();
                const double needed = real.adjusted.instrument.nut.slot_height(i).value();
                slots[i].see(cut_to - needed);
                for (const std::size_t inches : {0U, 1U}) {
                    const told_cut c = told_slot(i, inches);
                    told_slots[2 * i + inches].see(slot_before(real, i) + c.change + c.left - needed);
                }
            }
            if (a.cuts.saddle[i]) {
                const double cut_to = saddle_before(real, i) + (p.saddle_change[i] + *a.cuts.saddle[i]).value();
                const double needed = real.saddle_height[i].value();
                saddle[i].see(cut_to - needed);
                for (const std::size_t inches : {0U, 1U}) {
                    const told_cut c = told_top(i, inches);
                    told_saddle[2 * i + inches].see(saddle_before(real, i) + c.change + c.left - needed);
                }
            }
        }
    }
    int judged = 0;
    const auto judge = [&](const cut_seen& seen, const std::optional<length<>>& left) {
        if (!left) { return; }
        ++judged;
        // One in forty, and three standard deviations of such a count.
        CHECK(seen.deep / rows <= 1 / 40.0 + 3 * std::sqrt(1 / 40.0 * 39 / 40 / rows));
        // It is no wider than it must be: what was carried through in one step is what many plans scatter by.
        CHECK(left->value() > 2 * seen.spread() * 0.9);
        CHECK(left->value() < 2 * seen.spread() * 1.1 + 1e-5);
    };
    // Numbers told are rounded to the shallow side: no more cuts are too deep, and none is shallower than a step or two.
    const auto judge_told = [&](const cut_seen& by_told, const cut_seen& seen, const std::optional<length<>>& left) {
        if (!left) { return; }
        CHECK(by_told.deep <= seen.deep);
        const double shallower = (by_told.sum - seen.sum) / rows;
        CHECK(shallower > -kernel::lies_on_step);
        CHECK(shallower < 0.07e-3);
    };
    for (std::size_t i = 0; i < count; ++i) {
        for (const std::size_t inches : {0U, 1U}) {
            judge_told(told_slots[2 * i + inches], slots[i], a.cuts.slots[i]);
            judge_told(told_saddle[2 * i + inches], saddle[i], a.cuts.saddle[i]);
            // No first cut is the last.
            if (a.cuts.slots[i]) { CHECK(told_slot(i, inches).left > 0.029e-3); }
            if (a.cuts.saddle[i]) { CHECK(told_top(i, inches).left > 0.029e-3); }
        }
        judge(slots[i], a.cuts.slots[i]);
        judge(saddle[i], a.cuts.saddle[i]);
    }
    CHECK(judged == static_cast<int>(count) + 2);
}
const bench_step& step_of(const job_answers& a, bench_stage stage) {
    for (const bench_step& s : a.steps) {
        if (s.stage == stage) { return s; }
    }
    FAIL("no such step");
    return a.steps.front();
}
/// There and back: nut and saddle left so much too high, their heights tell how much each was left.
/// @param near_on the planned instrument with nut and saddle as they were left
void check_heights_tell(const job_answers& a, const strung_instrument& near_on, const length<>& nut,
                        const length<>& saddle) {
    const auto shows = solve(near_on);
    const auto high = [&](std::size_t n) {
        return (shows.strings[0].heights[n] - a.setups.plan.solved.strings[0].heights[n]) / mm;
    };
    const double first = high(0), action = high(11);
    const first_cuts& c = a.cuts;
    CHECK(c.slot_for_height * first - c.slot_for_action * action == doctest::Approx(nut / mm).epsilon(0.1));
    CHECK(c.saddle_for_height * action - c.saddle_for_first * first == doctest::Approx(saddle / mm).epsilon(0.05));
}

} // namespace

TEST_SUITE("first cut") {
    TEST_CASE("of forty slots and saddles thirty-nine are not too deep, with usual doubts and with stated ones" *
              doctest::skip(sanitized)) {
        check_simulated(job_with_cuts());
        auto stated = job_with_cuts();
        stated.adjusting.usual_doubts = false;
        const auto doubt = [](const char* path, const length<>& standard) {
            return stated_doubt{.path = path, .standard = any_quantity(standard)};
        };
        stated.doubts = {doubt("saddle.board_line", 0.3 * mm), doubt("saddle.height_bass", 0.1 * mm),
                         doubt("saddle.height_treble", 0.1 * mm), doubt("neck.depth_at_nut", 0.4 * mm),
                         doubt("frets.wire.crown_height", 0.03 * mm)};
        for (std::size_t i = 0; i < 8; ++i) {
            stated.doubts.push_back(doubt(messages::path_of("nut.slot_heights", i).c_str(), 0.05 * mm));
        }
        check_simulated(stated);
    }
    TEST_CASE("no first cut is the last, it is rounded to the shallow side, and the step tells it") {
        auto j = job_with_cuts();
        j.adjusting.usual_doubts = false; // nothing is doubted at all
        const auto sure = answer(j);
        for (const auto& left : sure.cuts.slots) { CHECK(near::within(left.value(), 0.03 * mm, 1e-9 * mm)); }
        CHECK(kernel::left_standing(0.0501e-3).value() == doctest::Approx(0.11e-3));
        CHECK(kernel::left_standing(0.05e-3).value() == doctest::Approx(0.10e-3));

        const auto a = answer(job_with_cuts());
        const auto told = [&](bench_stage stage) {
            for (const step_line& l : step_of(a, stage).lines) {
                if (l.what.starts_with("the first time")) { return l.number.as<length<>>(); }
            }
            return length<>();
        };
        CHECK(told(bench_stage::cut_nut) == *first_cuts::most(a.cuts.slots));
        CHECK(told(bench_stage::set_saddle) == *first_cuts::most(a.cuts.saddle));
        auto near_on = a.setups.plan.adjusted;
        for (auto& slot : near_on.instrument.nut.slot_heights) { slot = slot + 0.08 * mm; }
        near_on.instrument.saddle.height_bass = near_on.instrument.saddle.height_bass + 0.25 * mm;
        near_on.instrument.saddle.height_treble = near_on.instrument.saddle.height_treble + 0.25 * mm;
        check_heights_tell(a, near_on, 0.08 * mm, 0.25 * mm);
    }
    TEST_CASE("a nut and a saddle that must come up are left high at first as well") {
        auto raised = job_with_cuts();
        for (auto& slot : raised.instrument.nut.slot_heights) { slot = slot - 1.2 * mm; }
        raised.wanted->action_bass = 4.0 * mm;
        raised.wanted->action_treble = 3.6 * mm;
        const auto a = answer(raised);
        for (const auto& change : a.setups.plan.slot_change) { CHECK(change > 0.005 * mm); }
        CHECK(a.setups.plan.saddle_change.front() > 0.005 * mm);
        check_simulated(raised);
        for (const bench_stage stage : {bench_stage::cut_nut, bench_stage::set_saddle}) {
            const auto& lines = step_of(a, stage).lines;
            CHECK(std::any_of(lines.begin(), lines.end(),
                              [](const step_line& l) { return l.what.starts_with("the first time leave"); }));
        }
    }
    TEST_CASE("a string that begins at its own nut has a lever of its own, as a solve with a higher saddle shows") {
        const auto banjo = ready_made::five_string_banjo();
        bench_job j;
        j.title = "a short string";
        j.instrument = banjo.instrument;
        j.strings = banjo.strings;
        const auto found = setups_of(j).found;
        j.wanted = wishes{};
        j.wanted->action_bass = found.strings.front().heights[11] - 0.3 * mm;
        j.wanted->action_treble = found.strings.back().heights[11] - 0.3 * mm;
        const auto a = answer(j);
        REQUIRE(a.cuts.saddle_for_own_nut.has_value());
        REQUIRE(a.cuts.saddle.front().has_value());
        // From its nut at fret 5: 2^(-5/12) of the scale to the saddle, a half of the scale less to fret 12.
        const double whole = std::exp2(-5 / 12.0);
        CHECK(*a.cuts.saddle_for_own_nut == doctest::Approx(whole / (whole - 0.5)).epsilon(0.02));
        CHECK(a.cuts.saddle_for_height == doctest::Approx(2).epsilon(0.02));
        auto high = a.setups.plan.adjusted;
        high.instrument.saddle.height_bass = high.instrument.saddle.height_bass + 0.25 * mm;
        high.instrument.saddle.height_treble = high.instrument.saddle.height_treble + 0.25 * mm;
        const auto read = solve(high);
        const auto excess = [&](std::size_t i) {
            return read.strings[i].heights[11] - a.setups.plan.solved.strings[i].heights[11];
        };
        CHECK(*a.cuts.saddle_for_own_nut * excess(0) / mm == doctest::Approx(0.25).epsilon(0.1));
        CHECK(a.cuts.saddle_for_height * excess(4) / mm == doctest::Approx(0.25).epsilon(0.1));
        const auto& lines = step_of(a, bench_stage::finish).lines;
        CHECK(std::any_of(lines.begin(), lines.end(), [](const step_line& l) {
            return l.what.find("under the string that begins at its own nut, 3.0") != std::string::npos;
        }));
    }
    TEST_CASE("a zero fret is left high at first: of forty, thirty-nine are not filed too low") {
        const auto z = ready_made::zero_fret_guitar();
        bench_job j;
        j.title = "zero fret";
        j.instrument = z.instrument;
        j.strings = z.strings;
        j.wanted = wishes{};
        j.wanted->first_fret_bass = 0.15 * mm;
        j.wanted->first_fret_treble = 0.12 * mm;
        const auto a = answer(j);
        const auto& p = a.setups.plan;
        const auto crowns = [](const setup_plan& of) {
            // Where nothing is remarked the crown is right as it is.
            std::array<double, 2> both;
            both.fill(crown_left(of.adjusted.instrument.frets, 0).value());
            for (const plan_remark& r : of.remarks) {
                if (r.wish == "first_fret_bass") { both[0] = r.number.as<length<>>().value(); }
                if (r.wish == "first_fret_treble") { both[1] = r.number.as<length<>>().value(); }
            }
            return both;
        };
        const auto told = crowns(p);
        CHECK(told[0] < 0.99 * j.instrument.frets.wire.crown_height.value());
        REQUIRE(a.cuts.zero_fret.has_value());
        std::array<cut_seen, 2> seen;
        constexpr std::size_t rows = 600;
        for (std::size_t row = 0; row < rows; ++row) {
            const auto needed = crowns(make_plan(drawn::one_of_many(p.start, a.planned_doubts, 7, row), *j.wanted));
            for (std::size_t end = 0; end < 2; ++end) {
                seen[end].see(told[end] + a.cuts.zero_fret->value() - needed[end]);
            }
        }
        double widest = 0;
        for (const cut_seen& s : seen) {
            CHECK(s.deep / rows <= 1 / 40.0 + 3 * std::sqrt(1 / 40.0 * 39 / 40 / rows));
            widest = std::max(widest, s.spread());
        }
        CHECK(a.cuts.zero_fret->value() < 2 * widest * 1.1 + 1e-5);
        // By hand: crowns that are all higher by c want a zero fret that is higher by c / (1 - u), u the share of fret 1.
        auto sure = j;
        sure.adjusting.usual_doubts = false;
        sure.doubts = {stated_doubt{.path = "frets.wire.crown_height", .standard = any_quantity(0.1 * mm)}};
        const auto by_crowns = answer(sure);
        const auto& bass = by_crowns.setups.plan.solved.strings.front();
        const double u =
            (by_crowns.setups.plan.solved.fret_x[0] - bass.line.nut_x) / (bass.line.saddle_x - bass.line.nut_x);
        const double over = *by_crowns.cuts.zero_fret / mm - 2 * 0.1 / (1 - u);
        CHECK(over > -1e-3);
        CHECK(over < 0.011); // told in steps of 0.01 mm
        // There and back: with that crown planned, the wish is met and nothing is left to file at its end.
        auto filed = j;
        filed.planned = plan_as_found(j);
        filed.planned->changes.values.frets.zero_crown = told[0] * metre;
        filed.planned->changes.paths = {"frets.zero_crown"};
        const auto after = answer(filed);
        CHECK(near::within(after.setups.plan.solved.strings.front().heights[0], 0.15 * mm, 0.002 * mm));
        for (const plan_remark& r : after.setups.plan.remarks) { CHECK(r.wish != "first_fret_bass"); }
        // Where the saddle is cut as well, both stand too high at first.
        filed.wanted->action_bass = 1.5 * mm;
        filed.wanted->action_treble = 1.2 * mm;
        const auto both = answer(filed);
        auto near_on = both.setups.plan.adjusted;
        near_on.instrument.frets.zero_crown = *near_on.instrument.frets.zero_crown + 0.06 * mm;
        near_on.instrument.saddle.height_bass = near_on.instrument.saddle.height_bass + 0.2 * mm;
        near_on.instrument.saddle.height_treble = near_on.instrument.saddle.height_treble + 0.2 * mm;
        check_heights_tell(both, near_on, 0.06 * mm, 0.2 * mm);
        CHECK(std::any_of(step_of(a, bench_stage::cut_nut).lines.begin(), step_of(a, bench_stage::cut_nut).lines.end(),
                          [](const step_line& l) { return l.what == "the first time leave its crown higher by"; }));
    }
    TEST_CASE("what stays as it is, and what screws set, has no first cut") {
        auto stays = job_with_cuts();
        stays.wanted->first_fret_bass.reset();
        stays.wanted->first_fret_treble.reset();
        for (const auto& left : answer(stays).cuts.slots) { CHECK_FALSE(left); }
        auto by_wheels = job_with_cuts();
        by_wheels.wanted->adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.8 * mm};
        for (const auto& left : answer(by_wheels).cuts.saddle) { CHECK_FALSE(left); }
        CHECK(answer(by_wheels).cuts.slots[0]);
        CHECK_FALSE(answer(demo::job_as_found()).cuts.slot_for_height > 1);
    }
}
