/// @file
/// What the steps of a job tell is what the setups behind them hold: heights at the fret where the action is wished,
/// tensions, and whether the top bears more or less than before.
///
/// A repairer measures by these lines before anything is slackened and again at the end; a number of another fret sends the
/// file back as wrong when it is right.

#include <doctest/doctest.h>

#include <algorithm>

#include <tautline/job/steps.hpp>

#include "check.hpp"
#include "found_and_wished.hpp"

namespace {

using namespace wholes;
using namespace tautline;
using namespace tautline::units;

const bench_step* step_of(const std::vector<bench_step>& steps, bench_stage stage) {
    for (const auto& s : steps) {
        if (s.stage == stage) { return &s; }
    }
    return nullptr;
}
/// Whether a step has a line about that fret with that number.
bool tells(const bench_step& step, int fret, double number) {
    return std::any_of(step.lines.begin(), step.lines.end(), [&](const step_line& line) {
        const std::string word = "fret " + std::to_string(fret);
        const auto at = line.what.find(word);
        const bool that_fret =
            at != std::string::npos && (at + word.size() == line.what.size() || line.what[at + word.size()] < '0' ||
                                        line.what[at + word.size()] > '9');
        return that_fret && line.number.has_value() && std::abs(line.number.si() - number) < 1e-9;
    });
}
/// What presses a top: the saddle, or a glued bridge with the strings' ends in it.
force<> pressing(const setup& s) { return s.pinned ? s.pinned->down : s.down_force; }

} // namespace

TEST_SUITE("told by steps") {
    TEST_CASE("the first and the last step tell the heights that are wished, where they are wished") {
        must_hold("action fret", 80, [](const whole& w, complaints& wrong) {
            wishes wish;
            const auto other = set_otherwise(w, keep_rod);
            if (!other || !wish_heights(*other, wish)) { return false; }
            const auto found = solve(strung_instrument{w.built, w.stringing});
            basic_work_done<double> work;
            work.after = both(w);
            const auto plan = make_plan(work.after, wish);
            const auto steps = steps_of(found, work, plan);
            const auto fret = static_cast<std::size_t>(*wish.action_fret);
            const auto* first = step_of(steps, bench_stage::measure);
            const auto* last = step_of(steps, bench_stage::check);
            for (const std::size_t i : {std::size_t{0}, found.strings.size() - 1}) {
                const std::string name = "string " + std::to_string(i + 1) + " at fret " + std::to_string(fret);
                wrong.unless(tells(*first, *wish.action_fret, found.strings[i].heights[fret - 1].value()),
                             "not measured: " + name);
                wrong.unless(tells(*last, *wish.action_fret, plan.solved.strings[i].heights[fret - 1].value()),
                             "not checked: " + name);
            }
            return true;
        });
    }
    TEST_CASE("of a solid body no finding and no step speaks of a soundboard or a top") {
        must_hold(
            "solid body told", 60,
            [](const whole& w, complaints& wrong) {
                wishes wish;
                const auto other = set_otherwise(w, keep_rod);
                if (!other || !wish_heights(*other, wish)) { return false; }
                if (w.from.more % 2 == 1) { wish.reset.emplace(); }
                const auto found = solve(strung_instrument{w.built, w.stringing});
                basic_work_done<double> work;
                work.after = both(w);
                const auto plan = make_plan(work.after, wish);
                const auto fine = [&](const std::string& text) {
                    wrong.unless(text.find("soundboard") == std::string::npos && text.find("The top") == std::string::npos,
                                 "says: " + text);
                };
                for (const auto* s : {&found, &plan.solved}) {
                    for (const auto& f : s->findings) { fine(sentence_of(f, s->names)); }
                }
                for (const auto& step : steps_of(found, work, plan)) {
                    for (const auto* text : {&step.title, &step.decision, &step.check, &step.in_hand}) { fine(*text); }
                    for (const auto& line : step.lines) { fine(line.what); }
                }
                return true;
            },
            [](recipe& r) {
                r.end = std::max(6, r.end);
                r.frets = std::max(12, r.frets);
            });
    }
    TEST_CASE("the top is told to be pressed more where it is") {
        must_hold("pressed", 80, [](const whole& w, complaints& wrong) {
            // Other strings: a little heavier, or lighter.
            whole other = w;
            for (auto& s : other.stringing.strings) { s.pitch.number += w.from.wish % 2 == 0 ? 1 : -1; }
            const auto found = solve(strung_instrument{w.built, w.stringing});
            basic_work_done<double> work;
            work.after = both(other);
            setup_plan plan;
            try {
                plan = make_plan(work.after, wishes{});
            } catch (const invalid_input&) { return false; }
            const auto steps = steps_of(found, work, plan);
            const auto* up = step_of(steps, bench_stage::string_up);
            if (w.built.body_bridge) { // a solid body has no top to press
                wrong.unless(up->decision.empty(), "said of a solid body: " + up->decision);
                return true;
            }
            const double before = pressing(found) / N, after = pressing(plan.solved) / N;
            // Lifting is another sentence.
            if (before < 0.5 || after < 0.5 || std::abs(after - before) < 0.02 * before) { return false; }
            const auto& text = up->decision;
            const std::string said =
                "pressed by " + std::to_string(before) + " N, then " + std::to_string(after) + " N: " + text;
            const auto number_from = [&](std::size_t at, std::size_t& next) {
                at = text.find_first_of("0123456789", at);
                if (at == std::string::npos) { return -1.0; }
                std::size_t used = 0;
                const double number = std::stod(text.substr(at), &used);
                next = at + used;
                return number;
            };
            std::size_t next = 0;
            const double first = number_from(0, next);
            if (text.find('%') != std::string::npos) {
                wrong.unless(text.find(after > before ? " more" : " less") != std::string::npos, said);
                wrong.unless_near("percent, " + said, first, std::abs(100 * (after / before - 1)), 0.6);
            } else {
                // Where little presses a share says nothing, and both forces are told; one where they are alike.
                const bool alike = text.find("as before") != std::string::npos;
                wrong.unless_near("force as planned, " + said, first, after, 0.6);
                wrong.unless_near("force as found, " + said, alike ? first : number_from(next, next), before, 0.6);
            }
            return true;
        });
    }
}
