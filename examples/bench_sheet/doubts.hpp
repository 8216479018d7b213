#pragma once
/// @file
/// How sure the sheet's numbers are: each measurement of the job file that says "give or take" is carried through the
/// solve, as found and as planned.

#include "answers.hpp"

namespace bench_sheet {

/// All results of a setup with what each doubtful measurement contributes.
struct doubted {
    std::vector<tl::doubt> doubts{}; ///< names are the file's keys
    std::vector<tl::correlation> together{};
    std::vector<tl::uncertain_result> results{};

    /// Give or take at about 95 %, in SI; nothing where nothing is doubted or no such result is.
    [[nodiscard]] std::optional<double> give_or_take(std::string_view path) const;
    /// Contributions to a result in order of their shares, largest first.
    [[nodiscard]] std::vector<tl::budget_line<tl::length<>>> budget(std::string_view path) const;
};

/// The setup as found, with the doubts of the file.
doubted doubt_found(const read_job& job);
/// The setup as planned: what was measured is as doubtful as before, what the plan says anew is as sure as it says.
doubted doubt_planned(const read_job& job, const answers& a);

} // namespace bench_sheet
