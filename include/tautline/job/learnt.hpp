#pragma once
/// @file
/// What the readings of a job taught of the results that matter, in sentences, and what is worth reading next.

#include "../core/by_path.hpp"
#include "../core/when_used.hpp"
#include "../doubt/reconciliation_words.hpp"
#include "asked_results.hpp"
#include "job_readings.hpp"
#include "meaning.hpp"
#include "set_aside.hpp"

namespace tautline {

/// A result that matters, with and without the readings.
struct learnt_result {
    std::string path{};          ///< path in the setup at the end of the job
    std::string words{};         ///< what it is, in words
    any_quantity value{};        ///< value with all readings
    any_quantity give_or_take{}; ///< its give or take with all readings, about 95 %
    any_quantity without_them{}; ///< give or take from the measurements alone
};
/// What the readings taught.
struct what_was_learnt {
    std::vector<learnt_result> results{};             ///< those that the next readings are chosen for
    std::vector<std::vector<reading_to_take>> next{}; ///< for each of these, best first
    bool in_doubt = false;                            ///< whether the numbers follow readings that contradict each other
    /// The job without what is suspected; empty unless the numbers are in doubt.
    std::vector<answer_without> without{};
};

/// An input with more than this share of its doubt left that has hardly moved is not mentioned.
inline constexpr double hardly_learnt = 0.85;

/// A reading that leaves more than this share of a result's doubt is not proposed.
inline constexpr double hardly_worth = 0.95;

namespace kernel {

/// The results that readings are chosen for, with their names: those that the job names, or the outer strings' action.
template <class = when_used>
[[nodiscard]] std::vector<asked_result> looked_for(const bench_job& j, const setup& s) {
    std::vector<asked_result> all;
    const auto asked = asked_results(j.wishes_or_none(), s);
    const int action = action_fret(j.wishes_or_none().action_fret, s);
    const std::string behind = messages::joined({"].heights[", std::max(action, 1) - 1, "]"});
    std::string paths;
    for (const asked_result& r : asked) { messages::append(paths, {paths.empty() ? "" : ", ", r.path}); }
    for (std::size_t i = 0; i < j.adjusting.next_for.size(); ++i) {
        const std::string& path = j.adjusting.next_for[i];
        if (std::none_of(asked.begin(), asked.end(), [&](const asked_result& r) { return r.path == path; })) {
            messages::refuse(messages::path_of("adjusting.next_for", i), path,
                             messages::joined({"must be one of: ", paths}));
        }
    }
    for (const asked_result& r : asked) {
        const bool named =
            std::find(j.adjusting.next_for.begin(), j.adjusting.next_for.end(), r.path) != j.adjusting.next_for.end();
        if (j.adjusting.next_for.empty() ? r.path.ends_with(behind) : named) { all.push_back(r); }
    }
    return all;
}

/// What the doubts of the instrument as found tell of its readings at pitch.
/// @param found doubts of the instrument that the readings lead to
[[nodiscard]] inline known_at_pitch told_at_pitch(const reconciliation& said, const setup_doubts& found) {
    known_at_pitch known;
    const bool by_change = !found.unread.empty();
    known.results = by_change ? found.unread : found.results;
    for (std::size_t i = 0; i < said.turned.size(); ++i) {
        const read_input& input = said.turned[i];
        const auto at =
            std::find_if(found.doubts.begin(), found.doubts.end(), [&](const doubt& d) { return d.name == input.name; });
        const bool there = at != found.doubts.end() && at->standard.si() > 0;
        known.places.push_back(there ? static_cast<std::size_t>(at - found.doubts.begin()) : known_at_pitch::none);
        // Without readings the doubts are those of the input itself.
        known.per.push_back(there ? (by_change ? 1 : input.slope(said.fit.t[i])) / at->standard.si() : 0);
    }
    return known;
}

/// What follows the name of a result at the end of a job.
[[nodiscard]] inline const char* as_planned_or_found(const bench_job& j) {
    return j.changes_something() ? ", as planned" : "";
}

} // namespace kernel

/// What readings taught of the results that matter.
/// @throws invalid_input for a named result with which the sheet does not begin
/// @param doubts doubts of the setup at the end of the job
/// @param found doubts of the instrument that the readings lead to, as found; null: they are not known
template <class = when_used>
[[nodiscard]] what_was_learnt learnt_by(const bench_job& j, const job_readings& read, const job_setups& s,
                                        const setup_doubts& doubts, const setup_doubts* found = nullptr) {
    what_was_learnt out;
    std::optional<kernel::readings_ahead> ahead; // the same for all results
    for (const asked_result& asked : kernel::looked_for(j, s.last())) {
        const auto value = find_at(s.last(), asked.path);
        if (!value.has_value()) { continue; }
        out.results.push_back({asked.path, words_for(asked.path, s.last().names), value, doubts.give_or_take(asked.path),
                               doubts.give_or_take_unread(asked.path)});
        out.next.emplace_back();
        const auto of_inputs = kernel::by_reconciled_inputs(read.said, doubts, asked.path);
        if (!of_inputs) { continue; }
        if (!ahead) {
            const auto known = found ? std::optional(kernel::told_at_pitch(read.said, *found)) : std::nullopt;
            ahead = kernel::ahead_of(read.model, read.said, {}, known ? &*known : nullptr);
        }
        auto next = kernel::best_of(*ahead, read.said, *of_inputs, readings_wanted);
        if (next.empty()) { continue; }
        // Doubts that are not among the inputs, such as those of a cut, stay as they are.
        const double all = out.results.back().give_or_take.si() / coverage_factor, of_these = next.front().before.si();
        const double beside = all * all - of_these * of_these;
        const auto with_all = [&](any_quantity& q) {
            q = any_quantity::of(q.kind(), std::sqrt(std::max(0.0, q.si() * q.si() + beside)));
        };
        for (reading_to_take& n : next) {
            with_all(n.before);
            with_all(n.after);
        }
        std::erase_if(next, [](const reading_to_take& n) { return n.after.si() > hardly_worth * n.before.si(); });
        out.next.back() = std::move(next);
    }
    return out;
}

/// Adds to the steps that measure, strung and slack, the readings that are best taken there.
inline void tell_what_to_read(const what_was_learnt& learnt, std::vector<bench_step>& steps) {
    for (bench_step& s : steps) {
        if (s.stage != bench_stage::measure && s.stage != bench_stage::measure_slack) { continue; }
        const bool slack = s.stage == bench_stage::measure_slack;
        std::vector<std::string> told;
        for (const auto& list : learnt.next) {
            // One reading may serve several results. An input that is measured again is no reading.
            if (list.empty() || list.front().path.empty()) { continue; }
            if ((list.front().state == "slack") != slack) { continue; }
            const std::string& words = list.front().words;
            if (std::find(told.begin(), told.end(), words) == told.end()) { told.push_back(words); }
        }
        for (const std::string& words : told) {
            s.lines.push_back({messages::joined({"worth reading: ", words}), {}, false});
        }
    }
}

/// What the readings of a job tell, in sentences, most important first: whether they agree, what was adjusted most, what
/// that does to the results that matter, what to read next, and what to be careful about.
/// @param most greatest number of adjusted measurements that are told
[[nodiscard]] inline std::vector<std::string> sentences_of(const bench_job& j, const job_readings& read,
                                                           const what_was_learnt& learnt, measures units = measures::metric,
                                                           std::size_t most = 5) {
    using messages::joined;
    std::vector<std::string> all;
    if (!read.said.readings.empty()) {
        all = agreement_of(read.said, units);
        if (j.adjusting.as_read) {
            all.emplace_back("All numbers here are as the file has them: nothing is adjusted by the readings.");
        } else {
            for (const answer_without& one : learnt.without) { all.push_back(words_of(one, units)); }
            std::vector<const reconciled_input*> moved;
            for (const reconciled_input& i : read.said.inputs) { moved.push_back(&i); }
            const auto by = [](const reconciled_input* i) {
                return i->edge != fit_edge::none ? 1e9 : std::abs((i->found.si() - i->as_read.si()) / i->before.si());
            };
            std::stable_sort(moved.begin(), moved.end(), [&](const auto* a, const auto* b) { return by(a) > by(b); });
            std::size_t told = 0;
            for (const reconciled_input* i : moved) {
                if (by(i) < 1 && i->learnt.left > hardly_learnt) { continue; }
                std::string text = told < most ? adjustment_of(*i, units) : std::string();
                if (text.empty()) { continue; }
                all.push_back(std::move(text));
                ++told;
            }
            // The values themselves stand at the head of a sheet, told in steps of the bench.
            for (const learnt_result& r : learnt.results) {
                if (!r.give_or_take.has_value()) { continue; }
                const any_quantity with = (1 / coverage_factor) * r.give_or_take;
                all.push_back(
                    joined({kernel::begun(r.words), kernel::as_planned_or_found(j), ": ",
                            kernel::give_or_take(with, with, units), " with all readings, ",
                            kernel::give_or_take((1 / coverage_factor) * r.without_them, with, units), " without them."}));
            }
        }
    }
    for (std::size_t i = 0; i < learnt.next.size(); ++i) {
        if (learnt.next[i].empty()) { continue; }
        const auto& first = learnt.next[i].front();
        const auto same = [&](const auto& list) { return !list.empty() && list.front().words == first.words; };
        // A reading that serves several results is told with the first.
        if (std::any_of(learnt.next.begin(), learnt.next.begin() + static_cast<std::ptrdiff_t>(i), same)) { continue; }
        all.push_back(sentence_of(first, joined({learnt.results[i].words, kernel::as_planned_or_found(j)}), units));
    }
    for (std::string& text : cautions_of(read.said, units, !j.adjusting.as_read)) { all.push_back(std::move(text)); }
    return all;
}

} // namespace tautline
