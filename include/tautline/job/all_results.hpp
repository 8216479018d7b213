#pragma once
/// @file
/// Every result of a job in one list, as found and as planned side by side: for a spreadsheet, a database or a plot.

#include <map>
#include <string>
#include <vector>

#include "../core/leaves.hpp"
#include "../core/when_used.hpp"
#include "answer.hpp"

namespace tautline {

/// One result of a job. A value that a state does not have is absent.
struct job_result {
    std::string path{};                  ///< path of the result, as `for_each_leaf` names it
    std::string words{};                 ///< what it is, in words
    kind_name kind{};                    ///< kind of its values
    any_quantity found{};                ///< value as found
    any_quantity found_give_or_take{};   ///< give or take of that, at about 95 %
    any_quantity planned{};              ///< value as planned
    any_quantity planned_give_or_take{}; ///< give or take of that, at about 95 %
};

/// All results of a job, in the order of a setup's description. Results that only the planned setup has come last.
template <class = when_used>
[[nodiscard]] std::vector<job_result> all_results(const job_answers& a) {
    std::vector<job_result> list;
    std::map<std::string, std::size_t, std::less<>> place;
    const auto gather = [&](const setup& s, any_quantity job_result::*number) {
        for_each_leaf(s, [&](std::string_view path, const auto& x) {
            if (!any_of(x).is_number()) { return; } // a fret behind a string's own nut
            auto at = place.find(path);
            if (at == place.end()) {
                at = place.emplace(path, list.size()).first;
                list.push_back(
                    {std::string(path), words_for(path, a.setups.last().names), kind_name_of(x), {}, {}, {}, {}});
            }
            list[at->second].*number = any_of(x);
        });
    };
    const auto doubt = [&](const setup_doubts& d, any_quantity job_result::*of, any_quantity job_result::*give_or_take) {
        for (const uncertain_result& r : d.results) {
            const auto at = place.find(r.path);
            if (at == place.end() || !(list[at->second].*of).has_value()) { continue; }
            list[at->second].*give_or_take = coverage_factor * r.standard(d.together);
        }
    };
    gather(a.setups.found, &job_result::found);
    doubt(a.found_doubts, &job_result::found, &job_result::found_give_or_take);
    if (a.setups.planned) {
        gather(a.setups.plan.solved, &job_result::planned);
        doubt(a.planned_doubts, &job_result::planned, &job_result::planned_give_or_take);
    }
    return list;
}
TAUTLINE_HELD(std::vector<job_result> all_results<>(const job_answers&))

} // namespace tautline
