// Numbers told in steps of a bench, against the setup that they give: whoever works to them moves no result by more than a
// quarter of its give or take, and cuts nothing deeper.
#include <tautline/job/answer.hpp>
#include <tautline/job/job_words.hpp>
#include <tautline/job/rounding_room.hpp>

#include <cmath>
#include <functional>
#include <random>

#include <doctest/doctest.h>

#include "job_of_demo.hpp"

using namespace tautline;
using namespace tautline::units;

namespace {

/// Slots and saddle are to come lower, the heights wished as the seed draws them.
bench_job job_to_set(unsigned seed) {
    std::mt19937 draw(seed);
    const auto between = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(draw) * mm; };
    auto j = demo::job_as_found();
    for (auto& slot : j.instrument.nut.slot_heights) { slot = slot + 0.5 * mm; }
    j.wanted = wishes{};
    j.wanted->first_fret_bass = between(0.45, 0.6);
    j.wanted->first_fret_treble = between(0.3, 0.42);
    j.wanted->action_bass = between(1.9, 2.3);
    j.wanted->action_treble = between(1.5, 1.8);
    return j;
}
/// How far results move beyond the share of their give or take that is allowed, at the worst; 1 is just allowed.
/// @param crowns whether crowns are moved: what stands between neighbouring ones is then left out
double most_moved(const strung_instrument& on, const setup_doubts& d, const setup& planned, bool crowns = false) {
    const setup now = solve(on);
    std::vector<double> is, was;
    for_each_leaf(now, [&](std::string_view, const auto& x) { is.push_back(static_cast<double>(number_of(x))); });
    for_each_leaf(planned, [&](std::string_view, const auto& x) { was.push_back(static_cast<double>(number_of(x))); });
    REQUIRE(is.size() == was.size());
    REQUIRE(is.size() == d.results.size());
    double most = 0;
    for (std::size_t k = 0; k < is.size(); ++k) {
        // The hardest clean pluck is the least over all frets; where another becomes the nearest it moves by another slope.
        const double share = d.results[k].path.find(".plucks[") == std::string::npos ? kernel::told_share : 0.4;
        const double may = share * 2 * d.results[k].standard(d.together).si();
        if (d.results[k].path == "relief.x") { continue; } // the fret that lies lowest is one or another
        if (d.results[k].path.find(".crest_z[") != std::string::npos) { continue; } // heights over it are compared
        if (crowns && kernel::is_between_crowns(d.results[k].path)) { continue; }
        // A solve comes to rest within some 1e-9 of its numbers.
        const double by = std::abs(is[k] - was[k]) - 1e-8 * std::abs(was[k]);
        if (may > 0 && by > 0) { most = std::max(most, by / may); }
    }
    return most;
}
double told(const any_quantity& q, const bench_rounding& how, bool inches) {
    return told_at_bench(q, how, inches, false).value.si();
}
const bench_step& step_of(const job_answers& a, bench_stage stage) {
    for (const bench_step& s : a.steps) {
        if (s.stage == stage) { return s; }
    }
    FAIL("no such step");
    return a.steps.front();
}
const step_line& line_of(const bench_step& s, std::string_view begin) {
    for (const step_line& l : s.lines) {
        if (l.what.starts_with(begin)) { return l; }
    }
    FAIL("no such line");
    return s.lines.front();
}
/// In metres: what lies this near beside a step lies on it.
constexpr double not_deeper = kernel::lies_on_step + 1e-9;

/// Every number that is worked to has its room, and none that is cut is told deeper.
void check_lines(const job_answers& a) {
    for (const bench_step& s : a.steps) {
        for (const step_line& l : s.lines) {
            if (l.told.as == worked_as::value) { continue; }
            CAPTURE(l.what);
            CHECK(l.told.room.has_value());
            CHECK(l.told.room.kind() == l.number.kind());
            for (const bool inches : {false, true}) {
                const double off = told_at_bench(l.number, l.told, inches).value.si() - l.number.si();
                if (l.told.side == rounded_to::more) { CHECK(off > -not_deeper); }
                if (l.told.side == rounded_to::less) { CHECK(off < not_deeper); }
            }
        }
    }
}

} // namespace

TEST_SUITE("rounding room") {
    TEST_CASE("slots and saddle cut as told: nothing deeper, no result moved by more than a quarter of its doubt") {
        for (unsigned seed = 1; seed <= 6; ++seed) {
            const auto a = answer(job_to_set(seed));
            const auto& p = a.setups.plan;
            check_lines(a);
            for (const bool inches : {false, true}) {
                auto on = p.adjusted;
                bool finest = false;
                const auto set = [&](field<length<>>& q, const bench_rounding& how) {
                    REQUIRE(how.room.has_value());
                    const length<> exact = q;
                    q = length<>::from_value(told(exact, how, inches));
                    CHECK(q.value() >= exact.value() - not_deeper);
                    finest = finest || q.value() - exact.value() > how.room.si() + 1e-9;
                };
                for (std::size_t i = 0; i < p.solved.strings.size(); ++i) {
                    set(on.instrument.nut.slot_heights[i], a.room.of_slot(i));
                }
                set(on.instrument.saddle.height_bass, a.room.of_saddle(on.instrument.saddle, 0));
                set(on.instrument.saddle.height_treble, a.room.of_saddle(on.instrument.saddle, 0));
                CHECK_FALSE(finest);
                CHECK(most_moved(on, a.planned_doubts, p.solved) <= 1.01);
            }
        }
    }
    TEST_CASE("with slots and saddle as far off as their room to the shallow side, all or some") {
        const auto a = answer(job_to_set(1));
        const auto& p = a.setups.plan;
        std::mt19937 draw(4);
        double most = 0;
        for (int k = 0; k < 12; ++k) {
            auto on = p.adjusted;
            const auto off = [&](field<length<>>& q, std::string_view path) {
                if (k == 0 || draw() % 2 == 0) { q = q + a.room.of(path).as<length<>>(); }
            };
            for (std::size_t i = 0; i < p.solved.strings.size(); ++i) {
                off(on.instrument.nut.slot_heights[i], nut_slot_path(i));
            }
            off(on.instrument.saddle.height_bass, "saddle.height_bass");
            off(on.instrument.saddle.height_treble, "saddle.height_treble");
            const double moved = most_moved(on, a.planned_doubts, p.solved);
            CHECK(moved <= 1.02);
            most = std::max(most, moved);
        }
        CHECK(most > 0.5); // the room is no narrower than it must be
    }
    TEST_CASE("crowns filed as told") {
        auto j = demo::job_as_found();
        j.instrument.frets.wear = {0.22 * mm, 0.25 * mm, 0.18 * mm, 0.12 * mm, 0.15 * mm, 0.05 * mm, 0.08 * mm};
        j.instrument.frets.wear.resize(static_cast<std::size_t>(j.instrument.board.scale.frets), 0.02 * mm);
        j.planned = plan_as_found(j);
        j.planned->levelling = fret_levelling{.held = neck_held::slack};
        const auto a = answer(j);
        check_lines(a);
        const auto& p = a.setups.plan;
        for (const bool inches : {false, true}) {
            auto on = p.adjusted;
            std::size_t lines = 0;
            for (const step_line& l : step_of(a, bench_stage::level_frets).lines) {
                if (!l.what.starts_with("off fret ")) { continue; }
                ++lines;
                const auto n = static_cast<std::size_t>(std::stoi(l.what.substr(9))) - 1;
                const double less = l.number.si() - told(l.number, l.told, inches);
                CHECK(less >= -not_deeper);
                CHECK(told(l.number, l.told, inches) > 0);
                on.instrument.frets.wear[n] = on.instrument.frets.wear[n] - less * metre;
            }
            CHECK(lines > 3);
            CHECK(most_moved(on, a.planned_doubts, p.solved, true) <= 1.01);
        }
    }
    TEST_CASE("a reset is told as wood off the heel, its angle beside, and neither moves a result too far") {
        auto j = demo::job_as_found();
        j.wanted = wishes{};
        j.wanted->action_bass = 1.9 * mm;
        j.wanted->action_treble = 1.5 * mm;
        j.wanted->reset = reset_wish{.heel_depth = 62 * mm};
        const auto a = answer(j);
        check_lines(a);
        const bench_step& s = step_of(a, bench_stage::reset_neck);
        REQUIRE(s.lines.size() > 2);
        CHECK(s.lines[0].what.starts_with("off the heel at its cap"));
        CHECK(s.lines[1].what.starts_with("turn "));
        const auto& p = a.setups.plan;
        REQUIRE(std::abs(p.reset->turn / deg) > 0.02);
        // As the neck really comes to stand when the told wood is taken off, or when it is turned as told.
        const auto turned = [&](double share) {
            const auto with = after_reset(p.start, reset{.turn = angle<>(p.reset->turn * share)});
            auto on = p.adjusted;
            on.instrument.saddle.board_line = p.adjusted.instrument.saddle.board_line +
                                              (with.instrument.saddle.board_line - p.base.instrument.saddle.board_line);
            return on;
        };
        for (const bool inches : {false, true}) {
            for (const step_line* l : {&s.lines[0], &s.lines[1]}) {
                CAPTURE(l->what);
                const double share = told_at_bench(l->number, l->told, inches).value.si() / l->number.si();
                CHECK(most_moved(turned(share), a.planned_doubts, p.solved) <= 1.05);
            }
        }
    }
    TEST_CASE("the rod is told in eighths where they are fine enough, and its turns move no result too far") {
        auto j = demo::job_as_found();
        j.instrument.neck.rod = truss_rod{.x_from = -10 * mm, .x_to = 270 * mm, .z_ends = -15 * mm, .dip = 0 * mm};
        j.instrument.neck.rod_pull = 0 * N;
        j.wanted = wishes{};
        j.wanted->relief = 0.1 * mm;
        j.wanted->rod_screw = rod_screw{.diameter = 5 * mm, .modulus = 207 * GPa, .lead = 0.8 * mm};
        const auto a = answer(j);
        check_lines(a);
        const auto& p = a.setups.plan;
        const step_line& l = line_of(step_of(a, bench_stage::set_rod), "turns of its nut");
        const auto set = told_at_bench(l.number, l.told, false);
        auto on = p.adjusted;
        on.instrument.neck.rod_pull =
            force<>(on.instrument.neck.pull_of_rod() + (set.value.si() / l.number.si() - 1) * p.rod_pull_change);
        CHECK(most_moved(on, a.planned_doubts, p.solved) <= 1.05);
        const step_line& relief = line_of(step_of(a, bench_stage::set_rod), "relief at pitch");
        CHECK(relief.told.room == kernel::told_share * a.planned_doubts.give_or_take("relief.gap"));
        CHECK(relief.told.wish == any_quantity(length<>(0.1 * mm)));
    }
    TEST_CASE("a board sanded as told") {
        auto j = demo::job_as_found();
        const length<> joint = joint_place(j.instrument);
        j.instrument.neck.set = {
            {.x = 0 * mm, .z = 0.35 * mm}, {.x = joint * 0.5, .z = 0.06 * mm}, {.x = joint, .z = 0 * mm}};
        j.instrument.frets.wire.tang_depth = 1.6 * mm;
        j.planned = plan_as_found(j);
        j.planned->sanding = sanding{.surface = j.instrument.board.surface, .held = neck_held::slack};
        j.planned->sanding->allowance = 0.0537 * mm;
        const auto a = answer(j);
        check_lines(a);
        const bench_step& s = step_of(a, bench_stage::sand_board);
        const step_line& off = line_of(s, "off the centre line at the nut");
        const step_line& left = line_of(s, "thickness left at the nut");
        for (const bool inches : {false, true}) {
            CHECK(told(off.number, off.told, inches) <= off.number.si() + 1e-9);
            CHECK(told(left.number, left.told, inches) >= left.number.si() - 1e-9);
        }
        // Heights over the frets move by as much as the board is left higher, so that it has no more room than they.
        const auto height = a.planned_doubts.give_or_take("strings[0].heights[11]");
        CHECK(off.told.room.si() <= 0.2501 * height.si());
    }
    TEST_CASE("heights keep their wish: 5/64 in is read back so") {
        auto j = job_to_set(2);
        j.wanted->action_bass = length<>(5.0 / 64 * inch);
        j.wanted->action_treble = length<>(4.0 / 64 * inch);
        const auto a = answer(j);
        const auto& lines = step_of(a, bench_stage::check).lines;
        std::string all;
        for (const step_line& l : lines) { all += words_of(l, measures::imperial) + "\n"; }
        CHECK_MESSAGE(all.find(": 5/64 in\n") != std::string::npos, all);
        CHECK_MESSAGE(all.find(": 1/16 in\n") != std::string::npos, all);
        for (const asked_result& r : asked_results(*j.wanted, a.setups.last())) {
            if (r.path != "strings[0].heights[11]") { continue; }
            const auto how = rounding_of(r, a.planned_doubts.give_or_take(r.path));
            CHECK(told_text(r.wanted, how, {.units = measures::imperial}) == "5/64 in");
            CHECK(told_text(a.setups.last().strings[0].heights[11], how, {.units = measures::imperial}) == "5/64 in");
        }
    }
    TEST_CASE("fine values are one word away, and numbers that are not worked to stay as they are") {
        const auto a = answer(job_to_set(3));
        const step_line& l = line_of(step_of(a, bench_stage::cut_nut), "slot bottom");
        CHECK(words_of(l, measures::metric, number_detail::fine).ends_with(bench_text(l.number)));
        const step_line& pull = line_of(step_of(a, bench_stage::string_up), "all together");
        CHECK(words_of(pull) == words_of(pull, measures::metric, number_detail::fine));
        CHECK(rounding_of({"total_tension", "pull", {}}, 3.0 * N).as == worked_as::value);
        CHECK(rounding_of({"relief.gap", "relief", {}}, {}).as == worked_as::gap);
        CHECK_FALSE(rounding_of({"relief.gap", "relief", {}}, {}).room.has_value());
    }
    TEST_CASE("without doubts no room is known, and adjusters have less where strings lie beyond them") {
        auto j = job_to_set(1);
        j.adjusting.usual_doubts = false;
        CHECK(answer(j).room.settings.empty());
        j = job_to_set(1);
        j.wanted->adjusters = bridge_adjusters{.bass = -30 * mm, .treble = 30 * mm, .thread_pitch = 0.8 * mm};
        const auto wide = answer(j);
        check_lines(wide);
        j.wanted->adjusters = bridge_adjusters{.bass = -5 * mm, .treble = 5 * mm, .thread_pitch = 0.8 * mm};
        const auto narrow = answer(j);
        const auto room = [](const job_answers& a) {
            return line_of(step_of(a, bench_stage::set_saddle), "turns of the bass").told.room.si();
        };
        CHECK(room(narrow) < 0.7 * room(wide));
        CHECK(room(wide) == doctest::Approx(wide.room.of("saddle.height_bass").si() / 0.8e-3));
    }
}
