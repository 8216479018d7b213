#pragma once
/// @file
/// What a job's numbers would be without a reading or a measurement that is suspected, and what would come of setting the
/// instrument by numbers that still count it.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "../doubt/reconciliation_words.hpp"
#include "asked_results.hpp"
#include "bench_step.hpp"
#include "job_readings.hpp"
#include "meaning.hpp"

namespace tautline {

/// What a sheet says beside numbers that count something suspected.
inline constexpr std::string_view measure_first =
    "Take off no wood or metal by these numbers yet: they count what is named above. Measure it again first.";

/// A number of a job with what is suspected, and without it.
struct number_without {
    std::string words{};         ///< what it is
    any_quantity with_all{};     ///< as the sheet tells it, with all readings
    any_quantity without{};      ///< without what is suspected
    any_quantity give_or_take{}; ///< of `without`, about 95 %; absent for a setting
};

/// What a job would be if what is suspected is wrong.
struct answer_without {
    std::vector<std::size_t> places{};      ///< what counts for nothing, inputs first, then readings
    std::vector<number_without> items{};    ///< what was read, and what it is by all else
    std::vector<number_without> found{};    ///< results as found
    std::vector<number_without> settings{}; ///< changes of slots and saddle under the outer strings
    /// Results of an instrument that is set by the numbers that count all readings, while what is suspected is wrong:
    /// `with_all` is what the plan promises, `without` what would come of it.
    std::vector<number_without> set_so{};
};

/// In metres. A change of a setting that differs by less is not told again.
inline constexpr double setting_differs = 0.03e-3;

namespace kernel {

/// What the reconciled inputs do to a result, in their order; nothing where the result has no doubt.
[[nodiscard]] inline std::optional<uncertain_result>
by_reconciled_inputs(const reconciliation& said, const setup_doubts& doubts, std::string_view path) {
    const auto& by_inputs = doubts.unread.empty() ? doubts.results : doubts.unread;
    const auto* result = find_result(by_inputs, path);
    if (!result || said.turned.empty()) { return std::nullopt; }
    const auto& names = doubts.doubts;
    uncertain_result of_inputs{result->path, result->value, {}};
    for (const read_input& input : said.turned) {
        const auto at = std::find_if(names.begin(), names.end(), [&](const doubt& d) { return d.name == input.name; });
        const auto place = static_cast<std::size_t>(at - names.begin());
        of_inputs.contributions.push_back(at == names.end() ? 0 : result->contributions[place]);
    }
    return of_inputs;
}

/// A result of the setup where the inputs are those of another reconciliation, with its give or take. The setup itself is
/// not solved again: its slopes are followed from one state to the other.
[[nodiscard]] inline std::optional<number_without> carried_over(const job_readings& read, const job_readings& other,
                                                                const setup_doubts& doubts, const asked_result& asked) {
    const auto of_inputs = by_reconciled_inputs(read.said, doubts, asked.path);
    if (!of_inputs) { return std::nullopt; }
    const auto slopes = read.said.slopes_of(*of_inputs);
    double change = 0;
    for (std::size_t i = 0; i < slopes.size(); ++i) { change += slopes[i] * (other.said.fit.t[i] - read.said.fit.t[i]); }
    // Doubts beside those of the inputs stay as they are.
    const double all = doubts.give_or_take(asked.path).si() / coverage_factor,
                 of_these = read.said.adjustment->standard(slopes), then = other.said.adjustment->standard(slopes);
    const double beside = std::max(0.0, all * all - of_these * of_these);
    const auto in_kind = [&](double si) { return any_quantity::of(of_inputs->value.kind(), si); };
    return number_without{asked.name, of_inputs->value, in_kind(of_inputs->value.si() + change),
                          in_kind(coverage_factor * std::sqrt(then * then + beside))};
}

/// Whether it is for this result that wood and metal are taken off: a height or a relief.
[[nodiscard]] inline bool is_cut_for(std::string_view path) {
    return path == "relief.gap" || path.find("].heights[") != std::string_view::npos;
}

/// The give or take of an item that was set aside, as all else has it.
[[nodiscard]] inline any_quantity known_without(const reconciliation& said, std::size_t place) {
    if (place < said.inputs.size()) { return coverage_factor * said.inputs[place].after; }
    const std::size_t row = place - said.inputs.size();
    return any_quantity::of(said.readings[row].found.kind(),
                            coverage_factor * said.adjustment->standard(said.adjustment->by_input().row(row)));
}

/// Whether a result is another one without what is suspected.
[[nodiscard]] inline bool differs(const number_without& n, const any_quantity& give_or_take) {
    return std::abs(n.without.si() - n.with_all.si()) > 0.5 * give_or_take.si();
}

/// Changes of slots and saddle under the outer strings that are others without what is suspected.
[[nodiscard]] inline std::vector<number_without> settings_without(const setup_plan& with_all, const setup_plan& without) {
    std::vector<number_without> all;
    const auto tell = [&](const char* what, const auto& one, const auto& other, std::size_t i) {
        if (i >= one.size() || i >= other.size()) { return; }
        if (std::abs((one[i] - other[i]).value()) < setting_differs) { return; }
        all.push_back({messages::joined({what, with_all.solved.names.name(i)}), length<>(one[i]), length<>(other[i]), {}});
    };
    const std::size_t last = with_all.solved.strings.size() - 1;
    for (const std::size_t i : {std::size_t{0}, last}) {
        if (i != 0 || last != 0) { tell("saddle under ", with_all.saddle_change, without.saddle_change, i); }
        tell("nut slot of ", with_all.slot_change, without.slot_change, i);
        if (last == 0) { break; }
    }
    return all;
}

/// One number in words, "3.13 ± 0.13 mm, not 2.28 mm".
[[nodiscard]] inline std::string words_of(const number_without& n, measures units, bool is_change = false) {
    const written how{.units = units, .give_or_take = n.give_or_take, .sign = is_change};
    return messages::joined(
        {bench_text(n.without, how), ", not ", bench_text(n.with_all, {.units = units, .sign = is_change})});
}

} // namespace kernel

/// What a job would be without what is suspected: once without the worst one of all suspicions, then with each other
/// suspect in the place of the worst of its own.
/// @param before the job as planned before readings that were taken after a step; null: there are none
/// @param cuts what its first cuts leave, as `reconcile_job` takes it
/// @param s the job as the readings leave it
template <class = when_used>
[[nodiscard]] std::vector<answer_without>
answers_without(const bench_job& j, const job_readings& read, const job_setups* before, const first_cuts* cuts,
                const job_setups& s, const setup_doubts& found, const setup_doubts& planned) {
    std::vector<answer_without> all;
    std::vector<std::vector<std::size_t>> told;
    const reconciliation& said = read.said;
    for (const item_by_others& item : said.by_others) {
        auto places = item.aside;
        std::sort(places.begin(), places.end());
        if (std::find(told.begin(), told.end(), places) != told.end()) { continue; }
        told.push_back(places);
        answer_without one;
        one.places = item.aside;
        try {
            const auto other = reconcile_job(j, before, cuts, one.places);
            const auto then = setups_read(j, other);
            for (const std::size_t p : one.places) {
                const bool input = p < said.inputs.size();
                const auto& by_all_else =
                    input ? other.said.inputs[p].found : other.said.readings[p - said.inputs.size()].found;
                one.items.push_back(
                    {said.name_of(p), said.as_read_at(p), by_all_else, kernel::known_without(other.said, p)});
            }
            for (const asked_result& asked : asked_results({}, s.found)) {
                if (!kernel::is_cut_for(asked.path)) { continue; }
                auto n = kernel::carried_over(read, other, found, asked);
                const auto value = find_at(then.found, asked.path);
                if (!n || !value.has_value()) { continue; }
                n->without = value;
                if (kernel::differs(*n, found.give_or_take(asked.path))) { one.found.push_back(*std::move(n)); }
            }
            if (s.planned) {
                one.settings = kernel::settings_without(s.plan, then.plan);
                for (const asked_result& asked : asked_results(j.wishes_or_none(), s.last())) {
                    if (!kernel::is_cut_for(asked.path)) { continue; }
                    auto n = kernel::carried_over(read, other, planned, asked);
                    if (n && kernel::differs(*n, planned.give_or_take(asked.path))) { one.set_so.push_back(*std::move(n)); }
                }
            }
        } catch (const invalid_input&) { continue; } // nothing stands or can be planned then
        all.push_back(std::move(one));
    }
    return all;
}
TAUTLINE_HELD(std::vector<answer_without> answers_without<>(const bench_job&, const job_readings&, const job_setups*,
                                                            const first_cuts*, const job_setups&, const setup_doubts&,
                                                            const setup_doubts&))

/// What a job would be without what is suspected, in one paragraph: what that is by all else, what is found and planned
/// then, and what comes of setting the instrument by numbers that count it.
[[nodiscard]] inline std::string words_of(const answer_without& without, measures units = measures::metric) {
    const auto list = [&](const std::vector<number_without>& numbers, const char* between, bool is_change) {
        std::string text;
        for (const number_without& n : numbers) {
            messages::append(text, {text.empty() ? "" : "; ", n.words, between, kernel::words_of(n, units, is_change)});
        }
        return text;
    };
    std::string text = "Without ";
    for (std::size_t i = 0; i < without.items.size(); ++i) {
        const number_without& n = without.items[i];
        messages::append(
            text, {i == 0 ? "" : " and without ", n.words, " (by all else ",
                   kernel::with_doubt(n.without, (1 / coverage_factor) * n.give_or_take, units), ", not ",
                   bench_text(n.with_all, kernel::shown_for(n.with_all, n.give_or_take.si()), {.units = units}), ")"});
    }
    if (without.found.empty()) {
        text += ": what was found changes by less than its give or take.";
    } else {
        messages::append(text, {": found ", list(without.found, " ", false), "."});
    }
    if (!without.settings.empty()) { messages::append(text, {" Planned: ", list(without.settings, " by ", true), "."}); }
    if (!without.set_so.empty()) {
        messages::append(text,
                         {" What comes of setting it as told here all the same: ", list(without.set_so, " ", false), "."});
    }
    return text;
}

/// Warns in each step that takes something off: what is suspected is measured again first.
/// @param said outcome of readings that the steps follow
template <class = when_used>
void tell_to_measure_first(const reconciliation& said, std::vector<bench_step>& steps) {
    if (said.suspicions.empty()) { return; }
    std::vector<std::string> names;
    for (const suspicion& s : said.suspicions) {
        for (const std::size_t p : s.places) {
            if (std::find(names.begin(), names.end(), said.name_of(p)) == names.end()) { names.push_back(said.name_of(p)); }
        }
    }
    for (bench_step& s : steps) {
        const bool takes_off = s.stage == bench_stage::reset_neck || s.stage == bench_stage::sand_board ||
                               s.stage == bench_stage::deepen_slots || s.stage == bench_stage::fit_frets ||
                               s.stage == bench_stage::level_frets || s.stage == bench_stage::cut_nut ||
                               s.stage == bench_stage::set_saddle;
        if (!takes_off) { continue; }
        s.lines.insert(
            s.lines.begin(),
            step_line{messages::joined({"not before this is measured again: ", kernel::listed(names)}), {}, false});
    }
}

} // namespace tautline
