#pragma once
/// @file
/// Where the doubt in the results that a job is judged by comes from, and what it stands on.

#include <algorithm>
#include <string_view>
#include <vector>

#include "../core/when_used.hpp"
#include "answer.hpp"
#include "asked_results.hpp"

namespace tautline {

/// The doubt in one result, and what makes it.
struct result_budget {
    asked_result asked{};                     ///< the result
    any_quantity give_or_take{};              ///< at about 95 %
    std::vector<budget_line<double>> parts{}; ///< measurements by the job's paths, the largest share first
};

/// The budgets of the results that a sheet begins with, at the end of the job; those that nothing doubts are left out.
/// @param all whether those are told as well of which nothing is wanted, where something is wanted of others
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

/// What the doubts at the end of a job stand on.
enum class doubts_stand_on {
    nothing, ///< nothing is doubted
    usual,   ///< nobody stated any: all are what is usual at the bench
    stated,  ///< what was stated alone
    both,    ///< what was stated, and what is usual where nothing was
};
/// What the doubts at the end of a job stand on.
[[nodiscard]] inline doubts_stand_on basis_of_doubts(const bench_job& j, const job_answers& a) {
    const setup_doubts& d = a.last_doubts();
    if (d.doubts.empty()) { return doubts_stand_on::nothing; }
    if (d.usual.empty()) { return doubts_stand_on::stated; }
    const std::size_t read = j.adjusting.as_read ? 0 : a.readings.said.readings.size(); // these stand among the doubts
    return d.usual.size() + read == d.doubts.size() ? doubts_stand_on::usual : doubts_stand_on::both;
}
/// What the ± of a job stand on, to be said beside them: "± at about 95 %, ...". Empty where nothing is doubted.
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
