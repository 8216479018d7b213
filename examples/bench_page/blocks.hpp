#pragma once
/// @file
/// What a bench sheet says, part by part, for paper of every kind: heads, rows of cells and sentences, unbroken and not yet
/// marked up.

#include <string>
#include <vector>

#include "block.hpp"
#include "detail.hpp"
#include "whole_job.hpp"

namespace bench_sheet {

/// A step of the job.
struct step_block {
    std::string title{};
    std::vector<std::string> lines{}; ///< its numbers, each in words
    bool each_string = false;         ///< more of them stand in the table of the strings
    std::string decision{};           ///< empty where there is nothing to decide
    std::string check{};
    std::string in_hand{}; ///< what to take in hand for it
};

/// How much of it is wanted.
struct block_options {
    measures units = measures::metric;
    bool steps = false;   ///< every number of every step
    bool changes = false; ///< every result that changes
    bool budget = false;  ///< every measurement's part in every doubt
    bool fine = false;    ///< numbers that are worked to with all decimals, not in steps of the bench
};

/// What must be known first.
[[nodiscard]] block cannot_be_block(const whole_job& w, measures m, bool fine);
/// What is asked for, as found, planned and wanted.
[[nodiscard]] block summary_block(const whole_job& w, const block_options& how);
/// What the readings of the instrument say, but for what was said first.
[[nodiscard]] block readings_block(const whole_job& w, measures m);
/// One row a string: what it pulls, what its slots become, how tight it runs.
[[nodiscard]] block strings_block(const whole_job& w, const block_options& how);
/// The steps from one state to the other.
[[nodiscard]] std::vector<step_block> step_blocks(const whole_job& w, const block_options& how);
/// What lies under the strings.
[[nodiscard]] block objects_block(const whole_job& w, measures m);
/// What is laid out at the bench: the centre line at bridge and tail, gaps, wire piece by piece, dots.
[[nodiscard]] std::vector<block> layout_blocks(const whole_job& w, measures m);
/// What changes most, or all of it.
[[nodiscard]] block changes_block(const whole_job& w, const block_options& how);
/// What the season does to it in the end.
[[nodiscard]] block season_block(const whole_job& w, measures m);
/// What makes the doubts.
[[nodiscard]] block budget_block(const whole_job& w, const block_options& how);
/// What is out of range but stops nothing, and what the plan remarks.
[[nodiscard]] block findings_block(const whole_job& w, measures m);

} // namespace bench_sheet
