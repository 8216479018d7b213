#pragma once
/// @file
/// The contents of a bench sheet, part by part, for any output: heads, rows of cells and sentences. Lines are not broken
/// yet, and there is no markup.

#include <string>
#include <vector>

#include "block.hpp"
#include "detail.hpp"
#include "whole_job.hpp"

namespace bench_sheet {

/// A step of the job.
struct step_block {
    std::string title{};
    std::vector<std::string> lines{}; ///< its numbers in words
    bool each_string = false;         ///< whether the table of the strings has more numbers of it
    std::string decision{};           ///< empty if there is nothing to decide
    std::string check{};
    std::string in_hand{}; ///< the tools for it
};

/// How much of the sheet is wanted.
struct block_options {
    measures units = measures::metric;
    bool steps = false;   ///< every number of every step
    bool changes = false; ///< every result that changes
    bool budget = false;  ///< every measurement's part in every doubt
    bool fine = false;    ///< all decimals of numbers that are worked to, not steps of the bench
};

/// Wishes that cannot be met, and all else that stops the work.
[[nodiscard]] block cannot_be_block(const whole_job& w, measures m, bool fine);
/// The main results as found, planned and wanted.
[[nodiscard]] block summary_block(const whole_job& w, const block_options& how);
/// The result of the readings, without the sentences of the first block.
[[nodiscard]] block readings_block(const whole_job& w, measures m);
/// One row for each string: its tension, its new slots, its clearance.
[[nodiscard]] block strings_block(const whole_job& w, const block_options& how);
/// The steps from the found state to the planned one.
[[nodiscard]] std::vector<step_block> step_blocks(const whole_job& w, const block_options& how);
/// The objects under the strings.
[[nodiscard]] block objects_block(const whole_job& w, measures m);
/// The layout at the bench: the centre line at bridge and tail, gaps, pieces of wire, dots.
[[nodiscard]] std::vector<block> layout_blocks(const whole_job& w, measures m);
/// The largest changes, or all of them.
[[nodiscard]] block changes_block(const whole_job& w, const block_options& how);
/// The effect of the season on the instrument at the end of the job.
[[nodiscard]] block season_block(const whole_job& w, measures m);
/// The causes of the doubts.
[[nodiscard]] block budget_block(const whole_job& w, const block_options& how);
/// Findings that stop nothing, and the remarks of the plan.
[[nodiscard]] block findings_block(const whole_job& w, const block_options& how);

} // namespace bench_sheet
