#pragma once
/// @file
/// What makes the doubt of the results by which a job is judged, and what the stated doubts rest on.

#include <algorithm>
#include <string_view>
#include <vector>

#include "../core/when_used.hpp"
#include "answer.hpp"
#include "asked_results.hpp"

namespace tautline {

/// The doubt of one result and its parts.
struct result_budget {
    asked_result asked{};                     ///< the result
    any_quantity give_or_take{};              ///< at about 95 %
    std::vector<budget_line<double>> parts{}; ///< measurements by the job's paths, largest share first
};

/// The budgets of the results with which a sheet begins, at the end of the job. Results without doubt are left out.
/// @param all where something is wanted: whether results without a wish are told too
template <class = when_used>
[[nodiscard]] std::vector<result_budget> budgets_of(const bench_job& j, const job_answers& a, bool all) {
    const setup_doubts& d = a.last_doubts();
    const auto asked = asked_results(j.wishes_or_none(), a.setups.last());
    const auto is_wanted = [](const asked_result& r) { return r.wanted.has_value(); };
    all = all || std::none_of(asked.begin(), asked.end(), is_wanted);
    std::vector<result_budget> list;
    for (const asked_result& r : asked) {
        if (!all && !is_wanted(r)) { continue; }
        result_budget one{r, d.give_or_take(r.path), d.budget(r.path)};
        if (one.give_or_take.has_value() && !one.parts.empty()) { list.push_back(std::move(one)); }
    }
    return list;
}
TAUTLINE_HELD(std::vector<result_budget> budgets_of<>(const bench_job&, const job_answers&, bool))

/// What the doubts at the end of a job rest on.
enum class doubts_stand_on {
    nothing, ///< nothing is doubted
    usual,   ///< nobody stated a doubt: all are the usual ones of the bench
    stated,  ///< only what was stated
    both,    ///< what was stated, and the usual doubts where nothing was
};
/// What the doubts at the end of a job rest on.
[[nodiscard]] inline doubts_stand_on basis_of_doubts(const bench_job& j, const job_answers& a) {
    const setup_doubts& d = a.last_doubts();
    if (d.doubts.empty()) { return doubts_stand_on::nothing; }
    if (d.usual.empty()) { return doubts_stand_on::stated; }
    const std::size_t read = j.adjusting.as_read ? 0 : a.readings.said.readings.size(); // these are among the doubts
    return d.usual.size() + read == d.doubts.size() ? doubts_stand_on::usual : doubts_stand_on::both;
}
/// The sentence about what the ± of a job rest on, to print beside them: "± at about 95 %, ...". Empty where nothing is
/// doubted.
[[nodiscard]] inline std::string words_of(doubts_stand_on basis) {
    switch (basis) {
    case doubts_stand_on::nothing:
        return {};
    case doubts_stand_on::usual:
        return "± at about 95 %; the file states no doubt: all are what is usual at the bench";
    case doubts_stand_on::stated:
        return "± at about 95 %, as far as the file doubts its measurements";
    case doubts_stand_on::both:
        break;
    }
    return "± at about 95 %; where the file states no doubt, what is usual at the bench counts";
}

} // namespace tautline
